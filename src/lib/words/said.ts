import type { Locale } from './compiled/runtime.js';
import { quantityText, spanText, type SaidQuantity } from './number.ts';

/** A reading as kept, one value or a comb's two, on one line. */
export function saidText(said: SaidQuantity & { readonly to?: unknown }, locale: Locale): string {
  return typeof said.to === 'string' ? spanText({ ...said, to: said.to }, locale) : quantityText(said, locale);
}
