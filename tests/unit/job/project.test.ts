import { EMPTY_JOB, project, type JobState } from '#lib/job/project.ts';
import { KINDS } from '#lib/record/kinds.ts';
import { expect, test } from 'vitest';
import { chain, utcOf, type Said } from '../../fixtures/log.ts';

const HASH = 'a'.repeat(64);
const picture = { sha256: HASH, bytes: 9, type: 'image/jpeg' };
const NORTH = { surface: 'north', name: 'North wall', place: 'wall', system: 'sheet' };
const LAP = { limit: 'lap', what: 'overlap', min: '2', max: null, unit: 'in', source: { kind: 'data-sheet', text: 'p. 2' } };
const said = { text: '2 1/4', value: '2.25', unit: 'in' };

const job: Said = { kind: 'job', data: { name: 'Hall bath', address: '12 Elm St', units: 'mm', lang: 'es' } };
const start = (id: string, surfaces: string[] = ['north'], at?: string): Said => ({ kind: 'run-start', id, data: { step: 'bond-sheets', surfaces }, ...(at && { at }) });
const stop = (run: string, end = 'touched', at?: string): Said => ({ kind: 'run-stop', run, data: { end }, ...(at && { at }) });
const shot = (run?: string, surface: string | null = null, at?: string): Said => ({
  kind: 'shot',
  ...(run && { run }),
  ...(at && { at }),
  data: { picture, from: 'file', surface, cameraSays: { taken: '2026:03:02 09:00:00' } },
});

const moment = { by: 'ana', utc: utcOf(540), offsetMin: -360 };
const ONE_OF_EACH: Record<string, [data: object, state: Partial<JobState>]> = {
  device: [{ key: { alg: 'none', why: 'no-key-store' } }, {}],
  person: [{ person: 'ana', name: 'Ana Ruiz' }, { people: { ana: 'Ana Ruiz' } }],
  job: [job.data!, { name: 'Hall bath', address: '12 Elm St', units: 'mm', lang: 'es', example: false }],
  surface: [NORTH, { surfaces: [NORTH as JobState['surfaces'][number]] }],
  limit: [LAP, { limits: [LAP as JobState['limits'][number]] }],
  'run-start': [
    { step: 'scrape', surfaces: ['north'] },
    { runs: [{ id: 'a-0', step: 'scrape', surfaces: ['north'], by: 'ana', startUtc: utcOf(540), startOffsetMin: -360, stopUtc: null, stopAbout: false }] },
  ],
  'run-stop': [{ end: 'touched' }, {}],
  shot: [
    { picture, from: 'viewfinder', surface: 'north' },
    { shots: [{ id: 'a-0', run: null, step: null, surface: 'north', picture, from: 'viewfinder', cameraSaysTaken: null, ...moment }] },
  ],
  reading: [
    { what: 'overlap', surface: 'north', said, how: 'tape' },
    { readings: [{ id: 'a-0', run: null, step: null, surface: 'north', what: 'overlap', said: said as never, how: 'tape', ...moment }] },
  ],
  'clock-jump': [{ wallDeltaMs: -3_600_000, monoDeltaMs: null }, { clockJumps: 1 }],
  record: [
    { rules: 'r', lang: 'en', heads: [], document: {}, pictures: [HASH], pdf: { sha256: HASH, bytes: 9 } },
    { records: [{ id: 'a-0', utc: utcOf(540), offsetMin: -360, pdf: HASH, pictures: [HASH] }] },
  ],
};

test.each([...KINDS])('%s: what it alone does to the state', (kind) => {
  const [data, state] = ONE_OF_EACH[kind]!;
  const entries = chain('a', [{ kind, data }]);
  expect(project(entries).state).toEqual({ ...EMPTY_JOB, id: 'hall-bath', ...state, lines: [{ entry: entries[0], unknown: false }] });
});

test.each<[what: string, said: Said]>([
  ['a kind of a newer version', { kind: 'moisture-map', data: { cells: [1] } }],
  ['a kind named like an inherited property', { kind: 'constructor', data: {} }],
  ['a known kind in another shape', { kind: 'surface', data: { surface: 'x', name: '', place: 'ceiling', system: 'sheet' } }],
])('%s is shown as unknown and changes nothing else', (_, one) => {
  const entries = chain('a', [one]);
  expect(project(entries).state).toEqual({ ...EMPTY_JOB, id: 'hall-bath', lines: [{ entry: entries[0], unknown: true }] });
});

