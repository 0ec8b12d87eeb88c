import type { WriteTx } from '../../record/shelf.ts';
import type { JobCard } from './card.ts';
import { cardKey, dueKey, inKey, lateKey, shortKey, wordKey } from './rows.ts';
import { shortened } from './terms.ts';

/**
 * Writes the rows of a job anew, in a transaction over `caches`: only those that its last card had otherwise. `card` is null for a job that is
 * not there any more.
 */
export async function keepCard(tx: WriteTx, job: string, card: JobCard | null): Promise<void> {
  const before = ((await tx.get('caches', cardKey(job))) as JobCard | undefined) ?? null;
  const moved = before !== null && card !== null && before.firstMs !== card.firstMs;
  const had = before?.words ?? {};
  const has = card?.words ?? {};
  const gone = Object.keys(had).filter((word) => !Object.hasOwn(has, word));
  const come = Object.keys(has).filter((word) => !Object.hasOwn(had, word));
  const changed = Object.keys(has).filter((word) => Object.hasOwn(had, word) && (moved || had[word] !== has[word]));

  const writes: Promise<void>[] = [];
  if (before !== null) {
    writes.push(tx.delete('caches', lateKey(before)));
    for (const word of [...gone, ...(moved ? changed : [])]) writes.push(tx.delete('caches', inKey(word, before)));
  }
  if (card === null) writes.push(tx.delete('caches', cardKey(job)));
  else {
    writes.push(tx.put('caches', cardKey(job), card), tx.put('caches', lateKey(card), job));
    for (const word of [...come, ...changed]) writes.push(tx.put('caches', inKey(word, card), [job, has[word]]));
  }
  const counts = await Promise.all([...come, ...gone].map((word) => tx.get('caches', wordKey(word))));
  for (const [i, word] of [...come, ...gone].entries()) {
    const n = ((counts[i] as [string, number] | undefined)?.[1] ?? 0) + (i < come.length ? 1 : -1);
    if (n > 0) writes.push(tx.put('caches', wordKey(word), [word, n]));
    else writes.push(tx.delete('caches', wordKey(word)));
    if (n === 1 && i < come.length) for (const short of shortened(word)) writes.push(tx.put('caches', shortKey(short, word), word));
    if (n <= 0) for (const short of shortened(word)) writes.push(tx.delete('caches', shortKey(short, word)));
  }
  writes.push(tx.delete('caches', dueKey(job)));
  await Promise.all(writes);
}
