import * as z from 'zod/mini';
import { Hash, Id } from '../entry.ts';
import { Decimal, Instant, Words } from './fields.ts';
import { Quantity } from './reading.ts';
import { Picture, Step } from './setup.ts';

const Surfaces = z.array(Id).check(z.maxLength(100));

export const RunStart = z.looseObject({
  step: Step,
  surfaces: Surfaces,
  /** Which coat, from 1. */
  coat: z.optional(z.int().check(z.minimum(1), z.maximum(20))),
  /** Lots in hand; the one-touch "same as before" copies them. */
  materials: z.optional(z.array(Id).check(z.maxLength(20))),
});
/** `about` marks an end that was inferred later from the last shot, not touched when it happened. */
export const RunStop = z.looseObject({ end: z.enum(['touched', 'about']) });

export const DISTANCES = ['wide', 'mid', 'close'] as const;
/** Where a photo belongs. `shows` names the owed items it answers beyond the overview of its step. */
const Place = {
  surfaces: z.optional(Surfaces),
  shows: z.optional(z.array(Id).check(z.maxLength(40))),
  distance: z.optional(z.enum(DISTANCES)),
};
export const Shot = z.looseObject({
  picture: Picture,
  from: z.enum(['viewfinder', 'file', 'watch']),
  surface: z.nullable(Id),
  ...Place,
  /** The shot of the same place from one step nearer or farther: its entry's id. */
  pair: z.optional(Id),
  /** The material whose label or receipt it shows. */
  material: z.optional(Id),
  /** What the camera file says of itself, a claim only: local time without zone, as EXIF gives it. */
  cameraSays: z.optional(
    z.looseObject({
      taken: z.optional(z.string().check(z.maxLength(40))),
      orientation: z.optional(z.int().check(z.minimum(1), z.maximum(8))),
    }),
  ),
});
export type Shot = z.infer<typeof Shot>;

/** Sorts shots after they were taken: many at once. The latest tag of a shot stands. */
export const Tag = z.looseObject({
  shots: z.array(Id).check(z.minLength(1), z.maxLength(500)),
  run: z.nullable(Id),
  step: z.nullable(Step),
  ...Place,
  surfaces: Surfaces,
});

/** One batch. `same`: the batch before it, of which this is another pail. */
export const Mix = z.looseObject({
  material: z.nullable(Id),
  powder: z.optional(Quantity),
  water: z.optional(Quantity),
  same: z.optional(Id),
  surfaces: Surfaces,
});

/** Air and surface as found on arrival, and what the night was by a minimum and maximum thermometer. `from` marks values carried over. */
export const Conditions = z.looseObject({
  air: z.optional(Quantity),
  surface: z.optional(Quantity),
  humidity: z.optional(Quantity),
  lowest: z.optional(Quantity),
  highest: z.optional(Quantity),
  from: z.optional(Id),
});
export type Conditions = z.infer<typeof Conditions>;

/** The measures that run on a clock. */
export const WAITS = ['slake', 'pot-life', 'open-time', 'walk-on', 'recoat', 'cover-within', 'before-flooding'] as const;
/**
 * A wait the limit's source states, begun: `readyUtc` when it is over, `latestUtc` when it is too late. Stored when it begins, since
 * the deadline that counted is the one of the sheet in force then.
 */
export const Wait = z.looseObject({
  what: z.enum(WAITS),
  surfaces: Surfaces,
  fromUtc: Instant,
  readyUtc: z.nullable(Instant),
  latestUtc: z.nullable(Instant),
  /** The limit it comes from, by its id. */
  limit: Id,
});
export type Wait = z.infer<typeof Wait>;

/** Going on before a stated wait was over, and how firm it was found. */
export const Early = z.looseObject({
  wait: Id,
  reason: z.enum(['firm', 'next-trade', 'weather', 'told-to', 'other']),
  check: z.enum(['mortar-firm', 'no-tack', 'none']),
  held: z.boolean(),
  words: Words,
});

