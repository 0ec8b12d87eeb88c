import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { append } from '#lib/record/append.ts';
import { Book } from '#lib/record/book.ts';
import { MemoryShelf } from '#lib/record/memory-shelf.ts';
import { Lookup } from '#lib/state/lookup.svelte.ts';
import { project } from '#lib/job/project.ts';
import { writerOf } from '../../fixtures/small-job.ts';

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

const now = () => Promise.resolve();

function phone() {
  const shelf = new MemoryShelf();
  const book = new Book(shelf);
  const writer = writerOf('phone-a', 'ana', 7);
  /** Keeps a job, or more of it. */
  const write = async (job: string, ...names: string[]) => {
    const drafts = names.map((name) => ({ kind: 'job' as const, data: { name, address: '', units: 'in' as const, lang: 'en' } }));
    const done = await append(book, job, drafts, [], writer);
    if (!done.ok) throw new Error(done.fault.code);
  };
  const state = async (job: string) => project((await book.log(job)).entries).state;
  return { shelf, book, write, state, lookup: () => new Lookup(shelf, book) };
}
const names = async (lookup: Lookup, question: string) => (await lookup.find(question)).jobs.map(({ card }) => card.name);

test('a book from before there were cards is read job by job, and then found; later starts read nothing again', async () => {
  const { book, write, lookup } = phone();
  await write('elm', 'Elm bath');
  await write('oak', 'Oak bath');
  const first = lookup();
  expect(await names(first, 'bath')).toEqual([]);
  // Nobody waits for that: the list of jobs is there at once.
  expect((await first.newest(9)).sort()).toEqual(['elm', 'oak']);
  let pauses = 0;
  await first.catchUp(async () => void (pauses += 1));
  expect([pauses, first.left]).toEqual([2, 0]);
  expect((await names(first, 'bath')).sort()).toEqual(['Elm bath', 'Oak bath']);
  const log = vi.spyOn(book, 'log');
  await lookup().catchUp(now);
  expect(log).not.toHaveBeenCalled();
});

test('what is written is found once it has been quiet, is in the list at once, and a page that dies before leaves it to the next', async () => {
  const { write, state, lookup } = phone();
  const page = lookup();
  await page.catchUp(now);
  await write('elm', 'Elm bath');
  const at = await state('elm');
  page.wrote('elm', () => at);
  expect(await page.newest(9)).toEqual(['elm']);
  await vi.advanceTimersByTimeAsync(1_400);
  expect(await names(page, 'elm')).toEqual([]);
  // Another page, begun after this one died.
  const next = lookup();
  expect(await next.newest(9)).toEqual(['elm']);
  await next.catchUp(now);
  expect(await names(next, 'elm')).toEqual(['Elm bath']);
  await vi.advanceTimersByTimeAsync(200);
  expect(await names(page, 'elm')).toEqual(['Elm bath']);
});

test('a burst of writing makes one card, of what the job is at its end', async () => {
  const { shelf, write, state, lookup } = phone();
  const page = lookup();
  await page.catchUp(now);
  const put = vi.spyOn(shelf, 'write');
  for (const name of ['Elm', 'Ash', 'Oak']) {
    await write('job', name);
    const at = await state('job');
    page.wrote('job', () => at);
    await vi.advanceTimersByTimeAsync(1_000);
  }
  put.mockClear();
  await vi.advanceTimersByTimeAsync(2_000);
  expect(put).toHaveBeenCalledTimes(1);
  expect([await names(page, 'oak'), await names(page, 'ash')]).toEqual([['Oak'], []]);
});

test('a log that says otherwise than its card makes it anew', async () => {
  const { write, state, lookup } = phone();
  const page = lookup();
  await write('job', 'Elm');
  await page.catchUp(now);
  await write('job', 'Oak');
  expect(await names(page, 'oak')).toEqual([]);
  await page.read('job', await state('job'));
  expect(await names(page, 'oak')).toEqual(['Oak']);
});
