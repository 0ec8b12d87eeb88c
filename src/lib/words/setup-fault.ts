import * as m from './compiled/messages.js';

const SAID = {
  empty: m.setup_empty,
  'too-long': m.setup_too_long,
  'no-surface': m.setup_no_surface,
  'no-length': m.setup_no_length,
  'same-name': m.setup_name_taken,
  'not-a-length': m.setup_not_a_length,
  'no-unit': m.setup_no_unit,
  'not-a-value': m.setup_not_a_value,
  'max-below-min': m.setup_max_below_min,
  'no-value': m.setup_no_value,
  'no-source': m.setup_no_source,
  'no-scale': m.setup_no_scale,
  'too-large': m.setup_too_large,
  'not-a-day': m.setup_not_a_day,
  'day-in-doubt': m.setup_day_in_doubt,
  'not-a-count': m.setup_not_a_count,
  'left-over-opened': m.setup_left_over_opened,
  'no-file': m.setup_no_file,
  'no-step': m.setup_no_step,
  'no-place': m.setup_no_place,
  'none-chosen': m.setup_none_chosen,
  'not-a-turn': m.draw_fault_turn,
  'gap-open': m.draw_fault_gap,
  'other-way': m.draw_fault_other_way,
  'self-crossing': m.draw_fault_crossing,
  'self-touching': m.draw_fault_touching,
  'zero-wall': m.draw_fault_zero,
  'few-corners': m.draw_fault_few,
  'no-such-wall': m.draw_fault_no_wall,
  'beyond-wall': m.draw_fault_beyond,
  'above-wall': m.draw_fault_above,
  'outside-floor': m.draw_fault_outside,
  'benches-meet': m.draw_fault_benches,
} as const;

/** What is in the way in one field of a form of the set-up. */
export function setupFaultText(code: keyof typeof SAID): string {
  return SAID[code]();
}
