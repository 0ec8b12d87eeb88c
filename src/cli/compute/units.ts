import { ALL_UNITS, inUnit, type AnyUnit } from '#lib/measure/dimension.ts';
import { printQuantity, readQuantity } from '#lib/measure/quantity-text.ts';
import { isDecimal } from '#lib/measure/quantity.ts';
import { fail, ok, type Result } from '#lib/result.ts';
import { exampleCombMil, exampleCombUm } from '#lib/trade/comb.ts';
import { choiceFault, firstFault, numberFault, textFault, type Span } from '#lib/trade/input.ts';
import { judge, type Verdict } from '#lib/trade/limits.ts';
import { STARTER_FAMILIES, startersOf, WATER_CLASSES, type Starter, type StarterFamily, type WaterClass } from '#lib/trade/starters.ts';
import { row, type ComputeFault, type Row } from './row.ts';

const UNITS_TEXT = ALL_UNITS.join(', ');
const WHOLE: Span = [-Number.MAX_SAFE_INTEGER, Number.MAX_SAFE_INTEGER];

interface Quantity {
  readonly value: string;
  readonly unit: AnyUnit;
}

function readTyped({ text, asked }: { text: string; asked: readonly AnyUnit[] }): Result<Quantity, ComputeFault> {
  const list: readonly AnyUnit[] = Array.isArray(asked) ? (asked as AnyUnit[]) : [];
  const fault = firstFault([
    textFault('text', text),
    list.length === 0 ? { code: 'empty', field: 'asked', bound: 1 } : null,
    ...list.map((unit, at) => choiceFault(`asked[${at}]`, unit, ALL_UNITS)),
  ]);
  if (fault) return fault;
  const read = readQuantity(text, list);
  return read.ok ? read : fail({ field: 'text', ...read.fault });
}

function printTyped({ value, unit }: Quantity): Result<{ text: string }, ComputeFault> {
  return quantityFault({ value, unit }) ?? ok({ text: printQuantity({ value, unit }) });
}

function convert({ value, unit, to }: Quantity & { to: AnyUnit }): Result<{ number: number }, ComputeFault> {
  const fault = quantityFault({ value, unit }) ?? firstFault([choiceFault('to', to, ALL_UNITS)]);
  if (fault) return fault;
  const number = inUnit(value, unit, to);
  return number.ok
    ? ok({ number: number.value })
    : fail({ field: number.fault.code === 'other-dimension' ? 'to' : 'value', ...number.fault });
}

function judgeReading(read: {
  from: number;
  to: number;
  min: number | null;
  max: number | null;
}): Result<{ verdict: Verdict }, ComputeFault> {
  const { from, to, min, max } = read;
  const whole = (field: string, value: number | null) =>
    value === null
      ? null
      : (numberFault(field, value, WHOLE) ?? (Number.isInteger(value) ? null : ({ code: 'not-a-number', field, bound: null } as const)));
  const fault = firstFault([
    numberFault('from', from, WHOLE) ?? whole('from', from),
    numberFault('to', to, WHOLE) ?? whole('to', to),
    from > to ? { code: 'out-of-order', field: 'to', bound: from } : null,
    whole('min', min),
    whole('max', max),
  ]);
  return fault ?? ok({ verdict: judge({ from, to }, { min, max }) });
}

function combTeeth({ unit }: { unit: 'mil' | 'um' }): Result<{ teeth: readonly number[] }, ComputeFault> {
  const fault = firstFault([choiceFault('unit', unit, ['mil', 'um'])]);
  return fault ?? ok({ teeth: (unit === 'mil' ? exampleCombMil() : exampleCombUm()).teeth.map(Number) });
}

function startingLimits({
  family,
  water,
}: {
  family: StarterFamily;
  water: WaterClass;
}): Result<{ limits: readonly Starter[] }, ComputeFault> {
  const fault = firstFault([choiceFault('family', family, STARTER_FAMILIES), choiceFault('water', water, WATER_CLASSES)]);
  return fault ?? ok({ limits: startersOf(family, water) });
}

