import fc from 'fast-check';
import { expect, test } from 'vitest';
import { bothPlans } from './plan-checks.ts';
import { anyRoom, crookedRoom, smallTask, squareRoom } from './plan-rooms.ts';

test.each([
  ['square', smallTask(squareRoom(9, 3))],
  ['any', smallTask(anyRoom(9, 8))],
  ['crooked', smallTask(crookedRoom(9, 8))],
])('the plan of a small %s room is the best of all its plans', (_, tasks) => {
  const numRuns = 200;
  let planned = 0;
  fc.assert(
    fc.property(tasks, (room) => {
      const { ours, brute } = bothPlans(room);
      expect(ours).toEqual(brute);
      if (brute !== null) planned++;
    }),
    { seed: 20260305, numRuns },
  );
  expect(planned).toBeGreaterThan(numRuns / 2);
});
