import { fail, ok, type Result } from '../result.ts';

/** Units of length a person may speak or type. `mil` is a thousandth of an inch (film thickness). */
export type LengthUnit = 'in' | 'ft' | 'mm' | 'cm' | 'm' | 'mil' | 'um';

/**
 * Nanometres in one unit, exact: 1 in = 25.4 mm by definition (NIST SP 811, appendix B.8), 1 mil = 0.001 in.
 * Nanometres are the project's whole-number length, so that 2 in typed and 50.8 mm typed are equal, not almost equal.
 */
const NM_PER_UNIT: Readonly<Record<LengthUnit, number>> = {
  in: 25_400_000,
  ft: 304_800_000,
  mm: 1_000_000,
  cm: 10_000_000,
  m: 1_000_000_000,
  mil: 25_400,
  um: 1_000,
};

export type QuantityFault =
  | { code: 'not-a-number'; text: string }
  | { code: 'out-of-range'; text: string; min: string; max: string; unit: LengthUnit };

const DECIMAL = /^-?\d{1,12}(?:\.\d{1,9})?$/;

/** True for a plain decimal string: optional minus, up to 12 digits, up to 9 decimals, no exponent. */
export function isDecimal(text: string): boolean {
  return DECIMAL.test(text);
}

/**
 * Length in nanometres (a whole number) of a decimal string in `unit`.
 * Rounded half away from zero to 1 nm, far below what any gauge here resolves; exact for sixteenths, mils and tenths of a millimetre.
 */
export function lengthNm(value: string, unit: LengthUnit): Result<number, QuantityFault> {
  if (!isDecimal(value)) return fail({ code: 'not-a-number', text: value });
  const negative = value.startsWith('-');
  const [whole = '0', decimals = ''] = value.replace('-', '').split('.');
  // Whole numbers only: digits as an integer over 10^9, so no binary fraction is ever rounded.
  const scaled = BigInt(whole) * 1_000_000_000n + BigInt(decimals.padEnd(9, '0'));
  const nm = (scaled * BigInt(NM_PER_UNIT[unit]) + 500_000_000n) / 1_000_000_000n;
  const size = Number(nm);
  if (!Number.isSafeInteger(size)) return fail({ code: 'out-of-range', text: value, min: '0', max: '9000000', unit: 'm' });
  return ok(negative && size !== 0 ? -size : size);
}

/** A length given in nanometres, as a number of `unit`. For display and drawing only; never hashed, never compared. */
export function nmTo(lengthInNm: number, unit: LengthUnit): number {
  return lengthInNm / NM_PER_UNIT[unit];
}

/** Decimal string of nanometres in `unit`, rounded half away from zero to `places`, trailing zeros cut. */
export function nmText(lengthInNm: number, unit: LengthUnit, places: number): string {
  const scale = 10n ** BigInt(places);
  const per = BigInt(NM_PER_UNIT[unit]);
  const size = BigInt(Math.abs(lengthInNm));
  const rounded = (size * scale * 2n + per) / (per * 2n);
  const whole = rounded / scale;
  const rest = places === 0 ? '' : (rounded % scale).toString().padStart(places, '0').replace(/0+$/, '');
  const sign = lengthInNm < 0 && rounded !== 0n ? '-' : '';
  return `${sign}${whole}${rest === '' ? '' : `.${rest}`}`;
}
