import { baseOf } from '#lib/measure/dimension.ts';
import { inchText } from '#lib/measure/inch.ts';
import { feetParts, readLength, unitsInDoubt, type TypedLength } from '#lib/measure/length-text.ts';
import fc from 'fast-check';
import { expect, test } from 'vitest';

test.each<[text: string, value: string, unit: TypedLength['unit']]>([
  [`5' 3-1/2"`, '63.5', 'in'],
  [`5' 3 1/2"`, '63.5', 'in'],
  [`5'3½"`, '63.5', 'in'],
  [`5' - 3 1/2"`, '63.5', 'in'],
  ['5 ft 3 1/2 in', '63.5', 'in'],
  ['5ft 3 1/2in', '63.5', 'in'],
  ['5 ft. 3 in.', '63', 'in'],
  ['5 feet 3 inches', '63', 'in'],
  ['1 foot 1 inch', '13', 'in'],
  // After feet nothing but inches can come.
  ["5' 3", '63', 'in'],
  ["5'3", '63', 'in'],
  ["5'", '60', 'in'],
  ['5 ft', '60', 'in'],
  ['0\' 11 15/16"', '11.9375', 'in'],
  ['5\' 0"', '60', 'in'],
  ['5\' 3.25"', '63.25', 'in'],
  // What phones make of the marks.
  ['5′ 3½″', '63.5', 'in'],
  ['5’ 3 1/2”', '63.5', 'in'],
  ["5' 3''", '63', 'in'],
  ['63"', '63', 'in'],
  ["63''", '63', 'in'],
  ['63 1/2"', '63.5', 'in'],
  ['63.5 in', '63.5', 'in'],
  ['2,375 in', '2.375', 'in'],
  ['5.5 ft', '5.5', 'ft'],
  ['5,5 pies', '5.5', 'ft'],
  ['5 pies 3 pulg', '63', 'in'],
  ['5 pies 3 1/2 pulgadas', '63.5', 'in'],
  ['63 pulg.', '63', 'in'],
  ['57 mm', '57', 'mm'],
  ['57mm', '57', 'mm'],
  ['57,5 mm', '57.5', 'mm'],
  ['1500 mm', '1500', 'mm'],
  ['160 cm', '160', 'cm'],
  ['1.6 m', '1.6', 'm'],
  ['1,60 m', '1.60', 'm'],
  // No shower is a kilometre and a half long.
  ['1,625 m', '1.625', 'm'],
  ['1.6 metros', '1.6', 'm'],
  ['2 metres', '2', 'm'],
  ['  57   MM ', '57', 'mm'],
  ['1 millimetre', '1', 'mm'],
  ['57 millimeters', '57', 'mm'],
  ['1 milímetro', '1', 'mm'],
  ['57 milimetros', '57', 'mm'],
  ['160cm', '160', 'cm'],
  ['1 centimeter', '1', 'cm'],
  ['160 centimetres', '160', 'cm'],
  ['1 centímetro', '1', 'cm'],
  ['160 centimetros', '160', 'cm'],
  ['2m', '2', 'm'],
  ['1 meter', '1', 'm'],
  ['1 metro', '1', 'm'],
  // More figures than a group has before it: the mark can only be that of decimals.
  ['1234,500 mm', '1234.500', 'mm'],
  ['5 FT 3 IN', '63', 'in'],
  ["5' 3 IN", '63', 'in'],
  ['63 IN', '63', 'in'],
  ['5.5 FT', '5.5', 'ft'],
])('%s is %s %s', (text, value, unit) => {
  expect(readLength(text)).toEqual({ ok: true, value: { value, unit } });
});

test.each<[text: string, offers: readonly string[]]>([
  ['63', ['63 in', '63 ft', '63 mm', '63 cm', '63 m']],
  [' 63 ', ['63 in', '63 ft', '63 mm', '63 cm', '63 m']],
  ['63 1/2', ['63 1/2 in']],
  ['5½', ['5½ in']],
  ['1.6', ['1.6 in', '1.6 ft', '1.6 mm', '1.6 cm', '1.6 m']],
  // Fifteen hundred millimetres, or one and a half: it is typed anew.
  ['1,500', ['1,500 in', '1,500 ft', '1,500 m']],
])('%s alone is asked about, not guessed at', (text, offers) => {
  expect(readLength(text)).toEqual({ ok: false, fault: 'no-unit' });
  expect(unitsInDoubt(text)).toEqual(offers);
});

test.each([
  '', ' ', 'two feet', '-5 ft', '-57 mm', `5' 12"`, `5' 3 1/3"`, '5 ft 3 mm', '5-3-1/2', '1,500 mm', '12,500 mm', '123.500 cm', '1.500 cm', '57 mm wide', '160 cm wide', '1,234.5 m', '57 km', '57 mil',
  'mm', "'", '"', `5" 3'`, `5''3`, '1e3 mm', '٥ mm', '🛁', '5 ft 3 ft', `5' 3 ft`, 'x'.repeat(100_000), '5 '.repeat(50_000),
])('%j is no length', (text) => {
  expect(readLength(text)).toEqual({ ok: false, fault: 'not-a-length' });
  expect(unitsInDoubt(text)).toEqual([]);
}); // prettier-ignore

test.each<[length: TypedLength, parts: object | null]>([
  [
    { value: '63.5', unit: 'in' },
    { feet: 5, sixteenths: 56 },
  ],
  [
    { value: '60', unit: 'in' },
    { feet: 5, sixteenths: 0 },
  ],
  [
    { value: '5.5', unit: 'ft' },
    { feet: 5, sixteenths: 96 },
  ],
  [
    { value: '12', unit: 'in' },
    { feet: 1, sixteenths: 0 },
  ],
  [{ value: '11.9375', unit: 'in' }, null],
  [{ value: '63.3', unit: 'in' }, null],
  // 1.6 m is 62.99 in: no graduation.
  [{ value: '1.6', unit: 'm' }, null],
])('%j in feet and sixteenths', (length, parts) => {
  expect(feetParts(length)).toEqual(parts);
});

const FORMS = [
  (feet: number, inches: string) => `${feet}' ${inches}"`,
  (feet: number, inches: string) => `${feet} ft ${inches} in`,
] as const;
test('feet and sixteenths written either way read as the same length', () => {
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 99 }), fc.integer({ min: 0, max: 191 }), fc.constantFrom(...FORMS), (feet, sixteenths, write) => {
      const read = readLength(write(feet, inchText(sixteenths)));
      expect(read.ok && feetParts(read.value)).toEqual({ feet, sixteenths });
      expect(read.ok && baseOf(read.value.value, read.value.unit)).toEqual({ ok: true, value: (feet * 192 + sixteenths) * 1_587_500 });
    }),
    { seed: 20260302, numRuns: 300 },
  );
});
