import { describe, expect, it } from 'vitest';
import { append, seal } from '#lib/record/append.ts';
import { buildArchive } from '#lib/record/archive.ts';
import { Book } from '#lib/record/book.ts';
import { sha256Hex } from '#lib/record/hash.ts';
import { MemoryShelf } from '#lib/record/memory-shelf.ts';
import { additionOf, takeIn } from '#lib/record/take-in.ts';
import { unpack } from '#lib/record/unpack.ts';
import { verify } from '#lib/record/verify.ts';
import { phone } from '../report/job-fixture.ts';

const JOB = 'job-1';
const bytes = new TextEncoder().encode('a photo, as far as a book can tell');
const photo = { sha256: sha256Hex(bytes), body: new Blob([bytes], { type: 'image/jpeg' }) };

/** A phone's book with a job, a photo and a note, and the same job as its archive gives it. */
async function sent() {
  const book = new Book(new MemoryShelf());
  const writer = phone();
  const drafts = [
    { kind: 'job', data: { name: 'Hall bath', address: '', units: 'in', lang: 'en' } },
    {
      kind: 'shot',
      data: { picture: { sha256: photo.sha256, bytes: bytes.length, type: 'image/jpeg' }, from: 'viewfinder', surface: null },
    },
    { kind: 'note', data: { words: 'Dry and flat', surfaces: [] } },
  ] as const;
  for (const draft of drafts) await append(book, JOB, [draft as never], draft.kind === 'shot' ? [photo] : [], writer);
  const { entries } = await book.log(JOB);
  const built = await buildArchive({ raws: entries.map(({ raw }) => raw), date: '2026-03-04', blob: (sha256) => book.blob(sha256) });
  if (!built.ok) throw new Error(built.fault.code);
  expect((await verify(built.value.blob)).verdict).toBe('as-written');
  const content = await unpack(built.value.blob);
  if (!content.ok) throw new Error(content.fault.code);
  return { book, writer, entries, blob: content.value.blob };
}

const raws = async (book: Book) => (await book.log(JOB)).entries.map(({ raw }) => raw);

describe('a job from the archive of another phone', () => {
  it('is the same log and the same bytes, and goes on from its head', async () => {
    const { entries, blob } = await sent();
    const other = new Book(new MemoryShelf());
    expect(await takeIn(other, entries, blob)).toEqual({ ok: true, value: 4 });
    expect(await raws(other)).toEqual(entries.map(({ raw }) => raw));
    const kept = await other.blob(photo.sha256);
    expect(new Uint8Array(await kept!.arrayBuffer())).toEqual(bytes);
    const mine = await append(other, JOB, [{ kind: 'note', data: { words: 'seen', surfaces: [] } }], [], phone('phone-z', 'p-tobin'));
    expect(mine.ok).toBe(true);
    expect(await raws(other)).toHaveLength(6);
  });

  it('taken in twice adds nothing, and a later archive adds what is new', async () => {
    const { book, writer, entries, blob } = await sent();
    const other = new Book(new MemoryShelf());
    await takeIn(other, entries, blob);
    expect(await takeIn(other, entries, blob)).toEqual({ ok: true, value: 0 });
    await append(book, JOB, [{ kind: 'note', data: { words: 'One more', surfaces: [] } }], [], writer);
    expect(await takeIn(other, (await book.log(JOB)).entries, blob)).toEqual({ ok: true, value: 1 });
    // An older archive takes nothing away.
    expect(await takeIn(other, entries, blob)).toEqual({ ok: true, value: 0 });
    expect(await raws(other)).toEqual(await raws(book));
  });

  it('that parted from what this phone holds is refused whole, by the place where they part', async () => {
    const { entries, blob } = await sent();
    const other = new Book(new MemoryShelf());
    await takeIn(other, entries.slice(0, 2), blob);
    const writer = phone('phone-a', 'p-ines');
    const head = { job: JOB, device: 'phone-a', seq: 1, hash: entries[1]!.hash, times: entries[1]!.body.times };
    const otherwise = await seal({ kind: 'note', data: { words: 'Otherwise', surfaces: [] } }, JOB, head, writer, writer.now());
    await other.keep([otherwise], []);
    const before = await raws(other);
    expect(await takeIn(other, entries, blob)).toEqual({ ok: false, fault: { code: 'forked', device: 'phone-a', seq: 2 } });
    expect(await raws(other)).toEqual(before);
  });

  it('with a file that is not at hand comes without it, and takes it from a later archive', async () => {
    const { entries, blob } = await sent();
    const other = new Book(new MemoryShelf());
    expect(await takeIn(other, entries, async () => null)).toEqual({ ok: true, value: 4 });
    expect(await other.blob(photo.sha256)).toBeNull();
    expect(await takeIn(other, entries, blob)).toEqual({ ok: true, value: 0 });
    expect(await other.blob(photo.sha256)).not.toBeNull();
  });

  it('tells what is new before anything is written', async () => {
    const { entries } = await sent();
    const other = new Book(new MemoryShelf());
    const addition = await additionOf(other, entries);
    expect(addition).toMatchObject({ ok: true, value: { files: [photo.sha256] } });
    expect(await raws(other)).toEqual([]);
  });
});
