import { append, type Writer } from '#lib/record/append.ts';
import { Book } from '#lib/record/book.ts';
import { ed25519Signer } from '#lib/record/ed25519.ts';
import type { Draft } from '#lib/record/kinds.ts';
import { MemoryShelf } from '#lib/record/memory-shelf.ts';
import { OpenJob } from '#lib/state/job.svelte.ts';
import { expect, it, vi } from 'vitest';

let ids = 0;
const WRITER: Writer = {
  device: 'phone-a',
  person: 'ana',
  signer: ed25519Signer(new Uint8Array(32).fill(7)),
  now: () => ({ utc: '2026-03-02T14:00:00.000Z', offsetMin: -360, zone: 'America/Chicago', monoMs: 5, session: 's1' }),
  newId: () => `id-${ids++}`,
};
const named = (name: string): Draft => ({ kind: 'job', data: { name, address: '', units: 'in', lang: 'en' } });

it('what is added is kept and shown', async () => {
  const book = new Book(new MemoryShelf());
  const job = new OpenJob('hall', { book, writer: WRITER });
  expect(await job.add([named('Hall bath')])).toMatchObject({ ok: true });
  expect(job.state.name).toBe('Hall bath');
  expect((await book.log('hall')).entries).toEqual(job.entries);
});

it('a key that fails while sealing is a fault to the caller, who still holds the drafts, and nothing is kept', async () => {
  const book = new Book(new MemoryShelf());
  const sign = () => Promise.reject(new Error('key gone'));
  const job = new OpenJob('hall', { book, writer: { ...WRITER, signer: { ...WRITER.signer, sign } } });
  expect(await job.add([named('Hall bath')])).toMatchObject({ ok: false, fault: { code: 'not-saved', why: 'failed' } });
  expect((await book.log('hall')).entries).toEqual([]);
});

it('what another page wrote in between is shown too, in the order of the chain', async () => {
  const book = new Book(new MemoryShelf());
  const job = new OpenJob('hall', { book, writer: WRITER });
  await job.add([named('Hall bath')]);
  await append(book, 'hall', [named('Upper bath')], [], WRITER);
  await job.add([{ kind: 'person', data: { person: 'ana', name: 'Ana' } }]);
  expect(job.entries.map((entry) => entry.body.seq)).toEqual([0, 1, 2, 3]);
  expect(job.state.name).toBe('Upper bath');
});

it('saved stays saved when the log cannot be read anew afterwards', async () => {
  const book = new Book(new MemoryShelf());
  const job = new OpenJob('hall', { book, writer: WRITER });
  await job.add([named('Hall bath')]);
  await append(book, 'hall', [named('Upper bath')], [], WRITER);
  vi.spyOn(book, 'log').mockRejectedValueOnce(new Error('store gone'));
  expect(await job.add([{ kind: 'person', data: { person: 'ana', name: 'Ana' } }])).toMatchObject({ ok: true });
  expect(job.state.people).toEqual({ ana: 'Ana' });
});
