import { project } from '#lib/job/project.ts';
import { proofOwed } from '#lib/job/proof.ts';
import type { JobState, Run, Shot } from '#lib/job/state.ts';
import { frontOwed, inTray, onStrip, photosOwed, runsNear, sorted, tagDrafts, takenTogether, wouldAnswer } from '#lib/job/tray.ts';
import { knownData, type Draft } from '#lib/record/kinds.ts';
import { expect, test } from 'vitest';
import { chain, type Said } from '../../fixtures/log.ts';

const picture = { sha256: 'a'.repeat(64), bytes: 9, type: 'image/jpeg' };
const shot = (id: string, at: string, more: Partial<Said> & { data?: object } = {}): Said => ({
  kind: 'shot',
  id,
  at,
  ...more,
  data: { picture, from: 'viewfinder', surface: null, ...more.data },
});
const surface = (id: string, place: string): Said => ({
  kind: 'surface',
  data: { surface: id, name: id, place, system: 'sheet-and-liquid' },
});
const start = (id: string, at: string, step: string, more: Partial<Said> = {}): Said => ({
  kind: 'run-start',
  id,
  at,
  ...more,
  data: { step, surfaces: [], ...more.data },
});
const stop = (run: string, at: string): Said => ({ kind: 'run-stop', run, at, refs: [run], data: { end: 'touched' } });
const JOB: readonly Said[] = [
  { kind: 'job', data: { name: 'Hall bath', address: '', units: 'in', lang: 'en' } },
  surface('north', 'wall'),
  surface('floor', 'floor'),
];

const jobOf = (...said: readonly Said[]): JobState => project(chain('a', [...JOB, ...said])).state;
const ids = (shots: readonly Shot[]) => shots.map(({ id }) => id);
const asEntry = (draft: Draft, at: string): Said => ({ kind: draft.kind, refs: draft.refs ?? [], data: draft.data, at });

test('the tray holds what nobody has placed, newest first; frames of a watch lie on the strip', () => {
  const { shots } = jobOf(
    start('run', '09:10', 'scrape'),
    shot('loose', '09:20'),
    shot('placed', '09:21', { run: 'run' }),
    shot('frame', '09:22', { run: 'run', data: { from: 'watch' } }),
    shot('file', '09:23', { data: { from: 'file' } }),
    shot('label', '09:24', { data: { material: 'pail' } }),
  );
  expect([ids(inTray(shots)), ids(onStrip(shots)), ids(sorted(shots))]).toEqual([['file', 'loose'], ['frame'], ['label', 'placed']]);
});

test.each([
  ['ten minutes apart are one group', ['09:00', '09:10', '09:20'], [['2', '1', '0']]],
  ['eleven minutes apart are two', ['09:00', '09:11'], [['1'], ['0']]],
  ['a clock set back by an hour parts them too', ['10:00', '09:00', '09:05'], [['2', '1'], ['0']]],
  ['none', [], []],
] as const)('%s', (_, times, groups) => {
  const { shots } = jobOf(...times.map((at, i) => shot(String(i), at)));
  expect(takenTogether(inTray(shots)).map(ids)).toEqual(groups);
});

test.each<[what: string, at: readonly string[], nearest: string]>([
  ['inside a run', ['09:15'], 'scrape'],
  ['between two runs, nearer to the second', ['10:28'], 'cut'],
  ['between two runs, nearer to the first', ['09:35'], 'scrape'],
  ['before all', ['08:00'], 'scrape'],
  ['while one is still open', ['12:00'], 'open'],
  ['most of them in one run', ['09:31', '10:35', '10:40'], 'cut'],
])('photos taken %s are offered %s', (_, at, nearest) => {
  const job = jobOf(
    start('scrape', '09:10', 'scrape'),
    stop('scrape', '09:30'),
    start('cut', '10:30', 'pre-cut'),
    stop('cut', '11:00'),
    start('open', '11:30', 'band-seams'),
  );
  const shots = at.map((time, i) => ({ id: String(i), by: 'ana', utc: `2026-03-02T${time}:00.000Z` }) as Shot);
  expect(runsNear(job.runs, shots, '2026-03-02T13:00:00.000Z')[0]?.id).toBe(nearest);
});

test('of two runs open at once, the one of whoever took the photo; else the one begun last', () => {
  const run = (id: string, by: string, startUtc: string) => ({ id, by, startUtc: `2026-03-02T${startUtc}:00.000Z`, stopUtc: null }) as Run;
  const runs = [run('mine', 'ana', '09:00'), run('theirs', 'ben', '09:30')];
  const by = (person: string) =>
    runsNear(runs, [{ by: person, utc: '2026-03-02T09:40:00.000Z' } as Shot], '2026-03-02T10:00:00.000Z').map(({ id }) => id);
  expect([by('ana'), by('ben'), by('cleo')]).toEqual([
    ['mine', 'theirs'],
    ['theirs', 'mine'],
    ['theirs', 'mine'],
  ]);
  // Nothing taken up yet, and no run at all.
  expect([runsNear(runs, [], '2026-03-02T10:00:00.000Z')[0]?.id, runsNear([], [], '2026-03-02T10:00:00.000Z')]).toEqual(['theirs', []]);
});

