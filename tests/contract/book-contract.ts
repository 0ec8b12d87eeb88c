import { append, seal, type Writer } from '#lib/record/append.ts';
import { Book, PART_BYTES, type Blob256 } from '#lib/record/book.ts';
import { canonicalText } from '#lib/record/canonical.ts';
import { verifyChains } from '#lib/record/chain.ts';
import { ed25519Signer } from '#lib/record/ed25519.ts';
import { bodyHash, readEntry, type Entry } from '#lib/record/entry.ts';
import { sha256Hex } from '#lib/record/hash.ts';
import { known, type Draft } from '#lib/record/kinds.ts';
import type { Shelf } from '#lib/record/shelf.ts';
import { same, type Case } from './assert.ts';

/** What the book promises on any shelf that keeps the shelf's own promises. Each case is given an empty shelf. */
export const BOOK_CASES: readonly Case<Shelf>[] = [
  {
    name: 'a chain appended to in turns verifies, with the device and its key as entry 0',
    async run(shelf) {
      const book = new Book(shelf);
      const writer = testWriter('phone-1');
      for (const name of ['one', 'two', 'three']) same((await append(book, 'job-1', [person(name)], [], writer)).ok, true);
      const { entries, faults } = await book.log('job-1');
      same(
        entries.map((entry) => [entry.body.seq, entry.body.kind]),
        [
          [0, 'device'],
          [1, 'person'],
          [2, 'person'],
          [3, 'person'],
        ],
      );
      same([faults, verifyChains(entries)], [[], []]);
      same((await book.head('job-1', 'phone-1'))?.hash, entries.at(-1)?.hash);
    },
  },
  {
    name: 'the log reads device by device and by number, not by text: 10 comes after 9',
    async run(shelf) {
      const book = new Book(shelf);
      const [b, a] = [testWriter('phone-b'), testWriter('phone-a')];
      for (let i = 0; i < 11; i++) await append(book, 'job-1', [person(`b${i}`)], [], b);
      await append(book, 'job-1', [person('a')], [], a);
      await append(book, 'job-2', [person('other job')], [], a);
      const { entries } = await book.log('job-1');
      same(
        entries.map((entry) => `${entry.body.device} ${entry.body.seq}`),
        ['phone-a 0', 'phone-a 1', ...Array.from({ length: 12 }, (_, i) => `phone-b ${i}`)],
      );
      same(
        (await book.heads('job-1')).map((head) => head.device),
        ['phone-a', 'phone-b'],
      );
      same((await book.heads()).length, 3);
      same(await book.held(), { entries: 16, devices: ['phone-a', 'phone-b'] });
    },
  },
  {
    name: 'what is held is counted without reading every chain, and from them in a store of a version that kept no count',
    async run(shelf) {
      const book = new Book(shelf);
      same(await book.held(), { entries: 0, devices: [] });
      await append(book, 'job-1', [person('a')], [], testWriter('phone-b'));
      const one = await book.held();
      await shelf.write(['meta'], (tx) => tx.delete('meta', ['held']));
      same([one, await book.held()], [one, one]);
      await append(book, 'job-2', [person('b')], [], testWriter('phone-a'));
      same(await book.held(), { entries: 4, devices: ['phone-a', 'phone-b'] });
    },
  },
  {
    name: 'keeping the same entries again is ok and changes nothing',
    async run(shelf) {
      const book = new Book(shelf);
      const entry = await firstEntry('phone-1');
      const blob = blobOf(2_000);
      same((await book.keep([entry], [blob])).ok, true);
      same((await book.keep([entry], [blob])).ok, true);
      same((await book.log('job-1')).entries.length, 1);
      same(await book.blobCount(), { count: 1, bytes: 2_000 });
    },
  },
  {
    name: 'entries sealed on a head that moved are refused with the head that stands, and nothing of them is kept',
    async run(shelf) {
      const book = new Book(shelf);
      const [one, other] = [await firstEntry('phone-1'), await firstEntry('phone-1')];
      await book.keep([one], []);
      const kept = await book.keep([other], [blobOf(1_000)]);
      same(!kept.ok && kept.fault.code === 'head-moved' && kept.fault.head?.hash, one.hash);
      same(
        (await book.log('job-1')).entries.map((entry) => entry.hash),
        [one.hash],
      );
      same(await book.blobCount(), { count: 0, bytes: 0 });
    },
  },
  {
    name: 'many appends at once to one chain: every one is in it once',
    async run(shelf) {
      const book = new Book(shelf);
      const writer = testWriter('phone-1');
      const names = Array.from({ length: 12 }, (_, i) => `n${i}`);
      const done = await Promise.all(names.map((name) => append(book, 'job-1', [person(name)], [], writer)));
      same(
        done.every((one) => one.ok),
        true,
      );
      const { entries } = await book.log('job-1');
      same(entries.flatMap((entry) => (entry.body.kind === 'person' ? [entry.body.data.name] : [])).toSorted(), names.toSorted());
      same(verifyChains(entries), []);
    },
  },
  {
    name: 'a picture of 12 MB is kept in parts and read back byte for byte',
    async run(shelf) {
      const book = new Book(shelf);
      const blob = blobOf(12_000_000);
      same((await append(book, 'job-1', [person('one')], [blob], testWriter('phone-1'))).ok, true);
      const parts = (await shelf.read(['parts'], (tx) => tx.all('parts', [blob.sha256]))) as Blob[];
      same(
        parts.map((part) => part.size),
        [PART_BYTES, 12_000_000 - PART_BYTES],
      );
      const back = await book.blob(blob.sha256);
      same([back?.size, back?.type], [12_000_000, 'image/jpeg']);
      same(sha256Hex(new Uint8Array(await back!.arrayBuffer())), blob.sha256);
      same(await book.blob('0'.repeat(64)), null);
    },
  },
  {
    name: 'one picture named by two entries is kept once',
    async run(shelf) {
      const book = new Book(shelf);
      const writer = testWriter('phone-1');
      const blob = blobOf(3_000);
      for (const name of ['one', 'two']) same((await append(book, 'job-1', [person(name)], [blob], writer)).ok, true);
      same(await book.blobCount(), { count: 1, bytes: 3_000 });
    },
  },
  {
    name: 'a kind and fields of a newer version come back as the same text, verified and shown as unknown',
    async run(shelf) {
      const book = new Book(shelf);
      const first = await firstEntry('phone-1');
      const body = {
        ...first.body,
        kind: 'moisture',
        seq: 1,
        prev: first.hash,
        id: 'later',
        data: { percent: '4.5' },
        tomorrow: { x: [1] },
      };
      const hash = bodyHash(body);
      const sig = { alg: 'ed25519', hex: await KEY.sign(Uint8Array.from(hash.match(/../g)!, (byte) => parseInt(byte, 16))) };
      const raw = canonicalText({ body, extra: 1, hash, sig });
      const read = readEntry(raw, 'test');
      if (!read.ok) throw new Error(JSON.stringify(read.fault));
      same((await book.keep([first, read.value], [])).ok, true);
      const { entries } = await book.log('job-1');
      same(entries[1]?.raw, raw);
      same(known(entries[1]!).kind, 'unknown');
      same(verifyChains(entries), []);
    },
  },
  {
    name: 'a row that no longer parses is named as a fault, and the others are still read',
    async run(shelf) {
      const book = new Book(shelf);
      await append(book, 'job-1', [person('one')], [], testWriter('phone-1'));
      await shelf.write(['entries'], (tx) => tx.put('entries', ['job-1', 'phone-1', 1], '{"body":'));
      const { entries, faults } = await book.log('job-1');
      same([entries.length, faults.map((fault) => fault.code)], [1, ['entry-not-json']]);
    },
  },
];

const KEY = ed25519Signer(new Uint8Array(32).fill(7));

function testWriter(device: string): Writer {
  let n = 0;
  return {
    device,
    person: 'ana',
    signer: KEY,
    now: () => ({ utc: '2026-03-02T14:00:00.000Z', offsetMin: -360, zone: 'America/Chicago', monoMs: 5, session: 's1' }),
    newId: () => `${device}-${n++}`,
  };
}

function person(name: string): Draft {
  return { kind: 'person', data: { person: 'ana', name } };
}

let firsts = 0;
async function firstEntry(device: string): Promise<Entry> {
  const writer = testWriter(device);
  const draft: Draft = { id: `first-${firsts++}`, kind: 'device', data: { key: { alg: 'ed25519', public: KEY.publicKey! } } };
  return seal(draft, 'job-1', null, writer, writer.now());
}

function blobOf(size: number): Blob256 {
  const bytes = Uint8Array.from({ length: size }, (_, i) => (i * 2_654_435_761) >>> 24);
  return { sha256: sha256Hex(bytes), body: new Blob([bytes], { type: 'image/jpeg' }) };
}
