import type { DataOf, Draft } from '../record/kinds.ts';
import { MEASURES } from '../record/kinds/reading.ts';
import { PLACES, STEPS, type OwnRule } from '../record/kinds/setup.ts';
import type { OwnRuleForm, OwnSystemForm } from '../record/setup-drafts.ts';
import { fail, ok, type Result } from '../result.ts';
import { MEASURE_KINDS } from './measures.ts';
import { FieldReader, lookOf, type SetupFault } from './setup-fields.ts';
import type { JobState } from './state.ts';
import { LAYER_OF_STEP } from './systems.ts';

/** Steps a rule can ask something of: those that make a layer. */
export const RULE_STEPS = STEPS.filter((step) => LAYER_OF_STEP[step] !== null);
/** What a rule can want: a photo, or a reading of a measure that is read. */
export const RULE_WANTS = ['shot', ...MEASURES.filter((what) => MEASURE_KINDS[what].read)] as const;

/** The entry of a system of the crew's own: its steps in the order in which they were touched. */
export function ownSystemDrafts(form: OwnSystemForm, job: JobState): Result<Draft[], SetupFault[]> {
  const reader = new FieldReader();
  const name = reader.name('name', form.name);
  if (job.ownSystems.some((one) => one.system !== form.system && lookOf(one.name) === lookOf(name))) reader.fault('name', 'same-name');
  if (form.steps.length === 0) reader.fault('steps', 'no-step');
  if (reader.faults.length > 0) return fail(reader.faults);
  return ok([{ kind: 'own-system', data: { system: form.system, name, steps: [...form.steps] } }]);
}

/** The steps with one more at the end, or without it where it already stands. */
export function toggleStep(steps: OwnSystemForm['steps'], step: OwnSystemForm['steps'][number]): OwnSystemForm['steps'] {
  return steps.includes(step) ? steps.filter((one) => one !== step) : [...steps, step];
}

export function ownSystemForm({ system, name, steps }: DataOf<'own-system'>): OwnSystemForm {
  return { system, name, steps };
}

/** The entry of a rule of the crew's own, or what stands in the way. */
export function ownRuleDrafts(form: OwnRuleForm): Result<Draft[], SetupFault[]> {
  const reader = new FieldReader();
  const name = reader.name('name', form.name);
  const reason = reader.words('reason', form.reason);
  if (form.places.length === 0) reader.fault('places', 'no-place');
  if (reader.faults.length > 0) return fail(reader.faults);
  const places = PLACES.filter((place) => form.places.includes(place));
  return ok([{ kind: 'own-rule', data: { rule: form.rule, step: form.step, want: form.want, places, name, reason } }]);
}

export function emptyRule(rule: string): OwnRuleForm {
  return { rule, step: 'band-seams', want: 'shot', places: [], name: '', reason: '' };
}

export function ownRuleForm({ rule, step, want, places, name, reason }: OwnRule): OwnRuleForm {
  return { rule, step, want, places, name, reason };
}
