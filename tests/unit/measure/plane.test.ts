import { doubleArea, meeting, outlineFault, placeIn, turn, type Point } from '#lib/measure/plane.ts';
import { expect, test } from 'vitest';

const at = (x: number, y: number): Point => ({ x, y });
const ring = (...xy: readonly (readonly [number, number])[]) => xy.map(([x, y]) => at(x, y));

test.each([
  [at(0, 0), at(10, 0), at(10, 5), 1],
  [at(0, 0), at(10, 0), at(10, -5), -1],
  [at(0, 0), at(10, 0), at(20, 0), 0],
  [at(0, 0), at(10, 0), at(-5, 0), 0],
  [at(3, 4), at(3, 9), at(2, 9), 1],
  [at(3, 4), at(3, 9), at(4, 9), -1],
  [at(3, 4), at(7, 9), at(11, 14), 0],
  [at(5, 5), at(5, 5), at(9, 9), 0],
])('from %o over %o to %o turns %i', (a, b, c, way) => {
  expect(turn(a, b, c)).toBe(way);
});

// Cassini's identity, F(n-1) F(n+1) - F(n)^2 = (-1)^n: neighbouring Fibonacci numbers lie one unit of area off a line, however long it is.
// Moved away from zero the products pass 2^53, where doubles no longer tell them apart.
test.each([10, 11, 30, 31, 42, 43])('the turn at Fibonacci numbers is told by one unit, n = %i', (n) => {
  const f = [0, 1];
  while (f.length <= n + 1) f.push(f.at(-1)! + f.at(-2)!);
  for (const origin of [at(0, 0), at(-500_000_000, 500_000_000)]) {
    const b = at(origin.x + f[n]!, origin.y + f[n - 1]!);
    const c = at(origin.x + f[n + 1]!, origin.y + f[n]!);
    expect(turn(origin, b, c)).toBe(n % 2 === 0 ? -1 : 1);
    expect(turn(c, b, origin)).toBe(n % 2 === 0 ? 1 : -1);
  }
});

test.each([
  ['a cross', at(0, 0), at(10, 10), at(0, 10), at(10, 0), 'cross'],
  ['a cross of a level and an upright one', at(0, 5), at(10, 5), at(4, 0), at(4, 10), 'cross'],
  ['a T', at(0, 0), at(10, 0), at(5, 0), at(5, 7), 'touch'],
  ['a T, the stem first', at(5, 0), at(5, 7), at(0, 0), at(10, 0), 'touch'],
  ['a T from below', at(0, 0), at(10, 0), at(5, -7), at(5, 0), 'touch'],
  ['a T from below, the stem first', at(5, -7), at(5, 0), at(0, 0), at(10, 0), 'touch'],
  ['end to end', at(0, 0), at(4, 0), at(4, 0), at(9, 3), 'touch'],
  ['one along the other', at(0, 0), at(10, 0), at(4, 0), at(20, 0), 'touch'],
  ['one within the other', at(0, 0), at(10, 0), at(4, 0), at(6, 0), 'touch'],
  ['one around the other', at(4, 0), at(6, 0), at(0, 0), at(10, 0), 'touch'],
  ['on one line, apart', at(0, 0), at(4, 0), at(5, 0), at(9, 0), null],
  ['on one slant, apart', at(0, 0), at(4, 4), at(5, 5), at(9, 9), null],
  ['on one slant, apart, the other way', at(5, 5), at(9, 9), at(0, 0), at(4, 4), null],
  ['level and side by side', at(0, 0), at(10, 0), at(0, 1), at(10, 1), null],
  ['level and side by side, the upper first', at(0, 1), at(10, 1), at(0, 0), at(10, 0), null],
  ['upright, the right one first', at(8, 0), at(8, 9), at(2, 0), at(2, 9), null],
  ['boxes meet, the segments do not', at(0, 0), at(10, 10), at(6, 0), at(10, 5), null],
  ['boxes meet, one end on the line beyond', at(0, 0), at(4, 4), at(3, 0), at(6, 6), null],
  ['one unit short of a T', at(0, 0), at(10, 0), at(5, 1), at(5, 7), null],
])('%s', (_, a, b, c, d, how) => {
  expect(meeting(a, b, c, d)).toBe(how);
  expect(meeting(b, a, d, c)).toBe(how);
  expect(meeting(c, d, a, b)).toBe(how);
});

