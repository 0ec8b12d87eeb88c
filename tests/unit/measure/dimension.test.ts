import { ALL_UNITS, baseOf, celsiusOf, dimensionOf, type AnyUnit, type Dimension } from '#lib/measure/dimension.ts';
import { lengthNm, type LengthUnit } from '#lib/measure/quantity.ts';
import fc from 'fast-check';
import { expect, test } from 'vitest';

const base = (value: string, unit: AnyUnit): number => {
  const size = baseOf(value, unit);
  if (!size.ok) throw new Error(`${value} ${unit}: ${size.fault.code}`);
  return size.value;
};

// Factors exact by definition, as in NIST SP 811, appendix B.8; what its rows say beside each is from memory.
test.each<[value: string, unit: AnyUnit, base: number, row: string]>([
  ['1', 'in', 25_400_000, 'inch: 2.54 E-02 m'],
  ['1', 'ft', 304_800_000, 'foot: 3.048 E-01 m'],
  ['1', 'mil', 25_400, 'mil (0.001 in): 2.54 E-05 m'],
  ['1', 'mm', 1_000_000, 'SI prefix'],
  ['1', 'cm', 10_000_000, 'SI prefix'],
  ['1', 'm', 1_000_000_000, 'SI'],
  ['1', 'um', 1_000, 'SI prefix'],
  ['1', 'min', 60_000, 'minute: 6.0 E+01 s'],
  ['1', 'h', 3_600_000, 'hour: 3.6 E+03 s'],
  ['1', 'd', 86_400_000, 'day: 8.64 E+04 s'],
  ['0', 'C', 0, 'degree Celsius: zero of this scale'],
  ['1', 'C', 9_000, 'degree Celsius: 1 K'],
  ['32', 'F', 0, 'T/K = (t/°F + 459.67)/1.8: 273.15 K'],
  ['212', 'F', 900_000, 'T/K = (t/°F + 459.67)/1.8: 373.15 K'],
  ['-40', 'F', -360_000, '-40 °F is -40 °C'],
  ['-40', 'C', -360_000, '-40 °C is -40 °F'],
  ['33', 'F', 5_000, 'degree Fahrenheit: 1/1.8 K'],
  ['100', '%', 12_000_000_000, 'percent: 0.01'],
  ['12', 'in/ft', 12_000_000_000, 'inch per foot: 1/12'],
  ['1000', 'mm/m', 12_000_000_000, 'millimetre per metre: 0.001'],
  ['1', 'L', 1_000_000_000, 'litre: 1 E-03 m3'],
  ['1', 'gal', 3_785_411_784, 'gallon (U.S.): 231 in3 = 3.785 411 784 L exactly'],
  ['1', 'qt', 946_352_946, 'quart (U.S. liquid): a quarter gallon'],
  ['1', 'kg', 1_000_000_000, 'SI'],
  ['1', 'lb', 453_592_370, 'pound (avoirdupois): 4.535 923 7 E-01 kg'],
  ['1', 'm2', 100_000_000, 'SI'],
  ['1', 'ft2', 9_290_304, 'square foot: 9.290 304 E-02 m2'],
  ['1', 'kPa', 6_451_600_000_000, 'SI prefix'],
  ['1', 'psi', 44_482_216_152_605, 'pound-force per square inch: 4.448 221 615 260 5 N over 6.4516 E-04 m2'],
  ['7', 'count', 7, 'pieces'],
])('%s %s is %d base units (%s)', (value, unit, expected) => {
  expect(base(value, unit)).toBe(expected);
});

test.each<[one: [string, AnyUnit], other: [string, AnyUnit]]>([
  [
    ['2', 'in'],
    ['50.8', 'mm'],
  ],
  [
    ['1', 'ft'],
    ['12', 'in'],
  ],
  [
    ['1', 'mil'],
    ['25.4', 'um'],
  ],
  [
    ['1000', 'mil'],
    ['1', 'in'],
  ],
  [
    ['0.25', 'in/ft'],
    ['2.083333333', '%'],
  ],
  [
    ['2', '%'],
    ['20', 'mm/m'],
  ],
  [
    ['4', 'qt'],
    ['1', 'gal'],
  ],
  [
    ['24', 'h'],
    ['1', 'd'],
  ],
  [
    ['90', 'min'],
    ['1.5', 'h'],
  ],
  [
    ['68', 'F'],
    ['20', 'C'],
  ],
  [
    ['50', 'F'],
    ['10', 'C'],
  ],
  [
    ['80.5', 'F'],
    ['26.944444444', 'C'],
  ],
  [
    ['50', 'lb'],
    ['22.6796185', 'kg'],
  ],
])('%j and %j differ by no more than their last digit', (one, other) => {
  // A third of a degree or of a percent has no last decimal: nine of them leave less than one base unit and a half.
  expect(Math.abs(base(...one) - base(...other))).toBeLessThanOrEqual(4);
});

