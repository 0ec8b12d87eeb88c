import { amendedData, formDraft, typedAmount, typedOf, type Around, type FormFault, type Typed } from '#lib/job/form-drafts.ts';
import { begunBy, firstTyped, offers } from '#lib/job/form-offers.ts';
import { FORM_KINDS, FORMS, fieldsOf, isFormKind, type FormField, type FormKind } from '#lib/job/forms.ts';
import { conditionsDue, dewPointThatMatters } from '#lib/job/conditions.ts';
import { MEASURE_KINDS } from '#lib/job/measures.ts';
import { mixedWater } from '#lib/job/mix-water.ts';
import { project } from '#lib/job/project.ts';
import { proofOwed } from '#lib/job/proof.ts';
import { KINDS, knownData, SCHEMAS, type DataOf, type Draft } from '#lib/record/kinds.ts';
import type { Quantity } from '#lib/record/kinds/reading.ts';
import { KIND } from '#lib/words/codes.ts';
import { FIELD, fieldWord } from '#lib/words/fields.ts';
import { fail } from '#lib/result.ts';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { chain, utcOf, type Said } from '../../fixtures/log.ts';

const AROUND: Around = { units: 'in', today: '2026-03-02', person: 'ana' };

/** The smallest answer that each kind is kept with, and what the entry then says. */
const LEAST: { [K in FormKind]: [typed: Typed, data: DataOf<K>] } = {
  person: [{ name: 'Ana Ruiz' }, { person: 'ana', name: 'Ana Ruiz' }],
  conditions: [{ air: '68' }, { air: { text: '68', value: '68', unit: 'F' } }],
  survey: [
    { result: 'accepted', drop: 'soaks-in' },
    { surfaces: [], result: 'accepted', drop: 'soaks-in', found: '', told: '' },
  ],
  'by-others': [
    { who: 'Plumber', what: 'Set the drain' },
    { surfaces: [], who: 'Plumber', what: 'Set the drain' },
  ],
  mix: [{ powder: '25' }, { material: null, powder: { text: '25', value: '25', unit: 'lb' }, surfaces: [] }],
  note: [{ words: 'Key is with the neighbour' }, { words: 'Key is with the neighbour', surfaces: [] }],
  deviation: [
    { what: 'Lap short', surfaces: ['floor'] },
    { surfaces: ['floor'], what: 'Lap short', why: '', against: null, accepted: '' },
  ],
  repair: [
    { what: 'Patch', surfaces: ['floor'] },
    { surfaces: ['floor'], what: 'Patch', of: [] },
  ],
  early: [
    { wait: 'w', reason: 'firm', check: 'no-tack', held: 'yes' },
    { wait: 'w', reason: 'firm', check: 'no-tack', held: true, words: '' },
  ],
  'not-done': [
    { step: 'corners', covered: 'no', reason: 'not-needed' },
    { step: 'corners', surfaces: [], items: [], covered: false, reason: 'not-needed', words: '' },
  ],
  inspection: [
    { what: 'flood-test', result: 'passed', day: '2026-03-02' },
    { permit: '', what: 'flood-test', result: 'passed', day: '2026-03-02', who: '', words: '' },
  ],
  protect: [{ how: 'Board' }, { surfaces: [], how: 'Board' }],
  'tile-check': [
    { whole: 'yes', dry: 'no', undamaged: 'yes' },
    { surfaces: [], whole: true, dry: false, undamaged: true, words: '' },
  ],
  attestation: [{}, { surfaces: [], words: '' }],
  'hand-over': [
    { who: 'Ana Ruiz', role: 'tile-setter' },
    { surfaces: [], who: 'Ana Ruiz', role: 'tile-setter', words: '' },
  ],
  'later-hole': [
    { surfaces: ['wall'], what: 'Grab bar' },
    { surfaces: ['wall'], what: 'Grab bar', who: '', sealed: '' },
  ],
  callback: [{ complaint: 'Stain below' }, { surfaces: [], complaint: 'Stain below', looked: '', found: '', answer: '' }],
  isolation: [
    { callback: 'c', test: 'unused', below: 'wet' },
    { callback: 'c', test: 'unused', below: 'wet', words: '' },
  ],
  'isolation-look': [
    { isolation: 'i', below: 'dry', moisture: '14', scale: 'wood' },
    { isolation: 'i', below: 'dry', moisture: { text: '14', value: '14', unit: '%' }, scale: 'wood', words: '' },
  ],
  opening: [
    { callback: 'c', told: 'not-told' },
    { callback: 'c', told: 'not-told', who: '', surfaces: [], sample: '' },
  ],
};

