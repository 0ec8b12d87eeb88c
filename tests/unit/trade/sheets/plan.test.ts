import { planSheets, type SheetPlan, type SheetTask } from '#lib/trade/sheets/plan.ts';
import { describe, expect, it } from 'vitest';

type XY = readonly [number, number];
const parts = (value: number) => Math.round(value * 10_000);
const ring = (corners: readonly XY[]) => corners.map(([x, y]) => ({ x: parts(x), y: parts(y) }));
const box = (x1: number, y1: number, x2: number, y2: number): XY[] => [
  [x1, y1],
  [x2, y1],
  [x2, y2],
  [x1, y2],
];

const TASK: SheetTask = {
  rings: [ring(box(0, 0, 60, 96))],
  gauge: parts(0.125),
  roll: { width: parts(39), atHand: [], newLength: parts(600) },
  minOverlap: parts(2),
  upturn: 0,
  direction: 'free',
  keepOuts: [],
  pins: [],
  longestPiece: null,
};

const always = () => true;

function planOf(task: Partial<SheetTask>, budget = always): SheetPlan {
  const { plan } = planSheets({ ...TASK, ...task }, budget);
  if (plan === null) throw new Error('no plan');
  return plan;
}

const inches = (plan: SheetPlan) => ({
  direction: plan.direction,
  positions: plan.positions.map((at) => at / 10_000),
  cuts: plan.pieces.map(({ id, cutLength }) => `${id} ${cutLength / 10_000}`),
  notched: plan.notched,
  seam: Number(plan.seamLength.over) / Number(plan.seamLength.under) / 10_000,
  overlap: plan.smallestOverlap === null ? null : plan.smallestOverlap / 10_000,
});

