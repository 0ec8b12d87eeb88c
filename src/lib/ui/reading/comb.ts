/** Teeth on one side of the drawn comb. */
export const SIDE = 7;

/** Heights in the drawing. Tooth order is true; heights are not to scale. */
export const COMB = { top: 8, slots: 104, film: 190, sheet: 24, gap: 8, deepest: 176, rise: 9 } as const;

/** The first tooth of each side. The last side is always full: it repeats teeth of the one before rather than show gaps. */
export function sides(teeth: number): number[] {
  const last = Math.max(0, teeth - SIDE);
  return Array.from({ length: Math.max(1, Math.ceil(teeth / SIDE)) }, (_, i) => Math.min(i * SIDE, last));
}

/** The side to show for a tooth; for none, a little above the middle of the gauge, where membranes are read (common practice, no source). */
export function sideOf(teeth: number, lastWet: number | null): number {
  return Math.min(sides(teeth).length - 1, Math.floor((lastWet ?? Math.floor(teeth * 0.6)) / SIDE));
}

/** The tooth after a step; the first step of all lands on the side shown. */
export function stepTooth(lastWet: number | null, step: -1 | 1, teeth: number, sideStart: number): number {
  return lastWet === null ? sideStart : Math.min(teeth - 1, Math.max(0, lastWet + step));
}

export interface DrawnComb {
  /** Outline of the gauge standing on its two feet. */
  readonly plate: string;
  readonly teeth: readonly { readonly left: number; readonly width: number; readonly bottom: number; readonly centre: number }[];
  readonly foot: number;
  readonly pitch: number;
}

/** The comb across `width` pixels: two feet on the sheet, the teeth between them shortening to the right. */
export function drawComb(width: number, count: number): DrawnComb {
  const foot = Math.min(15, Math.max(6, (width - 46 * count) / 2));
  const pitch = (width - 2 * foot) / count;
  const teeth = Array.from({ length: count }, (_, i) => {
    const left = foot + pitch * i + COMB.gap / 2;
    return { left, width: pitch - COMB.gap, bottom: COMB.deepest - COMB.rise * i, centre: foot + pitch * (i + 0.5) };
  });
  const notches = teeth.toReversed().map(({ left, width: w, bottom }) => `V${COMB.slots}H${left + w}V${bottom}H${left}`);
  const plate = `M0 ${COMB.top}H${width}V${COMB.film}H${width - foot}${notches.join('')}V${COMB.slots}H${foot}V${COMB.film}H0Z`;
  return { plate, teeth, foot, pitch };
}

/** y of the film's surface: between the last wet tooth and the dry one after it; clear of the teeth when it lies on another side. */
export function filmY(comb: DrawnComb, wetHere: number): number {
  if (wetHere < 0) return COMB.deepest + COMB.rise / 2;
  const wet = comb.teeth[wetHere];
  return wet === undefined ? COMB.slots + COMB.gap : wet.bottom - COMB.rise / 2;
}