test('every kind that people state has a form, and each of its fields a label', () => {
  expect(new Set(FORM_KINDS).size).toBe(FORM_KINDS.length);
  for (const kind of FORM_KINDS) {
    expect(isFormKind(kind) && Object.hasOwn(KIND, kind), kind).toBe(true);
    expect(Object.keys(FORMS[kind]).toSorted(), kind).toEqual(Object.keys(SCHEMAS[kind].shape).toSorted());
    for (const [name] of fieldsOf(kind)) expect(fieldWord(kind, name), `${kind}.${name}`).not.toBeNull();
  }
  // A person is also what a field of other entries says.
  expect(KINDS.filter((kind) => kind in FIELD && isFormKind(kind))).toEqual(['person']);
});

test.each(FORM_KINDS)('%s: the least that is kept, and what it then says', (kind) => {
  const [typed, data] = LEAST[kind];
  const draft = formDraft(kind, typed, AROUND);
  expect(draft).toMatchObject({ ok: true, value: { kind, data } });
  expect(knownData(kind, data).kind).toBe(kind);
});

describe('what stands in the way, by field', () => {
  const rows: [kind: FormKind, typed: Typed, faults: FormFault[]][] = [
    ['person', { name: ' ' }, [{ field: 'name', code: 'empty' }]],
    ['conditions', {}, [{ field: 'air', code: 'nothing-said' }]],
    ['conditions', { air: 'warm' }, [{ field: 'air', code: 'not-a-number' }]],
    ['conditions', { air: '1000' }, [{ field: 'air', code: 'too-large' }]],
    ['conditions', { air: '-41' }, [{ field: 'air', code: 'too-small' }]],
    ['conditions', { humidity: '101' }, [{ field: 'humidity', code: 'too-large' }]],
    ['conditions', { lowest: '60', highest: '50' }, [{ field: 'highest', code: 'low-above-high' }]],
    ['survey', { result: 'refused', drop: 'stays' }, [{ field: 'found', code: 'empty' }]],
    [
      'survey',
      { found: 'Loose' },
      [
        { field: 'result', code: 'not-chosen' },
        { field: 'drop', code: 'not-chosen' },
      ],
    ],
    ['mix', {}, [{ field: 'material', code: 'nothing-said' }]],
    ['mix', { powder: '0' }, [{ field: 'powder', code: 'too-small' }]],
    ['mix', { powder: '3000' }, [{ field: 'powder', code: 'too-large' }]],
    ['isolation', { callback: 'c', test: 'unused', below: 'wet', moisture: '24' }, [{ field: 'scale', code: 'not-chosen' }]],
    ['isolation-look', { isolation: 'i', below: 'wet', moisture: '24' }, [{ field: 'scale', code: 'not-chosen' }]],
    ['note', { words: ' \n ' }, [{ field: 'words', code: 'empty' }]],
    ['early', { wait: 'Not an id', reason: 'firm', check: 'none', held: 'no' }, [{ field: 'wait', code: 'none-picked' }]],
    [
      'deviation',
      {},
      [
        { field: 'what', code: 'empty' },
        { field: 'surfaces', code: 'no-surface' },
      ],
    ],
    [
      'early',
      { reason: 'firm', check: 'none', held: 'maybe' },
      [
        { field: 'wait', code: 'none-picked' },
        { field: 'held', code: 'not-answered' },
      ],
    ],
    ['not-done', { step: 'dance', covered: 'yes', reason: 'phone' }, [{ field: 'step', code: 'not-chosen' }]],
    ['inspection', { what: 'final', result: 'passed', day: '2026-02-30' }, [{ field: 'day', code: 'not-a-day' }]],
    ['inspection', { what: 'final', result: 'passed', day: '2026-03-03' }, [{ field: 'day', code: 'day-to-come' }]],
    [
      'tile-check',
      { dry: 'yes' },
      [
        { field: 'whole', code: 'not-answered' },
        { field: 'undamaged', code: 'not-answered' },
      ],
    ],
  ];
  test('nobody cannot answer for the work; whoever has a name may leave all else empty', () => {
    expect(formDraft('attestation', {}, { ...AROUND, named: false })).toEqual(fail([{ field: 'person', code: 'no-name' }]));
    expect(formDraft('attestation', {}, { ...AROUND, named: true })).toMatchObject({ ok: true });
    expect(formDraft('note', { words: 'x' }, { ...AROUND, named: false })).toMatchObject({ ok: true });
  });
  test.each(rows)('%s %j', (kind, typed, faults) => {
    const before = JSON.stringify(typed);
    expect(formDraft(kind, typed, AROUND)).toEqual({ ok: false, fault: faults });
    expect(JSON.stringify(typed)).toBe(before);
  });
});

