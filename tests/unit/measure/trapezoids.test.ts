import { compareX, exactXAt, slabsBetween, trapezoids, xAt, type Side } from '#lib/measure/trapezoids.ts';
import type { Point } from '#lib/measure/plane.ts';
import { difference, intersection } from 'polyclip-ts';
import { expect, test } from 'vitest';

const ring = (...xy: readonly (readonly [number, number])[]): Point[] => xy.map(([x, y]) => ({ x, y }));

const slant: Side = { x1: 0, y1: 0, x2: 30, y2: 10 };
const back: Side = { x1: 30, y1: 0, x2: 0, y2: 10 };
const upright: Side = { x1: 12, y1: 0, x2: 12, y2: 10 };

test.each([
  [slant, 0, 0],
  [slant, 5, 15],
  [slant, 10, 30],
  [back, 0, 30],
  [back, 4, 18],
  [upright, 0, 12],
  [upright, 7, 12],
  [{ x1: 1, y1: 2, x2: 11, y2: 5 }, 3, 1 + 10 / 3],
])('%o at %f lies at %f', (side, y, x) => {
  expect(xAt(side, y)).toBeCloseTo(x, 12);
  const { over, under } = exactXAt(side, y);
  expect(under).toBeGreaterThan(0n);
  expect(Number(over) / Number(under)).toBeCloseTo(x, 12);
});

test('an end of a side is where it is said to be, to the last bit', () => {
  const side = { x1: 333_333_333, y1: 1, x2: 999_999_999, y2: 8 };
  expect([xAt(side, 1), xAt(side, 8)]).toEqual([333_333_333, 999_999_999]);
});

test.each([
  [slant, 5, back, 5, 0],
  [slant, 4, back, 4, -1],
  [slant, 6, back, 6, 1],
  [slant, 4, upright, 9, 0],
  [slant, 3, upright, 9, -1],
  [slant, 5, upright, 9, 1],
  // A third off, of a ten-millionth: x at 1 is 1/3e9 and 0. Doubles within NEAR of one another are settled exactly.
  [{ x1: 0, y1: 0, x2: 1, y2: 3_000_000_000 }, 1, { x1: 0, y1: 0, x2: 0, y2: 9 }, 1, 1],
  [{ x1: 0, y1: 0, x2: 0, y2: 9 }, 1, { x1: 0, y1: 0, x2: 1, y2: 3_000_000_000 }, 1, -1],
] as const)('%o at %i against %o at %i: %i', (side, y, other, otherY, order) => {
  expect(compareX(side, y, other, otherY)).toBe(order);
});

const outline = ring([0, 0], [60, 0], [60, 40], [30, 40], [30, 25], [0, 30]);
const hole = ring([10, 5], [20, 5], [20, 12], [15, 15]);
const roof = ring([0, 0], [40, 0], [50, 20], [20, 50], [-10, 20]);

const rooms: readonly (readonly [string, readonly Point[][]])[] = [
  ['a rectangle', [ring([0, 0], [60, 0], [60, 40], [0, 40])]],
  ['a slanting outline', [outline]],
  ['with a hole', [outline, hole]],
  ['a house front', [roof]],
  ['the other sense', [outline.toReversed(), hole]],
];

type Region = ReturnType<typeof difference>;
type Loop = Region[number][number];

/** As a region of the clipping library, and the area of one by the surveyor's formula, holes less. */
const region = (points: readonly Point[]): Region => [[points.map(({ x, y }): Loop[number] => [x, y])]];
const loopArea = (loop: Loop) =>
  Math.abs(loop.reduce((sum, [x, y], i) => sum + x * loop[(i + 1) % loop.length]![1] - loop[(i + 1) % loop.length]![0] * y, 0) / 2);
const areaOf = (of: Region) =>
  of.reduce((sum, [outer, ...holes]) => sum + holes.reduce((left, hole) => left - loopArea(hole), loopArea(outer!)), 0);

