import { lengthNm } from '../measure/quantity.ts';
import type { Limit } from '../record/kinds.ts';
import type { Reading } from '../record/kinds/reading.ts';
import { judge, type BoundsNm, type ReadingNm, type Verdict } from '../trade/limits.ts';
import type { Measured } from './project.ts';

/** Version of the rules below, written into each record so that "judged then" can be told from "by today's rules". */
export const RULES_VERSION = '2026-11-25';

/** A reading with its verdict and the limit that decided, if there is one. */
export interface Judged {
  readonly verdict: Verdict;
  readonly limit: Limit | null;
}

/** The reading in whole nanometres. A reading in the log passed its schema, so a value that does not convert is our mistake. */
export function readingNm(said: Reading['said']): ReadingNm {
  const fromNm = nm(said.value, said.unit);
  const toNm = 'to' in said && typeof said.to === 'string' ? nm(said.to, said.unit) : fromNm;
  return { fromNm, toNm };
}

export function limitNm(limit: Limit): BoundsNm {
  return {
    minNm: limit.min === null ? null : nm(limit.min, limit.unit),
    maxNm: limit.max === null ? null : nm(limit.max, limit.unit),
  };
}

/** Judges what was said against the limit for that measure; `no-limit` when the job states none. */
export function judgeSaid(what: Measured['what'], said: Reading['said'], limits: readonly Limit[]): Judged {
  const limit = limits.find((one) => one.what === what) ?? null;
  if (limit === null) return { verdict: 'no-limit', limit };
  return { verdict: judge(readingNm(said), limitNm(limit)), limit };
}

function nm(value: string, unit: Limit['unit']): number {
  const length = lengthNm(value, unit);
  if (!length.ok) throw new RangeError(`${value} ${unit}: ${length.fault.code}`);
  return length.value;
}