test.each<[kind: FormKind, field: string, length: number, kept: boolean]>([
  ['note', 'words', 2_000, true],
  ['note', 'words', 2_001, false],
  ['note', 'words', 100_000, false],
  ['by-others', 'who', 200, true],
  ['by-others', 'who', 201, false],
])('%s.%s of %d characters: kept %s', (kind, name, length, kept) => {
  const read = formDraft(kind, { ...LEAST[kind][0], [name]: 'a'.repeat(length) }, AROUND);
  expect(read.ok ? null : read.fault).toEqual(kept ? null : [{ field: name, code: 'too-long' }]);
});

test.each<[typed: string, of: keyof typeof MEASURE_KINDS, units: 'in' | 'mm', value: string]>([
  ['68.5', 'air-temperature', 'in', '68.5'],
  ['20,5', 'air-temperature', 'mm', '20.5'],
  ['-5', 'air-temperature', 'mm', '-5'],
  ['−5', 'air-temperature', 'mm', '-5'],
  [' 2 1/4 ', 'flood-depth', 'in', '2.25'],
  ['0', 'flood-level', 'mm', '0'],
  ['100', 'humidity', 'in', '100'],
])('%s of %s in a job in %s is %s', (typed, what, units, value) => {
  const of = MEASURE_KINDS[what];
  expect(typedAmount(typed, of, of[units])).toEqual({ ok: true, value: { text: typed.trim(), value, unit: of[units] } });
});

test('names of all scripts, half characters and marks of direction are kept, or kept out, and never lost', () => {
  const said = (words: string) => formDraft('note', { words }, AROUND);
  expect(said('🛁 שלום العربية ‏x')).toMatchObject({ ok: true, value: { data: { words: '🛁 שלום العربية ‏x' } } });
  expect(said('cut \ud83d')).toMatchObject({ ok: true, value: { data: { words: 'cut \ufffd' } } });
});

test('whatever is typed, a form answers with an entry that its schema takes, or with faults of its own fields', () => {
  const value = fc.oneof(
    fc.string(),
    fc.constantFrom('', 'yes', 'no', 'accepted', 'firm', 'other', 'passed', '12', '-3.5', '2026-03-01', 'floor'),
    fc.array(fc.constantFrom('floor', 'wall')),
  );
  const any = fc
    .constantFrom(...FORM_KINDS)
    .chain((kind) =>
      fc.record({ kind: fc.constant(kind), typed: fc.record(Object.fromEntries(fieldsOf(kind).map(([name]) => [name, value]))) }),
    );
  fc.assert(
    fc.property(any, ({ kind, typed }) => {
      const read = formDraft(kind, typed, AROUND);
      if (read.ok) return knownData(kind, read.value.data).kind === kind;
      return read.fault.length > 0 && read.fault.every(({ field }) => fieldsOf(kind).some(([name]) => name === field));
    }),
    { seed: 31, numRuns: 2_000 },
  );
});

