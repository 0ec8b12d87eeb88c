import { ALL_UNITS } from '#lib/measure/dimension.ts';
import { decimalMark, quantityText, readBack, saidText, spanText, unitText, type SaidUnit } from '#lib/words/number.ts';
import { expect, test } from 'vitest';

test.each<[value: string, unit: SaidUnit, en: string, es: string]>([
  ['2.6875', 'in', '2 11/16 in', '2 11/16 in'],
  ['0.5', 'in', '1/2 in', '1/2 in'],
  ['3', 'in', '3 in', '3 in'],
  // Between two graduations there is no fraction to write.
  ['2.3', 'in', '2.3 in', '2,3 in'],
  ['68.3', 'mm', '68.3 mm', '68,3 mm'],
  ['1500', 'um', '1500 µm', '1500 µm'],
  ['4.5', 'mil', '4.5 mil', '4,5 mil'],
  ['0.25', 'in/ft', '1/4 in/ft', '1/4 in/ft'],
  ['2.1', '%', '2.1 %', '2,1 %'],
  ['85', '%', '85 %', '85 %'],
  ['20', 'mm/m', '20 mm/m', '20 mm/m'],
  ['-5', 'C', '-5 °C', '-5 °C'],
  ['50', 'F', '50 °F', '50 °F'],
  ['90', 'min', '90 min', '90 min'],
  ['24', 'h', '24 h', '24 h'],
  ['7', 'd', '7 d', '7 d'],
  ['1.5', 'gal', '1.5 gal', '1,5 gal'],
  ['5.7', 'L', '5.7 L', '5,7 L'],
  ['4', 'qt', '4 qt', '4 qt'],
  ['50', 'lb', '50 lb', '50 lb'],
  ['22.5', 'kg', '22.5 kg', '22,5 kg'],
  ['5', 'ft', '5 ft', '5 ft'],
  ['2', 'count', '2', '2'],
])('%s %s is written %s, in Spanish %s', (value, unit, en, es) => {
  expect([quantityText({ value, unit }, 'en'), quantityText({ value, unit }, 'es')]).toEqual([en, es]);
});

test.each<[value: string, to: string, unit: SaidUnit, en: string, es: string]>([
  ['26', '28', 'mil', '26–28 mil', '26–28 mil'],
  ['5.5', '6', 'mil', '5.5–6 mil', '5,5–6 mil'],
  ['500', '550', 'um', '500–550 µm', '500–550 µm'],
  ['2', '3', 'count', '2–3', '2–3'],
  // One end on a graduation and the other beside it: both as decimals, which are measured in a photo.
  ['1.69', '2.5', 'in', '1.69–2.5 in', '1,69–2,5 in'],
  ['1.5', '2.25', 'in', '1 1/2–2 1/4 in', '1 1/2–2 1/4 in'],
])('an interval of %s to %s %s is written %s, in Spanish %s', (value, to, unit, en, es) => {
  expect([spanText({ value, to, unit }, 'en'), spanText({ value, to, unit }, 'es')]).toEqual([en, es]);
});

