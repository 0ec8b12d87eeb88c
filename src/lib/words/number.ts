import { inchParts, inchText, sixteenthsOf } from '../measure/inch.ts';
import { isDecimal, lengthNm, type LengthUnit } from '../measure/quantity.ts';
import { cardinal, type Form } from './_cardinal.ts';
import * as m from './compiled/messages.js';
import type { Locale } from './compiled/runtime.js';

/** The units values are said in. */
export type SaidUnit = Extract<LengthUnit, 'in' | 'mm' | 'mil' | 'um'>;

/** A value as kept in an entry: decimal string and unit; its SI length is computed elsewhere. */
export interface SaidQuantity {
  readonly value: string;
  readonly unit: SaidUnit;
}
/** A comb reading as kept: wet at `value`, dry at `to`. */
export interface SaidSpan extends SaidQuantity {
  readonly to: string;
}

const UNIT = { in: m.unit_in, mm: m.unit_mm, mil: m.unit_mil, um: m.unit_um } as const;
const SAID = { in: m.said_in, mm: m.said_mm, mil: m.said_mil, um: m.said_um } as const;
const PART = { 4: m.said_quarter, 8: m.said_eighth, 16: m.said_sixteenth } as const;
/** Gender of the Spanish noun, which the number must follow. */
const FORM: Readonly<Record<SaidUnit, Form>> = { in: 'feminine', mil: 'feminine', mm: 'masculine', um: 'masculine' };

/** The mark between whole and decimals: a point in English, a comma in Spanish. */
export function decimalMark(locale: Locale): string {
  return m.decimal_mark({}, { locale });
}

/** A number without its unit: `2 11/16` for inches on a graduation, else its decimals with the language's mark. No grouping. */
export function numberText(value: string, unit: SaidUnit, locale: Locale): string {
  const sixteenths = unit === 'in' ? inSixteenths(value) : null;
  return sixteenths === null ? decimal(value).replace('.', decimalMark(locale)) : inchText(sixteenths);
}

/** `in`, `mm`, `mil`, `µm`. */
export function unitText(unit: SaidUnit, locale: Locale): string {
  return UNIT[unit]({}, { locale });
}

/** One value on one line: `2 11/16 in`, `68.3 mm`. */
export function quantityText({ value, unit }: SaidQuantity, locale: Locale): string {
  return `${numberText(value, unit, locale)} ${unitText(unit, locale)}`;
}

/** An interval on one line: `26–28 mil`. */
export function spanText({ value, to, unit }: SaidSpan, locale: Locale): string {
  return `${numberText(value, unit, locale)}–${numberText(to, unit, locale)} ${unitText(unit, locale)}`;
}

/** A kept reading on one line, value or interval. An entry may carry more than this version reads: `to` counts only as text. */
export function saidText(said: SaidQuantity & { readonly to?: unknown }, locale: Locale): string {
  return typeof said.to === 'string' ? spanText({ ...said, to: said.to }, locale) : quantityText(said, locale);
}

/**
 * A value said back as a sentence in words, unit in full, before it is kept: a wrong digit, mark or unit is heard where it is overlooked.
 * `Two and eleven sixteenths inches.`, `Dos pulgadas y once dieciseisavos.`, `Wet at twenty-six, dry at twenty-eight thousandths of an inch.`
 */
export function readBack(said: SaidQuantity | SaidSpan, locale: Locale): string {
  const text =
    'to' in said
      ? m.said_span({ from: inWords(said.value, locale, 'alone'), to: withUnit(said.to, said.unit, locale) }, { locale })
      : withUnit(said.value, said.unit, locale);
  return `${text.charAt(0).toLocaleUpperCase(locale)}${text.slice(1)}.`;
}

function withUnit(value: string, unit: SaidUnit, locale: Locale): string {
  const sixteenths = unit === 'in' ? inSixteenths(value) : null;
  if (sixteenths !== null && sixteenths % 16 !== 0) return inchesInWords(sixteenths, locale);
  return SAID[unit]({ n: Number(value), number: inWords(value, locale, FORM[unit]) }, { locale });
}

/** Inches with a fraction. Spanish says the unit first and halves by their own word: `dos pulgadas y media`. */
function inchesInWords(sixteenths: number, locale: Locale): string {
  const { negative, whole, over, under } = inchParts(sixteenths);
  const part = { n: over, number: cardinal(over, locale, 'masculine') };
  const fraction = under === 2 ? m.said_half({}, { locale }) : PART[under as keyof typeof PART](part, { locale });
  const below = under === 2 ? m.said_half_inch({}, { locale }) : m.said_part_inch({ fraction }, { locale });
  const text = whole === 0 ? below : m.said_mixed_inch({ n: whole, number: cardinal(whole, locale, 'feminine'), fraction }, { locale });
  return negative ? m.said_minus({ number: text }, { locale }) : text;
}

/** A decimal string in words; decimals digit by digit, as they are read from a gauge. */
function inWords(value: string, locale: Locale, form: Form): string {
  const [whole = '', decimals] = decimal(value).replace('-', '').split('.');
  const number =
    decimals === undefined
      ? cardinal(Number(whole), locale, form)
      : m.said_decimal(
          { whole: cardinal(Number(whole), locale), decimals: [...decimals].map((digit) => cardinal(Number(digit), locale)).join(' ') },
          { locale },
        );
  return value.startsWith('-') ? m.said_minus({ number }, { locale }) : number;
}

function inSixteenths(value: string): number | null {
  const length = lengthNm(value, 'in');
  return length.ok ? sixteenthsOf(length.value) : null;
}

function decimal(value: string): string {
  if (!isDecimal(value)) throw new RangeError(`value: expected a decimal string, got "${value}"`);
  return value;
}