const square = ring([0, 0], [10, 0], [10, 10], [0, 10]);
const ell = ring([0, 0], [10, 0], [10, 4], [4, 4], [4, 10], [0, 10]);

test.each([
  ['a square', square, null],
  ['a square walked with the clock', square.toReversed(), null],
  ['an L', ell, null],
  ['a triangle', ring([0, 0], [10, 0], [3, 8]), null],
  ['a corner on a straight wall', ring([0, 0], [5, 0], [10, 0], [10, 10], [0, 10]), null],
  ['two corners', ring([0, 0], [10, 0]), { code: 'few-corners' }],
  ['no corner', [], { code: 'few-corners' }],
  ['a wall of no length', ring([0, 0], [10, 0], [10, 0], [0, 10]), { code: 'zero-wall', wall: 1 }],
  ['the last wall of no length', ring([0, 0], [10, 0], [0, 10], [0, 0]), { code: 'zero-wall', wall: 3 }],
  ['a bow tie', ring([0, 0], [10, 10], [10, 0], [0, 10]), { code: 'self-crossing', wall: 0, other: 2 }],
  ['a bow tie from its next corner', ring([0, 10], [0, 0], [10, 10], [10, 0]), { code: 'self-crossing', wall: 1, other: 3 }],
  ['a spike', ring([0, 0], [10, 0], [4, 0], [4, 8]), { code: 'self-touching', wall: 0, other: 1 }],
  ['a spike out and over', ring([4, 0], [10, 0], [0, 0], [4, 8]), { code: 'self-touching', wall: 0, other: 1 }],
  ['a corner on the last wall but one', ring([4, 0], [4, 8], [0, 0], [10, 0]), { code: 'self-touching', wall: 0, other: 2 }],
  ['a spike at the last corner', ring([10, 0], [4, 8], [0, 0], [4, 0]), null],
  ['a spike over the last corner', ring([0, 0], [4, 8], [8, 0], [12, 0]), { code: 'self-touching', wall: 1, other: 3 }],
  ['a corner on a wall across', ring([0, 0], [10, 0], [10, 10], [5, 0], [0, 10]), { code: 'self-touching', wall: 0, other: 2 }],
  [
    'a touch before, a crossing after it: the crossing is named',
    ring([0, 0], [20, 0], [20, 10], [15, 0], [10, 10], [10, 20], [0, 5], [10, 5], [0, 20]),
    { code: 'self-crossing', wall: 5, other: 7 },
  ],
])('%s', (_, corners, fault) => {
  expect(outlineFault(corners)).toEqual(fault);
});

test.each([
  [square, at(5, 5), 1],
  [square, at(0, 5), 0],
  [square, at(10, 10), 0],
  [square, at(5, 0), 0],
  [square, at(11, 5), -1],
  [square, at(-1, 5), -1],
  [square, at(5, -1), -1],
  [square, at(15, 0), -1],
  [ell, at(2, 9), 1],
  [ell, at(9, 2), 1],
  [ell, at(4, 7), 0],
  [ell, at(5, 5), -1],
  // Level with a corner of the outline, on both sides of it.
  [ell, at(2, 4), 1],
  [ell, at(12, 4), -1],
  [ell, at(-2, 4), -1],
  [ring([0, 0], [10, 0], [5, 10]), at(5, 9), 1],
  [ring([0, 0], [10, 0], [5, 10]), at(1, 3), -1],
  [ring([0, 0], [10, 0], [5, 10]), at(2, 4), 0],
  [ring([0, 0], [10, 0], [5, 10]), at(5, 10), 0],
])('in %o, %o: %i', (corners, q, place) => {
  expect(placeIn(corners, q)).toBe(place);
  expect(placeIn(corners.toReversed(), q)).toBe(place);
});

// The surveyor's (shoelace) formula by hand: 10 x 10; 10 x 4 + 4 x 6; half of 10 x 10.
test.each([
  [square, 200n],
  [ell, 128n],
  [ring([0, 0], [10, 0], [5, 10]), 100n],
  [ring([7, 7], [17, 7], [17, 17], [7, 17]), 200n],
  // 10^9 each way: past what a double holds exactly when one corner is moved by one.
  [ring([0, 0], [1e9, 0], [1e9, 1e9], [1, 1e9]), 10n ** 18n * 2n - 10n ** 9n],
])('twice the area of %o is %s, and with the clock less than nothing', (corners, area) => {
  expect(doubleArea(corners)).toBe(area);
  expect(doubleArea(corners.toReversed())).toBe(-area);
});
