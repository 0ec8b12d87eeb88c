import type { Draft } from '../record/kinds.ts';
import type { JobForm, NewJob } from '../record/setup-drafts.ts';
import { fail, ok, type Result } from '../result.ts';
import { readLimit } from './limit-form.ts';
import { unitOf } from './measures.ts';
import { prices, previewJob } from './preview.ts';
import { FieldReader, NAME_MAX, type SetupFault } from './setup-fields.ts';
import type { JobState } from './state.ts';

/**
 * The entries that start a job, or every field that stands in the way. `person` is this phone's person; ids come from `newId`.
 * A limit row left empty sets no limit; one with a value needs its source. The room has the job's name where it has no other.
 */
export function jobDrafts(form: NewJob, lang: string, person: string, newId: () => string): Result<Draft[], SetupFault[]> {
  const reader = new FieldReader();
  const name = reader.name('name', form.name);
  const address = reader.words('address', form.address);
  const personName = reader.words('person', form.person, NAME_MAX);
  const permit = reader.words('permit', form.permit);
  const roomName = reader.words('room', form.room, NAME_MAX) || name;
  if (form.surfaces.length === 0) reader.fault('surfaces', 'no-surface');
  const room = newId();
  const surfaces = form.surfaces.map(({ surface, place, system, ...row }, i): Draft => {
    const called = reader.name(`surfaces.${i}.name`, row.name);
    return { kind: 'surface', data: { surface, name: called, place, system: system ?? form.system, room } };
  });
  reader.apart(form.surfaces.map((row, i) => [`surfaces.${i}.name`, row.name]));
  const limits = form.limits.flatMap((row, i): Draft[] => {
    const limit = readLimit(reader, `limits.${i}.`, row, unitOf(row.what, form.units), newId());
    return limit === null ? [] : [{ kind: 'limit', data: limit }];
  });
  if (reader.faults.length > 0) return fail(reader.faults);
  const who: Draft[] = personName === '' ? [] : [{ kind: 'person', data: { person, name: personName } }];
  const job: Draft = { kind: 'job', data: { name, address, units: form.units, lang, permit, proof: form.proof } };
  return ok([job, ...who, { kind: 'room', data: { room, name: roomName } }, ...surfaces, ...limits]);
}

/** What the job of a form would owe at each level. Names and limits decide nothing of it, so that it can be said before they are typed. */
export function newJobPrices(form: NewJob): ReturnType<typeof prices> {
  const surfaces = form.surfaces.map((surface, i) => ({ ...surface, name: String(i) }));
  const blank: NewJob = { ...form, name: '0', address: '', person: '', permit: '', room: '', limits: [], surfaces };
  const drafts = jobDrafts(blank, '', 'preview', () => 'preview');
  return prices(previewJob(drafts.ok ? drafts.value : []));
}

/** The job with other fields: one entry that says all of them anew. */
export function jobChange(form: JobForm, job: JobState): Result<Draft[], SetupFault[]> {
  const reader = new FieldReader();
  const name = reader.name('name', form.name);
  const address = reader.words('address', form.address);
  const permit = reader.words('permit', form.permit);
  if (reader.faults.length > 0) return fail(reader.faults);
  return ok([jobEntry({ ...job, name, address, permit, units: form.units })]);
}

/** The `job` entry that says what the job now is. */
export function jobEntry({ name, address, units, lang, example, permit, proof }: JobState): Draft {
  return { kind: 'job', data: { name, address, units, lang, permit, proof, ...(example ? { example } : {}) } };
}
