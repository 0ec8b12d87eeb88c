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

/** out-of-range: longer than whole nanometres hold exactly, which is some 9,007 km. */
export interface QuantityFault {
  readonly code: 'not-a-number' | 'out-of-range';
  readonly text: string;
}

const DECIMAL = /^-?\d{1,12}(?:\.\d{1,9})?$/;

/** True for a plain decimal string: optional minus, up to 12 digits, up to 9 decimals, no exponent. */
export function isDecimal(text: string): boolean {
  return DECIMAL.test(text);
}

const TYPED = /^(\d{0,12})(?:[.,](\d{1,9}))?$/;

/**
 * Decimal string of a number typed on a phone, or null when it is none: without sign, a comma is as good as a point, `.5` is 0.5.
 * Zeros in front are dropped; those at the end stay, as they say how finely it was read. `2.` is unfinished, and no number.
 */
export function typedDecimal(text: string): string | null {
  const [, whole = '', decimals] = TYPED.exec(text.trim()) ?? [];
  if (whole === '' && decimals === undefined) return null;
  return `${whole.replace(/^0+(?=\d)/, '') || '0'}${decimals === undefined ? '' : `.${decimals}`}`;
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
  if (!Number.isSafeInteger(size)) return fail({ code: 'out-of-range', text: value });
  return ok(negative && size !== 0 ? -size : size);
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
