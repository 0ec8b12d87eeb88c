import * as m from './compiled/messages.js';

/** What keeps a floor from being laid in any order. */
export const TRAP = {
  'no-doorway': m.trap_no_doorway,
  'doorway-too-narrow': m.trap_doorway_too_narrow,
  'too-few-stretches': m.trap_too_few_stretches,
  'out-of-reach': m.trap_out_of_reach,
  'no-time': m.trap_no_time,
} as const;

/** Which limit stands in the way of any plan. */
export const IMPOSSIBLE = {
  'piece-too-long': m.impossible_piece_too_long,
  'keep-out': m.impossible_keep_out,
  'piece-too-long-and-keep-out': m.impossible_long_and_keep_out,
  pins: m.impossible_pins,
  'upturn-too-deep': m.impossible_upturn,
  'gauge-too-coarse': m.impossible_gauge,
  'rolls-too-short': m.impossible_rolls,
  'no-time': m.trap_no_time,
} as const;

/** What helps; each was tried. */
export const REMEDY = {
  direction: m.remedy_direction,
  plan: m.remedy_plan,
  stretches: m.remedy_stretches,
  set: m.remedy_set,
  reach: m.remedy_reach,
  doorway: m.remedy_doorway,
  'longer-roll': m.remedy_longer_roll,
  'longer-piece': m.remedy_longer_piece,
  'longer-piece-and-smaller-keep-out': m.remedy_longer_and_smaller,
  'wider-roll': m.remedy_wider_roll,
  'smaller-keep-out': m.remedy_smaller_keep_out,
  'smaller-upturn': m.remedy_smaller_upturn,
  'finer-gauge': m.remedy_finer_gauge,
  'free-seams': m.remedy_free_seams,
} as const;
