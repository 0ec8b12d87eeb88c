import fc from 'fast-check';
import { expect, test } from 'vitest';
import { answerTo, bareArea, bothOrders, layingFaults } from './plan-checks.ts';
import { layingRooms } from './plan-rooms.ts';

test('every order is replayed without fault, and out of every trap leads a remedy that is too', () => {
  const found = { order: 0, trap: 0, impossible: 0 };
  fc.assert(
    fc.property(layingRooms, (input) => {
      const { kind, faults } = layingFaults(input, false);
      found[kind]++;
      expect(faults).toEqual([]);
    }),
    { seed: 20260306, numRuns: 25, endOnFailure: true },
  );
  expect(found.order).toBeGreaterThanOrEqual(found.trap);
  expect(found.trap).toBeGreaterThan(3);
});

test('where trying all orders finds one, so do we, and with no more stretches', () => {
  let orders = 0;
  fc.assert(
    fc.property(layingRooms, (input) => {
      const both = bothOrders(input, 3);
      if (both === null) return;
      expect(both.ours).toBeLessThanOrEqual(both.brute);
      if (both.brute < Infinity) orders++;
    }),
    { seed: 20260307, numRuns: 35, endOnFailure: true },
  );
  expect(orders).toBeGreaterThan(5);
});

test('the cuts of every plan cover the floor', () => {
  fc.assert(
    fc.property(layingRooms, (input) => {
      const answer = answerTo(input, () => false);
      if (answer.impossible !== undefined) return;
      expect(bareArea(input, answer)).toBeLessThan(1e-6);
    }),
    { seed: 20260310, numRuns: 100, endOnFailure: true },
  );
});
