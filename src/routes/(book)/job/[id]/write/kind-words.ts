import type { FormGroup, FormKind } from '#lib/job/forms.ts';
import * as m from '#lib/words/compiled/messages.js';

export const GROUP = {
  before: m.write_group_before,
  during: m.write_group_during,
  after: m.write_group_after,
  callback: m.kind_callback,
} as const satisfies Readonly<Record<FormGroup, () => string>>;

/** What each kind is for, in plain words. */
export const FOR = {
  person: m.write_for_person,
  conditions: m.write_for_conditions,
  survey: m.write_for_survey,
  'by-others': m.write_for_by_others,
  mix: m.write_for_mix,
  note: m.write_for_note,
  deviation: m.write_for_deviation,
  repair: m.write_for_repair,
  early: m.write_for_early,
  'not-done': m.write_for_not_done,
  inspection: m.write_for_inspection,
  protect: m.write_for_protect,
  'tile-check': m.write_for_tile_check,
  attestation: m.write_for_attestation,
  'hand-over': m.write_for_hand_over,
  'later-hole': m.write_for_later_hole,
  callback: m.write_for_callback,
  isolation: m.write_for_isolation,
  'isolation-look': m.write_for_isolation_look,
  opening: m.write_for_opening,
} as const satisfies Readonly<Record<FormKind, () => string>>;

/** The caution to show on a form, where the trade gives one. */
export const FORM_CAUTION: Readonly<Partial<Record<FormKind, () => string>>> = {
  survey: m.caution_dust,
  mix: m.caution_mortar,
  repair: m.caution_dust,
  'later-hole': m.caution_dust,
  inspection: m.caution_defer,
  attestation: m.caution_defer,
  'hand-over': m.caution_defer,
};
