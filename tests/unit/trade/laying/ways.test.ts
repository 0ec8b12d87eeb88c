import { groundOf } from '#lib/trade/laying/ground.ts';
import { waysOver } from '#lib/trade/laying/ways.ts';
import { describe, expect, it } from 'vitest';

type XY = readonly [number, number];
const point = ([x, y]: XY) => ({ x: x * 10_000, y: y * 10_000 });

/** Length of the shortest way in a room, in its own unit. */
function way(
  floor: readonly XY[],
  from: XY,
  to: XY,
  room: { doorways?: { wall: number; from: number; to: number }[]; lowWalls?: number[]; reach?: number } = {},
): number {
  const { doorways = [], lowWalls = [], reach = 40 } = room;
  const ground = groundOf({
    floor: floor.map(point),
    doorways: doorways.map((doorway) => ({ ...doorway, from: doorway.from * 10_000, to: doorway.to * 10_000 })),
    lowWalls,
    reach: reach * 10_000,
  });
  const ways = waysOver(ground);
  return ways.distance(point(from), 0, ways.target(point(to)), Infinity) / 10_000;
}

const L: XY[] = [
  [0, 0],
  [96, 0],
  [96, 36],
  [36, 36],
  [36, 120],
  [0, 120],
];
const BOX: XY[] = [
  [0, 0],
  [60, 0],
  [60, 90],
  [0, 90],
];
/** A room with a stub wall 4 wide and 40 long up from its lower side. */
const STUB: XY[] = [
  [0, 0],
  [40, 0],
  [40, 40],
  [44, 40],
  [44, 0],
  [84, 0],
  [84, 90],
  [0, 90],
];
/** A column of 4 by 4 that stands on the lower side by a neck of 1. */
const COLUMN: XY[] = [
  [0, 0],
  [40, 0],
  [40, 20],
  [38, 20],
  [38, 24],
  [42, 24],
  [42, 20],
  [41, 20],
  [41, 0],
  [84, 0],
  [84, 90],
  [0, 90],
];

describe('the shortest way', () => {
  it.each<[string, number, number]>([
    ['straight', way(BOX, [10, 10], [40, 50]), 50],
    ['along a wall', way(BOX, [0, 10], [0, 50]), 40],
    ['round the inner corner of the room', way(L, [60, 20], [20, 60]), 2 * Math.hypot(24, 16)],
    ['past the inner corner, touching it', way(L, [40, 32], [32, 40]), Math.hypot(8, 8)],
    ['round a stub wall, over both its corners', way(STUB, [10, 1], [74, 1]), 2 * Math.hypot(30, 39) + 4],
    ['over the stub wall when it is low', way(STUB, [10, 1], [74, 1], { lowWalls: [1, 2, 3] }), 64],
    [
      'over one side of it and round the other that is not low',
      way(STUB, [10, 1], [74, 1], { lowWalls: [1, 2] }),
      Math.hypot(34, 39) + Math.hypot(30, 39),
    ],
    ['over its low end only where that is shorter', way(STUB, [40, 30], [44, 30], { lowWalls: [1, 2, 3] }), 4],
    // The corners of the column lie on the straight line from (37, 19) to (43, 25): through them it is solid.
    ['round a column whose corners lie on the straight way', way(COLUMN, [37, 19], [43, 25]), Math.hypot(1, 5) + Math.hypot(5, 1)],
  ])('%s', (_, length, expected) => {
    expect(length).toBeCloseTo(expected, 4);
  });

  it('goes round a door jamb', () => {
    const door = { doorways: [{ wall: 0, from: 20, to: 40 }] };
    expect(way(BOX, [30, -10], [30, 20], door)).toBeCloseTo(30, 4);
    // From beside the doorway to a corner behind the wall: over the jamb at (20, 0).
    expect(way(BOX, [22, -10], [2, 3], door)).toBeCloseTo(Math.hypot(2, 10) + Math.hypot(18, 3), 4);
    expect(way(BOX, [22, -10], [2, 0], door)).toBeCloseTo(Math.hypot(2, 10) + 18, 4);
  });

  it('does not leave an apron but by its doorway, nor the floor along a wall', () => {
    expect(way(BOX, [10, -10], [30, -10], { doorways: [{ wall: 0, from: 20, to: 40 }] })).toBe(Infinity);
  });

  it('passes no wall where the side of an apron ends on it', () => {
    // A sharp spur of the floor in front of the doorway: its far wall cuts the apron.
    const spur: XY[] = [
      [0, 0],
      [60, 0],
      [60, 40],
      [0, 40],
      [0, 30],
      [50, 30],
      [50, 10],
      [0, 10],
    ];
    const door = { doorways: [{ wall: 4, from: 10, to: 30 }] };
    // From the apron below the upper arm to the lower arm: the way leads through the doorway and round the slot, not through the wall at y = 10.
    expect(way(spur, [20, 20], [20, 5], door)).toBeGreaterThan(60);
  });
});
