import type { LengthUnit } from '../measure/quantity.ts';

/** Steps of a comb gauge: ascending tooth values as decimal strings in `unit`. */
export interface CombGauge {
  readonly unit: Extract<LengthUnit, 'mil' | 'um'>;
  readonly teeth: readonly string[];
}

/** Up to which tooth the teeth stand how far apart, in mil. */
const MIL_STEPS: readonly { to: number; by: number }[] = [
  { to: 6, by: 0.5 },
  { to: 10, by: 1 },
  { to: 30, by: 2 },
  { to: 80, by: 5 },
];

/**
 * Teeth of a gauge graduated as in the example of ASTM D4414-95(2020): steps of 0.5 mil to 6 mil, 1 mil from 6 to 10,
 * 2 mil from 10 to 30, 5 mil above (taken here to 80 mil, the range in which membranes are rolled; common practice, no source).
 */
export function exampleCombMil(): CombGauge {
  const teeth: string[] = [];
  let value = 0;
  for (const { to, by } of MIL_STEPS) while (value < to) teeth.push(String((value += by)));
  return { unit: 'mil', teeth };
}

/** A metric gauge with the standard's metric steps: 25 um to 250, 50 um from 250 to 750, 125 um above, here to 2000 um. */
export function exampleCombUm(): CombGauge {
  const teeth: string[] = [];
  for (let um = 25; um < 250; um += 25) teeth.push(String(um));
  for (let um = 250; um < 750; um += 50) teeth.push(String(um));
  for (let um = 750; um <= 2000; um += 125) teeth.push(String(um));
  return { unit: 'um', teeth };
}

/**
 * The comb reading when tooth `lastWet` (index) is the longest wetted: from that tooth to the next, dry one.
 * Null when there is no next tooth, or none was wetted: no reading, take another face of the gauge (common practice, no source).
 */
export function combReading(gauge: CombGauge, lastWet: number): { from: string; to: string } | null {
  const from = gauge.teeth[lastWet];
  const to = gauge.teeth[lastWet + 1];
  return from === undefined || to === undefined ? null : { from, to };
}
