import { ok } from '../result.ts';
import { verdictOf, type Range } from './_range.ts';
import { choiceFault, firstFault, missingFault, numberFault, orderFault, type Computed, type InputFault, type Span } from './input.ts';
import type { Verdict } from './limits.ts';

/** Falls of floors, curb tops, benches and sills: measured as an interval, and compared in the unit the rule is written in. */

/** `1:n`: run over rise, as in 1:80. */
export const SLOPE_UNITS = ['%', 'mm/m', 'in/ft', 'deg', '1:n'] as const;
export type SlopeUnit = (typeof SLOPE_UNITS)[number];

/** What a rule asks of a fall. In `1:n` the steepest is the smallest n: `min` is still the least fall, so 1:80 to 1:50 is 80 to 50. */
export interface SlopeRule {
  readonly min: number | null;
  readonly max: number | null;
  readonly unit: SlopeUnit;
}

export interface Slope {
  readonly mmPerM: number;
  readonly percent: number;
  readonly inPerFt: number;
  readonly degrees: number;
  /** Run over rise; null where it is level. */
  readonly runPerRise: number | null;
  readonly lowMmPerM: number;
  readonly highMmPerM: number;
  /** Whether it falls towards the low place at all. */
  readonly falls: 'yes' | 'no' | 'not-proven';
  readonly verdict: Verdict;
}

const HEIGHT_MM: Span = [-10_000, 10_000];
const RUN_MM: Span = [10, 50_000];
const STEP_MM: Span = [0, 50];
/** Steeper than any floor: a wall is no slope. */
const READING: Readonly<Record<SlopeUnit, Span>> = {
  '%': [-100, 100],
  'mm/m': [-1000, 1000],
  'in/ft': [-12, 12],
  deg: [-45, 45],
  '1:n': [1, 100_000],
};

/**
 * Fall from a high place to a low one, from the heights of both over any one line and the level distance between them. Each height may
 * be off by half a step. Below zero it falls the wrong way: a curb top, bench or sill falls inward when its outer edge is the high place.
 * Errors: height outside 10 m either way, run outside 10 mm to 50 m, a step outside 0 to 50 mm, a rule of an unknown unit or turned round.
 * Source: geometry; the rule's own unit decides, as 2 % and 1/4 in a foot differ by 0.08 points (IRC P2709.1 prints both).
 */
export function slopeOfHeights(line: {
  readonly highMm: number;
  readonly lowMm: number;
  readonly runMm: number;
  readonly stepMm: number;
  readonly rule: SlopeRule | null;
}): Computed<Slope> {
  const { highMm, lowMm, runMm, stepMm, rule } = line;
  const fault = firstFault([
    numberFault('highMm', highMm, HEIGHT_MM),
    numberFault('lowMm', lowMm, HEIGHT_MM),
    numberFault('runMm', runMm, RUN_MM),
    numberFault('stepMm', stepMm, STEP_MM),
    ...ruleFaults(rule),
  ]);
  if (fault) return fault;
  const riseMm = highMm - lowMm;
  return ok(slope(riseMm / runMm, { low: (riseMm - stepMm) / runMm, high: (riseMm + stepMm) / runMm }, rule));
}

/**
 * A fall as a level shows it, in the unit of its display, whose last digit is `step`.
 * Errors: a reading steeper than 45 degrees, a step outside 0 to 10 of the unit, as for slopeOfHeights.
 * Source: geometry.
 */
export function slopeOfLevel(shown: {
  readonly reading: number;
  readonly unit: SlopeUnit;
  readonly step: number;
  readonly rule: SlopeRule | null;
}): Computed<Slope> {
  const { reading, unit, step, rule } = shown;
  const fault = firstFault([
    choiceFault('unit', unit, SLOPE_UNITS),
    SLOPE_UNITS.includes(unit) ? numberFault('reading', reading, READING[unit]) : null,
    numberFault('step', step, [0, 10]),
    // Half a step more would be level, or turn it round.
    unit === '1:n' && step >= reading ? { code: 'too-large', field: 'step', bound: reading } : null,
    ...ruleFaults(rule),
  ]);
  if (fault) return fault;
  const ends = [reading - step / 2, reading + step / 2].map((value) => ratioOf(value, unit));
  return ok(slope(ratioOf(reading, unit), { low: Math.min(...ends), high: Math.max(...ends) }, rule));
}

function slope(ratio: number, { low, high }: Range, rule: SlopeRule | null): Slope {
  return {
    mmPerM: ratio * 1000,
    percent: ratio * 100,
    inPerFt: ratio * 12,
    degrees: (Math.atan(ratio) * 180) / Math.PI,
    runPerRise: ratio === 0 ? null : 1 / ratio,
    lowMmPerM: low * 1000,
    highMmPerM: high * 1000,
    falls: low > 0 ? 'yes' : high <= 0 ? 'no' : 'not-proven',
    verdict: rule === null ? 'no-limit' : against({ low, high }, rule),
  };
}

/** In the rule's own unit. A run over rise grows as the fall gets less, and is endless on the level: it is compared as the fall it is. */
function against({ low, high }: Range, { min, max, unit }: SlopeRule): Verdict {
  const compared = unit === '1:n' ? '%' : unit;
  const bound = (value: number | null) => (value === null ? null : unit === '1:n' ? 100 / value : value);
  return verdictOf({ low: inUnit(low, compared), high: inUnit(high, compared) }, { min: bound(min), max: bound(max) });
}

function ratioOf(value: number, unit: SlopeUnit): number {
  if (unit === 'deg') return Math.tan((value * Math.PI) / 180);
  if (unit === '1:n') return 1 / value;
  return value / PER_ONE[unit];
}

function inUnit(ratio: number, unit: Exclude<SlopeUnit, '1:n'>): number {
  return unit === 'deg' ? (Math.atan(ratio) * 180) / Math.PI : ratio * PER_ONE[unit];
}

/** What a fall of one to one is in each unit. */
const PER_ONE = { '%': 100, 'mm/m': 1000, 'in/ft': 12 } as const;

function ruleFaults(rule: SlopeRule | null): (InputFault | null)[] {
  if (rule === null) return [];
  const missing = missingFault('rule', rule) ?? choiceFault('rule.unit', rule.unit, SLOPE_UNITS);
  if (missing) return [missing];
  const { min, max, unit } = rule;
  const turned =
    min === null || max === null ? null : unit === '1:n' ? orderFault('rule.max', -min, -max) : orderFault('rule.max', min, max);
  return [
    min === null ? null : numberFault('rule.min', min, READING[unit]),
    max === null ? null : numberFault('rule.max', max, READING[unit]),
    turned === null ? null : { ...turned, bound: min },
  ];
}