/** Owed and left out on purpose: a step, or single items of it. `covered` when the layer went on over it. */
export const NotDone = z.looseObject({
  step: Step,
  surfaces: Surfaces,
  /** Keys of owed items; empty for the whole step. */
  items: z.array(z.string().check(z.maxLength(200))).check(z.maxLength(200)),
  covered: z.boolean(),
  reason: z.enum(['not-needed', 'no-time', 'no-access', 'by-others', 'phone', 'other']),
  words: Words,
});

export const Note = z.looseObject({ words: Words.check(z.minLength(1)), surfaces: Surfaces });
/** A voice note: the sound is a WAV file of 16 kHz, 16 bit, one channel. `cut`: the recording was interrupted and recovered. */
export const Voice = z.looseObject({
  sound: z.looseObject({ sha256: Hash, bytes: z.int().check(z.minimum(44)), type: z.literal('audio/wav') }),
  ms: z.int().check(z.minimum(0)),
  cut: z.boolean(),
  surfaces: Surfaces,
});

/** Made by the book itself when wall clock and monotonic clock part by more than two minutes, or the wall clock steps back. */
export const ClockJump = z.looseObject({ wallDeltaMs: z.int(), monoDeltaMs: z.nullable(z.int()) });

/** One entry said anew: the data that stands in place of the target's. `refs` name the target and each amendment it decides between. */
export const Amendment = z.looseObject({ of: Id, data: z.record(z.string(), z.unknown()), why: Words });
export const Withdrawal = z.looseObject({ of: Id, why: Words });

/** Limits of a flood test as they stood when the attempt began. */
export const FloodFill = z.looseObject({
  profile: z.enum(['ipc-312.9', 'upc-408.7.5', 'contract']),
  holdMin: Decimal,
  /** Depth wanted, measured at the threshold; null where the profile says "to the threshold". */
  depth: z.nullable(Quantity),
  under: Surfaces,
  above: Words,
  plug: z.enum(['below-flange', 'below-weep-holes', 'in-drain', 'unsure']),
  line: z.boolean(),
  ceiling: z.enum(['dry', 'stained', 'wet', 'no-access', 'none-below']),
  dam: z.boolean(),
  soaked: z.boolean(),
  sign: z.boolean(),
  pan: z.boolean(),
  /** The smallest graduation of the ruler at the line, and the net drop over the hold that matters: what levels can show turns on both. */
  ruler: z.optional(Quantity),
  maxLoss: z.optional(Quantity),
});
export const FloodLook = z.looseObject({
  attempt: Id,
  seen: z.enum(['no-leak', 'leak', 'damp']),
  ceiling: z.enum(['dry', 'stained', 'wet', 'no-access', 'none-below']),
  words: Words,
});
/** `void`: the attempt says nothing, as when the plug slipped. */
export const FloodEnd = z.looseObject({ attempt: Id, result: z.enum(['passed', 'failed', 'void']), words: Words });

/** Building a record: what was printed, from which log, judged by which rules. */
export const BuiltRecord = z.looseObject({
  rules: z.string().check(z.maxLength(60)),
  /** `en`, `es`, or `both`. */
  lang: z.string().check(z.maxLength(20)),
  /** The size of its sheets: with it, the log and the pictures the PDF can be built again, byte for byte. */
  paperSize: z.optional(z.string().check(z.maxLength(20))),
  /** Heads of the chains the record was built from. */
  heads: z.array(z.looseObject({ device: Id, seq: z.int().check(z.minimum(0)), hash: Hash })),
  /** The document tree: codes, decimal strings and the people's own words. */
  document: z.record(z.string(), z.unknown()),
  pictures: z.array(Hash),
  /** How each of them was made: the original it was made `of`, its size, and what encoded it. A later record prints them again. */
  derived: z.optional(
    z.array(
      z.looseObject({
        of: Hash,
        sha256: Hash,
        bytes: z.int().check(z.minimum(1)),
        width: z.int().check(z.minimum(1)),
        height: z.int().check(z.minimum(1)),
        encoder: z.string().check(z.maxLength(60)),
      }),
    ),
  ),
  pdf: z.looseObject({ sha256: Hash, bytes: z.int().check(z.minimum(1)) }),
});
export type BuiltRecordData = z.infer<typeof BuiltRecord>;
