import { inchDecimal, inchParts, inchText, parseInches, sixteenthsOf } from '#lib/measure/inch.ts';
import { expect, test } from 'vitest';

// Fractions of an inch in lowest terms, as a tape is read.
test.each<[sixteenths: number, text: string, decimal: string]>([
  [0, '0', '0'],
  [1, '1/16', '0.0625'],
  [2, '1/8', '0.125'],
  [4, '1/4', '0.25'],
  [6, '3/8', '0.375'],
  [8, '1/2', '0.5'],
  [15, '15/16', '0.9375'],
  [16, '1', '1'],
  [43, '2 11/16', '2.6875'],
  [160, '10', '10'],
  [-8, '-1/2', '-0.5'],
  [-43, '-2 11/16', '-2.6875'],
  [Number.MAX_SAFE_INTEGER, '562949953421311 15/16', '562949953421311.9375'],
])('%d sixteenths are %s in, %s in decimals', (sixteenths, text, decimal) => {
  expect([inchText(sixteenths), inchDecimal(sixteenths)]).toEqual([text, decimal]);
});

test('parts name whole inches and a reduced fraction', () => {
  expect(inchParts(-44)).toEqual({ negative: true, whole: 2, over: 3, under: 4 });
});

test.each([0.5, NaN, Infinity, 2 ** 53])('%d sixteenths is our mistake', (sixteenths) => {
  expect(() => inchText(sixteenths)).toThrow(RangeError);
  expect(() => inchDecimal(sixteenths)).toThrow(RangeError);
});

// 1/16 in is 1,587,500 nm: NIST SP 811 (2008), appendix B.8, 1 in = 25.4 mm exactly.
test.each<[nm: number, sixteenths: number | null]>([
  [0, 0],
  [1_587_500, 1],
  [68_262_500, 43],
  [-1_587_500, -1],
  [1_587_501, null],
  [68_300_000, null],
  // The next nanometre is told apart at any length: no division in binary fractions.
  [5_673_826_301 * 1_587_500, 5_673_826_301],
  [5_673_826_301 * 1_587_500 - 1, null],
])('%d nm is %j sixteenths of an inch', (nm, sixteenths) => {
  expect(sixteenthsOf(nm)).toBe(sixteenths);
});

test.each<[text: string, inches: string]>([
  ['2 11/16', '2.6875'],
  ['2-11/16', '2.6875'],
  ['2 - 11/16', '2.6875'],
  ['11/16', '0.6875'],
  ['15/16', '0.9375'],
  ['10/16', '0.625'],
  ['1 1/16', '1.0625'],
  ['12 1/2', '12.5'],
  ['2 4/8', '2.5'],
  ['2 0/16', '2'],
  ['2\u00a01/2', '2.5'],
  ['2', '2'],
  ['2.6875', '2.6875'],
  ['2,375', '2.375'],
  ['.5', '0.5'],
  ['02.03125', '2.03125'],
  ['  2 1/4  ', '2.25'],
  // What phones make of a fraction and of the inch mark.
  ['½', '0.5'],
  ['2½', '2.5'],
  ['2 ½', '2.5'],
  ['2-¼', '2.25'],
  ['12⅞', '12.875'],
  ['1\u20442', '0.5'],
  ['2 11\u204416', '2.6875'],
  ['2"', '2'],
  ['2½"', '2.5'],
  ['2 11/16″', '2.6875'],
  ['2 1/4”', '2.25'],
  ["2''", '2'],
  ['2’’', '2'],
  ['2′′', '2'],
  ['2 in', '2'],
  ['2 1/2in.', '2.5'],
])('%j is read as %s in', (text, inches) => {
  expect(parseInches(text)).toBe(inches);
});

test.each([
  // A third is on no tape; a fraction that is not one is a slip of the hand.
  ...['1 1/3', '⅓', '2⅙', '1/32', '2 16/16', '3/2', '1/0'],
  // Without a space it could be 2 11/16, 21 1/16 or 211/16.
  ...['211/16', '111/16', '2½½', '½2', '2.5 1/2', '1/2/2'],
  ...['-1/2', '-2', '- 2 1/2', '0.', '2."', '.', '', '"', 'in', '1,234.5', '1e2', '²'],
  ...["2'", '2′', '2 ft', '50 mm', '2 1/4 mm', 'two'],
])('%j is read as no inches', (text) => {
  expect(parseInches(text)).toBeNull();
});
