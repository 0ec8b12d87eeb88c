import type { FormFault } from '#lib/job/form-drafts.ts';
import * as m from '#lib/words/compiled/messages.js';

const SAID = {
  empty: m.write_fault_empty,
  'too-long': m.write_fault_too_long,
  'not-chosen': m.write_fault_not_chosen,
  'not-answered': m.write_fault_not_answered,
  'no-surface': m.write_fault_no_surface,
  'none-picked': m.write_fault_none_picked,
  'too-many': m.write_fault_too_many,
  'not-a-number': m.write_fault_not_a_number,
  'too-large': m.write_fault_too_large,
  'too-small': m.write_fault_too_small,
  'not-a-day': m.write_fault_not_a_day,
  'not-a-sum': m.write_fault_not_a_sum,
  'day-to-come': m.write_fault_day_to_come,
  'nothing-said': m.write_fault_nothing_said,
  'low-above-high': m.write_fault_low_above_high,
  'no-name': m.write_fault_no_name,
} as const satisfies Readonly<Record<FormFault['code'], () => string>>;

/** What stands in the way in a field, its code and its sentence; nulls while nothing does. */
export function faultIn(faults: readonly FormFault[], field: string): { fault: string | null; error: string | null } {
  const found = faults.find((one) => one.field === field);
  return found === undefined ? { fault: null, error: null } : { fault: found.code, error: SAID[found.code]() };
}
