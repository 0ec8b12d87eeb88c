import { dimensionOf, type AnyUnit } from './dimension.ts';
import { inchDecimal, inchText, parseInches, sixteenthsOf } from './inch.ts';
import { feetParts, readLength } from './length-text.ts';
import { lengthNm, typedDecimal } from './quantity.ts';
import { fail, ok, type Result } from '../result.ts';

/** A value as it was typed. */
export interface TypedQuantity {
  /** Decimal string in `unit`; below zero only for temperatures. */
  readonly value: string;
  readonly unit: AnyUnit;
}

/**
 * `in-doubt`: a number alone, or digits in a group of three that may be thousands or thousandths; `offers` are what could be meant, each
 * typed out. `other-dimension`: a unit that does not measure what was asked for.
 */
export type QuantityTextFault =
  { readonly code: 'not-a-quantity' | 'other-dimension' } | { readonly code: 'in-doubt'; readonly offers: readonly string[] };

/** Words of the trade for each unit, English and Spanish. Ounces are left out: they are mass and volume. */
const NAMES: Readonly<Record<Exclude<AnyUnit, 'count' | 'in' | 'ft' | 'mm' | 'cm' | 'm'>, string>> = {
  mil: 'mil|mils|thou|milésimas?',
  um: 'µm|μm|um|microns?|micrometers?|micrometres?|micras?|micrómetros?',
  min: 'min|mins?\\.?|minutes?|minutos?',
  h: 'h|hrs?\\.?|hours?|horas?',
  d: 'd|days?|días?|dias?',
  C: '°C|ºC|C|celsius',
  F: '°F|ºF|F|fahrenheit',
  '%': '%|percent|per cent|por ciento',
  'in/ft': '(?:in|["″”])(?:/| per | a | por )(?:ft|foot|pie)',
  'mm/m': 'mm(?:/| per | por )m',
  L: 'L|liters?|litres?|litros?',
  gal: 'gal|gals?\\.?|gallons?|galón|galones',
  qt: 'qt|qts?\\.?|quarts?|cuartos?',
  kg: 'kg|kgs?|kilos?|kilograms?|kilogramos?',
  lb: 'lb|lbs?\\.?|pounds?|libras?',
  m2: 'm²|m2|sq ?m|square met(?:re|er)s?|metros? cuadrados?',
  ft2: 'sq ft|ft²|ft2|sf|sq\\.? ft\\.?|square (?:feet|foot)|pies?²|pies?2|pies? cuadrados?',
  kPa: 'kPa|kilopascals?|kilopascales',
  psi: 'psi|lb/in2|lb/in²|pounds per square inch|libras por pulgada cuadrada',
};
/** How a unit is printed where its code is not. */
const PRINTED: Readonly<Partial<Record<AnyUnit, string>>> = { um: 'µm', C: '°C', F: '°F', m2: 'm²', ft2: 'sq ft' };
const PATTERNS = Object.entries(NAMES).map(([unit, names]) => [unit as AnyUnit, new RegExp(`^(.*?)\\s*(?:${names})$`, 'i')] as const);

/** Longer is no value that anybody types, and costs time to look at. */
const LONGEST = 60;
/** `1,500` is fifteen hundred in one country and one and a half in another. A point is doubtful only where nobody reads thousandths. */
const GROUP = /^[1-9]\d{0,2},\d{3}$/;
const GROUP_BY_POINT = /^[1-9]\d{0,2}\.\d{3}$/;
const NO_THOUSANDTHS: readonly AnyUnit[] = ['um', 'mil', 'mm', 'cm'];

/**
 * Reads a value as it is typed where one of `asked` is wanted (units of one dimension): `20 mil`, `500 µm`, `70 °F`, `-5 C`, `50 lb`,
 * `6 qt`, `15 sq ft`, `1/4 in/ft`, `2 1/4"`, `5' 3-1/2"`. A number alone is asked about, and so is what may be thousands or thousandths.
 */
