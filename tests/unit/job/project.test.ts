import { extend, project, surfacesOf } from '#lib/job/project.ts';
import { EMPTY_JOB, FACT_KINDS, type JobState } from '#lib/job/state.ts';
import { KINDS, type Kind } from '#lib/record/kinds.ts';
import { expect, test } from 'vitest';
import { chain, utcOf, type Said } from '../../fixtures/log.ts';
import { ONE_OF_EACH } from '../../fixtures/one-of-each.ts';
import { amend, PICTURE, run, shot as shotIn, surface } from '../../fixtures/shower.ts';

const HASH = 'a'.repeat(64);
const NORTH = ONE_OF_EACH.surface;
const LAP = { limit: 'lap', what: 'overlap', min: '2', max: null, unit: 'in', source: { kind: 'data-sheet', text: 'p. 2' } };
const said = { text: '2 1/4', value: '2.25', unit: 'in' };

const job: Said = { kind: 'job', data: ONE_OF_EACH.job };
const start = (id: string, surfaces: string[] = ['north'], at?: string): Said => ({
  ...run('bond-sheets', surfaces, { id }),
  ...(at && { at }),
});
const stop = (of: string, end = 'touched', at?: string): Said => ({ kind: 'run-stop', run: of, data: { end }, ...(at && { at }) });
const shot = (of?: string, on: string | null = null, at?: string): Said => ({
  kind: 'shot',
  ...(of && { run: of }),
  ...(at && { at }),
  data: { picture: PICTURE, from: 'file', surface: on, cameraSays: { taken: '2026:03:02 09:00:00' } },
});

const moment = { id: 'a-0', run: null, by: 'ana', utc: utcOf(540), offsetMin: -360 };
const isFact = (kind: Kind): kind is (typeof FACT_KINDS)[number] => (FACT_KINDS as readonly Kind[]).includes(kind);

/** What each kind alone does to the state, besides its line; kinds kept as they were said are in lists of their own. */
const ALONE: { readonly [K in Exclude<Kind, (typeof FACT_KINDS)[number]>]: object } = {
  device: {},
  person: { people: { ana: 'Ana Ruiz' } },
  job: { name: 'Hall bath', address: '12 Elm St', units: 'mm', lang: 'es', example: false, permit: 'B-12', proof: 'warranty' },
  room: { rooms: [ONE_OF_EACH.room] },
  surface: { surfaces: [NORTH] },
  limit: { limits: [ONE_OF_EACH.limit] },
  material: { materials: [ONE_OF_EACH.material] },
  'own-system': { ownSystems: [ONE_OF_EACH['own-system']] },
  'own-rule': { ownRules: [ONE_OF_EACH['own-rule']] },
  drawing: { drawings: [{ id: 'a-0', room: 'bath', data: ONE_OF_EACH.drawing, open: false }] },
  'run-start': {
    runs: [
      {
        id: 'a-0',
        step: 'liquid-coat',
        surfaces: ['north'],
        coat: 2,
        materials: ['m-1'],
        by: 'ana',
        startUtc: utcOf(540),
        startOffsetMin: -360,
        stopUtc: null,
        stopAbout: false,
        open: false,
      },
    ],
  },
  'run-stop': {},
  shot: {
    shots: [
      {
        ...moment,
        step: null,
        coat: null,
        surfaces: ['north'],
        shows: ['collar'],
        distance: 'close',
        pair: 'a-1',
        material: 'm-1',
        picture: PICTURE,
        from: 'viewfinder',
        cameraSaysTaken: '2026:03:02 09:00:00',
        sorted: true,
      },
    ],
  },
  tag: {},
  reading: { readings: [{ ...moment, ...unspoken(ONE_OF_EACH.reading), step: null, open: false }] },
  amendment: {},
  withdrawal: {},
  record: { records: [{ id: 'a-0', utc: utcOf(540), offsetMin: -360, paper: null, pdf: HASH, pictures: [], derived: [] }] },
};

/** How a value was spoken stands in the log and changes nothing of what it means. */
function unspoken(data: object): object {
  const spoken = ['heard', 'otherHeard', 'engine', 'confirmedHow', 'clip', 'clipHash'];
  return Object.fromEntries(Object.entries(data).filter(([field]) => !spoken.includes(field)));
}

test.each([...KINDS])('%s: what it alone does to the state', (kind) => {
  const entries = chain('a', [{ kind, data: ONE_OF_EACH[kind] }]);
  const fact = { ...moment, device: 'a', data: ONE_OF_EACH[kind], open: false };
  const alone = isFact(kind) ? { facts: { ...EMPTY_JOB.facts, [kind]: [fact] } } : ALONE[kind];
  const standing = { view: { kind, data: ONE_OF_EACH[kind] }, state: 'stands', amendments: [] };
  expect(project(entries).state).toEqual({
    ...EMPTY_JOB,
    id: 'hall-bath',
    ...alone,
    lines: [{ entry: entries[0], unknown: false, standing }],
  });
});

