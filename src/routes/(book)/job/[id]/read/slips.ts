import type { Measured } from '#lib/job/state.ts';
import { baseOf, dimensionOf } from '#lib/measure/dimension.ts';
import type { Measure, Reading, Unit } from '#lib/record/kinds/reading.ts';

type Said = Reading['said'];

/** The unit beside each in which a value of the wrong size is seen to be. */
const OTHER: Readonly<Partial<Record<Unit, Unit>>> = {
  mil: 'in',
  um: 'mm',
  in: 'ft',
  mm: 'm',
  C: 'F',
  F: 'C',
  gal: 'L',
  qt: 'L',
  L: 'gal',
  'in/ft': '%',
  'mm/m': '%',
};

/** The same value in the unit in which a slip shows: 2000 mil is 2 in. Two decimals, rounded; null where there is no other unit. */
export function otherWay({ value, unit }: Said): { value: string; unit: Unit } | null {
  const other = OTHER[unit];
  const [size, zero, one] = [baseOf(value, unit), baseOf('0', other ?? unit), baseOf('1', other ?? unit)];
  if (other === undefined || !size.ok || !zero.ok || !one.ok) return null;
  const number = (size.value - zero.value) / (one.value - zero.value);
  return { value: String(Math.round(number * 100) / 100), unit: other };
}

/** The latest reading of a measure, in the same scale where it has scales. */
export function lastOf(readings: readonly Measured[], what: Measure, scale: Reading['scale'] | undefined): Measured | null {
  return readings.findLast((one) => one.what === what && (one.scale ?? undefined) === scale) ?? null;
}

/** Whether a value is ten times the last one or a tenth of it, as when a digit or its mark slipped. Temperatures have no such zero to start from. */
export function isTenfold(said: Said, last: Said): boolean {
  if (dimensionOf(said.unit) !== dimensionOf(last.unit) || dimensionOf(said.unit) === 'temperature') return false;
  const [a, b] = [said, last].map(({ value, unit }) => {
    const size = baseOf(value, unit);
    return size.ok ? Math.abs(size.value) : 0;
  }) as [number, number];
  return a > 0 && b > 0 && (a >= 10 * b || b >= 10 * a);
}
