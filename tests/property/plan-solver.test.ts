import { packRolls } from '#lib/trade/sheets/packing.ts';
import { planSheets } from '#lib/trade/sheets/plan.ts';
import fc from 'fast-check';
import { beforeAll, expect, test } from 'vitest';
import type { Highs } from 'highs';
import { bruteStrips } from './plan-brute.ts';
import { anyRoom, smallTask, squareRoom } from './plan-rooms.ts';
import { solvePacking, solver, solveStrips } from './plan-solver.ts';
import { taskOf } from './plan-task.ts';

let highs: Highs;
beforeAll(async () => {
  highs = await solver();
});

test('rolls are packed as the general solver packs them', () => {
  const cases = fc.record({
    cuts: fc.array(fc.integer({ min: 5, max: 60 }), { minLength: 1, maxLength: 7 }),
    atHand: fc.array(fc.integer({ min: 20, max: 120 }), { maxLength: 3 }),
    newLength: fc.option(fc.integer({ min: 60, max: 130 })),
  });
  let fits = 0;
  fc.assert(
    fc.property(cases, ({ cuts, atHand, newLength }) => {
      const solved = solvePacking(highs, cuts, atHand, newLength);
      const { rolls, isProven } = packRolls(cuts, { atHand, newLength }, () => true);
      expect(isProven).toBe(true);
      if (rolls === null) {
        expect(solved).toBeNull();
        return;
      }
      fits++;
      const loads = rolls.map(({ pieces }) => pieces.reduce((sum, piece) => sum + cuts[piece]!, 0));
      expect(rolls.flatMap(({ pieces }) => pieces).sort((a, b) => a - b)).toEqual(cuts.map((_, i) => i));
      expect(rolls.every(({ length }, i) => loads[i]! <= length)).toBe(true);
      expect({
        opened: rolls.filter(({ isNew }) => isNew).length,
        longest: Math.max(...rolls.map(({ length }, i) => length - loads[i]!)),
      }).toEqual({
        opened: solved?.opened,
        longest: expect.closeTo(solved?.longest ?? NaN, 4) as number,
      });
    }),
    { seed: 20260308, numRuns: 60, endOnFailure: true },
  );
  expect(fits).toBeGreaterThan(30);
});

test('strips over larger rooms are planned as the general solver plans them', () => {
  let planned = 0;
  fc.assert(
    fc.property(fc.oneof(smallTask(squareRoom(24, 6)), smallTask(anyRoom(24, 12))), fc.constantFrom<0 | 90>(0, 90), (small, direction) => {
      const room = { ...small, direction, gauge: 1, roll: { ...small.roll, width: small.roll.width * 2, newLength: 60 } };
      const solved = solveStrips(highs, bruteStrips(room, direction));
      const { plan } = planSheets(taskOf(room), () => true);
      if (plan === null) {
        expect(solved).toBeNull();
        return;
      }
      planned++;
      expect({
        pieces: plan.pieces.length,
        cut: plan.totalCut / 10_000,
        notched: plan.notched,
        seam: Number(plan.seamLength.over) / Number(plan.seamLength.under) / 10_000,
        overlap: (plan.smallestOverlap ?? 10_000_000) / 10_000,
      }).toEqual({
        pieces: expect.closeTo(solved!.pieces, 4) as number,
        cut: expect.closeTo(solved!.cut, 4) as number,
        notched: expect.closeTo(solved!.notched, 4) as number,
        seam: expect.closeTo(solved!.seam, 4) as number,
        overlap: expect.closeTo(solved!.overlap, 4) as number,
      });
    }),
    { seed: 20260309, numRuns: 25, endOnFailure: true },
  );
  expect(planned).toBeGreaterThan(15);
});
