import * as z from 'zod/mini';
import { Hash, Id, type Entry } from './entry.ts';
import { Decimal, Measure, Reading, Unit } from './kinds/reading.ts';

const Words = z.string().check(z.maxLength(2_000));
const Name = z.string().check(z.minLength(1), z.maxLength(200));

/** Steps of the job in this version, in the order of work. A crew may skip, repeat or reorder. */
export const STEPS = ['scrape', 'pre-cut', 'bond-sheets', 'band-seams', 'liquid-coat', 'flood-test'] as const;
export const Step = z.enum(STEPS);
export type Step = z.infer<typeof Step>;

/** Entry 0 of each chain: introduces the device and its key, or says why there is none. */
export const Device = z.looseObject({
  key: z.discriminatedUnion('alg', [
    z.looseObject({ alg: z.literal('ed25519'), public: z.string().check(z.regex(/^[0-9a-f]{64}$/)) }),
    z.looseObject({ alg: z.literal('none'), why: z.string().check(z.maxLength(60)) }),
  ]),
});

export const Person = z.looseObject({ person: Id, name: Name });
export const Job = z.looseObject({
  name: Name,
  address: Words,
  units: z.enum(['in', 'mm']),
  /** Language of the people's own words in this job, BCP 47. */
  lang: z.string().check(z.maxLength(20)),
  example: z.optional(z.boolean()),
});
export const PLACES = ['wall', 'floor', 'curb'] as const;
export const SYSTEMS = ['sheet', 'liquid', 'sheet-and-liquid'] as const;
export const Surface = z.looseObject({
  surface: Id,
  name: Name,
  place: z.enum(PLACES),
  system: z.enum(SYSTEMS),
});
export type Surface = z.infer<typeof Surface>;

/** A limit and where it is written. The crew's own data sheet is data in the book, never a constant of ours. */
export const Limit = z.looseObject({
  limit: Id,
  what: Measure,
  min: z.nullable(Decimal),
  max: z.nullable(Decimal),
  unit: Unit,
  source: z.looseObject({ kind: z.enum(['data-sheet', 'code', 'standard', 'crew']), text: Name }),
});
export type Limit = z.infer<typeof Limit>;

export const RunStart = z.looseObject({ step: Step, surfaces: z.array(Id).check(z.maxLength(100)) });
/** `about` marks an end that was inferred later from the last shot, not touched when it happened. */
export const RunStop = z.looseObject({ end: z.enum(['touched', 'about']) });

export const Picture = z.looseObject({ sha256: Hash, bytes: z.int().check(z.minimum(1)), type: z.string().check(z.maxLength(60)) });
export type Picture = z.infer<typeof Picture>;
export const Shot = z.looseObject({
  picture: Picture,
  from: z.enum(['viewfinder', 'file']),
  surface: z.nullable(Id),
  /** What the camera file says of itself, a claim only: local time without zone, as EXIF gives it. */
  cameraSays: z.optional(z.looseObject({ taken: z.optional(z.string().check(z.maxLength(40))), orientation: z.optional(z.int().check(z.minimum(1), z.maximum(8))) })),
});
export type Shot = z.infer<typeof Shot>;

/** Made by the book itself when wall clock and monotonic clock part by more than two minutes, or the wall clock steps back. */
export const ClockJump = z.looseObject({ wallDeltaMs: z.int(), monoDeltaMs: z.nullable(z.int()) });

/** Building a record: what was printed, from which log, judged by which rules. */
export const BuiltRecord = z.looseObject({
  rules: z.string().check(z.maxLength(60)),
  lang: z.string().check(z.maxLength(20)),
  /** Heads of the chains the record was built from. */
  heads: z.array(z.looseObject({ device: Id, seq: z.int().check(z.minimum(0)), hash: Hash })),
  /** The document tree: codes, decimal strings and the people's own words. */
  document: z.record(z.string(), z.unknown()),
  pictures: z.array(Hash),
  pdf: z.looseObject({ sha256: Hash, bytes: z.int().check(z.minimum(1)) }),
});

export type BuiltRecordData = z.infer<typeof BuiltRecord>;

const SCHEMAS = {
  device: Device,
  person: Person,
  job: Job,
  surface: Surface,
  limit: Limit,
  'run-start': RunStart,
  'run-stop': RunStop,
  shot: Shot,
  reading: Reading,
  'clock-jump': ClockJump,
  record: BuiltRecord,
} as const;

export type Kind = keyof typeof SCHEMAS;
export const KINDS = Object.keys(SCHEMAS) as readonly Kind[];

/** The typed view of an entry's data; `unknown` for a kind, or a shape, that a newer version wrote. */
export type Known = { [K in Kind]: { readonly kind: K; readonly data: z.infer<(typeof SCHEMAS)[K]> } }[Kind] | { readonly kind: 'unknown' };

export function known(entry: Entry): Known {
  const kind = entry.body.kind;
  if (!Object.hasOwn(SCHEMAS, kind)) return { kind: 'unknown' };
  const parsed = SCHEMAS[kind as Kind].safeParse(entry.body.data);
  return parsed.success ? ({ kind, data: parsed.data } as Known) : { kind: 'unknown' };
}

/** What a caller hands over to be sealed: its own fields only; ids, times, chain and signature are added by `seal`. */
export type Draft = {
  [K in Kind]: {
    readonly id?: string;
    readonly kind: K;
    readonly run?: string;
    readonly refs?: readonly string[];
    readonly data: z.infer<(typeof SCHEMAS)[K]>;
  };
}[Kind];
