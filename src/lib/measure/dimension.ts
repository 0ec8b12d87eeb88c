import { fail, ok, type Result } from '../result.ts';
import { isDecimal, type QuantityFault } from './quantity.ts';

/** What a unit measures. Two values are compared only within one dimension. */
export type Dimension = 'length' | 'time' | 'temperature' | 'ratio' | 'volume' | 'mass' | 'area' | 'pressure' | 'count';

/**
 * Each unit's dimension and its size in whole base units, so that nothing is ever compared as a rounded fraction.
 * Bases: length nm, time ms, temperature 1/9000 K above 0 °C, ratio 1/(12 · 10^9), volume nL, mass µg, area 1/100 mm², pressure
 * 1/6 451 600 000 Pa (in which a psi, 4.4482216152605 N over 645.16 mm², is whole), count 1.
 * Exact by definition: 1 in = 25.4 mm, 1 US gal = 231 in³ = 3.785411784 L, 1 lb = 0.45359237 kg (NIST SP 811, appendix B.8),
 * °F = 9/5 °C + 32, standard gravity 9.80665 m/s². A day is 24 hours, whatever the clocks do that night. A slope of 1 in/ft is the ratio 1/12.
 */
const UNIT = {
  in: ['length', 25_400_000],
  ft: ['length', 304_800_000],
  mm: ['length', 1_000_000],
  cm: ['length', 10_000_000],
  m: ['length', 1_000_000_000],
  mil: ['length', 25_400],
  um: ['length', 1_000],
  min: ['time', 60_000],
  h: ['time', 3_600_000],
  d: ['time', 86_400_000],
  C: ['temperature', 9_000],
  F: ['temperature', 5_000],
  '%': ['ratio', 120_000_000],
  'in/ft': ['ratio', 1_000_000_000],
  'mm/m': ['ratio', 12_000_000],
  L: ['volume', 1_000_000_000],
  gal: ['volume', 3_785_411_784],
  qt: ['volume', 946_352_946],
  kg: ['mass', 1_000_000_000],
  lb: ['mass', 453_592_370],
  m2: ['area', 100_000_000],
  ft2: ['area', 9_290_304],
  kPa: ['pressure', 6_451_600_000_000],
  psi: ['pressure', 44_482_216_152_605],
  count: ['count', 1],
} as const satisfies Readonly<Record<string, readonly [Dimension, number]>>;

export type AnyUnit = keyof typeof UNIT;
export const ALL_UNITS = Object.keys(UNIT) as readonly AnyUnit[];

export function dimensionOf(unit: AnyUnit): Dimension {
  return UNIT[unit][0];
}

/**
 * A decimal string in `unit` as whole base units of its dimension (see the table), rounded half away from zero.
 * Faults: `not-a-number`; `out-of-range` beyond what whole numbers hold exactly.
 */
export function baseOf(value: string, unit: AnyUnit): Result<number, QuantityFault> {
  if (!isDecimal(value)) return fail({ code: 'not-a-number', text: value });
  const negative = value.startsWith('-');
  const [whole = '0', decimals = ''] = value.replace('-', '').split('.');
  const size = BigInt(whole) * BILLION + BigInt(decimals.padEnd(9, '0'));
  const above = unit === 'F' ? 32n * BILLION : 0n;
  const scaled = ((negative ? -size : size) - above) * BigInt(UNIT[unit][1]);
  const half = scaled < 0n ? -BILLION / 2n : BILLION / 2n;
  const base = Number((scaled + half) / BILLION);
  if (!Number.isSafeInteger(base)) return fail({ code: 'out-of-range', text: value });
  return ok(base === 0 ? 0 : base);
}

const BILLION = 1_000_000_000n;

/**
 * The number that a decimal string in one unit is in another of the same dimension, as finely as whole base units hold it.
 * Faults: as for baseOf; `other-dimension` when the two units do not measure the same.
 */
export function inUnit(value: string, unit: AnyUnit, to: AnyUnit): Result<number, QuantityFault | { readonly code: 'other-dimension' }> {
  if (dimensionOf(unit) !== dimensionOf(to)) return fail({ code: 'other-dimension' });
  const base = baseOf(value, unit);
  if (!base.ok) return base;
  return ok(base.value / UNIT[to][1] + (to === 'F' ? 32 : 0));
}

/** A temperature in °C, or null for a unit of none or a number that is none. */
export function celsiusOf(value: string, unit: AnyUnit): number | null {
  if (dimensionOf(unit) !== 'temperature') return null;
  const base = baseOf(value, unit);
  return base.ok ? base.value / UNIT.C[1] : null;
}
