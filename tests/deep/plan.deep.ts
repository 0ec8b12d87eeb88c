import assert from 'node:assert/strict';
import fc from 'fast-check';
import { bareArea, answerTo, bothOrders, bothPlans, layingFaults } from '../property/plan-checks.ts';
import { anyRoom, crookedRoom, layingRooms, smallTask, squareRoom } from '../property/plan-rooms.ts';

export const inputs = ['src/lib/trade/sheets', 'src/lib/trade/laying', 'src/lib/measure', 'tests/property'];

/** The checks of tests/property/plan-*.test.ts on many more rooms: all remedies replayed, orders tried for up to four pieces. */
export async function run(seed: number): Promise<Record<string, number>> {
  const counts = { plans: 0, orders: 0, traps: 0, ordersTried: 0, covered: 0 };
  const over = (numRuns: number) => ({ seed, numRuns, endOnFailure: true });
  for (const tasks of [squareRoom(9, 3), anyRoom(9, 8), crookedRoom(9, 8)].map(smallTask)) {
    fc.assert(
      fc.property(tasks, (room) => {
        const { ours, brute } = bothPlans(room);
        assert.deepEqual(ours, brute);
        if (brute !== null) counts.plans++;
      }),
      over(2000),
    );
  }
  fc.assert(
    fc.property(layingRooms, (input) => {
      const { kind, faults } = layingFaults(input, true);
      assert.deepEqual(faults, []);
      if (kind === 'order') counts.orders++;
      if (kind === 'trap') counts.traps++;
    }),
    over(150),
  );
  assert.ok(counts.orders >= counts.traps, 'at least as many rooms with an order as with a trap');
  fc.assert(
    fc.property(layingRooms, (input) => {
      const both = bothOrders(input, 4);
      if (both === null) return;
      assert.ok(both.ours <= both.brute, `${both.ours} stretches, ${both.brute} by trying all orders`);
      counts.ordersTried++;
    }),
    over(150),
  );
  fc.assert(
    fc.property(layingRooms, (input) => {
      const answer = answerTo(input, () => false);
      if (answer.impossible !== undefined) return;
      assert.ok(bareArea(input, answer) < 1e-6);
      counts.covered++;
    }),
    over(1000),
  );
  return counts;
}
