import { expect, it } from 'vitest';
import { append } from '#lib/record/append.ts';
import { Book } from '#lib/record/book.ts';
import { verifyChains } from '#lib/record/chain.ts';
import { ed25519Signer } from '#lib/record/ed25519.ts';
import { MemoryShelf } from '#lib/record/memory-shelf.ts';
import { project } from '#lib/job/project.ts';

it('a sealed chain verifies and projects', async () => {
  const book = new Book(new MemoryShelf());
  let n = 0;
  const writer = {
    device: 'phone-1',
    person: 'ana',
    signer: ed25519Signer(new Uint8Array(32).fill(7)),
    now: () => ({ utc: '2026-03-02T14:00:00.000Z', offsetMin: -360, zone: 'America/Chicago', monoMs: 5, session: 's1' }),
    newId: () => `id-${n++}`,
  };
  const done = await append(
    book,
    'job-1',
    [{ kind: 'job', data: { name: 'Hall bath', address: 'x', units: 'in', lang: 'en' } }],
    [],
    writer,
  );
  expect(done.ok).toBe(true);
  const { entries } = await book.log('job-1');
  expect(entries.map((e) => e.body.kind)).toEqual(['device', 'job']);
  expect(verifyChains(entries)).toEqual([]);
  expect(project(entries).state.name).toBe('Hall bath');
});