const bands = { step: 'band-seams', surfaces: ['floor'], coat: null } as const;

test('what a photo may show: what is still owed for the step on its surfaces, and the house once a room', () => {
  const job = jobOf(
    start('run', '09:10', 'band-seams'),
    shot('base', '09:11', { run: 'run', data: { surface: 'floor', shows: ['base-band'] } }),
  );
  const rules = (of: Parameters<typeof photosOwed>[1]) => photosOwed(proofOwed(job), of).map(({ rule }) => rule.id);
  const [floor, north, anywhere] = [['floor'], ['north'], []].map((surfaces) => rules({ ...bands, surfaces })) as [
    string[],
    string[],
    string[],
  ];
  expect(floor).toContain('banded');
  // Shown already.
  expect(anywhere).not.toContain('base-band');
  // Owed on walls alone.
  expect([floor, north, anywhere].map((list) => list.includes('collar'))).toEqual([false, true, true]);
  expect(new Set([...floor, ...north])).toEqual(new Set(anywhere));
  expect(rules({ ...bands, step: null })).toEqual([]);
  expect(frontOwed(proofOwed(job), bands).map(({ rule }) => rule.id)).toEqual(['front']);
  // At the survey it is owed like all else, and is not offered twice.
  expect(frontOwed(proofOwed(job), { ...bands, step: 'survey' })).toEqual([]);
  const shown = jobOf(shot('door', '09:00', { data: { shows: ['front'] } }));
  expect(frontOwed(proofOwed(shown), bands)).toEqual([]);
});

test.each<[what: string, of: Parameters<typeof wouldAnswer>[1], shows: readonly string[], keys: readonly string[]]>([
  ['a place alone answers the overview', bands, [], ['banded']],
  ['no place answers nothing', { ...bands, surfaces: [] }, [], []],
  ['what is named answers itself alone', bands, ['base-band'], ['base-band']],
  ['one photo answers several', bands, ['base-band', 'banded'], ['banded', 'base-band']],
  ['what is named elsewhere is not answered here', { ...bands, surfaces: ['north'] }, ['base-band'], []],
  ['the second coat is not the first', { step: 'liquid-coat', surfaces: ['floor'], coat: 2 }, [], []],
  ['a run that counts no coats is the first', { step: 'liquid-coat', surfaces: ['floor'], coat: null }, [], ['coated']],
])('%s', (_, of, shows, keys) => {
  const job = jobOf(start('run', '09:10', 'scrape'));
  expect(wouldAnswer(proofOwed(job), of, shows).map(({ rule }) => rule.id)).toEqual(keys);
});

test('a tag sorts many at once, answers what it was said to answer, and a later one takes its place', () => {
  const said = [start('run', '09:10', 'band-seams'), stop('run', '09:15'), ...['a', 'b', 'c'].map((id, i) => shot(id, `09:2${i}`))];
  const before = jobOf(...said);
  const answers = wouldAnswer(proofOwed(before), bands, ['base-band']).map(({ key }) => key);
  const [tag] = tagDrafts(['a', 'b'], { run: 'run', step: 'band-seams', surfaces: ['floor', 'north'], shows: ['base-band'] });
  // The run says its own step.
  expect(tag).toMatchObject({ refs: ['run', 'a', 'b'], data: { run: 'run', step: null } });
  expect(knownData('tag', tag!.data).kind).toBe('tag');
  const after = jobOf(...said, asEntry(tag!, '09:40'));
  expect([ids(inTray(after.shots)), ids(sorted(after.shots))]).toEqual([['c'], ['b', 'a']]);
  expect(after.shots[0]).toMatchObject({ step: 'band-seams', run: 'run', surfaces: ['floor', 'north'], shows: ['base-band'] });
  const shown = proofOwed(after).flatMap((layer) => layer.items.filter((item) => item.shown).map((item) => item.key));
  expect(shown).toEqual(answers);

  const [again] = tagDrafts(['a'], { run: null, step: 'scrape', surfaces: ['floor'], shows: [] });
  const retagged = jobOf(...said, asEntry(tag!, '09:40'), asEntry(again!, '09:50'));
  expect(retagged.shots[0]).toMatchObject({ step: 'scrape', surfaces: ['floor'], shows: [] });
});

test('more photos than one entry may name become several', () => {
  const many = Array.from({ length: 1001 }, (_, i) => `shot-${i}`);
  const drafts = tagDrafts(many, { run: null, step: 'scrape', surfaces: ['floor'], shows: [] });
  expect(drafts.map(({ data }) => (data as { shots: string[] }).shots.length)).toEqual([500, 500, 1]);
  expect(drafts.every(({ kind, data }) => knownData(kind, data).kind === 'tag')).toBe(true);
  expect(tagDrafts([], { run: null, step: null, surfaces: [], shows: [] })).toEqual([]);
});
