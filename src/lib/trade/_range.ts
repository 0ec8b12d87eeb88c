import type { Bounds, Verdict } from './limits.ts';

/** Where a value lies for certain; both ends belong to it. A value that is known exactly has both ends alike. */
export interface Range {
  readonly low: number;
  readonly high: number;
}

/** A millionth of the unit compared in: what is less apart was made by converting, not by measuring. */
const GRAIN = 1e-6;

/**
 * within: the whole range satisfies both bounds. outside: none of it does. not-proven: some of it does. For readings whose error goes
 * both ways; a comb, whose upper tooth is never reached, is judged by `limits.ts`.
 */
export function verdictOf({ low, high }: Range, bounds: Bounds): Verdict {
  if (bounds.min === null && bounds.max === null) return 'no-limit';
  const min = (bounds.min ?? -Infinity) - GRAIN;
  const max = (bounds.max ?? Infinity) + GRAIN;
  if (low >= min && high <= max) return 'within';
  return high < min || low > max ? 'outside' : 'not-proven';
}

/** The worst of several verdicts; `no-limit` only where nothing was judged. */
export function worstOf(verdicts: readonly Verdict[]): Verdict {
  return (['outside', 'not-proven', 'within'] as const).find((one) => verdicts.includes(one)) ?? 'no-limit';
}

export function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
