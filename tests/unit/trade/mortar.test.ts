import { batchState, combedState, layableBatch } from '#lib/trade/mortar-clock.ts';
import { BED_SHARE, bagsNeeded, expectedCoverage, meanBed, partBagWater } from '#lib/trade/mortar.ts';
import { expect, test } from 'vitest';
import { valueOf } from './computed.ts';

const MIN = 60_000;
const START = Date.UTC(2026, 2, 3, 7);

test('water for part of a bag keeps the range of the whole one', () => {
  expect(valueOf(partBagWater({ bagKg: 20, waterMinL: 5, waterMaxL: 6, powderKg: 5 }))).toEqual({ minL: 1.25, maxL: 1.5 });
  expect(valueOf(partBagWater({ bagKg: 20, waterMinL: 5, waterMaxL: 6, powderKg: 20 }))).toEqual({ minL: 5, maxL: 6 });
});

// calc: notch over pitch, in sixteenths of an inch; at 45 degrees times 0.7071.
test.each([
  [2, 2, 2, 1.5875, 1.1225],
  [3, 3, 3, 2.3813, 1.6838],
  [4, 4, 4, 3.175, 2.245],
  [4, 6, 4, 4.7625, 3.3676],
  [8, 8, 8, 6.35, 4.49],
])('square notch %d by %d, teeth %d sixteenths: %d mm upright, %d mm at 45 degrees', (width, depth, tooth, upright, tilted) => {
  const trowel = { notch: 'square', widthMm: width * 1.5875, depthMm: depth * 1.5875, toothMm: tooth * 1.5875 } as const;
  expect(valueOf(meanBed({ trowel, angleDeg: 90 })).bedMm).toBeCloseTo(upright, 3);
  expect(valueOf(meanBed({ trowel, angleDeg: 45 })).bedMm).toBeCloseTo(tilted, 3);
});

test('a V leaves half of a square, a U what its half circle leaves', () => {
  const size = { widthMm: 6, depthMm: 6, toothMm: 6 };
  expect(valueOf(meanBed({ trowel: { notch: 'v', ...size }, angleDeg: 90 })).bedMm).toBe(1.5);
  expect(valueOf(meanBed({ trowel: { notch: 'v', ...size, toothMm: 0 }, angleDeg: 90 })).bedMm).toBe(3);
  expect(valueOf(meanBed({ trowel: { notch: 'u', ...size }, angleDeg: 90 })).bedMm).toBeCloseTo((18 + 4.5 * Math.PI) / 12, 12);
  expect(valueOf(meanBed({ trowel: { notch: 'u', ...size, depthMm: 3 }, angleDeg: 90 })).bedMm).toBeCloseTo((4.5 * Math.PI) / 12, 12);
});

test.each([
  [{ notch: 'u', widthMm: 6, depthMm: 2.9, toothMm: 6 }, 'trowel.depthMm', 'too-small'],
  [{ notch: 'square', widthMm: 6, depthMm: 6, toothMm: 0 }, 'trowel.toothMm', 'too-small'],
  [{ notch: 'zigzag' as 'v', widthMm: 6, depthMm: 6, toothMm: 6 }, 'trowel.notch', 'unknown-choice'],
] as const)('no trowel: %j', (trowel, field, code) => {
  expect(meanBed({ trowel, angleDeg: 90 })).toMatchObject({ ok: false, fault: { field, code } });
});