test.each<[what: string, said: Said]>([
  ['a kind of a newer version', { kind: 'moisture-map', data: { cells: [1] } }],
  ['a kind named like an inherited property', { kind: 'constructor', data: {} }],
  ['a known kind in another shape', { kind: 'surface', data: { surface: 'x', name: '', place: 'ceiling', system: 'sheet' } }],
])('%s is shown as unknown and changes nothing else', (_, one) => {
  const entries = chain('a', [one]);
  const standing = { view: { kind: 'unknown' }, state: 'stands', amendments: [] };
  expect(project(entries).state).toEqual({ ...EMPTY_JOB, id: 'hall-bath', lines: [{ entry: entries[0], unknown: true, standing }] });
});

test('a later entry of the same id replaces what is shown and keeps its place', () => {
  const { state } = project(
    chain('a', [
      job,
      { kind: 'surface', data: NORTH },
      surface('floor', 'floor', 'sheet'),
      { kind: 'limit', data: LAP },
      { kind: 'person', data: { person: 'ana', name: 'Anna' } },
      { kind: 'material', data: ONE_OF_EACH.material },
      { kind: 'surface', data: { ...NORTH, name: 'Shower wall' } },
      { kind: 'limit', data: { ...LAP, min: '3' } },
      { kind: 'person', data: { person: 'ana', name: 'Ana' } },
      { kind: 'material', data: { ...ONE_OF_EACH.material, left: '0' } },
      { ...job, data: { ...job.data, name: 'Main bath' } },
    ]),
  );
  expect(state.surfaces.map(({ name }) => name)).toEqual(['Shower wall', 'floor']);
  expect([state.limits.map(({ min }) => min), state.materials.map(({ left }) => left)]).toEqual([['3'], ['0']]);
  expect([state.people, state.name, state.lines.length]).toEqual([{ ana: 'Ana' }, 'Main bath', 11]);
});

// When a run ended: [utc minute, about].
test.each<[promise: string, said: Said[], stop: [number, boolean] | null]>([
  ['never stopped', [start('r')], null],
  ['touched', [start('r'), stop('r', 'touched', '10:00')], [600, false]],
  ['the first stop counts', [start('r'), stop('r', 'touched', '10:00'), stop('r', 'about', '11:00')], [600, false]],
  [
    'forgotten: about its last shot',
    [start('r'), shot('r', null, '09:30'), shot('r', null, '09:40'), shot('q', null, '09:50'), stop('r', 'about', '17:00')],
    [580, true],
  ],
  ['forgotten, without a shot: when it was noticed', [start('r'), stop('r', 'about', '17:00')], [1020, true]],
  ['another run stopped', [start('r'), start('q'), stop('q', 'touched', '10:00')], null],
  ['a run nobody started is stopped', [start('r'), stop('x')], null],
])('a run, %s', (_, entries, expected) => {
  const one = project(chain('a', entries)).state.runs.find(({ id }) => id === 'r')!;
  expect([one.stopUtc, one.stopAbout]).toEqual(expected === null ? [null, false] : [utcOf(expected[0]), expected[1]]);
});

test('several runs are open at once, by different people, and each has its own photos and end', () => {
  const a = [start('bond', ['north']), shot('bond'), stop('bond', 'touched', '10:00')];
  const b = [run('scrape', ['floor'], { id: 'scrape-b' }), shot('scrape-b'), shot('bond')].map((one) => ({ ...one, by: 'luis' }));
  const { state } = project([...chain('a', a), ...chain('b', b)]);
  expect(state.runs.map(({ id, by, stopUtc }) => [id, by, stopUtc])).toEqual([
    ['bond', 'ana', utcOf(600)],
    ['scrape-b', 'luis', null],
  ]);
  expect(state.shots.map(({ by, step, surfaces }) => [by, step, surfaces[0]])).toEqual([
    ['ana', 'bond-sheets', 'north'],
    ['luis', 'scrape', 'floor'],
    ['luis', 'bond-sheets', 'north'],
  ]);
});

test('two phones: a run is known before the shot, reading and stop of a phone whose clock is an hour behind', () => {
  const a = chain('a', [start('r', ['north'], '10:00')]);
  const b = chain('b', [
    shot('r', null, '09:01'),
    { kind: 'reading', run: 'r', data: { what: 'overlap', surface: null, said, how: 'tape' } },
    stop('r'),
  ]);
  const { state } = project([...b, ...a]);
  expect(state.shots.map(({ step, surfaces }) => [step, surfaces])).toEqual([['bond-sheets', ['north']]]);
  expect(state.readings.map(({ step, surface: on }) => [step, on])).toEqual([['bond-sheets', 'north']]);
  expect(state.runs[0]!.stopUtc).toBe(utcOf(543));
});

test.each<[promise: string, surfaces: string[], on: string | null, run: string | undefined, place: [string | null, string[], boolean]]>([
  ['of a run on one surface is on that surface', ['north'], null, 'r', ['bond-sheets', ['north'], true]],
  ['of a run on two is of its step', ['north', 'floor'], null, 'r', ['bond-sheets', [], true]],
  ['of a run on none is of its step', [], null, 'r', ['bond-sheets', [], true]],
  ['is where it says, not where its run is', ['north'], 'floor', 'r', ['bond-sheets', ['floor'], true]],
  ['without a run lies in the tray', ['north'], null, undefined, [null, [], false]],
  ['of a run that is not there has its surface only', ['north'], 'north', 'gone', [null, ['north'], true]],
])('a shot %s', (_, surfaces, on, of, place) => {
  const [one] = project(chain('a', [start('r', surfaces), shot(of, on)])).state.shots;
  expect([one!.step, one!.surfaces, one!.sorted, one!.cameraSaysTaken]).toEqual([...place, '2026:03:02 09:00:00']);
});

