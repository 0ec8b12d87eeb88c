import { judge, type Verdict } from '#lib/trade/limits.ts';
import { expect, test } from 'vitest';

type Case = [from: number, to: number, min: number | null, max: number | null, verdict: Verdict];

// One value, as from a tape: both bounds belong to what is within.
test.each<Case>([
  [30, 30, null, null, 'no-limit'],
  [24, 24, 25, null, 'outside'],
  [25, 25, 25, null, 'within'],
  [26, 26, 25, null, 'within'],
  [39, 39, null, 40, 'within'],
  [40, 40, null, 40, 'within'],
  [41, 41, null, 40, 'outside'],
  [24, 24, 25, 40, 'outside'],
  [25, 25, 25, 40, 'within'],
  [40, 40, 25, 40, 'within'],
  [41, 41, 25, 40, 'outside'],
  [30, 30, 30, 30, 'within'],
  [31, 31, 30, 30, 'outside'],
  [-1, -1, 0, null, 'outside'],
])('%d to %d against %j to %j is %s', (from, to, min, max, verdict) => {
  expect(judge({ from, to }, { min, max })).toBe(verdict);
});

// A comb: wet at the first tooth, dry at the second, the film below that (ASTM D4414, longest wetted and next tooth).
test.each<Case>([
  [24, 26, null, null, 'no-limit'],
  [22, 24, 25, null, 'outside'],
  [23, 25, 25, null, 'outside'],
  [24, 26, 25, null, 'not-proven'],
  [25, 30, 25, null, 'within'],
  [26, 28, 25, null, 'within'],
  [35, 40, null, 40, 'within'],
  [35, 41, null, 40, 'not-proven'],
  [40, 45, null, 40, 'not-proven'],
  [41, 45, null, 40, 'outside'],
  [25, 40, 25, 40, 'within'],
  [24, 41, 25, 40, 'not-proven'],
  [28, 32, 30, 30, 'not-proven'],
  [28, 30, 30, 30, 'outside'],
])('a comb wet at %d, dry at %d, against %j to %j is %s', (from, to, min, max, verdict) => {
  expect(judge({ from, to }, { min, max })).toBe(verdict);
});

test.each([
  [30, 30],
  [20, 50],
  [45, 50],
  [10, 12],
])('%d to %d against a maximum of 25 below a minimum of 40 is outside: no value satisfies both', (from, to) => {
  expect(judge({ from, to }, { min: 40, max: 25 })).toBe('outside');
});

test.each([
  [2, 1],
  [0.5, 1],
  [NaN, NaN],
  [0, Infinity],
])('a reading of %d to %d is our mistake', (from, to) => {
  expect(() => judge({ from, to }, { min: null, max: null })).toThrow(RangeError);
});
