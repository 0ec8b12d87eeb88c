import { SOURCE } from './codes.ts';
import * as m from './compiled/messages.js';
import { quantityText, type SaidUnit } from './number.ts';

type Locale = 'en' | 'es';

interface LimitWords {
  readonly min: string | null;
  readonly max: string | null;
  readonly unit: SaidUnit;
  readonly source: { readonly kind: keyof typeof SOURCE; readonly text: string };
}

/** `At least 2 3/8 in`, `At most 40 mil`, `4 h to 24 h`. */
export function limitText({ min, max, unit }: LimitWords, locale: Locale): string {
  const said = (value: string) => quantityText({ value, unit }, locale);
  if (min !== null && max !== null) return m.limit_between({ min: said(min), max: said(max) }, { locale });
  if (min !== null) return m.limit_at_least({ value: said(min) }, { locale });
  return max === null ? m.verdict_no_limit({}, { locale }) : m.limit_at_most({ value: said(max) }, { locale });
}

/** Where the limit is written, in the person's own words; what kind of place it is stands before them unless they say so. */
export function limitSourceText({ source }: LimitWords, locale?: Locale): string {
  const kind = SOURCE[source.kind]({}, locale === undefined ? {} : { locale });
  return source.text.toLowerCase().startsWith(kind.toLowerCase()) ? source.text : `${kind}: ${source.text}`;
}
