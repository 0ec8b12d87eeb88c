import { decimalMark, quantityText, readBack, saidText, spanText, type SaidUnit } from '#lib/words/number.ts';
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
])('%s %s is written %s, in Spanish %s', (value, unit, en, es) => {
  expect([quantityText({ value, unit }, 'en'), quantityText({ value, unit }, 'es')]).toEqual([en, es]);
});

test.each<[value: string, to: string, unit: SaidUnit, en: string, es: string]>([
  ['26', '28', 'mil', '26–28 mil', '26–28 mil'],
  ['5.5', '6', 'mil', '5.5–6 mil', '5,5–6 mil'],
  ['500', '550', 'um', '500–550 µm', '500–550 µm'],
])('a comb wet at %s and dry at %s %s is written %s, in Spanish %s', (value, to, unit, en, es) => {
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
