import { closed, gapOf, walked, type Closing, type WalkedWall } from '#lib/job/drawing/walk.ts';
import fc from 'fast-check';
import { expect, test } from 'vitest';

const P = 10_000;
/** Lengths in inches and turns at their ends. */
const walk = (...walls: readonly (readonly [length: number, turn: number])[]): WalkedWall[] =>
  walls.map(([length, turn]) => ({ length: length * P, turn }));
const inches = (corners: readonly { x: number; y: number }[]) => corners.map(({ x, y }) => [x / P, y / P]);

// A rectangle of 60 by 31 of which one long wall came out an eighth too long.
const LONG = walk([60, 90], [31, 90], [60.125, 90], [31, 0]);
// A corner cut off at 45 degrees, the last wall half an inch too long.
const CUT = walk([36, 90], [36, 90], [18, 45], [25.4558, 45], [18.5, 0]);

test('a walk with its wall on the left hand goes up first and turns right', () => {
  expect(inches(walked(LONG))).toEqual([[0, 0], [0, 60], [31, 60], [31, -0.125], [0, -0.125]]); // prettier-ignore
  expect(gapOf(LONG)).toMatchObject({ x: 0, y: -0.125 * P, length: 0.125 * P });
  expect(gapOf(LONG).share).toBeCloseTo(0.125 / 182.125, 12);
});

// Worked by hand. Square: the eighth over the two walls along y, 60 and 60.125 of 120.125; the others stay. Not square: half an inch along x
// over the way to each corner, of 133.9558.
const NORTH = (0.125 * 60) / 120.125;
const SHIFT = [36, 72, 90, 115.4558].map((way) => (0.5 * way) / 133.9558);

test.each<[what: string, walls: WalkedWall[], closing: Closing, corners: number[][]]>([
  [
    'square corners stay square',
    LONG,
    { how: 'spread' },
    [[0, 0], [0, 60 + NORTH], [31, 60 + NORTH], [31, 0]],
  ],
  [
    'other corners by the compass rule',
    CUT,
    { how: 'spread' },
    [[0, 0], [SHIFT[0]!, 36], [36 + SHIFT[1]!, 36], [36 + SHIFT[2]!, 18], [18 + SHIFT[3]!, 0]],
  ],
  ['one wall takes it', LONG, { how: 'one-wall', wall: 2 }, [[0, 0], [0, 60], [31, 60], [31, 0]]],
  ['the last wall takes it', CUT, { how: 'one-wall', wall: 4 }, [[0, 0], [0, 36], [36, 36], [36, 18], [18, 0]]],
])('%s', (_, walls, closing, corners) => {
  const found = inches(closed(walls, closing));
  // A slanted wall of 25.4558 in misses its corner by half a ten-thousandth.
  found.forEach(([x, y], i) => {
    expect(Math.abs(x! - corners[i]![0]!)).toBeLessThanOrEqual(0.0001001);
    expect(Math.abs(y! - corners[i]![1]!)).toBeLessThanOrEqual(0.0001001);
  });
  expect(found).toHaveLength(corners.length);
}); // prettier-ignore

test('a rectangle of any sides closes as it is, and spreading nothing changes nothing', () => {
  const side = fc.integer({ min: 1, max: 3_000_000 });
  fc.assert(
    fc.property(side, side, (a, b) => {
      const walls = [a, b, a, b].map((length) => ({ length, turn: 90 }));
      expect(gapOf(walls).length).toBe(0);
      expect(closed(walls, { how: 'spread' })).toEqual(closed(walls, { how: 'exact' }));
      expect(closed(walls, { how: 'exact' })).toEqual([{ x: 0, y: 0 }, { x: 0, y: a }, { x: b, y: a }, { x: b, y: 0 }]); // prettier-ignore
    }),
    { numRuns: 100 },
  );
});
