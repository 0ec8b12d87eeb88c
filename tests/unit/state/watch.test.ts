import { Book } from '#lib/record/book.ts';
import { known } from '#lib/record/kinds.ts';
import { MemoryShelf } from '#lib/record/memory-shelf.ts';
import { ShelfError, type Shelf } from '#lib/record/shelf.ts';
import { OpenJob } from '#lib/state/job.svelte.ts';
import { NOWHERE } from '#lib/state/shooting.svelte.ts';
import { EVERY_MS, Watch } from '#lib/state/watch.svelte.ts';
import { beforeEach, expect, test, vi } from 'vitest';
import { writerOf } from '../../fixtures/small-job.ts';

beforeEach(() => {
  vi.stubGlobal('navigator', {});
  vi.stubGlobal('document', { visibilityState: 'visible', addEventListener: () => undefined, removeEventListener: () => undefined });
});

const jpeg = (n: number) => new Uint8Array([0xff, 0xd8, 0xff, 0xe0, 0, 4, 0, n >> 8, n & 255, 0xff, 0xd9, 0]);

/** A camera whose frames differ, and a clock that turns when told to. */
function stand(full: () => boolean) {
  const shelf = new MemoryShelf();
  const narrow: Shelf = {
    read: (drawers, work) => shelf.read(drawers, work),
    write: (drawers, work) => (full() ? Promise.reject(new ShelfError('full', 'no room')) : shelf.write(drawers, work)),
  };
  const job = new OpenJob('hall', { book: new Book(narrow), writer: writerOf('phone-a', 'ana', null) });
  let n = 0;
  const sizes: (number | null | undefined)[] = [];
  const finder = {
    stream: {} as MediaStream | null,
    fault: null as 'refused' | 'none' | 'lost' | null,
    starts: 0,
    async start() {
      this.starts += 1;
    },
    async grab(video: HTMLVideoElement | undefined, longSidePx?: number | null) {
      sizes.push(longSidePx);
      return video === undefined ? null : jpeg((n += 1));
    },
  };
  const turns = new Map<number, { act: () => void; ms: number }>();
  const watch = new Watch(job, finder, {
    set: (act, ms) => (turns.set(turns.size + 1, { act, ms }), turns.size),
    clear: (id) => turns.delete(id),
  });
  const turn = () => turns.forEach(({ act }) => act());
  const frames = () => job.entries.map(known).flatMap((view) => (view.kind === 'shot' ? [view.data] : []));
  return { watch, job, finder, turns, turn, frames, sizes, taken: () => n };
}
const video = {} as HTMLVideoElement;

/** The next turn, as soon as the one before it has ended: a turn that comes too soon does nothing. */
async function next(turn: () => void, count: () => number, n: number): Promise<void> {
  while (count() < n) {
    turn();
    await new Promise((done) => setTimeout(done, 1));
  }
  expect(count()).toBe(n);
}

/** The store answers in its own time. */
const until = <T>(now: () => T, stands: T) => vi.waitFor(() => expect(now()).toEqual(stands), { timeout: 30_000, interval: 5 });

test('a frame at once and one each turn, small, each an entry of its own, until it is stopped', async () => {
  const { watch, turns, turn, frames, sizes } = stand(() => false);
  watch.start({ ...NOWHERE, run: 'run-1', surfaces: ['floor'] }, () => video);
  await until(() => watch.frames, 1);
  expect([...turns.values()].map(({ ms }) => ms)).toEqual([EVERY_MS]);
  for (const n of [2, 3]) {
    await next(turn, () => watch.frames, n);
  }
  expect([watch.on, frames().length]).toEqual([true, 3]);
  expect(frames().every(({ from, surface }) => from === 'watch' && surface === 'floor')).toBe(true);
  expect(new Set(sizes)).toEqual(new Set([960]));
  watch.stop();
  expect([watch.on, turns.size]).toEqual([false, 0]);
});

test('a store that is full keeps no frame and loses none of the first twenty; with room again they are kept, nobody touching anything', async () => {
  let full = false;
  const { watch, turn, frames, taken } = stand(() => full);
  watch.start(NOWHERE, () => video);
  await until(() => watch.frames, 1);
  full = true;
  for (let held = 1; held <= 20; held++) await next(turn, () => watch.shooting.held.length, held);
  expect(watch.shooting.news).toMatchObject({ code: 'not-saved', fault: { why: 'full' } });
  // Tried again and again, and none is added.
  for (let i = 0; i < 5; i++) {
    turn();
    await until(() => [watch.shooting.waiting, watch.shooting.held.length], [0, 20]);
  }
  expect([frames().length, watch.frames, taken()]).toEqual([1, 1, 21]);
  full = false;
  await vi.waitFor(
    () => {
      turn();
      expect(watch.shooting.held).toEqual([]);
    },
    { timeout: 30_000, interval: 20 },
  );
  watch.stop();
  await until(() => [frames().length - taken(), watch.frames - taken()], [0, 0]);
  const pictures = frames().map(({ picture }) => picture.sha256);
  expect(pictures.length).toBeGreaterThanOrEqual(21);
  expect(new Set(pictures).size).toBe(pictures.length);
});

test('a camera that went away is opened again; one that was refused is not asked for again', async () => {
  const { watch, finder, turn, sizes } = stand(() => false);
  finder.stream = null;
  watch.start(NOWHERE, () => undefined);
  await until(() => sizes.length, 1);
  finder.fault = 'lost';
  await next(turn, () => finder.starts, 2);
  finder.fault = 'refused';
  const before = sizes.length;
  await vi.waitFor(() => {
    turn();
    expect(sizes.length).toBeGreaterThan(before + 1);
  });
  expect([finder.starts, watch.frames]).toEqual([2, 0]);
  watch.stop();
});
