import { afterEach, describe, expect, it, vi } from 'vitest';
import { loss, remember, remembered } from '#lib/device/store/canary.ts';
import { Book } from '#lib/record/book.ts';
import { append } from '#lib/record/append.ts';
import { MemoryShelf } from '#lib/record/memory-shelf.ts';
import { simulatedWriter } from '../../../sim/crew-day.ts';

afterEach(() => vi.unstubAllGlobals());

function stubStorage(first: Record<string, string> = {}) {
  const rows = new Map(Object.entries(first));
  vi.stubGlobal('localStorage', {
    getItem: (key: string) => rows.get(key) ?? null,
    setItem: (key: string, value: string) => rows.set(key, value),
  });
}

describe('loss', () => {
  const before = { entries: 41, devices: ['phone-1'] };
  it.each([
    { promise: 'nothing noted yet is a new user', noted: null, now: { entries: 0, devices: [] }, expected: null },
    { promise: 'as many as before is whole', noted: before, now: before, expected: null },
    { promise: 'more than before is whole', noted: before, now: { entries: 42, devices: ['phone-1', 'phone-2'] }, expected: null },
    { promise: 'an empty store is loss', noted: before, now: { entries: 0, devices: [] }, expected: { held: 41, found: 0 } },
    { promise: 'fewer is loss', noted: before, now: { entries: 40, devices: ['phone-1'] }, expected: { held: 41, found: 40 } },
    {
      promise: 'as many, by another device, is loss',
      noted: before,
      now: { entries: 41, devices: ['phone-2'] },
      expected: { held: 41, found: 41 },
    },
  ])('$promise', ({ noted, now, expected }) => {
    expect(loss(noted, now)).toEqual(expected);
  });
});

it('counts entries over all chains, and remembers them by store', async () => {
  stubStorage();
  const book = new Book(new MemoryShelf());
  for (const job of ['job-1', 'job-2'])
    await append(book, job, [{ kind: 'person', data: { person: 'ana', name: 'Ana' } }], [], simulatedWriter(job));
  const now = await book.held();
  expect(now).toEqual({ entries: 4, devices: ['phone-1'] });
  remember('layerbook', now);
  expect(remembered('layerbook')).toEqual(now);
  expect(remembered('another')).toBeNull();
});

it.each(['{"entries":', '{"entries":"41","devices":[]}', '{"entries":41,"devices":[1]}', '[]', 'null'])(
  'a damaged note is none: %s',
  (text) => {
    stubStorage({ 'layerbook-held:layerbook': text });
    expect(remembered('layerbook')).toBeNull();
  },
);

it('a browser that refuses the second memory harms nothing', () => {
  const refuse = () => {
    throw new DOMException('denied', 'SecurityError');
  };
  vi.stubGlobal('localStorage', { getItem: refuse, setItem: refuse });
  remember('layerbook', { entries: 1, devices: [] });
  expect(remembered('layerbook')).toBeNull();
});
