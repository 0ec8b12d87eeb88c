import * as z from 'zod/mini';

/** Up to 8 digits before the point: of a length, in each unit, whole nanometres that a number holds exactly. */
export const Decimal = z.string().check(z.regex(/^-?\d{1,8}(?:\.\d{1,9})?$/));

/** Free text of a person, in their own language. */
export const Words = z.string().check(z.maxLength(2_000));
/** Text that names something: never empty, so that it can be pointed at. */
export const Name = z.string().check(z.minLength(1), z.maxLength(200));
/** A calendar day without a clock, as a label prints it: RFC 3339 full-date. */
export const Day = z.string().check(
  z.regex(/^\d{4}-\d\d-\d\d$/),
  z.refine((day) => {
    const at = new Date(`${day}T00:00:00Z`);
    // A 30 February is read as a day of March.
    return !Number.isNaN(at.getTime()) && at.toISOString().startsWith(day);
  }),
);
/** An instant, RFC 3339, UTC, milliseconds. */
export const Instant = z.string().check(
  z.regex(/^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d\.\d{3}Z$/),
  z.refine((utc) => !Number.isNaN(Date.parse(utc))),
);