test('a later entry of the same id replaces what is shown and keeps its place', () => {
  const { state } = project(
    chain('a', [
      job,
      { kind: 'surface', data: NORTH },
      { kind: 'surface', data: { ...NORTH, surface: 'floor', place: 'floor', name: 'Floor' } },
      { kind: 'limit', data: LAP },
      { kind: 'person', data: { person: 'ana', name: 'Anna' } },
      { kind: 'surface', data: { ...NORTH, name: 'Shower wall' } },
      { kind: 'limit', data: { ...LAP, min: '3' } },
      { kind: 'person', data: { person: 'ana', name: 'Ana' } },
      { ...job, data: { ...job.data, name: 'Main bath' } },
    ]),
  );
  expect(state.surfaces.map(({ name }) => name)).toEqual(['Shower wall', 'Floor']);
  expect(state.limits.map(({ min }) => min)).toEqual(['3']);
  expect([state.people, state.name, state.lines.length]).toEqual([{ ana: 'Ana' }, 'Main bath', 9]);
});

// When a run ended: [utc minute, about].
test.each<[promise: string, said: Said[], stop: [number, boolean] | null]>([
  ['never stopped', [start('r')], null],
  ['touched', [start('r'), stop('r', 'touched', '10:00')], [600, false]],
  ['the first stop counts', [start('r'), stop('r', 'touched', '10:00'), stop('r', 'about', '11:00')], [600, false]],
  ['forgotten: about its last shot', [start('r'), shot('r', null, '09:30'), shot('r', null, '09:40'), shot('q', null, '09:50'), stop('r', 'about', '17:00')], [580, true]],
  ['forgotten, without a shot: when it was noticed', [start('r'), stop('r', 'about', '17:00')], [1020, true]],
  ['another run stopped', [start('r'), start('q'), stop('q', 'touched', '10:00')], null],
  ['a run nobody started is stopped', [start('r'), stop('x')], null],
])('a run, %s', (_, entries, expected) => {
  const run = project(chain('a', entries)).state.runs.find(({ id }) => id === 'r')!;
  expect([run.stopUtc, run.stopAbout]).toEqual(expected === null ? [null, false] : [utcOf(expected[0]), expected[1]]);
});

test('two phones: a run is known before the shot, reading and stop of a phone whose clock is an hour behind', () => {
  const a = chain('a', [start('r', ['north'], '10:00')]);
  const b = chain('b', [shot('r', null, '09:01'), { kind: 'reading', run: 'r', data: { what: 'overlap', surface: null, said, how: 'tape' } }, stop('r')]);
  const { state } = project([...b, ...a]);
  expect([...state.shots, ...state.readings].map(({ step, surface }) => [step, surface])).toEqual([
    ['bond-sheets', 'north'],
    ['bond-sheets', 'north'],
  ]);
  expect(state.runs[0]!.stopUtc).toBe(utcOf(543));
});

test.each<[promise: string, surfaces: string[], on: string | null, run: string | undefined, place: [string | null, string | null]]>([
  ['of a run on one surface is on that surface', ['north'], null, 'r', ['bond-sheets', 'north']],
  ['of a run on two waits for its surface', ['north', 'floor'], null, 'r', ['bond-sheets', null]],
  ['of a run on none waits for its surface', [], null, 'r', ['bond-sheets', null]],
  ['is where it says, not where its run is', ['north'], 'floor', 'r', ['bond-sheets', 'floor']],
  ['without a run lies in the tray', ['north'], null, undefined, [null, null]],
  ['of a run that is not there lies in the tray', ['north'], 'north', 'gone', [null, 'north']],
])('a shot %s', (_, surfaces, on, run, place) => {
  const [one] = project(chain('a', [start('r', surfaces), shot(run, on)])).state.shots;
  expect([one!.step, one!.surface, one!.cameraSaysTaken]).toEqual([...place, '2026:03:02 09:00:00']);
});
