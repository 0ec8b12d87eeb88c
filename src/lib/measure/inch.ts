import { typedDecimal } from './quantity.ts';

/** Whole inches and a reduced fraction of an inch: 2 11/16 is { whole: 2, over: 11, under: 16 }. */
export interface InchParts {
  readonly negative: boolean;
  readonly whole: number;
  /** Numerator of the reduced fraction, 0 when there is none. */
  readonly over: number;
  /** Denominator of the reduced fraction: 1, 2, 4, 8 or 16. */
  readonly under: number;
}

/** Splits a whole number of sixteenths of an inch into inches and a reduced fraction. */
export function inchParts(sixteenths: number): InchParts {
  if (!Number.isSafeInteger(sixteenths)) throw new RangeError(`sixteenths: expected a whole number, got ${sixteenths}`);
  const size = Math.abs(sixteenths);
  let over = size % 16;
  let under = over === 0 ? 1 : 16;
  while (over > 0 && over % 2 === 0) {
    over /= 2;
    under /= 2;
  }
  return { negative: sixteenths < 0, whole: Math.floor(size / 16), over, under };
}

/** `2 11/16`, `11/16`, `3`, `0`: the way the trade writes inches on one line. */
export function inchText(sixteenths: number): string {
  const { negative, whole, over, under } = inchParts(sixteenths);
  const fraction = over === 0 ? '' : `${over}/${under}`;
  const text = whole === 0 && fraction !== '' ? fraction : [String(whole), fraction].filter(Boolean).join(' ');
  return negative ? `-${text}` : text;
}

/** Decimal string of a number of sixteenths, exact: 43 is `2.6875`. */
export function inchDecimal(sixteenths: number): string {
  if (!Number.isSafeInteger(sixteenths)) throw new RangeError(`sixteenths: expected a whole number, got ${sixteenths}`);
  const size = Math.abs(sixteenths);
  const rest = String((size % 16) * 625)
    .padStart(4, '0')
    .replace(/0+$/, '');
  return `${sixteenths < 0 ? '-' : ''}${Math.floor(size / 16)}${rest === '' ? '' : `.${rest}`}`;
}

/** One sixteenth of 25.4 mm. */
const SIXTEENTH_NM = 1_587_500;

/** Whole sixteenths of an inch in a length, or null when it lies between two graduations. */
export function sixteenthsOf(lengthInNm: number): number | null {
  return lengthInNm % SIXTEENTH_NM === 0 ? lengthInNm / SIXTEENTH_NM : null;
}

/** Phones turn `"` into a curly quote, or have two strokes typed for it. */
const INCH_MARK = /\s*(?:["″”]|''|’’|′′|in\.?)$/;
/** A fraction that phones offer as one character, from a quarter to seven eighths. */
const ONE_CHARACTER = /[¼-¾⅐-⅞]/;
/** Between inches and fraction stands a space or a hyphen: without one, `11/16` could be one and one sixteenth. */
const MIXED = /^(?:(\d{1,4})(?:\s*-\s*|\s+))?(\d{1,2})\/(2|4|8|16)$/;

/**
 * Reads inches as typed on a keyboard: `2 11/16`, `2-11/16`, `11/16`, `2½`, `2.5`, `2"`, `2 in`.
 * Returns a decimal string of inches, or null when the text is no such length. Unit marks other than inches are not guessed at.
 */
export function parseInches(text: string): string | null {
  const bare = text.trim().replace(INCH_MARK, '');
  // The compatibility form of ½ is 1, U+2044 and 2.
  const spelled = bare.replace(ONE_CHARACTER, (fraction) => ` ${fraction.normalize('NFKC')}`).replace('\u2044', '/');
  const match = MIXED.exec(spelled.trim());
  if (match === null) return typedDecimal(bare);
  const over = Number(match[2]);
  const under = Number(match[3]);
  return over < under ? inchDecimal(Number(match[1] ?? 0) * 16 + (over * 16) / under) : null;
}