test.each(FORM_KINDS)('%s: what a form shows of an entry says the same entry again', (kind) => {
  const [typed] = LEAST[kind];
  const first = formDraft(kind, typed, AROUND);
  if (!first.ok) throw new Error(kind);
  const back = typedOf(kind, first.value.data);
  expect(formDraft(kind, back.typed, { ...AROUND, units: 'mm', unitsSaid: back.unitsSaid })).toMatchObject({
    ok: true,
    value: { data: first.value.data },
  });
});

test('an amendment keeps what a newer version wrote, and drops what its form left out', () => {
  const before = { surfaces: [], words: 'old', signature: { sha256: 'a'.repeat(64) }, tilt: 3 };
  expect(amendedData('attestation', before, { surfaces: [], words: 'new' })).toEqual({ tilt: 3, surfaces: [], words: 'new' });
});

test('an entry names those it speaks of, and the run it was said in', () => {
  const draft = formDraft('repair', { what: 'Patch', surfaces: ['floor'], of: ['r-1', 'd-2'] }, { ...AROUND, run: 'run-1' });
  expect(draft).toMatchObject({ ok: true, value: { run: 'run-1', refs: ['r-1', 'd-2'] } });
});

// ---- what is offered

const surface = (id: string, place: string): Said => ({ kind: 'surface', data: { surface: id, name: id, place, system: 'sheet' } });
const LAP = { limit: 'lap', what: 'overlap', min: '2', max: null, unit: 'in', source: { kind: 'data-sheet', text: 'p. 2' } };
const CURE = { limit: 'cure', what: 'before-flooding', min: '24', max: null, unit: 'h', source: { kind: 'data-sheet', text: 'p. 3' } };
const POT = { limit: 'pot', what: 'pot-life', min: null, max: '60', unit: 'min', source: { kind: 'data-sheet', text: 'p. 4' } };
const short: Said = {
  id: 'short',
  kind: 'reading',
  data: { what: 'overlap', surface: 'floor', said: { text: '1', value: '1', unit: 'in' }, how: 'tape' },
};
const quantity = (value: string, unit: string) => ({ text: value, value, unit });
const log = (...said: Said[]) =>
  project(
    chain('a', [
      { kind: 'job', data: { name: 'Hall bath', address: '', units: 'in', lang: 'en', permit: 'P-7' } },
      surface('floor', 'floor'),
      surface('wall', 'wall'),
      ...[LAP, CURE, POT].map((data) => ({ kind: 'limit', data })),
      ...said,
    ]),
  ).state;
const NOW = { utc: utcOf(1000), offsetMin: -360 };
const NOTHING = { surfaces: [], about: [], step: null };
const field = (kind: FormKind, name: string): FormField => new Map(fieldsOf(kind)).get(name)!;
const ids = (kind: FormKind, name: string, job: ReturnType<typeof log>, typed: Typed = {}, amends: string | null = null) =>
  offers(field(kind, name), typed, typed[name] ?? '', job, proofOwed(job), Date.parse(NOW.utc), amends).map(({ id }) => id);

test('a pail repeats one of the last four, and one said anew only one before it', () => {
  const job = log(...['a', 'b', 'c', 'd', 'e'].map((id): Said => ({ id, kind: 'mix', data: { material: null, surfaces: [] } })));
  expect(ids('mix', 'same', job)).toEqual(['e', 'd', 'c', 'b']);
  expect(ids('mix', 'same', job, {}, 'c')).toEqual(['b', 'a']);
  expect(ids('mix', 'same', job, {}, 'a')).toEqual([]);
});

