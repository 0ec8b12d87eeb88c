import * as z from 'zod/mini';
import { Id } from '../entry.ts';
import { Words } from './fields.ts';
import { Quantity, SCALES } from './reading.ts';

/**
 * A complaint months later and what came of it. Cause, warranty, time and cost are said once they are known; `stand` is left out by
 * older versions.
 */
const surfaces = z.array(Id).check(z.maxLength(100));

/** Where water shows first. */
export const SHOWS = ['room-below', 'wall-base', 'outside-curb', 'elsewhere'] as const;
export const CAUSES = ['supply', 'drain-line', 'tile-or-sealant', 'membrane', 'condensation', 'other', 'not-found'] as const;

/** Whole minor units of an ISO 4217 currency. */
const Money = z.looseObject({ minor: z.string().check(z.regex(/^\d{1,12}$/)), currency: z.string().check(z.regex(/^[A-Z]{3}$/)) });

export const Callback = z.looseObject({
  surfaces,
  complaint: Words.check(z.minLength(1)),
  shows: z.optional(z.enum(SHOWS)),
  looked: Words,
  found: Words,
  cause: z.optional(z.enum(CAUSES)),
  warranty: z.optional(z.enum(['yes', 'no', 'undecided'])),
  took: z.optional(Quantity),
  cost: z.optional(Money),
  answer: Words,
  stand: z.optional(z.enum(['open', 'closed'])),
});

/** In the order of the series: what needs no opening and lies outside the membrane first, then the membrane from the bottom up. */
export const ISOLATION_TESTS = ['unused', 'supply', 'drain-line', 'pan', 'walls', 'valve', 'door', 'curb-ends'] as const;
export type IsolationTest = (typeof ISOLATION_TESTS)[number];

export const BELOW = ['dry', 'stained', 'wet', 'no-access', 'none-below'] as const;
/** How it looks where the water shows, and what a meter reads there. */
const seen = { below: z.enum(BELOW), moisture: z.optional(Quantity), scale: z.optional(z.enum(SCALES)) };

/** A test of the series begun, and how it looked below before. `height`: how high up the walls are sprayed. */
export const Isolation = z.looseObject({
  callback: Id,
  test: z.enum(ISOLATION_TESTS),
  height: z.optional(Quantity),
  ...seen,
  words: Words,
});
/** How it looks below while it runs, or after. */
export const IsolationLook = z.looseObject({ isolation: Id, ...seen, words: Words });

/** Before anything is opened: whether the other parties were told, and the label of the sample that is bagged, once one is. */
export const Opening = z.looseObject({
  callback: Id,
  surfaces,
  told: z.enum(['told', 'nobody-else', 'not-told']),
  who: Words,
  sample: Words,
});
