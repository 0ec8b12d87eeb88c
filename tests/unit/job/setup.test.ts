import { previewJob } from '#lib/job/preview.ts';
import { price, proofOwed } from '#lib/job/proof.ts';
import { jobChange, jobDrafts, newJobPrices } from '#lib/job/setup.ts';
import { canonicalText } from '#lib/record/canonical.ts';
import { known } from '#lib/record/kinds.ts';
import { MEASURES } from '#lib/record/kinds/reading.ts';
import type { NewJob } from '#lib/record/setup-drafts.ts';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { chain } from '../../fixtures/log.ts';
import { anyText } from '../../property/runs.ts';

type Row = NewJob['limits'][number];
const row = (change: Partial<Row> = {}): Row => ({
  what: 'overlap',
  min: '2',
  max: '',
  sourceKind: 'data-sheet',
  sourceText: 'p. 2',
  ...change,
});
const wall = (name: string, surface = 'n') => ({ surface, name, place: 'wall' as const, system: null });
const FORM: NewJob = {
  name: 'Hall bath',
  address: '12 Elm St',
  person: 'Ana',
  permit: '',
  units: 'in',
  room: '',
  system: 'sheet',
  surfaces: [wall('North')],
  limits: [row()],
  proof: 'core',
};

let ids = 0;
const drafts = (change: Partial<NewJob> = {}) => jobDrafts({ ...FORM, ...change }, 'en', 'ana', () => `id-${++ids}`);
const dataOf = (change: Partial<NewJob>) => {
  const made = drafts(change);
  return made.ok ? made.value.map(({ kind, data }) => ({ kind, ...data })) : [];
};

test('a form becomes a job, its person, room, surfaces and limits', () => {
  const source = { kind: 'data-sheet', text: 'p. 2' };
  expect(
    dataOf({
      limits: [row({ min: '2 3/8' }), row({ what: 'wet-film', min: '25', max: '40' }), row({ min: ' ', sourceText: 'left over' })],
    }),
  ).toMatchObject([
    { kind: 'job', name: 'Hall bath', address: '12 Elm St', units: 'in', lang: 'en', permit: '', proof: 'core' },
    { kind: 'person', person: 'ana', name: 'Ana' },
    { kind: 'room', name: 'Hall bath' },
    { kind: 'surface', surface: 'n', name: 'North', place: 'wall', system: 'sheet' },
    { kind: 'limit', what: 'overlap', min: '2.375', max: null, unit: 'in', source },
    { kind: 'limit', what: 'wet-film', min: '25', max: '40', unit: 'mil', source },
  ]);
});

test('nobody needs to give a name or an address', () => {
  expect(dataOf({ person: ' ', address: '', limits: [] }).map(({ kind }) => kind)).toEqual(['job', 'room', 'surface']);
});

test('the room has a name of its own, and a surface a system of its own, where they were given', () => {
  const surfaces = [wall('North'), { ...wall('Floor', 'f'), place: 'floor' as const, system: 'tray' as const }];
  const [, , room, north, floor] = dataOf({ room: ' Bath upstairs ', permit: 'P-12', proof: 'full', surfaces, limits: [] }) as Record<
    string,
    unknown
  >[];
  expect(room).toMatchObject({ kind: 'room', name: 'Bath upstairs' });
  expect([north, floor]).toMatchObject([
    { surface: 'n', system: 'sheet', room: room!['room'] },
    { surface: 'f', system: 'tray', room: room!['room'] },
  ]);
  expect(dataOf({ permit: 'P-12', proof: 'full' })[0]).toMatchObject({ permit: 'P-12', proof: 'full' });
});

test('the price said beforehand is what the started job owes, at every level, whatever is typed so far', () => {
  const surfaces = [wall('North'), { ...wall('Floor', 'f'), place: 'floor' as const }];
  for (const proof of ['core', 'warranty', 'full'] as const) {
    const made = drafts({ surfaces, proof });
    expect(made.ok && price(proofOwed(previewJob(made.value)))).toEqual(
      newJobPrices({ ...FORM, surfaces, name: '', person: 'x'.repeat(999) })[proof],
    );
  }
  expect(newJobPrices(FORM).core.photos).toBeLessThan(newJobPrices(FORM).full.photos);
  expect(newJobPrices({ ...FORM, surfaces: [] }).full).toEqual({ photos: 0, readings: 0, entries: 0, minutes: 0 });
});

test('a changed job says all of its fields anew', () => {
  const made = drafts({ permit: 'P-12', proof: 'warranty' });
  const job = previewJob(made.ok ? made.value : []);
  expect(jobChange({ name: ' Main bath ', address: '', permit: 'P-13', units: 'mm' }, job)).toEqual({
    ok: true,
    value: [{ kind: 'job', data: { name: 'Main bath', address: '', permit: 'P-13', units: 'mm', lang: 'en', proof: 'warranty' } }],
  });
  expect(jobChange({ name: '', address: 'x'.repeat(2_001), permit: '', units: 'in' }, job)).toEqual({
    ok: false,
    fault: [
      { field: 'name', code: 'empty' },
      { field: 'address', code: 'too-long' },
    ],
  });
});

