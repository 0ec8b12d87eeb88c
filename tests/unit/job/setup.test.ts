import { jobDrafts, typedLength, unitOf } from '#lib/job/setup.ts';
import { canonicalText } from '#lib/record/canonical.ts';
import type { NewJob } from '#lib/record/drafts.ts';
import { known, type Limit } from '#lib/record/kinds.ts';
import { MEASURES, type Measure } from '#lib/record/kinds/reading.ts';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { chain } from '../../fixtures/log.ts';

test.each<[text: string, what: Measure, unit: Limit['unit'], read: string]>([
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
  ['500', 'flood-depth', 'mm', '500'],
])('%j of %s in %s is %s', (text, what, unit, read) => {
  expect(typedLength(text, what, unit)).toEqual({ ok: true, value: read });
});

test.each<[text: string, what: Measure, unit: Limit['unit'], fault: string]>([
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
])('%j of %s in %s is refused: %s', (text, what, unit, fault) => {
  expect(typedLength(text, what, unit)).toEqual({ ok: false, fault });
});

test('film is spoken in mil or um, all else in the units of the job', () => {
  expect(MEASURES.map((what) => [unitOf(what, 'in'), unitOf(what, 'mm')])).toEqual([['in', 'mm'], ['in', 'mm'], ['mil', 'um'], ['in', 'mm']]);
});

type Row = NewJob['limits'][number];
const row = (change: Partial<Row> = {}): Row => ({ what: 'overlap', min: '2', max: '', sourceKind: 'data-sheet', sourceText: 'p. 2', ...change });
const wall = (name: string, surface = 'n') => ({ surface, name, place: 'wall' as const, system: 'sheet' as const });
const FORM: NewJob = { name: 'Hall bath', address: '12 Elm St', person: 'Ana', units: 'in', surfaces: [wall('North')], limits: [row()] };

let ids = 0;
const drafts = (change: Partial<NewJob> = {}) => jobDrafts({ ...FORM, ...change }, 'en', 'ana', () => `id-${++ids}`);
const dataOf = (change: Partial<NewJob>) => {
  const made = drafts(change);
  return made.ok ? made.value.map(({ kind, data }) => ({ kind, ...data })) : [];
};

test('a form becomes a job, its person, surfaces and limits', () => {
  const source = { kind: 'data-sheet', text: 'p. 2' };
  expect(dataOf({ limits: [row({ min: '2 3/8' }), row({ what: 'wet-film', min: '25', max: '40' }), row({ min: ' ', sourceText: 'left over' })] })).toMatchObject([
    { kind: 'job', name: 'Hall bath', address: '12 Elm St', units: 'in', lang: 'en' },
    { kind: 'person', person: 'ana', name: 'Ana' },
    { kind: 'surface', surface: 'n', name: 'North', place: 'wall', system: 'sheet' },
    { kind: 'limit', what: 'overlap', min: '2.375', max: null, unit: 'in', source },
    { kind: 'limit', what: 'wet-film', min: '25', max: '40', unit: 'mil', source },
  ]);
});

test('nobody needs to give a name or an address', () => {
  expect(dataOf({ person: ' ', address: '', limits: [] }).map(({ kind }) => kind)).toEqual(['job', 'surface']);
});

