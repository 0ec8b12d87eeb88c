import { lengthNm } from '#lib/measure/quantity.ts';
import { combReading, exampleCombMil, exampleCombUm } from '#lib/trade/comb.ts';
import { expect, test } from 'vitest';

test('mil: teeth by 0.5 to 6, by 1 to 10, by 2 to 30, by 5 above, as in the example of ASTM D4414-95(2020)', () => {
  expect(exampleCombMil().teeth.join(' ')).toBe(
    '0.5 1 1.5 2 2.5 3 3.5 4 4.5 5 5.5 6 7 8 9 10 12 14 16 18 20 22 24 26 28 30 35 40 45 50 55 60 65 70 75 80',
  );
});

test('um: teeth by 25 to 250, by 50 to 750, by 125 above, the metric steps of the same example', () => {
  expect(exampleCombUm().teeth.join(' ')).toBe(
    '25 50 75 100 125 150 175 200 225 250 300 350 400 450 500 550 600 650 700 750 875 1000 1125 1250 1375 1500 1625 1750 1875 2000',
  );
});

test.each([exampleCombMil(), exampleCombUm()])('each tooth of the $unit gauge is longer than the one before', ({ teeth, unit }) => {
  const lengths = teeth.map((tooth) => lengthNm(tooth, unit)).map((length) => (length.ok ? length.value : NaN));
  expect(lengths).toEqual([...new Set(lengths)].sort((a, b) => a - b));
});

const LAST = exampleCombMil().teeth.length - 1;
test.each<[lastWet: number, reading: { from: string; to: string } | null]>([
  [0, { from: '0.5', to: '1' }],
  [23, { from: '26', to: '28' }],
  [LAST - 1, { from: '75', to: '80' }],
  // All teeth wet, or none: no reading (common practice, no source).
  [LAST, null],
  [-1, null],
  [LAST + 1, null],
  [0.5, null],
  [NaN, null],
])('with tooth %d the longest wetted, the film is %j mil', (lastWet, reading) => {
  expect(combReading(exampleCombMil(), lastWet)).toEqual(reading);
});
