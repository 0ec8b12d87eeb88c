import * as z from 'zod/mini';
import { Id } from '../entry.ts';
import { Day, Name, Words } from './fields.ts';
import { Picture } from './setup.ts';

/**
 * What people state about the work, each with its own fields: surveys, deviations, repairs, work of others, inspections,
 * hand-overs. Each field is one the form asks for (`job/forms.ts`); nothing here is computed.
 */
const surfaces = z.array(Id).check(z.maxLength(100));
const Signature = z.optional(Picture);

export const Survey = z.looseObject({
  surfaces,
  result: z.enum(['accepted', 'with-reservation', 'refused']),
  /** What a drop of water does on the bare substrate. */
  drop: z.enum(['soaks-in', 'slowly', 'stays', 'not-tried']),
  found: Words,
  /** Who was told of a reservation or a refusal. */
  told: Words,
});

/** Something done otherwise than the sheet, code or plan says, owned up to on the day. `against` is the id of a limit, wait or pair. */
export const Deviation = z.looseObject({
  surfaces,
  what: Words.check(z.minLength(1)),
  why: Words,
  against: z.nullable(Id),
  accepted: Words,
});
/** `of`: ids of the readings, shots, deviations or attempts that it mends. */
export const Repair = z.looseObject({ surfaces, what: Words.check(z.minLength(1)), of: z.array(Id).check(z.maxLength(50)) });
export const ByOthers = z.looseObject({ surfaces, who: Name, what: Words });
export const Protect = z.looseObject({ surfaces, how: Words.check(z.minLength(1)) });
export const TileCheck = z.looseObject({ surfaces, whole: z.boolean(), dry: z.boolean(), undamaged: z.boolean(), words: Words });
export const LaterHole = z.looseObject({ surfaces, what: Words.check(z.minLength(1)), who: Words, sealed: Words });
/** The receiver takes the work over. */
export const HandOver = z.looseObject({
  surfaces,
  who: Name,
  role: z.enum(['tile-setter', 'builder', 'owner', 'other']),
  words: Words,
  signature: Signature,
});
/** The installer answers for the own work. */
export const Attestation = z.looseObject({ surfaces, words: Words, signature: Signature });
export const Inspection = z.looseObject({
  permit: Words,
  what: z.enum(['rough', 'liner', 'flood-test', 'final', 'other']),
  result: z.enum(['passed', 'corrections', 'failed', 'not-seen']),
  day: Day,
  who: Words,
  words: Words,
});