test.each<[powder: string, water: string, units: 'in' | 'mm', doubt: string | null]>([
  ['50', '6', 'in', null],
  ['50', '65', 'in', 'much'],
  ['50', '0.6', 'in', 'little'],
  ['25', '6.25', 'mm', null],
  ['25', '15', 'mm', null],
  ['25', '15.1', 'mm', 'much'],
  ['25', '2.5', 'mm', null],
  ['25', '2.4', 'mm', 'little'],
  ['50', '', 'in', 'nothing'],
  ['', '6', 'in', 'nothing'],
  ['much', '6', 'in', 'nothing'],
])('%s of powder and %s of water (%s): in doubt %s', (powder, water, units, doubt) => {
  const mixed = mixedWater({ powder, water }, units);
  expect(mixed === null ? 'nothing' : mixed.doubt).toBe(doubt);
});

test('6 qt of water weigh a quarter of a 50 lb bag, also where the bag was said in kg', () => {
  expect(mixedWater({ powder: '50', water: '6' }, 'in')!.share).toBeCloseTo(0.25, 2);
  expect(mixedWater({ powder: '22.68', water: '6' }, 'in', { powder: 'kg' })!.share).toBeCloseTo(0.25, 2);
});

test('a repair offers what is outside its limit, owned up to or failed, until it is mended', () => {
  const deviation: Said = { id: 'dev', kind: 'deviation', data: { surfaces: ['floor'], what: 'x', why: '', against: null, accepted: '' } };
  const fill: Said = {
    id: 'fill',
    kind: 'flood-fill',
    data: {
      profile: 'contract',
      holdMin: '60',
      depth: null,
      under: ['floor'],
      above: '',
      plug: 'below-flange',
      line: true,
      ceiling: 'dry',
      dam: true,
      soaked: true,
      sign: true,
      pan: false,
    },
  };
  const end: Said = { kind: 'flood-end', data: { attempt: 'fill', result: 'failed', words: '' } };
  const patch = (of: string[]): Said => ({ kind: 'repair', data: { surfaces: ['floor'], what: 'Patch', of } });
  expect(ids('repair', 'of', log(short, deviation, fill, end))).toEqual(['fill', 'dev', 'short']);
  expect(ids('repair', 'of', log(short, deviation, fill, end, patch(['fill', 'short'])))).toEqual(['dev']);
  expect(ids('repair', 'of', log(patch(['fill'])), { of: ['gone'] })).toEqual(['gone']);
});

test('a deviation is against a reading, a wait or a limit; going on early is from a wait that lasts; owed items are those of the step', () => {
  const wait: Said = {
    id: 'wait',
    kind: 'wait',
    data: {
      what: 'before-flooding',
      surfaces: ['floor'],
      fromUtc: utcOf(540),
      readyUtc: utcOf(540 + 1440),
      latestUtc: null,
      limit: 'cure',
    },
  };
  const job = log(short, wait);
  expect(ids('deviation', 'against', job)).toEqual(['short', 'wait', 'lap', 'cure', 'pot']);
  expect(ids('early', 'wait', job)).toEqual(['wait']);
  expect(ids('not-done', 'items', job, { step: 'corners' })).toEqual(['corner:no-room']);
  expect(ids('not-done', 'items', job)).toEqual([]);
});

test('what a link says stands in the form, the rest is not presumed', () => {
  const job = log(short);
  expect(firstTyped('repair', job, { surfaces: ['floor', 'elsewhere'], about: ['short'], step: null }, NOW).typed).toEqual({
    of: ['short'],
    what: '',
    surfaces: ['floor'],
  });
  expect(firstTyped('inspection', job, NOTHING, NOW).typed).toEqual({
    what: '',
    result: '',
    permit: 'P-7',
    day: '2026-03-02',
    who: '',
    words: '',
  });
  expect(firstTyped('tile-check', job, NOTHING, NOW).typed).toEqual({ surfaces: [], whole: '', dry: '', undamaged: '', words: '' });
  expect(firstTyped('not-done', job, { ...NOTHING, step: 'corners', about: ['corner:no-room'] }, NOW).typed).toMatchObject({
    step: 'corners',
    items: ['corner:no-room'],
  });
});

