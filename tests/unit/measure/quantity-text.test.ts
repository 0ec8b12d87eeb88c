import { baseOf, inUnit, type AnyUnit } from '#lib/measure/dimension.ts';
import { printQuantity, readQuantity } from '#lib/measure/quantity-text.ts';
import { expect, test } from 'vitest';

test.each<[text: string, asked: AnyUnit[], value: string, unit: AnyUnit]>([
  [`2 1/4"`, ['in'], '2.25', 'in'],
  [`5' 3-1/2"`, ['in'], '63.5', 'in'],
  ['57 mm', ['in'], '57', 'mm'],
  // Film.
  ['20 mil', ['mil', 'um'], '20', 'mil'],
  ['20mils', ['mil', 'um'], '20', 'mil'],
  ['20 thou', ['mil'], '20', 'mil'],
  ['500 µm', ['mil', 'um'], '500', 'um'],
  ['500 μm', ['mil'], '500', 'um'],
  ['500um', ['mil'], '500', 'um'],
  ['500 microns', ['mil'], '500', 'um'],
  ['500 micras', ['mil'], '500', 'um'],
  ['0.5 mm', ['mil', 'um'], '0.5', 'mm'],
  // Temperature, the only one below zero.
  ['70 °F', ['F', 'C'], '70', 'F'],
  ['70F', ['F', 'C'], '70', 'F'],
  ['21 °C', ['F', 'C'], '21', 'C'],
  ['21 ºC', ['F', 'C'], '21', 'C'],
  ['-5 C', ['F', 'C'], '-5', 'C'],
  ['−5.5 °F', ['C'], '-5.5', 'F'],
  ['70 fahrenheit', ['C'], '70', 'F'],
  // Mass and volume.
  ['50 lb', ['lb', 'kg'], '50', 'lb'],
  ['50 lbs.', ['lb', 'kg'], '50', 'lb'],
  ['50 libras', ['kg'], '50', 'lb'],
  ['22,5 kg', ['lb'], '22.5', 'kg'],
  ['22.5 kilos', ['lb'], '22.5', 'kg'],
  ['6 qt', ['gal'], '6', 'qt'],
  ['6 quarts', ['gal'], '6', 'qt'],
  ['1.5 gal', ['L'], '1.5', 'gal'],
  ['2 galones', ['L'], '2', 'gal'],
  ['5.7 L', ['gal'], '5.7', 'L'],
  ['5.7 litres', ['gal'], '5.7', 'L'],
  ['1.500 L', ['gal'], '1.500', 'L'],
  ['1234,500 L', ['gal'], '1234.500', 'L'],
  ['1,5000 L', ['gal'], '1.5000', 'L'],
  ['0,500 L', ['gal'], '0.500', 'L'],
  // Area and pressure.
  ['15 sq ft', ['ft2', 'm2'], '15', 'ft2'],
  ['15 sf', ['m2'], '15', 'ft2'],
  ['15 sq. ft.', ['m2'], '15', 'ft2'],
  ['15 square feet', ['m2'], '15', 'ft2'],
  ['15 pies cuadrados', ['m2'], '15', 'ft2'],
  ['1.4 m²', ['ft2'], '1.4', 'm2'],
  ['1.4 m2', ['ft2'], '1.4', 'm2'],
  ['1.4 square metres', ['ft2'], '1.4', 'm2'],
  ['5 psi', ['kPa'], '5', 'psi'],
  ['35 kPa', ['psi'], '35', 'kPa'],
  // Time and falls.
  ['24 h', ['h'], '24', 'h'],
  ['24 hrs.', ['min'], '24', 'h'],
  ['15 min', ['h'], '15', 'min'],
  ['3 days', ['h'], '3', 'd'],
  ['1/4 in/ft', ['%'], '0.25', 'in/ft'],
  ['1/4" per ft', ['%'], '0.25', 'in/ft'],
  ['1/4 in per foot', ['%'], '0.25', 'in/ft'],
  ['20,8 mm/m', ['%'], '20.8', 'mm/m'],
  ['20 mm por m', ['%'], '20', 'mm/m'],
  ['2 %', ['in/ft'], '2', '%'],
  ['2 percent', ['in/ft'], '2', '%'],
  ['  20   MIL ', ['mil'], '20', 'mil'],
])('%s is %j: %s %s', (text, asked, value, unit) => {
  expect(readQuantity(text, asked)).toEqual({ ok: true, value: { value, unit } });
});