test.each<[what: string, more: object, sorted: boolean]>([
  ['a photo with nothing said of it', {}, false],
  ['one with its surfaces', { surfaces: ['north'] }, true],
  ['one that says what it shows', { shows: ['front'] }, true],
  ['the photo of a label', { material: 'm-1' }, true],
  ['a frame of a watch, even in a run', { from: 'watch', surfaces: ['north'] }, false],
])('%s: sorted is %3$s', (_, more, sorted) => {
  expect(project(chain('a', [shotIn(null, more)])).state.shots[0]!.sorted).toBe(sorted);
});

const tag = (shots: string[], more: object): Said => ({
  kind: 'tag',
  refs: shots,
  data: { shots, run: null, step: null, surfaces: [], ...more },
});
const SHOTS = [shotIn(null, {}, 'p'), shotIn(null, { from: 'watch' }, 'w'), shotIn('r', {}, 'q')];
const tagged = (...tags: Said[]) =>
  project(
    chain('a', [start('r', ['north', 'floor']), run('liquid-coat', ['floor'], { id: 'c', coat: 2 }), ...SHOTS, ...tags]),
  ).state.shots.map(
    ({ id, step, coat, surfaces, shows, sorted }) => `${id}: ${[step, coat, surfaces.join('+'), shows.join('+'), sorted].join(' ')}`,
  );

test('a tag sorts many photos at once, and the latest of a photo stands', () => {
  expect(tagged()).toEqual(['p:     false', 'w:     false', 'q: bond-sheets    true']);
  expect(tagged(tag(['p', 'w'], { step: 'scrape', surfaces: ['north', 'floor'] }))).toEqual([
    'p: scrape  north+floor  true',
    'w: scrape  north+floor  true',
    'q: bond-sheets    true',
  ]);
  expect(
    tagged(
      tag(['p', 'q'], { run: 'c', surfaces: ['floor'], shows: ['collar', 'corner'] }),
      tag(['p'], { step: 'check', surfaces: ['north'] }),
    ),
  ).toEqual(['p: check 2 north  true', 'w:     false', 'q: liquid-coat 2 floor collar+corner true']);
  expect(tagged(tag(['nowhere'], { step: 'scrape' }))).toEqual(tagged());
  expect(tagged(tag(['q'], { run: 'c', surfaces: [] }), tag(['q'], { run: 'r', surfaces: [] }))[2]).toBe('q: bond-sheets    true');
});

test('a tag keeps the distance a photo had, unless it says another', () => {
  const distance = (...tags: Said[]) => project(chain('a', [shotIn(null, { distance: 'wide' }, 'p'), ...tags])).state.shots[0]!.distance;
  expect([distance(tag(['p'], {})), distance(tag(['p'], { distance: 'close' }))]).toEqual(['wide', 'close']);
});

test('a reading has the coat and surface of its run, unless it says its own', () => {
  const readings = (more: object) =>
    project(
      chain('a', [
        run('liquid-coat', ['floor'], { id: 'c', coat: 2 }),
        { kind: 'reading', run: 'c', data: { what: 'wet-film', surface: null, said, how: 'typed', ...more } },
      ]),
    ).state.readings.map(({ coat, surface: on, step }) => [coat, on, step]);
  expect([readings({}), readings({ coat: 1, surface: 'north' })]).toEqual([[[2, 'floor', 'liquid-coat']], [[1, 'north', 'liquid-coat']]]);
});

test('surfaces of a run: those it names that the job has, or all of the job’s', () => {
  const { state } = project(
    chain('a', [surface('n', 'wall', 'sheet'), surface('f', 'floor', 'sheet'), start('one', ['f', 'gone']), start('all', [])]),
  );
  const on = (of: JobState['runs'][number] | null) => surfacesOf(state, of).map(({ surface: id }) => id);
  expect([on(state.runs[0]!), on(state.runs[1]!), on(null)]).toEqual([['f'], ['n', 'f'], ['n', 'f']]);
});

test('an amendment heard of before what it amends is not forgotten when that comes', () => {
  // The correcting phone names nothing in its refs, and its clock is far behind: read by time alone, it stands before its target.
  const target = chain('a', [{ ...shot(undefined, 'north'), id: 'p', at: '12:00' }]);
  const correction = chain('b', [{ ...amend('p', { picture: PICTURE, from: 'file', surface: 'floor' }), refs: [], at: '08:00' }]);
  const bitByBit = extend(project(correction), target);
  expect(bitByBit).toEqual(project([...target, ...correction]));
  expect(bitByBit.state.shots[0]!.surfaces).toEqual(['floor']);
});
