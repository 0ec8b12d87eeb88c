import { parseInches } from '../measure/inch.ts';
import { lengthNm, typedDecimal } from '../measure/quantity.ts';
import type { NewJob } from '../record/drafts.ts';
import type { Draft } from '../record/kinds.ts';
import type { Measure, Unit } from '../record/kinds/reading.ts';
import { fail, ok, type Result } from '../result.ts';

/** A field of the form that starts a job and why it cannot stand as it is. `field` is `name`, `surfaces.0.name`, `limits.1.min` ... */
export interface SetupFault {
  readonly field: string;
  readonly code: 'empty' | 'too-long' | 'no-surface' | 'same-name' | 'not-a-length' | 'max-below-min' | 'no-source' | 'too-large';
}

const NAME_MAX = 200;
const ADDRESS_MAX = 2_000;

/** The unit a measure is spoken in: film in mil or micrometres, everything else in inches or millimetres. */
export function unitOf(what: Measure, units: 'in' | 'mm'): Unit {
  if (what === 'wet-film') return units === 'in' ? 'mil' : 'um';
  return units;
}

/** The largest value of a measure taken as meant; beyond it a digit or a unit slipped (a film of 2000 mil is two inches). */
const LARGEST_NM: Readonly<Record<Measure, number>> = {
  overlap: 1_000_000_000,
  'band-lap': 1_000_000_000,
  'wet-film': 5_000_000,
  'flood-depth': 500_000_000,
};

/** `1,500` and `1.500` may be one and a half or fifteen hundred. In micrometres a film can be the second, so neither is guessed at. */
const GROUPED = /^[1-9]\d{0,2}[.,]\d{3}$/;

/**
 * A typed length as a decimal string in `unit`, or the reason it is none. Inches may be fractions (`2 1/4`); a decimal comma is
 * read as a point. Zero and below, and values beyond what the measure can be, are refused with the field kept as typed.
 */
export function typedLength(text: string, what: Measure, unit: Unit): Result<string, 'not-a-length' | 'too-large'> {
  if (unit === 'um' && GROUPED.test(text.trim())) return fail('not-a-length');
  const decimal = unit === 'in' ? parseInches(text) : typedDecimal(text);
  if (decimal === null) return fail('not-a-length');
  const nm = lengthNm(decimal, unit);
  if (!nm.ok) return fail('too-large');
  if (nm.value === 0) return fail('not-a-length');
  return nm.value > LARGEST_NM[what] ? fail('too-large') : ok(decimal);
}

/** Text without the blanks around it, nor half a character (as left by a cut emoji), which could not be sealed. */
function typedText(text: string): string {
  return text.trim().toWellFormed();
}

/**
 * The entries that start a job, or every field that stands in the way. `person` is this phone's person; ids come from `newId`.
 * A limit row left empty sets no limit; one with a value needs its source, since a limit without a source is hearsay.
 */
export function jobDrafts(form: NewJob, lang: string, person: string, newId: () => string): Result<Draft[], SetupFault[]> {
  const faults: SetupFault[] = [];
  const named = (field: string, text: string) => {
    const name = typedText(text);
    if (name === '') faults.push({ field, code: 'empty' });
    else if (name.length > NAME_MAX) faults.push({ field, code: 'too-long' });
    return name;
  };
  const name = named('name', form.name);
  const address = typedText(form.address);
  const personName = typedText(form.person);
  if (address.length > ADDRESS_MAX) faults.push({ field: 'address', code: 'too-long' });
  if (personName.length > NAME_MAX) faults.push({ field: 'person', code: 'too-long' });
  if (form.surfaces.length === 0) faults.push({ field: 'surfaces', code: 'no-surface' });
  const seen = new Set<string>();
  const surfaces = form.surfaces.map((surface, i): Draft => {
    const called = named(`surfaces.${i}.name`, surface.name);
    // Two ways to type ñ, or upper and lower case, look alike in the room.
    const alike = called.normalize().toLowerCase();
    if (called !== '' && seen.has(alike)) faults.push({ field: `surfaces.${i}.name`, code: 'same-name' });
    seen.add(alike);
    return { kind: 'surface', data: { ...surface, name: called } };
  });
  const limits = form.limits.flatMap((row, i) => limitDraft(row, i, form.units, newId, faults));
  if (faults.length > 0) return fail(faults);
  const who: Draft[] = personName === '' ? [] : [{ kind: 'person', data: { person, name: personName } }];
  return ok([{ kind: 'job', data: { name, address, units: form.units, lang } }, ...who, ...surfaces, ...limits]);
}

function limitDraft(row: NewJob['limits'][number], i: number, units: 'in' | 'mm', newId: () => string, faults: SetupFault[]): Draft[] {
  const unit = unitOf(row.what, units);
  const bound = (field: 'min' | 'max') => {
    if (row[field].trim() === '') return null;
    const length = typedLength(row[field], row.what, unit);
    if (length.ok) return length.value;
    faults.push({ field: `limits.${i}.${field}`, code: length.fault });
    return null;
  };
  const min = bound('min');
  const max = bound('max');
  if (row.min.trim() === '' && row.max.trim() === '') return [];
  if (min !== null && max !== null && nmOf(max, unit) < nmOf(min, unit)) faults.push({ field: `limits.${i}.max`, code: 'max-below-min' });
  const text = typedText(row.sourceText);
  if (text === '') faults.push({ field: `limits.${i}.sourceText`, code: 'no-source' });
  else if (text.length > NAME_MAX) faults.push({ field: `limits.${i}.sourceText`, code: 'too-long' });
  return [{ kind: 'limit', data: { limit: newId(), what: row.what, min, max, unit, source: { kind: row.sourceKind, text } } }];
}

function nmOf(decimal: string, unit: Unit): number {
  const nm = lengthNm(decimal, unit);
  return nm.ok ? nm.value : 0;
}