const LONG = 'x'.repeat(100_000);
test.each<[what: string, change: Partial<NewJob>, faults: [field: string, code: string][]]>([
  ['a blank name', { name: ' \t' }, [['name', 'empty']]],
  ['a name of 100,000 characters', { name: LONG }, [['name', 'too-long']]],
  ['a name of 201', { name: 'x'.repeat(201) }, [['name', 'too-long']]],
  ['an address of 2001', { address: 'x'.repeat(2_001) }, [['address', 'too-long']]],
  ['a person of 100,000', { person: LONG }, [['person', 'too-long']]],
  ['no surface', { surfaces: [] }, [['surfaces', 'no-surface']]],
  ['a room of 100,000', { room: LONG }, [['room', 'too-long']]],
  ['a permit of 2001', { permit: 'x'.repeat(2_001) }, [['permit', 'too-long']]],
  ['a surface without a name', { surfaces: [wall('North'), wall('', 'e')] }, [['surfaces.1.name', 'empty']]],
  [
    'two surfaces without a name',
    { surfaces: [wall(''), wall(' ', 'e')] },
    [
      ['surfaces.0.name', 'empty'],
      ['surfaces.1.name', 'empty'],
    ],
  ],
  ['a surface of 100,000', { surfaces: [wall(LONG)] }, [['surfaces.0.name', 'too-long']]],
  ['the same name, in capitals', { surfaces: [wall('North'), wall(' NORTH ', 'e')] }, [['surfaces.1.name', 'same-name']]],
  ['the same name, ñ typed in two ways', { surfaces: [wall('Baño'), wall('Ban\u0303o', 'e')] }, [['surfaces.1.name', 'same-name']]],
  ['an overlap of -1', { limits: [row({ min: '-1' })] }, [['limits.0.min', 'not-a-length']]],
  ['a film of 2000 mil', { limits: [row(), row({ what: 'wet-film', min: '25', max: '2000' })] }, [['limits.1.max', 'too-large']]],
  ['a most below the least', { limits: [row({ what: 'wet-film', min: '40', max: '25' })] }, [['limits.0.max', 'max-below-min']]],
  ['a limit without a source', { limits: [row({ sourceText: ' ' })] }, [['limits.0.sourceText', 'no-source']]],
  ['a source of 100,000', { limits: [row({ sourceText: LONG })] }, [['limits.0.sourceText', 'too-long']]],
  [
    'neither a length nor a source',
    { limits: [row({ min: 'two', sourceText: '' })] },
    [
      ['limits.0.min', 'not-a-length'],
      ['limits.0.sourceText', 'no-source'],
    ],
  ],
  [
    'all at once',
    { name: '', surfaces: [], limits: [row({ max: '0' })] },
    [
      ['name', 'empty'],
      ['surfaces', 'no-surface'],
      ['limits.0.max', 'not-a-length'],
    ],
  ],
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

const text = fc.oneof(anyText(12), fc.string({ unit: fc.constantFrom('2', ' ', '/', '½', ',', '\ud83d', 'ñ'), maxLength: 6 }));
test('whatever is typed becomes entries that can be sealed and read, or faults', () => {
  const limits = fc.array(
    fc.record({ what: fc.constantFrom(...MEASURES), min: text, max: text, sourceKind: fc.constant('crew' as const), sourceText: text }),
    { maxLength: 3 },
  );
  const surfaces = fc.array(
    text.map((name) => wall(name)),
    { minLength: 1, maxLength: 3 },
  );
  const proof = fc.constantFrom('core' as const, 'warranty' as const, 'full' as const);
  const form = fc.record({
    name: text,
    address: text,
    person: text,
    permit: text,
    room: text,
    system: fc.constant('sheet' as const),
    proof,
    units: fc.constantFrom('in' as const, 'mm' as const),
    surfaces,
    limits,
  });
  let good = 0;
  fc.assert(
    fc.property(form, (typed) => {
      const made = drafts(typed);
      if (!made.ok) {
        expect(made.fault.length).toBeGreaterThan(0);
        return;
      }
      const entries = chain(
        'a',
        made.value.map(({ kind, data }) => ({ kind, data: JSON.parse(canonicalText(data)) as object })),
      );
      expect(entries.map((entry) => known(entry).kind)).toEqual(made.value.map(({ kind }) => kind));
      good += 1;
    }),
    { seed: 20260302, numRuns: 500 },
  );
  // Enough of them must have come through for the promise to mean something.
  expect(good).toBeGreaterThan(50);
});
