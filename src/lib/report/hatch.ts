import type { SectionLayer } from './blocks.ts';

/** Strokes of a hatch in layer coordinates: u along the layer, v across it from the substrate side. */
export interface HatchStroke {
  readonly d: string;
  readonly pen: number;
}

/** A layer with a thickness: all but the water. */
export type Solid = Exclude<SectionLayer['layer'], 'flood'>;

/** Thickness of each solid layer in the section, and its tint in print. */
export const STRATA: Readonly<Record<Solid, { thickness: number; tint: string }>> = {
  behind: { thickness: 18, tint: '#f4f4f4' },
  substrate: { thickness: 22, tint: '#e9e9e9' },
  liner: { thickness: 10, tint: '#dedede' },
  tray: { thickness: 14, tint: '#f1f1f1' },
  sheets: { thickness: 13, tint: '#f1f1f1' },
  bands: { thickness: 12, tint: '#d2d2d2' },
  coat: { thickness: 13, tint: '#eeeeee' },
  protect: { thickness: 9, tint: '#f4f4f4' },
};

const repeated = (length: number, pitch: number, one: (u: number) => string): string =>
  Array.from({ length: Math.ceil(length / pitch) }, (_, i) => one(i * pitch)).join('');

/**
 * The hatch of a material over `length` points. Behind the board: studs, each a box with its diagonal. Substrate: staggered dashes and
 * specks. Liner: one heavy line that lies loose. Tray: cells of foam. Sheet: a core line with fleece ticks on both faces. Band: paired
 * slants. Coat: two roll lines in opposite phase. Protection: a flute between two faces.
 */
export function hatch(layer: Solid, length: number): HatchStroke[] {
  const t = STRATA[layer].thickness;
  switch (layer) {
    case 'behind':
      return [{ d: repeated(length, 46, (u) => `M${u + 8} 0V${t}H${u + 20}V0ZM${u + 8} ${t}L${u + 20} 0`), pen: 0.9 }];
    case 'liner':
      return [{ d: `M0 ${t / 2}${repeated(length, 26, () => 'q6.5 -2.6 13 0t13 0')}`, pen: 2 }];
    case 'tray':
      return [
        {
          d: repeated(
            length,
            13,
            (u) => `M${u + 1.5} ${t / 2}a2.4 2.4 0 1 0 4.8 0a2.4 2.4 0 1 0 -4.8 0M${u + 8.6} ${t * 0.25}h1.2M${u + 8.6} ${t * 0.75}h1.2`,
          ),
          pen: 0.9,
        },
      ];
    case 'protect':
      return [{ d: `M0 ${t - 1.5}${repeated(length, 12, () => `l6 ${3 - t}l6 ${t - 3}`)}`, pen: 0.9 }];
    case 'substrate':
      return [
        { d: repeated(length, 17, (u) => `M${u + 1.5} ${t * 0.3}h6M${u + 10} ${t * 0.72}h6`), pen: 0.9 },
        { d: repeated(length, 17, (u) => `M${u + 11.5} ${t * 0.3}h1.3M${u + 4} ${t * 0.72}h1.3`), pen: 1.3 },
      ];
    case 'sheets':
      return [
        { d: `M0 ${t / 2}H${length}`, pen: 2.2 },
        { d: repeated(length, 7, (u) => `M${u + 2} 1.5V${t * 0.3}M${u + 5.5} ${t * 0.7}V${t - 1.5}`), pen: 0.8 },
      ];
    case 'bands':
      return [{ d: repeated(length, 10, (u) => `M${u + 1} ${t - 1}L${u + 5.4} 1M${u + 4} ${t - 1}L${u + 8.4} 1`), pen: 1 }];
    case 'coat':
      return [
        { d: `M0 ${t * 0.32}${repeated(length, 22, () => 'q5.5 -4.4 11 0t11 0')}`, pen: 1 },
        { d: `M0 ${t * 0.7}${repeated(length, 22, () => 'q5.5 4.4 11 0t11 0')}`, pen: 1 },
      ];
  }
}

/** Broken lines of standing water over a box. */
export function waterLines(width: number, height: number): string {
  const rows = Array.from({ length: Math.floor(height / 5) }, (_, i) => 4 + i * 5);
  return rows.map((y, i) => repeated(width, 33, (u) => `M${u + (i % 2) * 10 + 3} ${y}h13m5 0h7`)).join('');
}