const LONG = 'x'.repeat(100_000);
test.each<[what: string, change: Partial<NewJob>, faults: [field: string, code: string][]]>([
  ['a blank name', { name: ' \t' }, [['name', 'empty']]],
  ['a name of 100,000 characters', { name: LONG }, [['name', 'too-long']]],
  ['a name of 201', { name: 'x'.repeat(201) }, [['name', 'too-long']]],
  ['an address of 2001', { address: 'x'.repeat(2_001) }, [['address', 'too-long']]],
  ['a person of 100,000', { person: LONG }, [['person', 'too-long']]],
  ['no surface', { surfaces: [] }, [['surfaces', 'no-surface']]],
  ['a surface without a name', { surfaces: [wall('North'), wall('', 'e')] }, [['surfaces.1.name', 'empty']]],
  ['two surfaces without a name', { surfaces: [wall(''), wall(' ', 'e')] }, [['surfaces.0.name', 'empty'], ['surfaces.1.name', 'empty']]],
  ['a surface of 100,000', { surfaces: [wall(LONG)] }, [['surfaces.0.name', 'too-long']]],
  ['the same name, in capitals', { surfaces: [wall('North'), wall(' NORTH ', 'e')] }, [['surfaces.1.name', 'same-name']]],
  ['the same name, ñ typed in two ways', { surfaces: [wall('Baño'), wall('Ban\u0303o', 'e')] }, [['surfaces.1.name', 'same-name']]],
  ['an overlap of -1', { limits: [row({ min: '-1' })] }, [['limits.0.min', 'not-a-length']]],
  ['a film of 2000 mil', { limits: [row(), row({ what: 'wet-film', min: '25', max: '2000' })] }, [['limits.1.max', 'too-large']]],
  ['a most below the least', { limits: [row({ what: 'wet-film', min: '40', max: '25' })] }, [['limits.0.max', 'max-below-min']]],
  ['a limit without a source', { limits: [row({ sourceText: ' ' })] }, [['limits.0.sourceText', 'no-source']]],
  ['a source of 100,000', { limits: [row({ sourceText: LONG })] }, [['limits.0.sourceText', 'too-long']]],
  ['neither a length nor a source', { limits: [row({ min: 'two', sourceText: '' })] }, [['limits.0.min', 'not-a-length'], ['limits.0.sourceText', 'no-source']]],
  ['all at once', { name: '', surfaces: [], limits: [row({ max: '0' })] }, [['name', 'empty'], ['surfaces', 'no-surface'], ['limits.0.max', 'not-a-length']]],
])('%s is refused by field', (_, change, faults) => {
  expect(drafts(change)).toEqual({ ok: false, fault: faults.map(([field, code]) => ({ field, code })) });
});

test.each<[name: string, kept: string]>([
  ['  Hall bath  ', 'Hall bath'],
  ['Baño 🛁 👩🏽‍🔧', 'Baño 🛁 👩🏽‍🔧'],
  ['حمام الممر', 'حمام الممر'],
  ['חדר \u200famit', 'חדר \u200famit'],
  ['x'.repeat(200), 'x'.repeat(200)],
  ['<b>"bath"</b>', '<b>"bath"</b>'],
  // An emoji cut in half by a field's limit.
  ['bath \ud83d', 'bath \ufffd'],
])('the name %j is kept as %j', (name, kept) => {
  expect(dataOf({ name })[0]).toMatchObject({ name: kept });
});

test('a least equal to the most stands', () => {
  expect(dataOf({ limits: [row({ what: 'wet-film', min: '25', max: '25.0' })] }).at(-1)).toMatchObject({ min: '25', max: '25.0' });
});

const text = fc.oneof(fc.string({ unit: 'binary', maxLength: 12 }), fc.string({ unit: fc.constantFrom('2', ' ', '/', '½', ',', '\ud83d', 'ñ'), maxLength: 6 }));
test('whatever is typed becomes entries that can be sealed and read, or faults', () => {
  const limits = fc.array(fc.record({ what: fc.constantFrom(...MEASURES), min: text, max: text, sourceKind: fc.constant('crew' as const), sourceText: text }), { maxLength: 3 });
  const surfaces = fc.array(text.map((name) => wall(name)), { minLength: 1, maxLength: 3 });
  const form = fc.record({ name: text, address: text, person: text, units: fc.constantFrom('in' as const, 'mm' as const), surfaces, limits });
  let good = 0;
  fc.assert(
    fc.property(form, (typed) => {
      const made = drafts(typed);
      if (!made.ok) {
        expect(made.fault.length).toBeGreaterThan(0);
        return;
      }
      const entries = chain('a', made.value.map(({ kind, data }) => ({ kind, data: JSON.parse(canonicalText(data)) as object })));
      expect(entries.map((entry) => known(entry).kind)).toEqual(made.value.map(({ kind }) => kind));
      good += 1;
    }),
    { seed: 20260302, numRuns: 500 },
  );
  // Enough of them must have come through for the promise to mean something.
  expect(good).toBeGreaterThan(50);
});
