import { isDecimal, lengthNm, nmText, typedDecimal, type LengthUnit } from '#lib/measure/quantity.ts';
import { expect, test } from 'vitest';

// Inch, foot and mil: NIST SP 811 (2008), appendix B.8, exact factors 2.54 E-02, 3.048 E-01 and 2.54 E-05 m. The rest are SI prefixes.
test.each<[value: string, unit: LengthUnit, nm: number]>([
  ['1', 'in', 25_400_000],
  ['1', 'ft', 304_800_000],
  ['1', 'mil', 25_400],
  ['1', 'um', 1_000],
  ['1', 'mm', 1_000_000],
  ['1', 'cm', 10_000_000],
  ['1', 'm', 1_000_000_000],
  ['0.0625', 'in', 1_587_500],
  ['2.6875', 'in', 68_262_500],
  ['0.015625', 'in', 396_875],
  ['0.5', 'mil', 12_700],
  ['0.1', 'mm', 100_000],
  ['-0.5', 'in', -12_700_000],
  ['007', 'mm', 7_000_000],
  // Half of a nanometre goes away from zero, on both sides.
  ['0.0005', 'um', 1],
  ['-0.0005', 'um', -1],
  ['0.000499999', 'um', 0],
  ['0.000000001', 'm', 1],
  ['9007199.254740991', 'm', Number.MAX_SAFE_INTEGER],
])('%s %s is %d nm', (value, unit, nm) => {
  expect(lengthNm(value, unit)).toEqual({ ok: true, value: nm });
});

test('2 in and 50.8 mm are equal, and nothing is minus zero', () => {
  expect(lengthNm('2', 'in')).toEqual(lengthNm('50.8', 'mm'));
  expect(lengthNm('-0.0', 'mm')).toStrictEqual({ ok: true, value: 0 });
});

test.each<[value: string, unit: LengthUnit, code: string]>([
  ['9007199.254740992', 'm', 'out-of-range'],
  ['-999999999999', 'in', 'out-of-range'],
  ['1234567890123', 'um', 'not-a-number'],
  ['0.1234567891', 'm', 'not-a-number'],
  ['', 'mm', 'not-a-number'],
  ['.5', 'mm', 'not-a-number'],
  ['0.', 'mm', 'not-a-number'],
  ['2,5', 'mm', 'not-a-number'],
  ['1e3', 'mm', 'not-a-number'],
  ['+1', 'mm', 'not-a-number'],
  ['--1', 'mm', 'not-a-number'],
  ['1 000', 'mm', 'not-a-number'],
  ['NaN', 'mm', 'not-a-number'],
  ['٣', 'mm', 'not-a-number'],
  ['1\n', 'mm', 'not-a-number'],
])('%j %s is refused: %s', (text, unit, code) => {
  expect(lengthNm(text, unit)).toEqual({ ok: false, fault: { code, text } });
  expect(isDecimal(text)).toBe(code === 'out-of-range');
});

test.each<[text: string, decimal: string | null]>([
  ['2.5', '2.5'],
  ['2,5', '2.5'],
  [' 12 ', '12'],
  ['.5', '0.5'],
  [',5', '0.5'],
  ['007', '7'],
  ['000', '0'],
  ['00.50', '0.50'],
  ['2.50', '2.50'],
  ['123456789012.123456789', '123456789012.123456789'],
  ['2.', null],
  ['.', null],
  ['', null],
  ['-1', null],
  ['1,234.5', null],
  ['1 234', null],
  ['½', null],
])('%j typed is %j', (text, decimal) => {
  expect(typedDecimal(text)).toBe(decimal);
});

test.each<[nm: number, unit: LengthUnit, places: number, text: string]>([
  [68_262_500, 'mm', 1, '68.3'],
  [68_250_000, 'mm', 1, '68.3'],
  [-68_250_000, 'mm', 1, '-68.3'],
  [68_249_999, 'mm', 1, '68.2'],
  [50_800_000, 'mm', 4, '50.8'],
  [50_800_000, 'in', 0, '2'],
  [609_600, 'mil', 1, '24'],
  [-1, 'mm', 3, '0'],
  [100_000_000, 'mm', 0, '100'],
  [Number.MAX_SAFE_INTEGER, 'm', 9, '9007199.254740991'],
])('%d nm in %s to %d places is %s', (nm, unit, places, text) => {
  expect(nmText(nm, unit, places)).toBe(text);
});