function quantityFault({ value, unit }: Quantity): Result<never, ComputeFault> | null {
  const decimal = textFault('value', value) ?? (isDecimal(value) ? null : ({ code: 'not-a-number', field: 'value', bound: null } as const));
  return firstFault([decimal, choiceFault('unit', unit, ALL_UNITS)]);
}

export const UNIT_ROWS: readonly Row[] = [
  row(readTyped, {
    part: 'units',
    what: 'A value as people type it, read where one of some units is asked for. A number alone is in doubt, and so are digits that may be thousands or thousandths: the error then carries what could be meant.',
    inputs: {
      text: `text: 2 1/4", 5' 3-1/2", 57 mm, 20 mil, 70 °F, 6 qt, 15 sq ft, 1/4 in/ft`,
      asked: `list of units of one dimension: ${UNITS_TEXT}`,
    },
    result: { value: 'text: decimal number in unit', unit: 'the unit that was typed' },
    source: 'common practice, no source',
    limits: 'Up to 60 characters. Inches to 1/16 or decimal, feet with inches under 12. Ounces are not read: they are mass and volume.',
    example: { text: `5' 3-1/2"`, asked: ['in'] },
  }),
  row(printTyped, {
    part: 'units',
    what: 'A value as its trade writes it. Read again it is the same value, in the same unit but for whole feet, which come back in inches.',
    inputs: { value: 'text: decimal number in unit', unit: `one of ${UNITS_TEXT}` },
    result: { text: `text: 2 1/4", 5' 3-1/2", 57 mm, 20 mil, 70 °F` },
    source: 'common practice, no source',
    limits: 'Fractions of an inch only where they say exactly as much as the decimals.',
    example: { value: '63.5', unit: 'in' },
  }),
  row(convert, {
    part: 'units',
    what: 'The same value in another unit of its dimension.',
    inputs: { value: 'text: decimal number in unit', unit: `one of ${UNITS_TEXT}`, to: 'the unit wanted' },
    result: { number: 'number in the unit wanted' },
    source: 'NIST SP 811, appendix B.8 (inch, pound, US gallon exact); NIST Handbook 44, appendix C',
    limits:
      'Held in whole nm, ms, 1/9000 K, nL, µg, 1/100 mm² or 1/6451600000 Pa on the way. A slope in per cent is a ratio, not an angle.',
    example: { value: '2', unit: 'in', to: 'mm' },
  }),
  row(judgeReading, {
    part: 'units',
    what: 'A reading, which may be an interval between two teeth, against a least and a most.',
    inputs: {
      from: 'whole number in any one unit, reached for certain',
      to: 'whole number, not reached unless equal to from',
      min: 'whole number or null',
      max: 'whole number or null',
    },
    result: { verdict: 'within, outside, not-proven, or no-limit when neither bound is stated' },
    source: 'ASTM D4414-95(2020), longest wetted and next tooth; every reading at or above the minimum is common practice, no source',
    limits: 'All four numbers in the same whole units, such as nm.',
    example: { from: 24, to: 26, min: 25, max: null },
  }),
  row(combTeeth, {
    part: 'film',
    what: 'The teeth of a comb gauge graduated as in the example of the standard.',
    inputs: { unit: 'mil or um' },
    result: { teeth: 'list of numbers in unit, ascending' },
    source: 'ASTM D4414-95(2020), example of a gauge: 0.5 mil to 6, 1 mil to 10, 2 mil to 30, 5 mil above (25, 50, 125 µm)',
    limits: 'A gauge on site may have other teeth: those count.',
    example: { unit: 'mil' },
  }),
  row(startingLimits, {
    part: 'substrate',
    what: 'Limits from published rules, offered one by one and never preset: family and edition in force are the person’s choice.',
    inputs: {
      family: `one of ${STARTER_FAMILIES.join(', ')}`,
      water: `water class, one of ${WATER_CLASSES.join(', ')}; counts for din-18534 only`,
    },
    result: { limits: 'list of { id, family, measure, min, max, unit, kind, source, cite, readIn, water }' },
    source: 'IRC P2709.1, IPC 312.9, UPC 408.7, NCC Housing Provisions 10.2.2 and 10.2.12, DIN 18534-3',
    limits: 'The data sheet, the local code and the inspector govern.',
    example: { family: 'ncc', water: 'W1-I' },
  }),
];