export function readQuantity(text: string, asked: readonly AnyUnit[]): Result<TypedQuantity, QuantityTextFault> {
  const bare = text.trim().replaceAll(/\s+/g, ' ');
  if (bare.length > LONGEST || asked.length === 0) return fail({ code: 'not-a-quantity' });
  const length = readLength(bare);
  // `100 ft2` is an area where one is wanted, and a hundred feet two inches elsewhere.
  if (length.ok && dimensionOf(asked[0]!) === 'length') return length;
  for (const [unit, pattern] of PATTERNS) {
    const number = pattern.exec(bare)?.[1];
    if (number === undefined) continue;
    if (isGrouped(number, unit)) return fail({ code: 'in-doubt', offers: ungrouped(number).map((one) => quantityAsTyped(one, unit)) });
    const value = numberOf(number, unit);
    if (value !== null) return checked({ value, unit }, asked);
  }
  if (length.ok) return fail({ code: 'other-dimension' });
  const number = bare.replace(/ ?°$/, '');
  const meant = (unit: AnyUnit) => (isGrouped(number, unit) ? ungrouped(number) : [number]).map((one) => quantityAsTyped(one, unit));
  const offers = NUMBER.test(number) ? asked.flatMap(meant).filter((offer) => readQuantity(offer, asked).ok) : [];
  return fail(offers.length > 0 ? { code: 'in-doubt', offers } : { code: 'not-a-quantity' });
}

/** What may be a number that says no unit; whether it is one, reading it with a unit tells. */
const NUMBER = /^[-−]?[\d.,/\s¼-¾⅐-⅞\u2044-]+$/;

function checked(typed: TypedQuantity, asked: readonly AnyUnit[]): Result<TypedQuantity, QuantityTextFault> {
  return dimensionOf(typed.unit) === dimensionOf(asked[0]!) ? ok(typed) : fail({ code: 'other-dimension' });
}

function numberOf(number: string, unit: AnyUnit): string | null {
  if (unit === 'in/ft') return parseInches(number);
  const signed = unit === 'C' || unit === 'F' ? /^[-−](.+)$/.exec(number)?.[1] : undefined;
  const value = typedDecimal(signed ?? number);
  return value === null || signed === undefined ? value : `-${value}`;
}

function isGrouped(number: string, unit: AnyUnit): boolean {
  return GROUP.test(number) || (NO_THOUSANDTHS.includes(unit) && GROUP_BY_POINT.test(number));
}

/** What a group of three may mean: thousands, and thousandths with one more digit, which no group has. */
function ungrouped(number: string): string[] {
  return [number.replace(/[.,]/, ''), `${number.replace(',', '.')}0`];
}

function quantityAsTyped(number: string, unit: AnyUnit): string {
  return `${number} ${PRINTED[unit] ?? unit}`;
}

/**
 * A value as its trade writes it: `2 1/4"`, `5' 3-1/2"` from a foot up, `1/4 in/ft`, `57 mm`, `20 mil`, `70 °F`, `15 sq ft`. Read again it
 * is the same value, in the same unit but for whole feet, which come back in inches. What is no fraction of an inch to 1/16, or was told
 * with more digits, stays decimal; thousandths that would be in doubt get one more zero.
 */
export function printQuantity({ value, unit }: TypedQuantity): string {
  const sixteenths = unit === 'in' || unit === 'in/ft' ? graduationOf(value) : null;
  if (sixteenths === null) return quantityAsTyped(isGrouped(value, unit) ? `${value}0` : value, unit);
  if (unit === 'in/ft') return `${inchText(sixteenths)} in/ft`;
  const feet = feetParts({ value, unit: 'in' });
  return feet === null ? `${inchText(sixteenths)}"` : `${feet.feet}' ${inchText(feet.sixteenths).replace(' ', '-')}"`;
}

/** Sixteenths of an inch of a value that says no more than that. */
function graduationOf(value: string): number | null {
  const nm = lengthNm(value, 'in');
  const sixteenths = nm.ok ? sixteenthsOf(nm.value) : null;
  return sixteenths !== null && sixteenths >= 0 && inchDecimal(sixteenths) === value ? sixteenths : null;
}
