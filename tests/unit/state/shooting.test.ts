import { Book } from '#lib/record/book.ts';
import { MemoryShelf } from '#lib/record/memory-shelf.ts';
import { wavOf } from '#lib/record/wav.ts';
import { OpenJob } from '#lib/state/job.svelte.ts';
import { NOWHERE, Shooting } from '#lib/state/shooting.svelte.ts';
import { expect, test } from 'vitest';
import { writerOf } from '../../fixtures/small-job.ts';

test.each<[what: string, bytes: Uint8Array<ArrayBuffer>, why: 'not-an-image' | 'empty-file']>([
  ['a voice note', wavOf([new Uint8Array(320)]), 'not-an-image'],
  ['a paper', new TextEncoder().encode('%PDF-1.7 a data sheet'), 'not-an-image'],
  ['a text', new TextEncoder().encode('an offer for the tile work'), 'not-an-image'],
  ['nothing', new Uint8Array(), 'empty-file'],
])('%s picked as a photo is refused, and nothing is kept', async (_, bytes, why) => {
  const job = new OpenJob('hall', { book: new Book(new MemoryShelf()), writer: writerOf('phone-a', 'ana', null) });
  const shooting = new Shooting(job);
  expect(await shooting.keep(bytes, 'file', NOWHERE)).toEqual({ code: 'refused', why });
  expect([job.entries, shooting.held]).toEqual([[], []]);
});