const corners = ({ left, right, lo, hi }: { left: Side; right: Side; lo: number; hi: number }): Point[] => [
  { x: xAt(left, lo), y: lo },
  { x: xAt(right, lo), y: lo },
  { x: xAt(right, hi), y: hi },
  { x: xAt(left, hi), y: hi },
];

// Reference: polyclip-ts (Martinez, Rueda and Feito 2013), which shares no code with ours.
test.each(rooms)('the cells of %s fill it and do not overlap', (_, [outer, ...holes]) => {
  const cells = trapezoids([outer!, ...holes]).cells.map((cell) => region(corners(cell)));
  const room = holes.reduce((left, hole) => difference(left, region(hole)), region(outer!));
  for (const cell of cells) {
    expect(areaOf(cell)).toBeGreaterThan(0);
    expect(areaOf(intersection(room, cell))).toBeCloseTo(areaOf(cell), 6);
  }
  expect(cells.reduce((sum, cell) => sum + areaOf(cell), 0)).toBeCloseTo(areaOf(room), 6);
});

test('cells lie in the slabs between the levels of the corners, and know what they share an edge with above', () => {
  const { levels, cells, starts } = trapezoids([ring([0, 0], [60, 0], [60, 40], [40, 40], [40, 20], [20, 20], [20, 40], [0, 40])]);
  expect(levels).toEqual([0, 20, 40]);
  expect(starts).toEqual([0, 1, 3]);
  expect(cells.map(({ lo, hi, left, right, above }) => [lo, hi, left.x1, right.x1, above])).toEqual([
    [0, 20, 0, 60, [1, 2]],
    [20, 40, 0, 20, []],
    [20, 40, 40, 60, []],
  ]);
});

/** Rings of one region, and for each cell, from below and from the left, those it shares an edge with above. */
test.each<[string, Point[][], number[][]]>([
  ['a tip', [ring([0, 0], [20, 0], [10, 10])], [[]]],
  ['a diamond', [ring([10, 0], [20, 10], [10, 20], [0, 10])], [[1], []]],
  ['a step to the right', [ring([0, 0], [10, 0], [10, 10], [20, 10], [20, 20], [5, 20], [5, 10], [0, 10])], [[1], []]],
  [
    'two legs with a corner at the same height',
    [ring([0, 0], [10, 0], [10, 20], [30, 20], [30, 0], [40, 0], [41, 10], [40, 30], [0, 30], [1, 10])],
    [[2], [3], [4], [4], []],
  ],
  [
    'corner to corner, upwards to the right',
    [ring([0, 0], [10, 0], [10, 10], [0, 10]), ring([10, 10], [20, 10], [20, 20], [10, 20])],
    [[], []],
  ],
  [
    'corner to corner, upwards to the left',
    [ring([10, 0], [20, 0], [20, 10], [10, 10]), ring([0, 10], [10, 10], [10, 20], [0, 20])],
    [[], []],
  ],
  ['a tip below a floor', [ring([0, 0], [20, 0], [10, 10]), ring([0, 10], [20, 10], [20, 20], [0, 20])], [[], []]],
  ['a tip on a floor', [ring([0, 0], [20, 0], [20, 10], [0, 10]), ring([10, 10], [20, 20], [0, 20])], [[], []]],
])('%s', (_, rings, above) => {
  expect(trapezoids(rings).cells.map((cell) => cell.above)).toEqual(above);
});

test.each([
  [0, 40, 0, 1],
  [0, 20, 0, 0],
  [20, 40, 1, 1],
  [19, 21, 0, 1],
  [5, 6, 0, 0],
  [-9, 0, 0, -1],
  [40, 50, 2, 1],
])('a band from %i to %i meets slabs %i to %i', (lo, hi, first, last) => {
  const parts = trapezoids([ring([0, 0], [60, 0], [60, 40], [40, 40], [40, 20], [0, 20])]);
  expect(slabsBetween(parts, lo, hi)).toEqual({ first, last });
});
