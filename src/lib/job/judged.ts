import { baseOf, dimensionOf } from '../measure/dimension.ts';
import type { Reading, Unit } from '../record/kinds/reading.ts';
import type { Limit } from '../record/kinds/setup.ts';
import { judge, type Bounds, type Interval, type Verdict } from '../trade/limits.ts';
import type { Measured } from './state.ts';

/** Version of the rules below, written into each record so that "judged then" can be told from "by today's rules". */
export const RULES_VERSION = '2026-11-26.3';

/** A reading with its verdict and the limit that decided, if there is one. */
export interface Judged {
  readonly verdict: Verdict;
  readonly limit: Limit | null;
}

/** The reading in whole base units of its dimension. A reading in the log passed its schema, so a value that does not convert is our mistake. */
export function readingBase(said: Reading['said']): Interval {
  const from = base(said.value, said.unit);
  const to = 'to' in said && typeof said.to === 'string' ? base(said.to, said.unit) : from;
  return { from, to };
}

export function limitBase(limit: Limit): Bounds {
  return {
    min: limit.min === null ? null : base(limit.min, limit.unit),
    max: limit.max === null ? null : base(limit.max, limit.unit),
  };
}

/**
 * Judges what was said against every limit the job states for that measure; the worst verdict decides: a code and a data sheet
 * both bind. `no-limit` when there is none. Moisture is judged only against a limit in the same meter's scale, as the scales
 * cannot be turned into each other. A value computed in a photo is judged by its whole interval; where nothing in the photo shows that it
 * lies in the plane it was measured in, it is never within.
 */
export function judgeSaid(
  what: Measured['what'],
  said: Reading['said'],
  limits: readonly Limit[],
  scale: Measured['scale'] = null,
  photo: Measured['photo'] = null,
): Judged {
  const bind = limits.filter(
    (one) => one.what === what && dimensionOf(one.unit) === dimensionOf(said.unit) && (one.scale ?? null) === scale,
  );
  const measured = photo === null ? readingBase(said) : photoBase(photo, said.unit);
  const judged = bind.map((limit): Judged => {
    const verdict = judge(measured, limitBase(limit));
    return { verdict: verdict === 'within' && photo !== null && photo.plane === undefined ? 'not-proven' : verdict, limit };
  });
  return judged.toSorted((a, b) => WORST.indexOf(a.verdict) - WORST.indexOf(b.verdict))[0] ?? { verdict: 'no-limit', limit: null };
}

const WORST: readonly Verdict[] = ['outside', 'not-proven', 'within', 'no-limit'];

export function judgeReading(reading: Measured, limits: readonly Limit[]): Judged {
  return judgeSaid(reading.what, reading.said, limits, reading.scale, reading.photo);
}

/**
 * Whether a reading counts as proof. One in dispute does not; nor does a photo value that nobody took over, or whose interval reaches
 * over the limit: that one is to be measured by hand.
 */
export function proves(reading: Measured, limits: readonly Limit[]): boolean {
  if (reading.open) return false;
  return reading.photo === null || (reading.confirmed !== null && judgeReading(reading, limits).verdict !== 'not-proven');
}

function photoBase({ low, high }: NonNullable<Measured['photo']>, unit: Unit): Interval {
  return { from: base(low, unit), to: base(high, unit), closed: true };
}

function base(value: string, unit: Unit): number {
  const size = baseOf(value, unit);
  if (!size.ok) throw new RangeError(`${value} ${unit}: ${size.fault.code}`);
  return size.value;
}