// ft2 of a bag of 50 lb, "How much thinset do I need per square foot" (trade guide), under "Standard thinset coverage rates". The share was
// reckoned from the first row, with a yield of 0.55 ft3 assumed; the others try it.
test.each([
  ['1/4 by 1/4', 4, 4, [80, 100], [81, 117]],
  ['1/4 by 3/8', 4, 6, [60, 80], [54, 78]],
  ['1/2 by 1/2', 8, 8, [40, 50], [41, 59]],
])('a square notch of %s in: the middle of what is published is expected', (_, width, depth, published, expected) => {
  const trowel = { notch: 'square', widthMm: width * 1.5875, depthMm: depth * 1.5875, toothMm: width * 1.5875 } as const;
  const uprightBedMm = valueOf(meanBed({ trowel, angleDeg: 90 })).bedMm;
  const { leastM2PerBag, mostM2PerBag } = valueOf(expectedCoverage({ uprightBedMm, bagYieldL: 15.57, share: BED_SHARE }));
  const ours = [leastM2PerBag, mostM2PerBag].map((m2) => Math.round(m2 / 0.0929));
  expect(ours).toEqual(expected);
  const middle = (published[0]! + published[1]!) / 2;
  expect(ours[0]! <= middle && middle <= ours[1]!).toBe(true);
});

test('bags are whole, the loss on top, and an exact bag is not two', () => {
  const need = (areaM2: number, lossPct: number) => valueOf(bagsNeeded({ areaM2, lossPct, leastM2PerBag: 7, mostM2PerBag: 10 }));
  expect(need(14, 0)).toEqual({ fewestBags: 2, mostBags: 2 });
  expect(need(14, 1)).toEqual({ fewestBags: 2, mostBags: 3 });
  expect(need(0.1 * 70, 10)).toEqual({ fewestBags: 1, mostBags: 2 });
});

const batch = { mixedAtMs: START, slakeMs: 10 * MIN, potLifeMs: 80 * MIN };
test.each([
  [0, 'slaking', 10],
  [9, 'slaking', 1],
  [10, 'usable', 70],
  [59, 'usable', 21],
  [60, 'warn', 20],
  [79, 'warn', 1],
  [80, 'dead', 0],
  [500, 'dead', 0],
])('%d min after mixing a batch is %s, %d min left', (minutes, state, left) => {
  expect(valueOf(batchState({ ...batch, nowMs: START + minutes * MIN }))).toEqual({
    state,
    usableAtMs: START + 10 * MIN,
    deadAtMs: START + 80 * MIN,
    leftMs: left * MIN,
  });
});

test.each([
  [0, 'usable', 20],
  [15, 'warn', 5],
  [20, 'dead', 0],
])('%d min after combing it is %s', (minutes, state, left) => {
  expect(valueOf(combedState({ combedAtMs: START, openTimeMs: 20 * MIN, nowMs: START + minutes * MIN }))).toEqual({
    state,
    deadAtMs: START + 20 * MIN,
    leftMs: left * MIN,
  });
});

test('a clock that stands before the mixing is refused by name', () => {
  expect(batchState({ ...batch, nowMs: START - 1 })).toEqual({ ok: false, fault: { code: 'out-of-order', field: 'nowMs', bound: START } });
  expect(batchState({ ...batch, slakeMs: 80 * MIN, nowMs: START })).toMatchObject({
    ok: false,
    fault: { code: 'out-of-order', field: 'potLifeMs' },
  });
  expect(combedState({ combedAtMs: START, openTimeMs: 0, nowMs: START })).toMatchObject({
    ok: false,
    fault: { code: 'too-small', field: 'openTimeMs' },
  });
});

test('the largest batch is what the crew lays while it lives; a larger one dies first, and only its living part counts', () => {
  const laying = { leftM2: 6, rateM2PerH: 3, spreadKgM2: 4, slakeMs: 10 * MIN, potLifeMs: 70 * MIN };
  expect(valueOf(layableBatch({ ...laying, batchKg: 12 }))).toEqual({
    mostM2: 3,
    mostKg: 12,
    batches: 2,
    batchLaidInMs: 60 * MIN,
    batchDiesFirst: false,
  });
  expect(valueOf(layableBatch({ ...laying, batchKg: 22 }))).toMatchObject({ batches: 2, batchDiesFirst: true });
  expect(valueOf(layableBatch({ ...laying, batchKg: 4 }))).toMatchObject({ batches: 6, batchDiesFirst: false });
});