test.each<[one: [string, AnyUnit], other: [string, AnyUnit]]>([
  [
    ['2.375', 'in'],
    ['60.325', 'mm'],
  ],
  [
    ['0.0005', 'in'],
    ['12.7', 'um'],
  ],
  [
    ['1.5', 'gal'],
    ['5.678117676', 'L'],
  ],
  [
    ['104', 'F'],
    ['40', 'C'],
  ],
  [
    ['1', 'in/ft'],
    ['83.333333333', 'mm/m'],
  ],
])('%j and %j meet in whole base units', (one, other) => {
  const [a, b] = [base(...one), base(...other)];
  expect([Number.isSafeInteger(a), Number.isSafeInteger(b), Math.abs(a - b) <= 4]).toEqual([true, true, true]);
});

test('halves of a base unit are rounded away from zero, on both sides', () => {
  expect([base('0.0005', 'um'), base('-0.0005', 'um'), base('0.0004', 'um'), base('0.5', 'count'), base('-0.5', 'count')]).toEqual([
    1, -1, 0, 1, -1,
  ]);
  expect(Object.is(base('-0', 'in'), 0)).toBe(true);
  expect(Object.is(base('-0.000000001', 'um'), 0)).toBe(true);
});

test.each<[value: string, unit: AnyUnit, code: string]>([
  ['', 'in', 'not-a-number'],
  ['2,5', 'mm', 'not-a-number'],
  ['1e3', 'h', 'not-a-number'],
  ['+5', 'C', 'not-a-number'],
  ['5 ', 'C', 'not-a-number'],
  ['.5', 'in', 'not-a-number'],
  ['1234567890123', 'count', 'not-a-number'],
  ['999999999999', 'm', 'out-of-range'],
  ['-999999999999', 'gal', 'out-of-range'],
  ['9007199.254740992', 'm', 'out-of-range'],
])('"%s" %s is %s', (value, unit, code) => {
  expect(baseOf(value, unit)).toEqual({ ok: false, fault: { code, text: value } });
});

test('the largest value that whole numbers hold', () => {
  expect(base('9007199.254740991', 'm')).toBe(Number.MAX_SAFE_INTEGER);
  expect(base('-9007199.254740991', 'm')).toBe(-Number.MAX_SAFE_INTEGER);
});

test('each unit is of one dimension', () => {
  const byDimension = Object.groupBy(ALL_UNITS, dimensionOf);
  expect(byDimension).toEqual({
    length: ['in', 'ft', 'mm', 'cm', 'm', 'mil', 'um'],
    time: ['min', 'h', 'd'],
    temperature: ['C', 'F'],
    ratio: ['%', 'in/ft', 'mm/m'],
    volume: ['L', 'gal', 'qt'],
    mass: ['kg', 'lb'],
    area: ['m2', 'ft2'],
    pressure: ['kPa', 'psi'],
    count: ['count'],
  } satisfies Record<Dimension, AnyUnit[]>);
});

const unit = fc.constantFrom(...ALL_UNITS);
const decimal = fc.stringMatching(/^-?\d{1,8}(\.\d{1,9})?$/);
const BILLION = 1_000_000_000n;
const runs = { seed: 20261125, numRuns: 1_000 };

/** What a value is in another way: a quotient of two whole numbers, never rounded before the end. */
function exact(value: string, unit: AnyUnit): bigint {
  const [, sign, whole = '', decimals = ''] = /^(-?)(\d+)(?:\.(\d+))?$/.exec(value)!;
  const scaled = BigInt(`${sign}${whole}${decimals.padEnd(9, '0')}`) - (unit === 'F' ? 32_000_000_000n : 0n);
  const one = BigInt(base(unit === 'F' ? '33' : '1', unit));
  return scaled * one;
}

test('any value an entry can hold is within half a base unit of what it is, or out of range', () => {
  fc.assert(
    fc.property(decimal, unit, (value, of) => {
      const size = baseOf(value, of);
      const is = exact(value, of);
      const off = size.ok ? BigInt(size.value) * BILLION - is : 0n;
      expect(off >= -BILLION / 2n && off <= BILLION / 2n).toBe(true);
      expect(size.ok).toBe((is < 0n ? -is : is) < (BigInt(Number.MAX_SAFE_INTEGER) * 2n + 1n) * (BILLION / 2n));
    }),
    runs,
  );
});

test('order is kept: of two values in one unit the larger is never the smaller in base units', () => {
  fc.assert(
    fc.property(decimal, decimal, unit, (a, b, of) => {
      const [one, other] = [baseOf(a, of), baseOf(b, of)];
      if (one.ok && other.ok && exact(a, of) < exact(b, of)) expect(one.value).toBeLessThanOrEqual(other.value);
    }),
    runs,
  );
});

test('lengths agree with the ruler’s own conversion', () => {
  fc.assert(
    fc.property(decimal, fc.constantFrom<LengthUnit>('in', 'ft', 'mm', 'cm', 'm', 'mil', 'um'), (value, of) => {
      expect(baseOf(value, of)).toEqual(lengthNm(value, of));
    }),
    runs,
  );
});

test.each<[value: string, unit: AnyUnit, celsius: number | null]>([
  ['32', 'F', 0],
  ['212', 'F', 100],
  ['-40', 'F', -40],
  ['21.5', 'C', 21.5],
  ['50', '%', null],
  ['warm', 'C', null],
])('%s %s is %s °C (NIST SP 811, B.8)', (value, unit, celsius) => expect(celsiusOf(value, unit)).toBe(celsius));
