import { limitDrafts, limitForm, setsLimit, typedValue, unitsFor } from '#lib/job/limit-form.ts';
import { unitOf } from '#lib/job/measures.ts';
import { dimensionOf } from '#lib/measure/dimension.ts';
import { Limit } from '#lib/record/kinds/setup.ts';
import { MEASURES, type Measure, type Unit } from '#lib/record/kinds/reading.ts';
import type { LimitForm } from '#lib/record/setup-drafts.ts';
import { expect, test } from 'vitest';

test.each<[text: string, what: Measure, unit: Unit, read: string]>([
  ['2 3/8', 'band-lap', 'in', '2.375'],
  ['2½"', 'overlap', 'in', '2.5'],
  ['2,5', 'overlap', 'in', '2.5'],
  ['2.375', 'overlap', 'in', '2.375'],
  ['68,3', 'overlap', 'mm', '68.3'],
  ['68.30', 'overlap', 'mm', '68.30'],
  ['.5', 'wet-film', 'mil', '0.5'],
  ['1500', 'wet-film', 'um', '1500'],
  ['0.500', 'wet-film', 'um', '0.500'],
  // The largest of each: 1 m of lap, 5 mm of film, 500 mm of water.
  ['1000', 'overlap', 'mm', '1000'],
  ['39 5/16', 'band-lap', 'in', '39.3125'],
  ['5000', 'wet-film', 'um', '5000'],
  ['196', 'wet-film', 'mil', '196'],
  ['0.5', 'dry-film', 'mm', '0.5'],
  ['500', 'flood-depth', 'mm', '500'],
  ['1/4', 'slope', 'in/ft', '0.25'],
  ['1,25', 'slope', '%', '1.25'],
  ['20.8', 'slope', 'mm/m', '20.8'],
  ['-5', 'air-temperature', 'C', '-5'],
  ['\u22125', 'surface-temperature', 'C', '-5'],
  ['-0', 'air-temperature', 'C', '0'],
  ['0', 'humidity', '%', '0'],
  ['100', 'humidity', '%', '100'],
  ['24', 'before-flooding', 'h', '24'],
  ['2', 'before-flooding', 'd', '2'],
  ['1.5', 'walk-on', 'h', '1.5'],
  ['2', 'coats', 'count', '2'],
])('%j of %s in %s is %s', (text, what, unit, read) => {
  expect(typedValue(text, what, unit)).toEqual({ ok: true, value: read });
});

test.each<[text: string, what: Measure, unit: Unit, fault: string]>([
  ['-1', 'overlap', 'in', 'not-a-length'],
  ['-1', 'overlap', 'mm', 'not-a-length'],
  ['0', 'overlap', 'mm', 'not-a-length'],
  ['0/16', 'overlap', 'in', 'not-a-length'],
  ['0.0000001', 'wet-film', 'um', 'not-a-length'],
  ['1 1/3', 'overlap', 'in', 'not-a-length'],
  ['2 1/2', 'overlap', 'mm', 'not-a-length'],
  ['50 mm', 'overlap', 'in', 'not-a-length'],
  ['two', 'overlap', 'in', 'not-a-length'],
  ['', 'overlap', 'in', 'not-a-length'],
  ['1,234.5', 'overlap', 'mm', 'not-a-length'],
  // One and a half, or fifteen hundred? As a film, one of them is a thousandfold slip.
  ['1,500', 'wet-film', 'um', 'not-a-length'],
  ['1.500', 'wet-film', 'um', 'not-a-length'],
  ['2000', 'wet-film', 'mil', 'too-large'],
  ['5001', 'wet-film', 'um', 'too-large'],
  ['1001', 'overlap', 'mm', 'too-large'],
  ['39 3/8', 'overlap', 'in', 'too-large'],
  ['501', 'flood-depth', 'mm', 'too-large'],
  ['999999999999', 'overlap', 'in', 'too-large'],
  ['101', 'humidity', '%', 'too-large'],
  ['-1', 'humidity', '%', 'not-a-value'],
  ['warm', 'air-temperature', 'F', 'not-a-value'],
  ['81', 'air-temperature', 'C', 'too-large'],
  ['0', 'before-flooding', 'h', 'not-a-value'],
  ['2001', 'recoat', 'h', 'too-large'],
  ['1.5', 'coats', 'count', 'not-a-value'],
  ['21', 'coats', 'count', 'too-large'],
  ['1:80', 'slope', '%', 'not-a-value'],
  ['\ud83d\udec1', 'humidity', '%', 'not-a-value'],
  ['9'.repeat(100_000), 'humidity', '%', 'not-a-value'],
])('%j of %s in %s is refused: %s', (text, what, unit, fault) => {
  expect(typedValue(text, what, unit)).toEqual({ ok: false, fault });
});

