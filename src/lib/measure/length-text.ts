import { inchParts, parseInches, sixteenthsOf } from './inch.ts';
import { lengthNm, typedDecimal, type LengthUnit } from './quantity.ts';
import { fail, ok, type Result } from '../result.ts';

/** A length as it was typed: feet and inches together are kept in inches. */
export interface TypedLength {
  /** Decimal string in `unit`. */
  readonly value: string;
  readonly unit: Extract<LengthUnit, 'in' | 'ft' | 'mm' | 'cm' | 'm'>;
}

/** `no-unit`: a number that could be any of several lengths, which only the person can say. */
export type LengthTextFault = 'not-a-length' | 'no-unit';

/** Unit marks and words of the trade, English and Spanish. What phones make of the straight marks is among them. */
const FEET = String.raw`(?:['′’]|ft\.?|feet|foot|pies?)`;
const INCHES = String.raw`(?:["″”]|''|′′|’’|in\.?|inch(?:es)?|pulg\.?|pulgadas?)`;
const METRIC: readonly (readonly [RegExp, 'mm' | 'cm' | 'm'])[] = [
  [/^(.*?)\s*(?:mm|millimet(?:re|er)s?|mil[ií]metros?)$/i, 'mm'],
  [/^(.*?)\s*(?:cm|centimet(?:re|er)s?|cent[ií]metros?)$/i, 'cm'],
  [/^(.*?)\s*(?:m|met(?:re|er)s?|metros?)$/i, 'm'],
];
/** Two marks of feet are one of inches, so a mark of feet has none beside it. */
const FEET_AND_INCHES = new RegExp(String.raw`^(\d{1,4})\s*(?!''|′′|’’)${FEET}(?!['′’])(?:\s*(?:-\s*)?(.+?))?$`, 'i');
const INCHES_ALONE = new RegExp(String.raw`^(.*?)\s*${INCHES}$`, 'i');
const INCH_MARK_AT_END = new RegExp(String.raw`\s*${INCHES}$`, 'i');
/** Decimal feet, such as `5.5 ft`. */
const FEET_ALONE = new RegExp(String.raw`^(\d{0,4}[.,]\d{1,9})\s*(?!''|′′|’’)${FEET}$`, 'i');
/** `1,500` may be one and a half or fifteen hundred: in the small units a wall could be either, so neither is guessed at. */
const GROUPED = /^[1-9]\d{0,2}[.,]\d{3}$/;

/**
 * Reads a length as the trade writes it: `5' 3-1/2"`, `5 ft 3 1/2 in`, `63.5"`, `57 mm`, `1.6 m`, `5 pies 3 pulg`. A bare number is
 * a fault of its own, since a wall of 63 may be inches or centimetres. After feet come inches, from 0 to under 12.
 */
export function readLength(text: string): Result<TypedLength, LengthTextFault> {
  const bare = text.trim().replaceAll(/\s+/g, ' ');
  for (const [pattern, unit] of METRIC) {
    const number = pattern.exec(bare)?.[1];
    if (number !== undefined) return metric(number, unit);
  }
  const feet = FEET_AND_INCHES.exec(bare);
  if (feet !== null) return feetAndInches(feet[1]!, feet[2]);
  const decimalFeet = FEET_ALONE.exec(bare)?.[1];
  if (decimalFeet !== undefined) return decimal(decimalFeet, 'ft');
  const inches = INCHES_ALONE.exec(bare)?.[1];
  if (inches !== undefined) {
    const value = parseInches(inches);
    return value === null ? fail('not-a-length') : ok({ value, unit: 'in' });
  }
  return parseInches(bare) === null ? fail('not-a-length') : fail('no-unit');
}

function metric(number: string, unit: 'mm' | 'cm' | 'm'): Result<TypedLength, LengthTextFault> {
  return unit !== 'm' && GROUPED.test(number) ? fail('not-a-length') : decimal(number, unit);
}

function decimal(number: string, unit: TypedLength['unit']): Result<TypedLength, LengthTextFault> {
  const value = typedDecimal(number);
  return value === null ? fail('not-a-length') : ok({ value, unit });
}

function feetAndInches(feet: string, rest: string | undefined): Result<TypedLength, LengthTextFault> {
  const inches = rest === undefined ? '0' : parseInches(rest.replace(INCH_MARK_AT_END, ''));
  if (inches === null) return fail('not-a-length');
  const [whole = '0', decimals] = inches.split('.');
  if (Number(whole) >= 12) return fail('not-a-length');
  return ok({ value: `${Number(feet) * 12 + Number(whole)}${decimals === undefined ? '' : `.${decimals}`}`, unit: 'in' });
}

/** A bare number and each unit it may be in, as a person could have typed it: the choices to ask with. Empty where nothing is in doubt. */
export function unitsInDoubt(text: string): readonly string[] {
  const read = readLength(text);
  if (read.ok || read.fault !== 'no-unit') return [];
  const number = text.trim();
  // Nobody writes a fraction of a millimetre.
  const fraction = /[/¼-¾⅐-⅞\u2044]/.test(number);
  const units = fraction ? ['in'] : ['in', 'ft', 'mm', 'cm', 'm'];
  return units.map((unit) => `${number} ${unit}`).filter((offer) => readLength(offer).ok);
}

/** Feet, and whole sixteenths of an inch beyond them; null for a length between two graduations, or under a foot. */
export function feetParts(length: TypedLength): { readonly feet: number; readonly sixteenths: number } | null {
  const nm = lengthNm(length.value, length.unit);
  const sixteenths = nm.ok ? sixteenthsOf(nm.value) : null;
  if (sixteenths === null || sixteenths < FOOT) return null;
  return { feet: Math.floor(sixteenths / FOOT), sixteenths: (inchParts(sixteenths).whole % 12) * 16 + (sixteenths % 16) };
}

/** Sixteenths in a foot. */
const FOOT = 192;
