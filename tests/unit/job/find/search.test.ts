import { expect, test } from 'vitest';
import { cardOf, type JobCard } from '#lib/job/find/card.ts';
import { keepCard } from '#lib/job/find/keep.ts';
import { findJobs, jobsWithLot, newestIds } from '#lib/job/find/search.ts';
import { EMPTY_JOB } from '#lib/job/state.ts';
import { MemoryShelf } from '#lib/record/memory-shelf.ts';
import { project } from '#lib/job/project.ts';
import { chain } from '../../../fixtures/log.ts';
import { ONE_OF_EACH } from '../../../fixtures/one-of-each.ts';

const DAY_MS = 86_400_000;

/** A job by its name, address, lots and words of a note; `day` counts from the beginning of 2026. */
function card(job: string, day: number, said: { name?: string; address?: string; lots?: string[]; words?: string }): JobCard {
  const state = {
    ...EMPTY_JOB,
    id: job,
    name: said.name ?? 'Bath',
    address: said.address ?? '',
    rooms: [{ room: 'r', name: said.words ?? '' }],
    materials: (said.lots ?? []).map((lot, i) => ({ material: `m${i}`, what: 'mortar' as const, name: '', lot, useBy: null })),
  };
  const atMs = Date.UTC(2026, 0, 1) + day * DAY_MS;
  return { ...cardOf(state), firstMs: atMs, lastMs: atMs };
}

async function shelfOf(...cards: readonly JobCard[]): Promise<MemoryShelf> {
  const shelf = new MemoryShelf();
  for (const one of cards) await shelf.write(['caches'], (tx) => keepCard(tx, one.job, one));
  return shelf;
}
const ask = async (shelf: MemoryShelf, question: string) =>
  (await shelf.read(['caches'], (tx) => findJobs(tx, question))).jobs.map((found) => found.card.job);

const BOOK = [
  card('elm', 1, { address: '12 Elm Street', lots: ['4471'], words: 'Weatherfield' }),
  card('oak', 2, { address: '7 Oak Street', lots: ['4472'], words: 'stain under the tub' }),
  card('elmwood', 3, { address: '9 Elmwood Road', lots: ['4471', 'LB 20-7'] }),
  card('twelve', 4, { name: '4471 Main', address: '4471 Main Street' }),
];

test.each<[question: string, jobs: string[]]>([
  ['', ['twelve', 'elmwood', 'oak', 'elm']],
  ['elm', ['elm', 'elmwood']],
  ['elm street', ['elm']],
  ['STREET', ['twelve', 'oak', 'elm']],
  ['str', ['twelve', 'oak', 'elm']],
  ['steet elm', ['elm']],
  ['wetherfeild', ['elm']],
  // A lot before an address, and never a figure off.
  ['4471', ['elmwood', 'elm', 'twelve']],
  ['4473', []],
  ['lb20-7', ['elmwood']],
  ['LB-20/7', ['elmwood']],
  ['tub elm', []],
  ['nowhere', []],
])('%j is found in %j', async (question, jobs) => {
  expect(await ask(await shelfOf(...BOOK), question)).toEqual(jobs);
});

test('a lot that was recalled: every job that carries it, and none that has the number elsewhere', async () => {
  const shelf = await shelfOf(...BOOK);
  const jobs = await shelf.read(['caches'], (tx) => jobsWithLot(tx, '4471'));
  expect(jobs.map(({ job }) => job)).toEqual(['elmwood', 'elm']);
});

test('what was found says where it stands, and whether there may be more', async () => {
  const shelf = await shelfOf(...BOOK);
  const { jobs, more } = await shelf.read(['caches'], (tx) => findJobs(tx, '4471', 2));
  expect(jobs.map(({ where, words }) => ({ where, words }))).toEqual([
    { where: ['lot'], words: ['4471'] },
    { where: ['lot'], words: ['4471'] },
  ]);
  expect(more).toBe(true);
});

test('a card kept anew leaves the same rows as one kept for the first time, and none when the job is gone', async () => {
  const rows = (shelf: MemoryShelf) => shelf.read(['caches'], async (tx) => [await tx.keys('caches', []), await tx.all('caches', [])]);
  const moved = card('elm', -5, { address: '12 Elm Lane', lots: ['4480'] });
  const anew = await shelfOf(...BOOK, moved);
  expect(await rows(anew)).toEqual(await rows(await shelfOf(...BOOK.slice(1), moved)));
  expect(await ask(anew, 'weatherfield')).toEqual([]);
  for (const { job } of BOOK) await anew.write(['caches'], (tx) => keepCard(tx, job, null));
  expect(await rows(anew)).toEqual([[], []]);
});

test('the newest first, since a time', async () => {
  const shelf = await shelfOf(...BOOK);
  const since = (day: number) => shelf.read(['caches'], (tx) => newestIds(tx, 10, Date.UTC(2026, 0, 1) + day * DAY_MS - 1));
  expect(await since(3)).toEqual(['twelve', 'elmwood']);
});

test.each([
  ['deviation', { surfaces: [], what: 'Notch of another size', why: 'none left', against: null, accepted: '' }, ['notch', 'left']],
  ['callback', { surfaces: [], complaint: 'Ceiling is wet', looked: 'hallway', found: '', answer: '' }, ['ceiling', 'hallway']],
  ['note', { words: 'Plumber came late', surfaces: [] }, ['plumber']],
])("people's own words of a %s are on the card, until it is taken back", (kind, data, words) => {
  const entries = chain('phone', [
    { kind: 'device', data: ONE_OF_EACH.device },
    { kind: 'job', data: ONE_OF_EACH.job },
    { kind, data, id: 'said' },
  ]);
  const back = chain('office', [
    { kind: 'device', data: ONE_OF_EACH.device },
    { kind: 'withdrawal', refs: ['said'], data: { of: 'said', why: 'wrong job' } },
  ]);
  const has = (log: typeof entries) => words.map((word) => Object.hasOwn(cardOf(project(log).state).words, word));
  expect([has(entries), has([...entries, ...back])]).toEqual([words.map(() => true), words.map(() => false)]);
});
