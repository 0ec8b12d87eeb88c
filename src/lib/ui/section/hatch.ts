import type { Material } from './geometry.ts';

/** One tile of a hatch: `pitch` along the layer, `height` across it, drawn from the outside inwards. */
export interface Hatch {
  readonly pitch: number;
  readonly height: number;
  readonly lines: readonly { readonly d: string; readonly pen: number }[];
  readonly specks: readonly { readonly x: number; readonly y: number }[];
}

/** The hatch of a material in a layer `t` pixels thick. One a material, so that a section reads without colour. */
export function hatch(material: Material, t: number): Hatch {
  const at = (share: number) => Math.round(t * share * 100) / 100;
  switch (material) {
    case 'board': {
      const [a, b] = [at(0.3), at(0.72)];
      return tile(
        22,
        t,
        [{ d: `M2 ${a}h8M13 ${b}h8`, pen: 1.2 }],
        [
          { x: 15.5, y: a },
          { x: 5, y: b },
        ],
      );
    }
    case 'mortar': {
      // The combed bed: ridges and valleys of the notched trowel.
      const [a, b] = [at(0.3), at(0.7)];
      return tile(16, t, [{ d: `M0 ${a}H4V${b}H12V${a}H16`, pen: 1.2 }], [{ x: 8, y: a }]);
    }
    case 'sheet':
      return tile(8, t, [
        { d: `M0 ${at(0.5)}H8`, pen: at(0.2) },
        { d: `M2 ${at(0.08)}V${at(0.3)}M6 ${at(0.7)}V${at(0.92)}`, pen: 1 },
      ]);
    case 'band':
      return tile(13, t, [{ d: `M1.5 ${at(0.92)}L6.3 ${at(0.08)}M5.5 ${at(0.92)}L10.3 ${at(0.08)}`, pen: 1.3 }]);
    case 'coat':
      return tile(28, t, [{ d: `M0 ${at(0.5)}q7 ${at(-0.5)} 14 0t14 0`, pen: 1.3 }]);
    case 'frame':
      // Studs seen from the end: two lines, and room between.
      return tile(34, t, [{ d: `M3 0V${t}M11 0V${t}M3 0L11 ${t}`, pen: 1.1 }]);
    case 'liner':
      // A loose sheet, never flat.
      return tile(18, t, [{ d: `M0 ${at(0.5)}q4.5 ${at(-0.45)} 9 0t9 0`, pen: at(0.18) }]);
    case 'tray':
      return tile(20, t, [{ d: `M0 ${at(0.22)}H20M0 ${at(0.78)}H20M10 ${at(0.22)}V${at(0.78)}`, pen: 1.2 }]);
    case 'guard':
      return tile(12, t, [{ d: `M0 ${at(0.15)}L6 ${at(0.85)}L12 ${at(0.15)}`, pen: 1.1 }]);
    case 'water':
      return tile(44, 11, [{ d: 'M3 2.5H20M27 2.5H36M13 8H31', pen: 1.1 }]);
  }
}

function tile(pitch: number, height: number, lines: Hatch['lines'], specks: Hatch['specks'] = []): Hatch {
  return { pitch, height, lines, specks };
}
