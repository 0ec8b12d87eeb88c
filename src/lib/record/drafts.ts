import * as z from 'zod/mini';
import { Id } from './entry.ts';
import { Miss } from './kinds/photo.ts';
import { MEASURES, SCALES, Unit } from './kinds/reading.ts';
import { DISTANCES } from './kinds/work.ts';
import type { Key, Shelf } from './shelf.ts';

/** The camera is open for this run and these surfaces, the first named alone too: written before it opens, dropped when it is left in good order. */
export const Shooting = z.object({
  job: Id,
  jobName: z.string(),
  run: z.nullable(Id),
  surface: z.nullable(Id),
  shots: z.int().check(z.minimum(0)),
  surfaces: z.optional(z.array(Id)),
  shows: z.optional(z.array(Id)),
  distance: z.optional(z.nullable(z.enum(DISTANCES))),
  pair: z.optional(z.nullable(Id)),
});
export type Shooting = z.infer<typeof Shooting>;

/** A phone stands and watches: written before its camera opens, dropped when it is stopped. */
export const Watching = z.object({ fromUtc: z.string() });
export type Watching = z.infer<typeof Watching>;

/** A reading on the pad: sixteenths of an inch, a typed value in its unit, or the last wet tooth of the comb; and what is said besides. */
export const ReadingOnPad = z.object({
  surface: z.nullable(Id),
  sixteenths: z.nullable(z.int().check(z.minimum(0))),
  typed: z.string(),
  lastWet: z.nullable(z.int().check(z.minimum(0))),
  /** The address it was opened for: opened for the same again, nothing changed by hand since is overruled. */
  asked: z.optional(z.string()),
  unit: z.optional(Unit),
  scale: z.optional(z.enum(SCALES)),
  coat: z.optional(z.int().check(z.minimum(1), z.maximum(20))),
  /** As typed, at any length. */
  spot: z.optional(z.string()),
  /** The photo beside the pad, and whether the value is typed from it. */
  shot: z.optional(Id),
  fromPhoto: z.optional(z.boolean()),
  attempt: z.optional(Id),
  water: z.optional(z.enum(['test', 'control'])),
});
export type ReadingOnPad = z.infer<typeof ReadingOnPad>;

/** A tap in a photo, in its pixels; `fine` once it was moved under the loupe. */
const Tap = z.object({ at: z.tuple([z.number(), z.number()]), fine: z.boolean() });
/** Corners of a rectangle in order around, and its first two sides as typed. */
const CornerTaps = z.object({ taps: z.array(z.nullable(Tap)).check(z.length(4)), first: z.string(), second: z.string() });
export type CornerTaps = z.infer<typeof CornerTaps>;

/** A length that is being measured in a photo: everything tapped, typed and chosen. */
export const LengthTaps = z.object({
  corners: CornerTaps,
  ends: z.tuple([z.nullable(Tap), z.nullable(Tap)]),
  by: z.enum(['card', 'rectangle']),
  lap: z.nullable(z.enum(['both-edges', 'lap-line'])),
  what: z.enum(MEASURES),
});
export type LengthTaps = z.infer<typeof LengthTaps>;

/** An area that is being measured in a photo. `edits`: misses the person struck out or added. */
export const AreaTaps = z.object({
  corners: CornerTaps,
  taught: z.array(z.object({ kind: z.enum(['film', 'bare', 'mortar', 'sheet']), at: z.tuple([z.number(), z.number()]) })),
  before: z.nullable(Id),
  edits: z.array(Miss),
});
export type AreaTaps = z.infer<typeof AreaTaps>;

/** How a draft is read back; what no longer fits is started anew. */
export type Shape<T> = z.ZodMiniType<T>;

/**
 * Fields typed and not yet confirmed, kept on disk so that a page killed at any moment comes back as it was.
 * A draft is nobody's evidence: it is overwritten and dropped, never synced and never in an archive.
 */
export class Drafts {
  readonly #shelf: Shelf;

  constructor(shelf: Shelf) {
    this.#shelf = shelf;
  }

  async get<T>(key: Key, shape: Shape<T>): Promise<T | null> {
    const stored = shape.safeParse(await this.#shelf.read(['drafts'], (tx) => tx.get('drafts', key)));
    return stored.success ? stored.data : null;
  }

  put(key: Key, value: unknown): Promise<void> {
    return this.#shelf.write(['drafts'], (tx) => tx.put('drafts', key, value));
  }

  drop(key: Key): Promise<void> {
    return this.#shelf.write(['drafts'], (tx) => tx.delete('drafts', key));
  }
}
