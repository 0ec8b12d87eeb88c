import * as z from 'zod/mini';
import { lengthNm } from '../../measure/quantity.ts';
import { Id } from '../entry.ts';

/** What can be measured in this version. `overlap` is read at the dry fit while both edges show; `band-lap` on a laid band. */
export const MEASURES = ['overlap', 'band-lap', 'wet-film', 'flood-depth'] as const;
export const Measure = z.enum(MEASURES);
export type Measure = z.infer<typeof Measure>;

/** Up to 8 digits before the point: in each unit below a length that whole nanometres hold exactly. */
export const Decimal = z.string().check(z.regex(/^-?\d{1,8}(?:\.\d{1,9})?$/));
export const Unit = z.enum(['in', 'mm', 'mil', 'um']);
export type Unit = z.infer<typeof Unit>;

/** One value as said: the text, a decimal string, its unit, the instrument's step. SI is computed when it is read. */
export const Quantity = z.looseObject({
  text: z.string().check(z.maxLength(200)),
  value: Decimal,
  unit: Unit,
  resolution: z.optional(Decimal),
  // A span that is none must not pass for a value.
  to: z.optional(z.never()),
});
export type Quantity = z.infer<typeof Quantity>;

/** A comb reading: wet at `value`, dry at `to`, the longer tooth. */
export const Span = z
  .looseObject({ text: z.string().check(z.maxLength(200)), value: Decimal, to: Decimal, unit: Unit })
  .check(z.refine(({ value, to, unit }) => nm(value, unit) <= nm(to, unit)));
export type Span = z.infer<typeof Span>;

export const Reading = z.looseObject({
  what: Measure,
  surface: z.nullable(Id),
  said: z.union([Span, Quantity]),
  /** How it was taken. */
  how: z.enum(['tape', 'comb', 'typed']),
});
export type Reading = z.infer<typeof Reading>;

/** Not a number for what its own check refuses, so that this one refuses it too. */
function nm(value: string, unit: Unit): number {
  const length = lengthNm(value, unit);
  return length.ok ? length.value : NaN;
}
