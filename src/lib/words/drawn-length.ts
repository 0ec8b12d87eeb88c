import { lengthText } from './length.ts';
import type { Locale } from './compiled/runtime.js';

/** Ten-thousandths to which a drawing's lengths are said: a sixteenth of an inch, or a millimetre. */
const STEP = { in: 625, mm: 10_000 } as const;

/** A length of a drawing in ten-thousandths of its unit, to the nearest graduation of a tape: `5 ft 3 1/2 in`, `57 mm`. */
export function drawnLength(parts: number, unit: 'in' | 'mm', locale: Locale): string {
  const rounded = Math.round(parts / STEP[unit]) * STEP[unit];
  return lengthText({ value: String(rounded / 10_000), unit }, locale);
}
