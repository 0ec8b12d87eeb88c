import * as z from 'zod/mini';
import { Id } from './entry.ts';
import { PLACES, SYSTEMS } from './kinds.ts';
import { Measure } from './kinds/reading.ts';
import type { Key, Shelf } from './shelf.ts';

/** The form that starts a job, as typed. Nothing in it is checked yet beyond its shape. */
export const NewJob = z.object({
  name: z.string(),
  address: z.string(),
  person: z.string(),
  units: z.enum(['in', 'mm']),
  surfaces: z.array(z.object({ surface: Id, name: z.string(), place: z.enum(PLACES), system: z.enum(SYSTEMS) })),
  limits: z.array(
    z.object({
      what: Measure,
      min: z.string(),
      max: z.string(),
      sourceKind: z.enum(['data-sheet', 'code', 'standard', 'crew']),
      sourceText: z.string(),
    }),
  ),
});
export type NewJob = z.infer<typeof NewJob>;

/** The camera is open for this run and surface: written before it opens, dropped when it is left in good order. */
export const Shooting = z.object({ job: Id, jobName: z.string(), run: z.nullable(Id), surface: z.nullable(Id), shots: z.int().check(z.minimum(0)) });
export type Shooting = z.infer<typeof Shooting>;

/** A reading on the pad: sixteenths of an inch, a typed metric value, or the last wet tooth of the comb. */
export const ReadingOnPad = z.object({
  surface: z.nullable(Id),
  sixteenths: z.nullable(z.int().check(z.minimum(0))),
  typed: z.string(),
  lastWet: z.nullable(z.int().check(z.minimum(0))),
});
export type ReadingOnPad = z.infer<typeof ReadingOnPad>;

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
