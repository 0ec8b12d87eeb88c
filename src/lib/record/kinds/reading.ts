import * as z from 'zod/mini';
import { ALL_UNITS, baseOf, type AnyUnit } from '../../measure/dimension.ts';
import { Hash, Id } from '../entry.ts';
import { Decimal } from './fields.ts';
import { PhotoLength } from './photo.ts';

/**
 * What can be measured or limited. `overlap` is read at the dry fit while both edges show; `band-lap` on a laid band; `onto-band`
 * where liquid laps onto a band or sheet. `distance`: between two points that are seen, which proves no lap. Waits and the like are
 * limited only.
 */
export const MEASURES = [
  'overlap', 'band-lap', 'onto-band', 'wet-film', 'dry-film', 'coats', 'flood-depth', 'flood-level', 'upturn', 'slope', 'flatness', 'curb-height',
  'air-temperature', 'surface-temperature', 'humidity', 'moisture', 'volume-used', 'distance',
  'slake', 'pot-life', 'open-time', 'walk-on', 'recoat', 'cover-within', 'before-flooding', 'flood-hold',
] as const; // prettier-ignore
export const Measure = z.enum(MEASURES);
export type Measure = z.infer<typeof Measure>;

export const Unit = z.enum(ALL_UNITS as readonly [AnyUnit, ...AnyUnit[]]);
export type Unit = z.infer<typeof Unit>;

/** One value as said: the text, a decimal string, its unit, the instrument's step. SI is computed when it is read. */
export const Quantity = z
  .looseObject({
    text: z.string().check(z.maxLength(200)),
    value: Decimal,
    unit: Unit,
    resolution: z.optional(Decimal),
    // A span that is none must not pass for a value.
    to: z.optional(z.never()),
  })
  .check(z.refine(({ value, unit }) => isMeasurable(value, unit)));
export type Quantity = z.infer<typeof Quantity>;

/** A comb reading: wet at `value`, dry at `to`, the longer tooth. */
export const Span = z
  .looseObject({ text: z.string().check(z.maxLength(200)), value: Decimal, to: Decimal, unit: Unit })
  .check(z.refine(({ value, to, unit }) => base(value, unit) <= base(to, unit)));
export type Span = z.infer<typeof Span>;

/** Moisture meters read in scales that cannot be turned into each other: wood-equivalent, the meter's own, calcium carbide, air in a hole. */
export const SCALES = ['wood', 'relative', 'carbide', 'rh-in-hole'] as const;

export const Reading = z.looseObject({
  what: Measure,
  surface: z.nullable(Id),
  said: z.union([Span, Quantity]),
  /** How it was taken; `photo`: from a photo, typed from the tape in its frame, or computed by us where `photo` below says so. */
  how: z.enum(['tape', 'comb', 'typed', 'photo', 'level', 'meter', 'thermometer', 'caliper']),
  /** Where on the surface, in the person's own words. */
  spot: z.optional(z.string().check(z.maxLength(200))),
  /** Which coat was wet, from 1. */
  coat: z.optional(z.int().check(z.minimum(1), z.maximum(20))),
  scale: z.optional(z.enum(SCALES)),
  /** Id of the shot entry it was typed from, or that shows it. */
  shot: z.optional(Id),
  /** Flood test: id of the attempt's entry, and in which water. */
  attempt: z.optional(Id),
  water: z.optional(z.enum(['test', 'control'])),
  /** Spoken: the words a recogniser heard, and what else it may have been, as shown beside the value. */
  heard: z.optional(z.string().check(z.maxLength(200))),
  otherHeard: z.optional(z.string().check(z.maxLength(200))),
  /** Which recogniser heard it, with its version and model. */
  engine: z.optional(z.string().check(z.maxLength(200))),
  /** How the person of this entry confirmed it: touched, touched the other reading, or said that it is right. */
  confirmedHow: z.optional(z.enum(['touch', 'other', 'voice'])),
  /** Id of the voice note in which it was said, and the SHA-256 of its sound. */
  clip: z.optional(Id),
  clipHash: z.optional(Hash),
  /** How a value computed in a photo came about, and its interval in the unit of `said`. */
  photo: z.optional(PhotoLength),
  /** By what a lap in a photo is seen: an opaque sheet hides its lower edge once it is laid. */
  lap: z.optional(z.enum(['both-edges', 'lap-line'])),
  /** The person who looked at the photo value and took it over. Without, it proves nothing. */
  confirmed: z.optional(Id),
});
export type Reading = z.infer<typeof Reading>;

/** Whether a value can be compared: whole base units hold it. */
export function isMeasurable(value: string, unit: AnyUnit): boolean {
  return !Number.isNaN(base(value, unit));
}

/** Not a number for what its own check refuses, so that this one refuses it too. */
function base(value: string, unit: AnyUnit): number {
  const size = baseOf(value, unit);
  return size.ok ? size.value : NaN;
}
