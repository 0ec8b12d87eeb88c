import * as z from 'zod/mini';
import { Id } from './entry.ts';

/** A form as typed: the draft of an entry, or of an amendment. Nothing in it is checked yet beyond its shape. */
export const TypedForm = z.object({
  values: z.record(z.string(), z.union([z.string(), z.array(z.string())])),
  /** The entry that values were carried over from. */
  from: z.nullable(Id),
  /** Why an entry is amended. */
  why: z.string(),
});
export type TypedForm = z.infer<typeof TypedForm>;
export const EMPTY_FORM: TypedForm = { values: {}, from: null, why: '' };
