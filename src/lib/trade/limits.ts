/**
 * Judging a reading against a limit. A reading is an interval (a comb reading lies between two teeth; a tape reading is
 * an interval of no width), so the answer has three values: what straddles the limit is not proven.
 */
export type Verdict = 'within' | 'outside' | 'not-proven' | 'no-limit';

/**
 * A reading in whole base units of its dimension. `from` is reached for certain; with a comb the film is thinner than `to`. A `closed` one
 * may be `to` as well: a length computed in a photo.
 */
export interface Interval {
  readonly from: number;
  readonly to: number;
  readonly closed?: boolean;
}

/** Bounds in the same base units, each inclusive; null where the source states none. */
export interface Bounds {
  readonly min: number | null;
  readonly max: number | null;
}

/**
 * within: every value of the interval satisfies both bounds. outside: none does. not-proven: some do.
 * For a comb the upper tooth stayed dry, so the film is strictly below it: an upper tooth equal to the minimum is outside.
 * Against a maximum below its minimum everything is outside.
 * Source: the interval reading of ASTM D4414 (longest wetted, next dry tooth); default rule "every reading at or above the
 * data sheet's minimum" is common practice, no source.
 */
export function judge(reading: Interval, bounds: Bounds): Verdict {
  const { from, to, closed = false } = reading;
  if (!Number.isSafeInteger(from) || !Number.isSafeInteger(to) || from > to) {
    throw new RangeError(`reading: expected whole base units with from <= to, got ${from}..${to}`);
  }
  if (bounds.min === null && bounds.max === null) return 'no-limit';
  const min = bounds.min ?? -Infinity;
  const max = bounds.max ?? Infinity;
  const least = Math.max(from, min);
  const some = least <= max && (from === to || closed ? least <= to : least < to);
  if (!some) return 'outside';
  return from >= min && to <= max ? 'within' : 'not-proven';
}
