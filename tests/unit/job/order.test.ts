import { order } from '#lib/job/order.ts';
import type { Entry } from '#lib/record/entry.ts';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { chain, utcOf, type Said } from '../../fixtures/log.ts';

const read = (entries: readonly Entry[]) => order(entries).map(({ entry }) => entry.body.id);

test.each<[promise: string, a: Said[], b: Said[], read: string]>([
  ['wall time decides between phones', [{ at: '09:00' }, { at: '09:10' }], [{ at: '09:05' }, { at: '09:15' }], 'a-0 b-0 a-1 b-1'],
  ['at one moment the device decides', [{ at: '09:00' }, { at: '09:01' }], [{ at: '09:00' }, { at: '09:01' }], 'a-0 b-0 a-1 b-1'],
  [
    'a clock set back stands still instead',
    [{ at: '09:10' }, { at: '08:00' }, { at: '09:20' }],
    [{ at: '09:05' }, { at: '09:15' }],
    'b-0 a-0 a-1 b-1 a-2',
  ],
  ['a reference waits for what it names', [{}, { at: '10:00' }], [{ at: '09:30', refs: ['a-1'] }, { at: '09:31' }], 'a-0 a-1 b-0 b-1'],
  ['a run is a reference', [{}, { at: '10:00' }], [{ at: '09:30', run: 'a-1' }], 'a-0 a-1 b-0'],
  // The phone that is named runs an hour fast: what it wrote before is read before, not torn from its chain.
  [
    'what is named brings all before it',
    [{ at: '10:00' }, { at: '10:01' }, { at: '10:02' }],
    [{ at: '09:30', refs: ['a-1'] }],
    'a-0 a-1 b-0 a-2',
  ],
  ['a reference to what has not arrived waits for nothing', [{ at: '09:01', refs: ['c-7'] }], [{ at: '09:05' }], 'a-0 b-0'],
  ['an entry that names itself waits for nothing', [{ at: '09:01', refs: ['a-0'] }], [{ at: '09:05' }], 'a-0 b-0'],
  ['a circle is read by time', [{ at: '09:01', refs: ['b-0'] }], [{ at: '09:05', refs: ['a-0'] }], 'a-0 b-0'],
  ['a circle through two chains keeps both', [{ refs: ['b-1'] }, {}], [{ at: '09:05', refs: ['a-1'] }, {}], 'a-0 a-1 b-0 b-1'],
  ['naming what comes later in its own chain keeps the chain', [{ refs: ['a-1'] }, {}], [{ at: '09:05' }], 'b-0 a-0 a-1'],
])('%s', (_, a, b, expected) => {
  const entries = [...chain('a', a), ...chain('b', b)];
  expect(read(entries)).toEqual(expected.split(' '));
  expect(read(entries.toReversed())).toEqual(expected.split(' '));
});

test('the clamped time never goes back within a chain', () => {
  const placed = order(chain('a', [{ at: '09:10' }, { at: '08:00' }, { at: '09:20' }]));
  expect(placed.map(({ clampedMs }) => new Date(clampedMs).toISOString())).toEqual([utcOf(550), utcOf(550), utcOf(560)]);
});

test('the same entry given twice is read once', () => {
  const entries = chain('a', [{}, {}]);
  expect(read([...entries, ...chain('a', [{}, {}])])).toEqual(['a-0', 'a-1']);
});

test('two entries in one place of a chain are both read, in the same order however they arrive', () => {
  const fork = [...chain('a', [{ seq: 0 }, { seq: 1, id: 'x' }]), ...chain('a', [{ seq: 1, id: 'y' }])];
  expect(read(fork).toSorted()).toEqual(['a-0', 'x', 'y']);
  expect(read(fork.toReversed())).toEqual(read(fork));
});

test('entries with one id are all waited for', () => {
  const entries = [
    ...chain('a', [{ at: '09:00', id: 'run' }]),
    ...chain('b', [{ at: '09:30', id: 'run' }]),
    ...chain('c', [{ at: '09:10', run: 'run' }]),
  ];
  expect(order(entries).map(({ entry }) => entry.body.device)).toEqual(['a', 'b', 'c']);
});

// Entries are made one after the other, each on one of three phones with a clock of its own, and name what was made before.
const made = fc.array(fc.record({ phone: fc.nat(2), minute: fc.nat(600), names: fc.array(fc.nat(60), { maxLength: 2 }) }), {
  maxLength: 30,
});

test('honest phones: any order of arrival, every entry once, each chain as written, references first', () => {
  fc.assert(
    fc.property(made, fc.integer(), (makings, turn) => {
      const said: Said[][] = [[], [], []];
      makings.forEach(({ phone, minute, names }, i) => {
        const at = `${String(Math.floor(minute / 60)).padStart(2, '0')}:${String(minute % 60).padStart(2, '0')}`;
        said[phone]!.push({ id: `e-${i}`, at, refs: names.filter((n) => n < i).map((n) => `e-${n}`) });
      });
      const entries = said.flatMap((one, phone) => chain(`phone-${phone}`, one));
      const ids = read(entries);
      const place = new Map(ids.map((id, i) => [id, i]));
      expect(place.size).toBe(makings.length);
      expect(ids).toHaveLength(makings.length);
      for (const { body } of entries) for (const ref of body.refs) expect(place.get(ref)!).toBeLessThan(place.get(body.id)!);
      for (const one of said) expect(ids.filter((id) => one.some((s) => s.id === id))).toEqual(one.map((s) => s.id));
      const turned = entries.toSorted(
        (a, b) => ((place.get(a.body.id)! * 7919 + turn) % 31) - ((place.get(b.body.id)! * 7919 + turn) % 31),
      );
      expect(read(turned)).toEqual(ids);
    }),
    { seed: 20260302, numRuns: 200 },
  );
});

test('a thousand entries in a ring of references are all read', () => {
  const ring = (device: string, other: string) =>
    chain(
      device,
      Array.from({ length: 500 }, (_, i) => ({ refs: [`${other}-${(i + 1) % 500}`] })),
    );
  expect(new Set(read([...ring('a', 'b'), ...ring('b', 'a')])).size).toBe(1000);
});
