import {
  ceiling,
  commonDivisor,
  compare,
  FARTHEST,
  fromTenThousandths,
  minus,
  ratio,
  rounded,
  signOf,
  tenThousandths,
} from '#lib/measure/exact.ts';
import { expect, test } from 'vitest';

test.each([
  [0, 0],
  [1, 10_000],
  [-1, -10_000],
  [12.5, 125_000],
  [-12.5, -125_000],
  [0.0001, 1],
  // Of the decimals, the one a double can only come near to: 1.0001 * 10000 is 10000.999999999998 in doubles.
  [1.0001, 10_001],
  [4.35, 43_500],
  [100_000, 1_000_000_000],
  [60.1234, 601_234],
])('%f is %i ten-thousandths, and back', (value, parts) => {
  expect(tenThousandths(value)).toEqual(parts);
  expect(fromTenThousandths(parts)).toEqual(value === 0 ? 0 : value);
});

test.each([0.00001, 1.00001, 60.12345, 1e21, 1e-7, NaN, Infinity, -Infinity])(
  '%f has more than four places or is no plain number',
  (value) => {
    expect(tenThousandths(value)).toBeNull();
  },
);

test('the farthest coordinate is told from its next ten-thousandth', () => {
  expect(tenThousandths(FARTHEST)! + 1).toBe(tenThousandths(FARTHEST + 0.0001));
});

/** Whole halves, thirds and sevenths on both sides of zero. `up`: smallest whole not below; `near`: halves away from zero. */
test.each([
  [0n, 1n, 0n, 0],
  [1n, 2n, 1n, 1],
  [-1n, 2n, 0n, -1],
  [1n, 3n, 1n, 0],
  [-1n, 3n, 0n, 0],
  [2n, 3n, 1n, 1],
  [-2n, 3n, 0n, -1],
  [6n, 3n, 2n, 2],
  [-6n, 3n, -2n, -2],
  [15n, 7n, 3n, 2],
  [-15n, 7n, -2n, -2],
  [5n, 2n, 3n, 3],
  [-5n, 2n, -2n, -3],
  [10_000_000_000_000_001n, 2n, 5_000_000_000_000_001n, 5_000_000_000_000_001],
])('%s over %s is at most %s and near %i', (over, under, up, near) => {
  expect(ceiling({ over, under })).toBe(up);
  expect(rounded({ over, under })).toBe(near);
});

test.each([
  [{ over: 1n, under: 3n }, { over: 1n, under: 2n }, -1, { over: -1n, under: 6n }],
  [{ over: 1n, under: 2n }, { over: 1n, under: 3n }, 1, { over: 1n, under: 6n }],
  [{ over: 2n, under: 4n }, { over: 1n, under: 2n }, 0, { over: 0n, under: 8n }],
  [{ over: -1n, under: 2n }, { over: 1n, under: 2n }, -1, { over: -4n, under: 4n }],
  [ratio(7), ratio(4), 1, { over: 3n, under: 1n }],
  // Too near for doubles, in which both are 1.
  [{ over: 10n ** 17n + 1n, under: 10n ** 17n }, ratio(1), 1, { over: 1n, under: 10n ** 17n }],
])('%o and %o', (a, b, order, difference) => {
  expect(compare(a, b)).toBe(order);
  expect(minus(a, b)).toEqual(difference);
});

test.each([
  [5n, 1],
  [1n, 1],
  [0n, 0],
  [-1n, -1],
  [-9n, -1],
] as const)('the sign of %s is %i', (value, sign) => {
  expect(signOf(value)).toBe(sign);
});

// Euclid, Elements VII.2 by the standard examples; 252 and 105 as in Knuth, The Art of Computer Programming 2, 4.5.2 (from memory).
test.each([
  [252n, 105n, 21n],
  [105n, 252n, 21n],
  [-252n, 105n, 21n],
  [252n, -105n, 21n],
  [17n, 5n, 1n],
  [0n, 8n, 8n],
  [8n, 0n, 8n],
  [1_250n, 5_000n, 1_250n],
])('the greatest common divisor of %s and %s is %s', (a, b, divisor) => {
  expect(commonDivisor(a, b)).toBe(divisor);
});