test.each<[text: string, asked: AnyUnit[], offers: string[]]>([
  ['20', ['mil', 'um'], ['20 mil', '20 µm']],
  ['70', ['F', 'C'], ['70 °F', '70 °C']],
  ['70°', ['F', 'C'], ['70 °F', '70 °C']],
  ['70 °', ['F', 'C'], ['70 °F', '70 °C']],
  ['-5', ['F', 'C'], ['-5 °F', '-5 °C']],
  ['15', ['ft2', 'm2'], ['15 sq ft', '15 m²']],
  ['2 1/4', ['in', 'mm'], ['2 1/4 in']],
  ['½', ['in/ft', '%'], ['½ in/ft']],
  // Thousands in one country, thousandths in another.
  ['1,500 L', ['gal', 'L'], ['1500 L', '1.5000 L']],
  ['1,500', ['L'], ['1500 L', '1.5000 L']],
  ['12,500 L', ['L'], ['12500 L', '12.5000 L']],
  ['1,500 µm', ['um'], ['1500 µm', '1.5000 µm']],
  ['1.500 µm', ['um'], ['1500 µm', '1.5000 µm']],
  ['1.500 mil', ['um'], ['1500 mil', '1.5000 mil']],
  ['1,500', ['mm'], ['1500 mm', '1.5000 mm']],
])('%s where one of %j is wanted is asked about: %j', (text, asked, offers) => {
  expect(readQuantity(text, asked)).toEqual({ ok: false, fault: { code: 'in-doubt', offers } });
});

test.each<[text: string, asked: AnyUnit[]]>([
  ['5 lb', ['gal']],
  ['20 mil', ['lb']],
  ['2 %', ['F']],
  ['63"', ['ft2']],
])('%s is none of %j, and says so', (text, asked) => {
  expect(readQuantity(text, asked)).toEqual({ ok: false, fault: { code: 'other-dimension' } });
});

test.each([
  '', ' ', '-20 mil', '−5', '8 oz', '1e3 mm', 'mil', '5-3 C', '7°0', 'about 20', '20 mil 5', '5 gal 2 qt', 'NaN', 'NaN mil', '٥ mil', '1/3 in/ft', '1,5,0 L', '1.234.567 µm',
  '-', '/', '1/4 mil', '🛁', 'x'.repeat(100_000), '5 '.repeat(50_000), `${'1'.repeat(60)} mil`,
].map((text) => [text.slice(0, 40), text] as const))('%j is no film', (_, text) => {
  expect(readQuantity(text, ['mil', 'um'])).toEqual({ ok: false, fault: { code: 'not-a-quantity' } });
}); // prettier-ignore

test('where nothing is wanted nothing is read, and sixty characters are enough', () => {
  expect(readQuantity('20 mil', [])).toEqual({ ok: false, fault: { code: 'not-a-quantity' } });
  expect(readQuantity(`${'0'.repeat(12)}.${'0'.repeat(9)} pounds per square inch`, ['psi']).ok).toBe(true);
  expect(readQuantity(`20${' '.repeat(80)}mil`, ['mil']).ok).toBe(true);
  expect(readQuantity(`1 ${'x'.repeat(55)}mil`, ['mil']).ok).toBe(false);
});

test.each<[value: string, unit: AnyUnit, text: string]>([
  ['2.25', 'in', `2 1/4"`],
  ['63.5', 'in', `5' 3-1/2"`],
  ['11.9375', 'in', `11 15/16"`],
  ['12', 'in', `1' 0"`],
  ['0', 'in', `0"`],
  ['0.5', 'in', `1/2"`],
  ['2.250', 'in', '2.250 in'],
  ['2.3', 'in', '2.3 in'],
  ['-2.25', 'in', '-2.25 in'],
  ['0.25', 'in/ft', '1/4 in/ft'],
  ['0.3', 'in/ft', '0.3 in/ft'],
  ['57', 'mm', '57 mm'],
  ['1.234', 'mm', '1.2340 mm'],
  ['1.234', 'L', '1.234 L'],
  ['0.234', 'mm', '0.234 mm'],
  ['500', 'um', '500 µm'],
  ['20', 'mil', '20 mil'],
  ['-5', 'C', '-5 °C'],
  ['70', 'F', '70 °F'],
  ['15', 'ft2', '15 sq ft'],
  ['1.4', 'm2', '1.4 m²'],
  ['5.5', 'ft', '5.5 ft'],
  ['2', '%', '2 %'],
  ['50', 'lb', '50 lb'],
])('%s %s is written %s', (value, unit, text) => {
  expect(printQuantity({ value, unit })).toBe(text);
});

test('a value in another unit, and what is none', () => {
  expect(inUnit('2', 'in', 'mm')).toEqual({ ok: true, value: 50.8 });
  expect(inUnit('100', 'C', 'F')).toEqual({ ok: true, value: 212 });
  expect(inUnit('-40', 'F', 'C')).toEqual({ ok: true, value: -40 });
  expect(inUnit('68', 'F', 'F')).toEqual({ ok: true, value: 68 });
  expect(inUnit('1', 'psi', 'kPa')).toMatchObject({ ok: true, value: expect.closeTo(6.894757293168361, 12) as number });
  expect(inUnit('1', 'in', 'lb')).toEqual({ ok: false, fault: { code: 'other-dimension' } });
  expect(inUnit('x', 'in', 'mm')).toEqual({ ok: false, fault: { code: 'not-a-number', text: 'x' } });
  expect(baseOf('203', 'psi')).toMatchObject({ ok: false, fault: { code: 'out-of-range' } });
});
