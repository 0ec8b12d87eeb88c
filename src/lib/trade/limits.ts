/**
 * Judging a reading against a limit. A reading is an interval (a comb reading lies between two teeth; a tape reading is
 * an interval of no width), so the answer has three values: what straddles the limit is not proven.
 */
export type Verdict = 'within' | 'outside' | 'not-proven' | 'no-limit';

/** A reading in whole nanometres. `fromNm` is reached for certain; with a comb the film is thinner than `toNm`. */
export interface ReadingNm {
  readonly fromNm: number;
  readonly toNm: number;
}

/** Bounds in whole nanometres, each inclusive; null where the source states none. */
export interface BoundsNm {
  readonly minNm: number | null;
  readonly maxNm: number | null;
}

/**
 * within: every value of the interval satisfies both bounds. outside: none does. not-proven: some do.
 * For a comb the upper tooth stayed dry, so the film is strictly below it: an upper tooth equal to the minimum is outside.
 * Against a maximum below its minimum everything is outside.
 * Source: the interval reading of ASTM D4414 (longest wetted, next dry tooth); default rule "every reading at or above the
 * data sheet's minimum" is common practice, no source.
 */
export function judge(reading: ReadingNm, bounds: BoundsNm): Verdict {
  const { fromNm, toNm } = reading;
  if (!Number.isSafeInteger(fromNm) || !Number.isSafeInteger(toNm) || fromNm > toNm) {
    throw new RangeError(`reading: expected whole nanometres with from <= to, got ${fromNm}..${toNm}`);
  }
  if (bounds.minNm === null && bounds.maxNm === null) return 'no-limit';
  const minNm = bounds.minNm ?? -Infinity;
  const maxNm = bounds.maxNm ?? Infinity;
  const leastNm = Math.max(fromNm, minNm);
  const some = leastNm <= maxNm && (fromNm === toNm ? leastNm === fromNm : leastNm < toNm);
  if (!some) return 'outside';
  return fromNm >= minNm && toNm <= maxNm ? 'within' : 'not-proven';
}