describe('by hand', () => {
  it('two strips along a bathroom of 5 ft by 8 ft, as far over each other as they go', () => {
    // Across 60 in two strips of 39 in are enough, along 96 in three: two pieces are fewer. The first starts at 0 or below, the second
    // ends at 60 or above: they overlap most, by 18 in, when they start at 0 and 21.
    expect(inches(planOf({}))).toEqual({ direction: 90, positions: [0, 21], cuts: ['A 96', 'B 96'], notched: 0, seam: 96, overlap: 18 });
  });

  it('cuts are longer by two upturns, and strips wide enough for them at both sides', () => {
    // 96 + 2 * 3; two strips cover 60 + 2 * 3 in all: at most 2 * 39 - 66 = 12 in of overlap.
    expect(inches(planOf({ upturn: parts(3) }))).toMatchObject({ positions: [-3, 24], cuts: ['A 102', 'B 102'], overlap: 12 });
  });

  it('cuts are rounded up to the gauge, never down', () => {
    const cutOf = (length: number) => planOf({ rings: [ring(box(0, 0, 30, length))], direction: 90 }).totalCut / 10_000;
    expect([96, 96.0001, 96.1249, 96.125].map(cutOf)).toEqual([96, 96.125, 96.125, 96.125]);
  });

  it('the arms of a U are two pieces of one strip, and two rectangles', () => {
    const u: XY[] = [...box(0, 0, 60, 90).slice(0, 3), [40, 90], [40, 30], [20, 30], [20, 90], [0, 90]];
    const plan = planOf({
      rings: [ring(u)],
      direction: 0,
      roll: { width: parts(60), atHand: [], newLength: parts(600) },
      pins: [0, parts(30)],
    });
    expect(inches(plan)).toMatchObject({ cuts: ['A 60', 'B 20', 'C 20'], notched: 1 });
    expect(plan.pieces.map(({ strip, from }) => [strip, Number(from.over / from.under) / 10_000])).toEqual([
      [0, 0],
      [1, 0],
      [1, 40],
    ]);
  });

  it('two parts that meet in a point are two pieces', () => {
    // Two triangles with their tips together at a height of 30, joined below: the strip from 30 up holds them apart.
    const floor: XY[] = [
      [0, 0],
      [40, 0],
      [40, 60],
      [20, 30],
      [0, 60],
    ];
    const plan = planOf({
      rings: [ring(floor)],
      direction: 0,
      roll: { width: parts(30), atHand: [], newLength: parts(600) },
      minOverlap: 0,
    });
    expect(inches(plan)).toMatchObject({ positions: [0, 30], cuts: ['A 40', 'B 20', 'C 20'], seam: 0, overlap: 0 });
  });

  it('no seam over a drain; one that touches it is allowed', () => {
    const drained = (x: number) =>
      inches(planOf({ direction: 90, keepOuts: [{ at: { x: parts(x), y: parts(40) }, radius: parts(3) }] })).positions;
    // Two strips overlap from 21 to 39. A disc from 28 to 34 leaves 21 to 28, which touches it, or 34 to 39.
    expect(drained(31)).toEqual([-11, 21]);
    expect(drained(18)).toEqual([0, 21]);
    expect(drained(42)).toEqual([0, 21]);
    expect(drained(41.875)).toEqual([-0.125, 21]);
  });

  it('names the walls in between that get no upturn', () => {
    const l: XY[] = [
      [0, 0],
      [96, 0],
      [96, 36],
      [36, 36],
      [36, 120],
      [0, 120],
    ];
    expect(planOf({ rings: [ring(l)], direction: 0, upturn: parts(2) }).upturnMissing).toEqual([2]);
    expect(planOf({ rings: [ring(l)], direction: 90, upturn: parts(2) }).upturnMissing).toEqual([3]);
    expect(planOf({ rings: [ring(l)], direction: 0 }).upturnMissing).toEqual([]);
  });

  it('a wall with a niche is cut around it', () => {
    const plan = planOf({ rings: [ring(box(0, 0, 60, 84)), ring(box(24, 40, 36, 60))], direction: 90 });
    // One strip just beside the niche is a rectangle; the other is cut around it.
    expect(inches(plan)).toMatchObject({ positions: [-15, 21], notched: 1 });
    // Of a strip just as wide as the niche a piece is left above and below it.
    const narrow = { width: parts(12), atHand: [], newLength: parts(600) };
    expect(
      planOf({ rings: [ring(box(0, 0, 36, 84)), ring(box(12, 40, 24, 60))], direction: 90, roll: narrow, minOverlap: 0 }).pieces,
    ).toHaveLength(4);
  });
});

describe('what a person fixed', () => {
  it('a direction', () => {
    expect(inches(planOf({ direction: 0 }))).toMatchObject({ direction: 0, cuts: ['A 60', 'B 60', 'C 60'] });
  });

  it('a seam dragged to a place', () => {
    expect(inches(planOf({ direction: 90, pins: [parts(30)] })).positions).toEqual([0, 30]);
    expect(planSheets({ ...TASK, direction: 90, pins: [parts(60)] }, always).plan).toBeNull();
  });

  it('a cap on the length of a piece', () => {
    expect(inches(planOf({ longestPiece: parts(72) }))).toMatchObject({ direction: 0, cuts: ['A 60', 'B 60', 'C 60'] });
    expect(planSheets({ ...TASK, longestPiece: parts(59.875) }, always).plan).toBeNull();
  });
});

describe('when the time is up', () => {
  it('the plan is one of fewest pieces and least cut, and not called proven', () => {
    const plan = planOf({}, () => false);
    expect(inches(plan)).toMatchObject({ direction: 90, cuts: ['A 96', 'B 96'] });
    expect(plan.proven.plan).toBe(false);
    expect(plan.gap).toBe(0);
  });

  it('a gauge far too fine gives a plan on a coarser one, and how far it may be from the best', () => {
    const plan = planOf({ gauge: 1, rings: [ring(box(0, 0, 60.1111, 96.2222))] }, () => false);
    expect(plan.pieces).toHaveLength(2);
    expect(plan.proven.plan).toBe(false);
    expect(plan.gap).toBeGreaterThanOrEqual(0);
  });
});