test.each(MEASURES.map((what) => [what] as const))('%s can be limited in its usual units and others of the same dimension', (what) => {
  const units = unitsFor(what);
  expect(units).toEqual(expect.arrayContaining([unitOf(what, 'in'), unitOf(what, 'mm')]));
  expect(new Set(units.map(dimensionOf)).size).toBe(1);
});

const FORM: LimitForm = {
  limit: 'l',
  what: 'overlap',
  min: '2',
  max: '',
  unit: 'in',
  scale: '',
  sourceKind: 'data-sheet',
  sourceText: 'page 2',
};
const made = (change: Partial<LimitForm>) => limitDrafts({ ...FORM, ...change });

test.each<[what: string, change: Partial<LimitForm>, data: object]>([
  ['a least', {}, { what: 'overlap', min: '2', max: null, unit: 'in', source: { kind: 'data-sheet', text: 'page 2' } }],
  ['a most', { what: 'cover-within', min: '', max: '72', unit: 'h' }, { min: null, max: '72', unit: 'h' }],
  ['a window', { what: 'recoat', min: '4', max: '1', unit: 'd' }, {}],
  ['a scale of moisture', { what: 'moisture', min: '', max: '75', unit: '%', scale: 'rh-in-hole' }, { max: '75', scale: 'rh-in-hole' }],
])('%s becomes a limit that can be sealed, and back', (_, change, data) => {
  const drafts = made({ ...change, ...(change.what === 'recoat' ? { min: '4', max: '24', unit: 'h' } : {}) });
  const [draft] = drafts.ok ? drafts.value : [];
  expect(draft).toMatchObject({ kind: 'limit', data });
  const limit = Limit.parse(draft!.data);
  expect(limitDrafts(limitForm(limit))).toEqual(drafts);
});

test('a scale left over from another measure is not kept', () => {
  expect(made({ scale: 'wood' })).toMatchObject({ ok: true, value: [{ data: expect.not.objectContaining({ scale: 'wood' }) as object }] });
});

test.each<[what: string, change: Partial<LimitForm>, faults: [field: string, code: string][]]>([
  ['nothing typed', { min: '', sourceText: '' }, [['min', 'no-value']]],
  ['a most below the least', { what: 'recoat', min: '24', max: '4', unit: 'h' }, [['max', 'max-below-min']]],
  ['a film of 2000 mil', { what: 'wet-film', min: '', max: '2000', unit: 'mil' }, [['max', 'too-large']]],
  ['a humidity of 101 %', { what: 'humidity', min: '', max: '101', unit: '%' }, [['max', 'too-large']]],
  ['an overlap of -1 and no source', { min: '-1', sourceText: ' ' }, [['min', 'not-a-length'], ['sourceText', 'no-source']]],
  ['moisture without its scale', { what: 'moisture', min: '', max: '75', unit: '%' }, [['scale', 'no-scale']]],
  ['a source of 100,000', { sourceText: 'x'.repeat(100_000) }, [['sourceText', 'too-long']]],
])('%s is refused by field', (_, change, faults) => {
  expect(made(change)).toEqual({ ok: false, fault: faults.map(([field, code]) => ({ field, code })) });
}); // prettier-ignore

test.each<[min: string, max: string, sets: boolean]>([
  ['', ' ', false],
  ['20', '', true],
  ['', '28', true],
  ['20', '28', true],
  ['thick', '', false],
  ['20', 'about 28', false],
  ['0', '', false],
])('a wet film of at least %j and at most %j sets a limit: %s', (min, max, sets) => {
  expect(setsLimit({ what: 'wet-film', min, max }, 'mil')).toBe(sets);
});