test('conditions are carried over and say so, but never the night; asked once a day by the clock on the wall', () => {
  const said = { air: quantity('68', 'F'), humidity: quantity('55', '%'), lowest: quantity('40', 'F') };
  const job = log({ id: 'seen', kind: 'conditions', data: said });
  expect(firstTyped('conditions', job, NOTHING, NOW)).toEqual({
    typed: { air: '68', humidity: '55', surface: '', lowest: '', highest: '' },
    from: 'seen',
  });
  expect(formDraft('conditions', { air: '68' }, { ...AROUND, from: 'seen' })).toMatchObject({
    ok: true,
    value: { refs: ['seen'], data: { from: 'seen' } },
  });
  expect(conditionsDue(log(), NOW)).toBe(true);
  expect(conditionsDue(job, NOW)).toBe(false);
  // 11 pm the same day, and 1 am the next, at six hours west.
  expect(conditionsDue(job, { utc: '2026-03-03T05:00:00.000Z', offsetMin: -360 })).toBe(false);
  expect(conditionsDue(job, { utc: '2026-03-03T07:00:00.000Z', offsetMin: -360 })).toBe(true);
});

// Dew points by the Magnus form as in tests/vectors/trade; 21 C, 50 % gives 10.2 C.
test.each<[air: string, humidity: string | null, surfaceC: string | null, shown: null | { spread: number | null; met: boolean | null }]>([
  ['21', '50', '21', null],
  ['21', '50', '15', { spread: 4.8, met: true }],
  ['21', '50', '12', { spread: 1.8, met: false }],
  ['21', '50', null, null],
  ['9', '50', null, { spread: null, met: null }],
  ['21', '81', null, { spread: null, met: null }],
  ['21', '80', null, null],
  ['21', null, '5', null],
])('air %s C, %s %%, surface %s C: %j', (air, humidity, surfaceC, shown) => {
  const c = (value: string): Quantity => ({ text: value, value, unit: 'C' });
  const dew = dewPointThatMatters({
    air: c(air),
    ...(humidity !== null && { humidity: { text: humidity, value: humidity, unit: '%' } }),
    ...(surfaceC !== null && { surface: c(surfaceC) }),
  });
  expect(dew === null ? null : { spread: dew.spreadK === null ? null : Math.round(dew.spreadK * 10) / 10, met: dew.met }).toEqual(shown);
});

test('a pail starts its own clocks, another of the same too; a patch starts its cure unless a repair is running', () => {
  const at = utcOf(700);
  const material: Said = { kind: 'material', data: { material: 'bag', what: 'mortar', name: 'Bag', lot: '1', useBy: null } };
  const pail = (data: object): Draft => ({ kind: 'mix', data: { material: null, surfaces: [], ...data } });
  const what = (drafts: Draft[]) => drafts.map((draft) => draft.kind === 'wait' && draft.data.what);
  expect(what(begunBy(pail({ material: 'bag' }), log(material), at))).toEqual(['pot-life']);
  expect(
    what(begunBy(pail({ same: 'first' }), log(material, { id: 'first', kind: 'mix', data: { material: 'bag', surfaces: [] } }), at)),
  ).toEqual(['pot-life']);
  const patch: Draft = { kind: 'repair', data: { surfaces: ['floor'], what: 'Patch', of: [] } };
  expect(begunBy(patch, log(), at)).toMatchObject([
    { kind: 'wait', data: { what: 'before-flooding', fromUtc: at, readyUtc: utcOf(700 + 1440), limit: 'cure' } },
  ]);
  expect(begunBy(patch, log({ kind: 'run-start', data: { step: 'repair', surfaces: ['floor'] } }), at)).toEqual([]);
});
