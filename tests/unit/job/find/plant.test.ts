import { expect, test } from 'vitest';
import { cardOf } from '#lib/job/find/card.ts';
import { keepCard } from '#lib/job/find/keep.ts';
import { project } from '#lib/job/project.ts';
import { verifyChains } from '#lib/record/chain.ts';
import { MemoryShelf } from '#lib/record/memory-shelf.ts';
import { findRows } from '../../../bench/book-page.ts';
import { bookJob } from '../../../sim/ten-years.ts';

/** What the bench measures must be what the app would have written. */
test('the rows of the ten-year book are those that keeping its cards one by one leaves', async () => {
  const jobs = [0, 1, 2, 3].map((n) => bookJob(n, 200));
  const cards = jobs.map(({ entries }) => cardOf(project(entries).state));
  const shelf = new MemoryShelf();
  for (const card of cards) await shelf.write(['caches'], (tx) => keepCard(tx, card.job, card));
  const kept = await shelf.read(['caches'], async (tx) => [await tx.keys('caches', ['find']), await tx.all('caches', ['find'])]);
  const planted = new MemoryShelf();
  await planted.write(['caches'], async (tx) => {
    await Promise.all(findRows(cards).map(([key, value]) => tx.put('caches', key, value)));
  });
  expect(await planted.read(['caches'], async (tx) => [await tx.keys('caches', ['find']), await tx.all('caches', ['find'])])).toEqual(kept);
});

test('a job of the book is a whole chain that means something, and the same each time', () => {
  const one = bookJob(41, 2_000);
  expect(verifyChains(one.entries).filter(({ code }) => code !== 'unsigned')).toEqual([]);
  expect(project(one.entries).state).toMatchObject({
    address: one.address,
    shots: { length: 26 },
    readings: { length: 6 },
    drawings: [{}],
  });
  expect(one.entries.map(({ raw }) => raw)).toEqual(bookJob(41, 2_000).entries.map(({ raw }) => raw));
  expect(project(one.entries).state.lines.some(({ unknown }) => unknown)).toBe(false);
});
