import * as m from './compiled/messages.js';
import type { Locale } from './compiled/runtime.js';

/** What is wrong with an input, where, and what the code speaks of. */
interface Said {
  readonly field: string;
  readonly code: string;
  readonly bound: number | null;
  readonly offers: readonly string[];
  readonly file: string;
}

/** One sentence for each code with which a computation refuses its input. */
const SAID: Readonly<Record<string, (said: Said, locale: Locale) => string>> = {
  missing: ({ field }, locale) => m.compute_missing({ field }, { locale }),
  'not-a-number': ({ field }, locale) => m.compute_not_a_number({ field }, { locale }),
  'too-small': ({ field, bound }, locale) => m.compute_too_small({ field, bound: String(bound) }, { locale }),
  'too-large': ({ field, bound }, locale) => m.compute_too_large({ field, bound: String(bound) }, { locale }),
  empty: ({ field, bound }, locale) => m.compute_empty({ field, bound: String(bound) }, { locale }),
  'too-many': ({ field, bound }, locale) => m.compute_too_many({ field, bound: String(bound) }, { locale }),
  'out-of-order': ({ field, bound }, locale) => m.compute_out_of_order({ field, bound: String(bound) }, { locale }),
  twice: ({ field }, locale) => m.compute_twice({ field }, { locale }),
  'unknown-choice': ({ field }, locale) => m.compute_unknown_choice({ field }, { locale }),
  'unknown-field': ({ field }, locale) => m.compute_unknown_field({ field }, { locale }),
  'not-a-quantity': ({ field }, locale) => m.compute_not_a_quantity({ field }, { locale }),
  'other-dimension': ({ field }, locale) => m.compute_other_dimension({ field }, { locale }),
  'in-doubt': ({ field, offers }, locale) => m.compute_in_doubt({ field, offers: offers.join(', ') }, { locale }),
  'out-of-range': ({ field }, locale) => m.compute_out_of_range({ field }, { locale }),
  'unknown-function': (_, locale) => m.compute_unknown_function({}, { locale }),
  'no-such-file': ({ file }, locale) => m.fault_no_such_file({ file }, { locale }),
  'not-json': ({ file }, locale) => m.compute_not_json({ file }, { locale }),
  'not-an-object': ({ file }, locale) => m.compute_not_an_object({ file }, { locale }),
};
export const COMPUTE_FAULTS = Object.keys(SAID);

export function computeFaultText(said: Said, locale: Locale): string {
  const text = SAID[said.code];
  if (text === undefined) throw new RangeError(`no sentence for the code ${said.code}`);
  return text(said, locale);
}
