import { ShelfError, type Drawer, type Key, type Shelf } from '#lib/record/shelf.ts';
import { rejection, same, type Case } from './assert.ts';

const put = (shelf: Shelf, drawer: Drawer, key: Key, value: unknown) => shelf.write([drawer], (tx) => tx.put(drawer, key, value));
const get = (shelf: Shelf, drawer: Drawer, key: Key) => shelf.read([drawer], (tx) => tx.get(drawer, key));
const all = (shelf: Shelf, drawer: Drawer, prefix: Key) => shelf.read([drawer], (tx) => tx.all(drawer, prefix));
const keys = (shelf: Shelf, drawer: Drawer, prefix: Key) => shelf.read([drawer], (tx) => tx.keys(drawer, prefix));

/** What every shelf promises. Each case is given an empty one. */
export const SHELF_CASES: readonly Case<Shelf>[] = [
  {
    name: 'a key never put gives undefined',
    async run(shelf) {
      same(await get(shelf, 'entries', ['a']), undefined);
      same(await all(shelf, 'entries', []), []);
    },
  },
  {
    name: 'a value comes back equal, and a second put replaces it',
    async run(shelf) {
      const value = { text: 'niño ½″', list: [1, null, true], bytes: new Uint8Array([0, 255]) };
      await put(shelf, 'drafts', ['d', 1], { old: true });
      await put(shelf, 'drafts', ['d', 1], value);
      same(await get(shelf, 'drafts', ['d', 1]), value);
    },
  },
  {
    name: 'what is kept is a copy: neither writer nor reader can change it afterwards',
    async run(shelf) {
      const value = { list: [1] };
      await put(shelf, 'drafts', ['d'], value);
      value.list.push(2);
      ((await get(shelf, 'drafts', ['d'])) as typeof value).list.push(3);
      same(await get(shelf, 'drafts', ['d']), { list: [1] });
    },
  },
  {
    name: 'a Blob comes back with its type and every byte',
    async run(shelf) {
      const bytes = Uint8Array.from({ length: 70_000 }, (_, i) => (i * 31) & 255);
      await put(shelf, 'parts', ['p', 0], new Blob([bytes], { type: 'image/jpeg' }));
      const back = (await get(shelf, 'parts', ['p', 0])) as Blob;
      same(back.type, 'image/jpeg');
      same(new Uint8Array(await back.arrayBuffer()), bytes);
    },
  },
  {
    name: 'keys are ordered numbers before text, numbers by size, shorter before longer',
    async run(shelf) {
      const ordered: Key[] = [['a'], ['a', 2], ['a', 10], ['a', '1'], ['a', '1', 0], ['a', 'b'], ['ab'], ['b']];
      await shelf.write(['entries'], async (tx) => {
        for (const key of ordered.toReversed()) await tx.put('entries', key, key.join());
      });
      same(await keys(shelf, 'entries', []), ordered);
      same(
        await all(shelf, 'entries', []),
        ordered.map((key) => key.join()),
      );
    },
  },
  {
    name: 'a stretch of keys begins with its lower end, stops before its upper, and after so many',
    async run(shelf) {
      for (const word of ['elk', 'elm', 'elmo', 'eln']) await put(shelf, 'caches', ['word', word], word);
      const between = (low: Key, high: Key, limit: number) => shelf.read(['caches'], (tx) => tx.between('caches', low, high, limit));
      same(await between(['word', 'elm'], ['word', 'eln'], 9), ['elm', 'elmo']);
      same(await between(['word', 'elm'], ['word', 'eln'], 1), ['elm']);
      same(await between(['word', 'a'], ['word', 'b'], 9), []);
    },
  },
  {
    name: 'a prefix takes whole parts only, and the key equal to it',
    async run(shelf) {
      const held: Key[] = [['job'], ['job', 'p', 0], ['job', 'p', 1], ['job', 'q', 0], ['job-2', 'p', 0]];
      for (const key of held) await put(shelf, 'entries', key, 1);
      same(await keys(shelf, 'entries', ['job']), held.slice(0, 4));
      same(await keys(shelf, 'entries', ['job', 'p']), held.slice(1, 3));
      same(await keys(shelf, 'entries', ['jo']), []);
    },
  },
  {
    name: 'drawers are apart, and a deleted key is gone',
    async run(shelf) {
      await put(shelf, 'blobs', ['k'], 'blob');
      await put(shelf, 'heads', ['k'], 'head');
      await shelf.write(['blobs'], (tx) => tx.delete('blobs', ['k']));
      same(await get(shelf, 'blobs', ['k']), undefined);
      same(await get(shelf, 'heads', ['k']), 'head');
    },
  },
  {
    name: 'a transaction reads its own writes',
    async run(shelf) {
      const seen = await shelf.write(['entries'], async (tx) => {
        await tx.put('entries', ['a'], 1);
        await tx.delete('entries', ['b']);
        return tx.get('entries', ['a']);
      });
      same(seen, 1);
    },
  },
  {
    name: 'an error thrown by the work comes out unchanged and nothing of the transaction is kept',
    async run(shelf) {
      await put(shelf, 'heads', ['h'], 'before');
      const mine = new RangeError('mine');
      const thrown = await rejection(
        shelf.write(['heads', 'entries'], async (tx) => {
          await tx.put('entries', ['e'], 'half');
          await tx.put('heads', ['h'], 'after');
          throw mine;
        }),
      );
      same(thrown === mine, true);
      same(await get(shelf, 'entries', ['e']), undefined);
      same(await get(shelf, 'heads', ['h']), 'before');
    },
  },
  {
    name: 'a value that cannot be kept fails the whole transaction, even when the work overlooks it',
    async run(shelf) {
      for (const overlooked of [false, true]) {
        const thrown = await rejection(
          shelf.write(['meta', 'entries'], async (tx) => {
            await tx.put('entries', ['e'], 'half');
            const bad = tx.put('meta', ['f'], { work: () => 1 });
            if (!overlooked) await bad;
          }),
        );
        same(thrown instanceof ShelfError ? thrown.code : String(thrown), 'failed');
        same(await get(shelf, 'entries', ['e']), undefined);
      }
    },
  },
  {
    name: 'a drawer the transaction did not name is refused',
    async run(shelf) {
      const thrown = await rejection(shelf.write(['entries'], (tx) => tx.put('heads', ['h'], 1)));
      same(thrown instanceof ShelfError ? thrown.code : String(thrown), 'failed');
      same(await get(shelf, 'heads', ['h']), undefined);
    },
  },
  {
    name: 'puts asked for together are kept together',
    async run(shelf) {
      await shelf.write(['entries'], (tx) => Promise.all([1, 2, 3].map((n) => tx.put('entries', ['e', n], n))));
      same(await all(shelf, 'entries', ['e']), [1, 2, 3]);
    },
  },
  {
    name: 'transactions that read and write one drawer do not interleave',
    async run(shelf) {
      const addOne = () =>
        shelf.write(['caches'], async (tx) => {
          const count = ((await tx.get('caches', ['count'])) as number | undefined) ?? 0;
          await tx.put('caches', ['count'], count + 1);
        });
      await Promise.all(Array.from({ length: 25 }, addOne));
      same(await get(shelf, 'caches', ['count']), 25);
    },
  },
  {
    name: 'a failed transaction does not stop the next',
    async run(shelf) {
      const failing = shelf.write(['entries'], () => Promise.reject(new Error('no')));
      const after = put(shelf, 'entries', ['a'], 'kept');
      await rejection(failing);
      await after;
      same(await get(shelf, 'entries', ['a']), 'kept');
    },
  },
];
