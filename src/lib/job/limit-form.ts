import { baseOf, dimensionOf, type Dimension } from '../measure/dimension.ts';
import { parseInches } from '../measure/inch.ts';
import { typedDecimal } from '../measure/quantity.ts';
import type { Draft } from '../record/kinds.ts';
import type { Measure, Unit } from '../record/kinds/reading.ts';
import type { Limit } from '../record/kinds/setup.ts';
import type { LimitForm, LimitRow } from '../record/setup-drafts.ts';
import { fail, ok, type Result } from '../result.ts';
import { dimensionOfMeasure, isPlausible, MEASURE_KINDS, unitOf } from './measures.ts';
import { FieldReader, NAME_MAX, type SetupFault } from './setup-fields.ts';

/** The units a data sheet may state a measure in, the usual one of the trade not first but among them. */
const UNITS_OF: Readonly<Record<Dimension, readonly Unit[]>> = {
  length: ['in', 'mm', 'cm'],
  time: ['min', 'h', 'd'],
  temperature: ['F', 'C'],
  ratio: ['%'],
  volume: ['gal', 'qt', 'L'],
  mass: ['lb', 'kg'],
  area: ['ft2', 'm2'],
  pressure: ['psi', 'kPa'],
  count: ['count'],
};

export function unitsFor(what: Measure): readonly Unit[] {
  if (what === 'wet-film' || what === 'dry-film') return ['mil', 'um', 'mm'];
  return what === 'slope' ? ['in/ft', '%', 'mm/m'] : UNITS_OF[dimensionOfMeasure(what)];
}

/** `1,500` and `1.500` may be one and a half or fifteen hundred. In micrometres a film can be the second, so neither is guessed at. */
const GROUPED = /^[1-9]\d{0,2}[.,]\d{3}$/;

export type ValueFault = 'not-a-length' | 'not-a-value' | 'too-large';

/**
 * A typed value as a decimal string in `unit`, or the reason it is none. Inches may be fractions (`2 1/4`), also by the foot; a decimal
 * comma is read as a point; a minus is read where the measure goes below zero. Zero where the measure has none, and values beyond
 * what it can be, are refused with the field kept as typed.
 */
export function typedValue(text: string, what: Measure, unit: Unit): Result<string, ValueFault> {
  const none = dimensionOf(unit) === 'length' ? 'not-a-length' : 'not-a-value';
  const bare = text.trim();
  const { least } = MEASURE_KINDS[what];
  const minus = /^[-−]/.test(bare) && least?.[0].startsWith('-') === true;
  const size = minus ? bare.slice(1).trim() : bare;
  if (unit === 'um' && GROUPED.test(size)) return fail(none);
  const decimal = unit === 'in' || unit === 'in/ft' ? parseInches(size) : typedDecimal(size);
  if (decimal === null || (unit === 'count' && decimal.includes('.'))) return fail(none);
  const value = minus && Number(decimal) !== 0 ? `-${decimal}` : decimal;
  if (isPlausible(what, value, unit)) return ok(value);
  const base = baseOf(value, unit);
  const tooSmall = base.ok && base.value <= 0 && least === undefined;
  return fail(tooSmall ? none : 'too-large');
}

/** Whether a row sets a limit so far: a bound is typed, and what is typed is a value. Its source may still be missing. */
export function setsLimit({ what, min, max }: Pick<LimitRow, 'what' | 'min' | 'max'>, unit: Unit): boolean {
  const typed = [min, max].filter((text) => text.trim() !== '');
  return typed.length > 0 && typed.every((text) => typedValue(text, what, unit).ok);
}

/** A limit as typed in the fields named `at`…; null where it sets none or cannot stand. Both ends belong to it. */
export function readLimit(reader: FieldReader, at: string, row: LimitRow, unit: Unit, limit: string): Limit | null {
  const bound = (field: 'min' | 'max') => {
    if (row[field].trim() === '') return null;
    const value = typedValue(row[field], row.what, unit);
    if (!value.ok) reader.fault(`${at}${field}`, value.fault);
    return value.ok ? value.value : null;
  };
  const min = bound('min');
  const max = bound('max');
  if (row.min.trim() === '' && row.max.trim() === '') return null;
  if (min !== null && max !== null && base(max, unit) < base(min, unit)) reader.fault(`${at}max`, 'max-below-min');
  const text = reader.words(`${at}sourceText`, row.sourceText, NAME_MAX);
  // A limit without a source is hearsay.
  if (text === '') reader.fault(`${at}sourceText`, 'no-source');
  return { limit, what: row.what, min, max, unit, source: { kind: row.sourceKind, text } };
}

/** The entry of a limit, or every field that stands in the way. Moisture is stated in the scale of its meter. */
export function limitDrafts(form: LimitForm): Result<Draft[], SetupFault[]> {
  const reader = new FieldReader();
  const limit = readLimit(reader, '', form, form.unit, form.limit);
  if (form.min.trim() === '' && form.max.trim() === '') reader.fault('min', 'no-value');
  if (form.what === 'moisture' && form.scale === '') reader.fault('scale', 'no-scale');
  if (limit === null || reader.faults.length > 0) return fail(reader.faults);
  const scale = form.what === 'moisture' && form.scale !== '' ? { scale: form.scale } : {};
  return ok([{ kind: 'limit', data: { ...limit, ...scale } }]);
}

export function emptyLimit(limit: string, what: Measure, units: 'in' | 'mm'): LimitForm {
  return { limit, what, min: '', max: '', unit: unitOf(what, units), scale: '', sourceKind: 'data-sheet', sourceText: '' };
}

/** A limit back in its form. A change keeps its id, so that what was judged by it is judged by it again. */
export function limitForm({ limit, what, min, max, unit, scale, source }: Limit): LimitForm {
  return { limit, what, min: min ?? '', max: max ?? '', unit, scale: scale ?? '', sourceKind: source.kind, sourceText: source.text };
}

function base(value: string, unit: Unit): number {
  const size = baseOf(value, unit);
  return size.ok ? size.value : 0;
}
