import 'fake-indexeddb/auto';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { openIdbShelf } from '#lib/device/store/idb-shelf.ts';
import type { Shelf } from '#lib/record/shelf.ts';

const put = (shelf: Shelf, value: unknown) => shelf.write(['entries'], (tx) => tx.put('entries', ['e'], value));
const get = (shelf: Shelf) => shelf.read(['entries'], (tx) => tx.get('entries', ['e']));

let stores = 0;
function openNew() {
  return openIdbShelf(`unit-${stores++}`, { superseded: () => undefined });
}

/** The next so many times that a page asks the engine, it throws this. */
function breakNext(method: 'transaction' | 'put', name: string, times: number) {
  const engine = { transaction: IDBDatabase.prototype, put: IDBObjectStore.prototype }[method] as unknown as Record<string, Method>;
  const original = engine[method]!;
  let left = times;
  vi.spyOn(engine, method).mockImplementation(function (this: unknown, ...args) {
    if (left-- > 0) throw new DOMException('simulated', name);
    return original.apply(this, args);
  });
}

type Method = (this: unknown, ...args: unknown[]) => unknown;

afterEach(() => vi.restoreAllMocks());

describe('what the engine says, and what becomes of the write', () => {
  it.each([
    // A dead connection gets one fresh handle and no more: repeating on a stale one is how others lost everything.
    { method: 'transaction', name: 'InvalidStateError', times: 1, outcome: 'kept' },
    { method: 'transaction', name: 'UnknownError', times: 1, outcome: 'kept' },
    { method: 'put', name: 'UnknownError', times: 1, outcome: 'kept' },
    { method: 'transaction', name: 'InvalidStateError', times: 2, outcome: 'gone' },
    { method: 'put', name: 'UnknownError', times: 2, outcome: 'gone' },
    { method: 'put', name: 'QuotaExceededError', times: 1, outcome: 'full' },
    { method: 'put', name: 'DataError', times: 1, outcome: 'failed' },
  ] as const)('$name from $method, $times times: $outcome', async ({ method, name, times, outcome }) => {
    const shelf = openNew();
    await put(shelf, 'before');
    breakNext(method, name, times);
    const said = await put(shelf, 'after').then(
      () => 'kept',
      (error: unknown) => (error as { code: string }).code,
    );
    expect(said).toBe(outcome);
    expect(await get(shelf)).toBe(outcome === 'kept' ? 'after' : 'before');
    await put(shelf, 'later');
    expect(await get(shelf)).toBe('later');
  });

  it('an open that fails is tried anew at the next call', async () => {
    const shelf = openNew();
    vi.spyOn(indexedDB, 'open').mockImplementation(() => {
      throw new DOMException('simulated', 'SecurityError');
    });
    await expect(put(shelf, 'value')).rejects.toMatchObject({ name: 'ShelfError', code: 'failed' });
    vi.restoreAllMocks();
    await put(shelf, 'value');
    expect(await get(shelf)).toBe('value');
  });
});

it('many calls before the first open ask the engine for one connection', async () => {
  const opened = vi.spyOn(indexedDB, 'open');
  const shelf = openNew();
  await Promise.all([put(shelf, 1), put(shelf, 2), get(shelf)]);
  expect(opened).toHaveBeenCalledTimes(1);
});

it('a flush that never ends does not hold up the newer build', async () => {
  const name = `unit-${stores++}`;
  const shelf = openIdbShelf(name, { superseded: () => new Promise(() => undefined) });
  await put(shelf, 'kept');
  const newer = openIdbShelf(name, { superseded: () => undefined }, 2);
  expect(await get(newer)).toBe('kept');
  await expect(put(shelf, 'late')).rejects.toMatchObject({ code: 'newer' });
});
