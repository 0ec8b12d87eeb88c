import { inchText } from '../measure/inch.ts';
import { feetParts } from '../measure/length-text.ts';
import type { Locale } from './compiled/runtime.js';
import { quantityText, unitText, type SaidQuantity } from './number.ts';

/** A size as the trade says it: `5 ft 3 1/2 in` from a foot up on a graduation, else as it was said, `57 mm`, `1.6 m`, `11 1/2 in`. */
export function lengthText({ value, unit }: SaidQuantity, locale: Locale): string {
  const parts = unit === 'in' || unit === 'ft' ? feetParts({ value, unit }) : null;
  if (parts === null) return quantityText({ value, unit }, locale);
  return `${parts.feet} ${unitText('ft', locale)} ${inchText(parts.sixteenths)} ${unitText('in', locale)}`;
}
