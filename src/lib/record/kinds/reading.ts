import * as z from 'zod/mini';
import { Id } from '../entry.ts';

/** What can be measured in this version. `overlap` is read at the dry fit while both edges show; `band-lap` on a laid band. */
export const MEASURES = ['overlap', 'band-lap', 'wet-film', 'flood-depth'] as const;
export const Measure = z.enum(MEASURES);
export type Measure = z.infer<typeof Measure>;

export const Decimal = z.string().check(z.regex(/^-?\d{1,12}(?:\.\d{1,9})?$/));
export const Unit = z.enum(['in', 'mm', 'mil', 'um']);
export type Unit = z.infer<typeof Unit>;

/** One value as said: the text, a decimal string, its unit, the instrument's step. SI is computed when it is read. */
export const Quantity = z.looseObject({
  text: z.string().check(z.maxLength(200)),
  value: Decimal,
  unit: Unit,
  resolution: z.optional(Decimal),
});
export type Quantity = z.infer<typeof Quantity>;

/** A comb reading: wet at `value`, dry at `to`. */
export const Span = z.looseObject({ text: z.string().check(z.maxLength(200)), value: Decimal, to: Decimal, unit: Unit });
export type Span = z.infer<typeof Span>;

export const Reading = z.looseObject({
  what: Measure,
  surface: z.nullable(Id),
  said: z.union([Span, Quantity]),
  /** How it was taken. */
  how: z.enum(['tape', 'comb', 'typed']),
});
export type Reading = z.infer<typeof Reading>;
