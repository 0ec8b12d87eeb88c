import { inchParts, inchText, sixteenthsOf } from '../measure/inch.ts';
import type { AnyUnit } from '../measure/dimension.ts';
import { isDecimal, lengthNm } from '../measure/quantity.ts';
import { cardinal, type Form } from './_cardinal.ts';
import * as m from './compiled/messages.js';
import type { Locale } from './compiled/runtime.js';

/** The units values are said in. */
export type SaidUnit = AnyUnit;

/** A value as kept in an entry: decimal string and unit; its SI length is computed elsewhere. */
export interface SaidQuantity {
  readonly value: string;
  readonly unit: SaidUnit;
}
/** A comb reading as kept: wet at `value`, dry at `to`. */
export interface SaidSpan extends SaidQuantity {
  readonly to: string;
}

const UNIT = {
  in: m.unit_in,
  ft: m.unit_ft,
  mm: m.unit_mm,
  cm: m.unit_cm,
  m: m.unit_m,
  mil: m.unit_mil,
  um: m.unit_um,
  min: m.unit_min,
  h: m.unit_h,
  d: m.unit_d,
  C: m.unit_c,
  F: m.unit_f,
  '%': m.unit_percent,
  'in/ft': m.unit_in_per_ft,
  'mm/m': m.unit_mm_per_m,
  L: m.unit_l,
  gal: m.unit_gal,
  qt: m.unit_qt,
  kg: m.unit_kg,
  lb: m.unit_lb,
  m2: m.unit_m2,
  ft2: m.unit_ft2,
  kPa: m.unit_kpa,
  psi: m.unit_psi,
} as const satisfies Readonly<Record<Exclude<SaidUnit, 'count'>, unknown>>;

/** A unit in full after its number, and the gender of its Spanish noun, which the number must follow. Slopes in inches are said as inches. */
const SAID = {
  in: [m.said_in, 'feminine'],
  ft: [m.said_ft, 'masculine'],
  mm: [m.said_mm, 'masculine'],
  cm: [m.said_cm, 'masculine'],
  m: [m.said_m, 'masculine'],
  mil: [m.said_mil, 'feminine'],
  um: [m.said_um, 'masculine'],
  min: [m.said_min, 'masculine'],
  h: [m.said_h, 'feminine'],
  d: [m.said_d, 'masculine'],
  C: [m.said_c, 'masculine'],
  F: [m.said_f, 'masculine'],
  '%': [m.said_percent, 'alone'],
  'mm/m': [m.said_mm_per_m, 'masculine'],
  L: [m.said_l, 'masculine'],
  gal: [m.said_gal, 'masculine'],
  qt: [m.said_qt, 'masculine'],
  kg: [m.said_kg, 'masculine'],
  lb: [m.said_lb, 'feminine'],
  m2: [m.said_m2, 'masculine'],
  ft2: [m.said_ft2, 'masculine'],
  kPa: [m.said_kpa, 'masculine'],
  psi: [m.said_psi, 'feminine'],
} as const satisfies Readonly<Record<Exclude<SaidUnit, 'count' | 'in/ft'>, readonly [unknown, Form]>>;
const PART = { 4: m.said_quarter, 8: m.said_eighth, 16: m.said_sixteenth } as const;

/** The mark between whole and decimals: a point in English, a comma in Spanish. */
export function decimalMark(locale: Locale): string {
  return m.decimal_mark({}, { locale });
}

/** A number without its unit: `2 11/16` for inches (and inches a foot) on a graduation, else its decimals with the language's mark. No grouping. */
export function numberText(value: string, unit: SaidUnit, locale: Locale): string {
  const sixteenths = unit === 'in' || unit === 'in/ft' ? inSixteenths(value) : null;
  return sixteenths === null ? decimalText(value, locale) : inchText(sixteenths);
}

function decimalText(value: string, locale: Locale): string {
  return decimal(value).replace('.', decimalMark(locale));
}

/** `in`, `mm`, `mil`, `µm`, `°F`; nothing for a count. */
export function unitText(unit: SaidUnit, locale: Locale): string {
  return unit === 'count' ? '' : UNIT[unit]({}, { locale });
}

/** One value on one line: `2 11/16 in`, `68.3 mm`, `85 %`, `2` coats. A space stands before every unit, % and °C too (NIST SP 811, 7.2 and 7.10.2). */
export function quantityText({ value, unit }: SaidQuantity, locale: Locale): string {
  return `${numberText(value, unit, locale)} ${unitText(unit, locale)}`.trimEnd();
}

/** An interval on one line: `26–28 mil`. Of inches both ends stand on graduations, or both are decimals. */
export function spanText({ value, to, unit }: SaidSpan, locale: Locale): string {
  const isMixed = (inSixteenths(value) === null) !== (inSixteenths(to) === null);
  const text = (one: string) => (isMixed ? decimalText(one, locale) : numberText(one, unit, locale));
  return `${text(value)}–${text(to)} ${unitText(unit, locale)}`.trimEnd();
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
  if (unit === 'count') return inWords(value, locale, 'alone');
  if (unit === 'in/ft') return m.said_per_foot({ inches: withUnit(value, 'in', locale) }, { locale });
  const sixteenths = unit === 'in' ? inSixteenths(value) : null;
  if (sixteenths !== null && sixteenths % 16 !== 0) return inchesInWords(sixteenths, locale);
  const [say, form] = SAID[unit];
  return say({ n: Number(value), number: inWords(value, locale, form) }, { locale });
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
