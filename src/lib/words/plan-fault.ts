import * as m from './compiled/messages.js';
import type { Locale } from './compiled/runtime.js';

/** One message for each way the input of a plan can be wrong (codes of the trade room). */
const SAID = {
  missing: m.fault_plan_missing,
  'not-a-number': m.fault_plan_not_a_number,
  'too-many-places': m.fault_plan_too_many_places,
  'too-far': m.fault_plan_too_far,
  negative: m.fault_plan_negative,
  'not-positive': m.fault_plan_not_positive,
  'not-a-count': m.fault_plan_not_a_count,
  'not-a-list': m.fault_plan_not_a_list,
  'not-an-object': m.fault_plan_not_an_object,
  'not-a-point': m.fault_plan_not_a_point,
  'not-a-unit': m.fault_plan_not_a_unit,
  'not-a-direction': m.fault_plan_not_a_direction,
  'few-corners': m.fault_plan_few_corners,
  'many-corners': m.fault_plan_many_corners,
  'zero-wall': m.fault_plan_zero_wall,
  'self-crossing': m.fault_plan_self_crossing,
  'self-touching': m.fault_plan_self_touching,
  islands: m.fault_plan_islands,
  misspelt: m.fault_plan_misspelt,
  'no-such-wall': m.fault_plan_no_such_wall,
  'doorway-turned': m.fault_plan_doorway_turned,
  'doorway-too-long': m.fault_plan_doorway_too_long,
  'outside-floor': m.fault_plan_outside_floor,
  'roll-too-narrow': m.fault_plan_roll_too_narrow,
  'no-roll': m.fault_plan_no_roll,
  'off-gauge': m.fault_plan_off_gauge,
  'pins-need-direction': m.fault_plan_pins_need_direction,
  'no-such-piece': m.fault_plan_no_such_piece,
  'no-outline': m.fault_plan_no_outline,
  'hole-outside': m.fault_plan_hole_outside,
} as const;

/** What is wrong with one field of the input of a plan. `walls` are named where the fault is about them. */
export function planFaultText(
  { field, code, walls }: { readonly field: string; readonly code: keyof typeof SAID; readonly walls?: readonly [number, number] },
  locale: Locale,
): string {
  return SAID[code]({ field, wall: walls?.[0] ?? 0, other: walls?.[1] ?? 0 }, { locale });
}
