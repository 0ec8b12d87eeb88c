import { fail, type Result } from '../result.ts';

/**
 * What is wrong with a value that was handed in, and where: `field` is its name as the function's parameter has it, with the place
 * in a list (`levels[2].atMs`). `bound` is the limit that was passed over, in the field's own unit, or null where there is none.
 */
export interface InputFault {
  readonly code:
    'missing' | 'not-a-number' | 'too-small' | 'too-large' | 'empty' | 'too-many' | 'out-of-order' | 'twice' | 'unknown-choice';
  readonly field: string;
  readonly bound: number | null;
}

export type Computed<T> = Result<T, InputFault>;

/** Both ends belong to it. */
export type Span = readonly [min: number, max: number];

/** The fault of a number that is none (NaN, infinite, not a number at all) or lies outside `span`; null when it is good. */
export function numberFault(field: string, value: number, [min, max]: Span): InputFault | null {
  if (typeof value !== 'number' || !Number.isFinite(value)) return { code: 'not-a-number', field, bound: null };
  if (value < min) return { code: 'too-small', field, bound: min };
  if (value > max) return { code: 'too-large', field, bound: max };
  return null;
}

/** The fault of a list of records that is none, is shorter than `least` or longer than any log of a job, or holds something else. */
export function listFault(field: string, list: readonly object[], least: number): InputFault | null {
  if (!Array.isArray(list) || list.length < least) return { code: 'empty', field, bound: least };
  if (list.length > MOST_READINGS) return { code: 'too-many', field, bound: MOST_READINGS };
  const stray = list.findIndex((one) => missingFault(field, one as object) !== null);
  return stray < 0 ? null : { code: 'missing', field: `${field}[${stray}]`, bound: null };
}

/** The faults of a list of at least `least` numbers, each within `span`. */
export function numbersFaults(field: string, list: readonly number[], least: number, span: Span): (InputFault | null)[] {
  if (!Array.isArray(list) || list.length < least) return [{ code: 'empty', field, bound: least }];
  if (list.length > MOST_READINGS) return [{ code: 'too-many', field, bound: MOST_READINGS }];
  return list.map((one, at) => numberFault(`${field}[${at}]`, one as number, span));
}

/** The fault of an upper value that lies below its lower one. */
export function orderFault(field: string, low: number, high: number): InputFault | null {
  return low > high ? { code: 'out-of-order', field, bound: low } : null;
}

/** The fault of a yes or no that is neither. */
export function flagFault(field: string, value: boolean): InputFault | null {
  return typeof value === 'boolean' ? null : { code: 'unknown-choice', field, bound: null };
}

/** The fault of a record that is not there. What comes from a file has the compiler's word for nothing. */
export function missingFault(field: string, value: object): InputFault | null {
  return typeof value === 'object' && (value as object | null) !== null ? null : { code: 'missing', field, bound: null };
}

/** The fault of a text that is none. */
export function textFault(field: string, value: string): InputFault | null {
  return typeof value === 'string' ? null : { code: 'missing', field, bound: null };
}

/** The fault of a word that is not among `choices`. */
export function choiceFault(field: string, value: string, choices: readonly string[]): InputFault | null {
  return choices.includes(value) ? null : { code: 'unknown-choice', field, bound: null };
}

/** The first fault there is, in the order given, as a failed result; null when there is none. */
export function firstFault(faults: readonly (InputFault | null)[]): { ok: false; fault: InputFault } | null {
  const fault = faults.find((one) => one !== null);
  return fault === undefined ? null : fail(fault);
}

/** A reading each minute for a week. */
const MOST_READINGS = 10_080;

/** A year: nothing here lasts longer, and a slip of the clock does. */
export const DURATION_MS: Span = [1, 366 * 86_400_000];

/** A moment in ms since 1970 that a phone can mean: to the year 2200. */
export const MOMENT_MS: Span = [0, 7_258_118_400_000];