// Spanish forms before a noun (un, veintiún, una, doscientas, dieciseisavo, y medio/media): Ortografía de la lengua española, 2010.
test.each<[value: string, unit: SaidUnit, en: string, es: string]>([
  ['2.6875', 'in', 'Two and eleven sixteenths inches.', 'Dos pulgadas y once dieciseisavos.'],
  ['0.6875', 'in', 'Eleven sixteenths of an inch.', 'Once dieciseisavos de pulgada.'],
  ['1.0625', 'in', 'One and one sixteenth inches.', 'Una pulgada y un dieciseisavo.'],
  ['2.5', 'in', 'Two and one half inches.', 'Dos pulgadas y media.'],
  ['0.5', 'in', 'One half of an inch.', 'Media pulgada.'],
  ['5.25', 'in', 'Five and one quarter inches.', 'Cinco pulgadas y un cuarto.'],
  ['2.375', 'in', 'Two and three eighths inches.', 'Dos pulgadas y tres octavos.'],
  ['1', 'in', 'One inch.', 'Una pulgada.'],
  ['0', 'in', 'Zero inches.', 'Cero pulgadas.'],
  ['21', 'in', 'Twenty-one inches.', 'Veintiuna pulgadas.'],
  ['131.5', 'in', 'One hundred thirty-one and one half inches.', 'Ciento treinta y una pulgadas y media.'],
  ['-0.5', 'in', 'Minus one half of an inch.', 'Menos media pulgada.'],
  ['2.3', 'in', 'Two point three inches.', 'Dos coma tres pulgadas.'],
  ['68.3', 'mm', 'Sixty-eight point three millimetres.', 'Sesenta y ocho coma tres milímetros.'],
  ['1', 'mm', 'One millimetre.', 'Un milímetro.'],
  ['21', 'mm', 'Twenty-one millimetres.', 'Veintiún milímetros.'],
  ['100', 'mm', 'One hundred millimetres.', 'Cien milímetros.'],
  ['231', 'mil', 'Two hundred thirty-one thousandths of an inch.', 'Doscientas treinta y una milésimas de pulgada.'],
  ['1', 'mil', 'One thousandth of an inch.', 'Una milésima de pulgada.'],
  ['0.5', 'mil', 'Zero point five thousandths of an inch.', 'Cero coma cinco milésimas de pulgada.'],
  ['1250', 'um', 'One thousand two hundred fifty micrometres.', 'Mil doscientos cincuenta micrómetros.'],
  ['2001', 'um', 'Two thousand one micrometres.', 'Dos mil un micrómetros.'],
  ['10000', 'um', '10000 micrometres.', '10000 micrómetros.'],
  // A million takes a form of its own in Spanish plurals (CLDR); the unit's word is the same.
  ['1000000', 'um', '1000000 micrometres.', '1000000 micrómetros.'],
  ['1000000', 'mm', '1000000 millimetres.', '1000000 milímetros.'],
  ['1', 'ft', 'One foot.', 'Un pie.'],
  ['21', 'ft', 'Twenty-one feet.', 'Veintiún pies.'],
  ['2.5', 'cm', 'Two point five centimetres.', 'Dos coma cinco centímetros.'],
  ['3', 'm', 'Three metres.', 'Tres metros.'],
  ['0.25', 'in/ft', 'One quarter of an inch per foot.', 'Un cuarto de pulgada por pie.'],
  ['1', 'in/ft', 'One inch per foot.', 'Una pulgada por pie.'],
  ['2.5', 'in/ft', 'Two and one half inches per foot.', 'Dos pulgadas y media por pie.'],
  ['0.3', 'in/ft', 'Zero point three inches per foot.', 'Cero coma tres pulgadas por pie.'],
  ['-0.25', 'in/ft', 'Minus one quarter of an inch per foot.', 'Menos un cuarto de pulgada por pie.'],
  ['20', 'mm/m', 'Twenty millimetres per metre.', 'Veinte milímetros por metro.'],
  ['2', '%', 'Two percent.', 'Dos por ciento.'],
  ['31', '%', 'Thirty-one percent.', 'Treinta y uno por ciento.'],
  ['1', 'F', 'One degree Fahrenheit.', 'Un grado Fahrenheit.'],
  ['72', 'F', 'Seventy-two degrees Fahrenheit.', 'Setenta y dos grados Fahrenheit.'],
  ['-5', 'C', 'Minus five degrees Celsius.', 'Menos cinco grados Celsius.'],
  ['45', 'min', 'Forty-five minutes.', 'Cuarenta y cinco minutos.'],
  ['1', 'h', 'One hour.', 'Una hora.'],
  ['21', 'h', 'Twenty-one hours.', 'Veintiuna horas.'],
  ['24', 'h', 'Twenty-four hours.', 'Veinticuatro horas.'],
  ['7', 'd', 'Seven days.', 'Siete días.'],
  ['1.5', 'gal', 'One point five gallons.', 'Uno coma cinco galones.'],
  ['1', 'qt', 'One quart.', 'Un cuarto de galón.'],
  ['6', 'L', 'Six litres.', 'Seis litros.'],
  ['25', 'kg', 'Twenty-five kilograms.', 'Veinticinco kilogramos.'],
  ['51', 'lb', 'Fifty-one pounds.', 'Cincuenta y una libras.'],
  ['2', 'count', 'Two.', 'Dos.'],
])('%s %s is said back as %s %s', (value, unit, en, es) => {
  expect([readBack({ value, unit }, 'en'), readBack({ value, unit }, 'es')]).toEqual([en, es]);
});

test('a comb reading is said back tooth by tooth, unit in full', () => {
  const said = { value: '26', to: '28', unit: 'mil' } as const;
  expect(readBack(said, 'en')).toBe('Wet at twenty-six, dry at twenty-eight thousandths of an inch.');
  expect(readBack(said, 'es')).toBe('Mojado en veintiséis, seco en veintiocho milésimas de pulgada.');
});

test('a kept reading is written as what it is; what a newer version put into `to` is not guessed at', () => {
  expect(saidText({ value: '26', to: '28', unit: 'mil' }, 'en')).toBe('26–28 mil');
  expect(saidText({ value: '2.6875', unit: 'in' }, 'en')).toBe('2 11/16 in');
  expect(saidText({ value: '3', unit: 'in', to: { later: true } }, 'en')).toBe('3 in');
});

test('the keypad has the mark of its language', () => {
  expect([decimalMark('en'), decimalMark('es')]).toEqual(['.', ',']);
});

test('a value that is no decimal string is our mistake', () => {
  expect(() => quantityText({ value: '2,5', unit: 'mm' }, 'es')).toThrow(RangeError);
});

test.each(ALL_UNITS)('%s is written and said back in both languages', (unit) => {
  for (const locale of ['en', 'es'] as const) {
    expect(quantityText({ value: '3', unit }, locale)).toBe(`3 ${unitText(unit, locale)}`.trimEnd());
    expect(readBack({ value: '3', unit }, locale)).toMatch(locale === 'en' ? /^Three\b.*\.$/ : /^Tres\b.*\.$/);
  }
});
