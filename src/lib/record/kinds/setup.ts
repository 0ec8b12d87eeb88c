import * as z from 'zod/mini';
import { Hash, Id } from '../entry.ts';
import { Day, Decimal, Name, Words } from './fields.ts';
import { isMeasurable, Measure, Quantity, SCALES, Unit } from './reading.ts';

/** Steps of the job, in the usual order of work. A crew may skip, repeat or reorder. */
export const STEPS = [
  'behind', 'survey', 'scrape', 'lay-liner', 'set-tray', 'pre-cut', 'bond-sheets', 'band-seams', 'corners', 'liquid-coat',
  'flood-test', 'protect', 'check', 'repair',
] as const; // prettier-ignore
export const Step = z.enum(STEPS);
export type Step = z.infer<typeof Step>;

export const Picture = z.looseObject({ sha256: Hash, bytes: z.int().check(z.minimum(1)), type: z.string().check(z.maxLength(60)) });
export type Picture = z.infer<typeof Picture>;

/** Entry 0 of each chain: introduces the device and its key, or says why there is none. */
export const Device = z.looseObject({
  key: z.discriminatedUnion('alg', [
    z.looseObject({ alg: z.literal('ed25519'), public: z.string().check(z.regex(/^[0-9a-f]{64}$/)) }),
    z.looseObject({ alg: z.literal('none'), why: z.string().check(z.maxLength(60)) }),
  ]),
});

export const Person = z.looseObject({ person: Id, name: Name });
export const PROOF_LEVELS = ['core', 'warranty', 'full'] as const;
export const ProofLevel = z.enum(PROOF_LEVELS);
export type ProofLevel = z.infer<typeof ProofLevel>;
export const Job = z.looseObject({
  name: Name,
  address: Words,
  units: z.enum(['in', 'mm']),
  /** Language of the people's own words in this job, BCP 47. */
  lang: z.string().check(z.maxLength(20)),
  example: z.optional(z.boolean()),
  permit: z.optional(Words),
  proof: z.optional(ProofLevel),
});

/** A room of the job. `steam`: built to hold steam, where a vapour barrier on either side of a board can trap water. */
export const Room = z.looseObject({
  room: Id,
  name: Name,
  steam: z.optional(z.boolean()),
  drain: z.optional(z.enum(['bonded-flange', 'clamping', 'line', 'none'])),
});
export type Room = z.infer<typeof Room>;

export const PLACES = ['wall', 'floor', 'curb', 'bench', 'niche'] as const;
/** The named systems; `own:ID` is a system of the crew's. */
export const SYSTEMS = ['sheet', 'liquid', 'sheet-and-liquid', 'sheet-floor-liquid-walls', 'loose-liner', 'tray'] as const;
export const SystemCode = z.union([z.enum(SYSTEMS), z.string().check(z.regex(/^own:[a-z0-9][a-z0-9-]{0,59}$/))]);
export const SUBSTRATES = [
  'cement-board',
  'fibre-cement',
  'foam-board',
  'glass-mat',
  'gypsum-board',
  'plywood',
  'slab',
  'mortar-bed',
  'old-tile',
  'other',
] as const;
const KNOWN = z.enum(['yes', 'no', 'unknown']);
export const Surface = z.looseObject({
  surface: Id,
  name: Name,
  place: z.enum(PLACES),
  system: SystemCode,
  room: z.optional(Id),
  width: z.optional(Quantity),
  height: z.optional(Quantity),
  substrate: z.optional(z.enum(SUBSTRATES)),
  /** An outside wall, and a vapour retarder behind the board: together with a membrane in front they can trap water. */
  outside: z.optional(KNOWN),
  retarder: z.optional(KNOWN),
});
export type Surface = z.infer<typeof Surface>;

/** A limit and where it is written. The crew's own data sheet is data in the book, never a constant of ours. */
export const Limit = z
  .looseObject({
    limit: Id,
    what: Measure,
    min: z.nullable(Decimal),
    max: z.nullable(Decimal),
    unit: Unit,
    /** Moisture: the meter's scale it is stated in. */
    scale: z.optional(z.enum(SCALES)),
    source: z.looseObject({ kind: z.enum(['data-sheet', 'code', 'standard', 'crew']), text: Name }),
  })
  .check(z.refine(({ min, max, unit }) => [min, max].every((bound) => bound === null || isMeasurable(bound, unit))));
export type Limit = z.infer<typeof Limit>;

export const MATERIALS = [
  'membrane-sheet',
  'liquid',
  'band',
  'corner',
  'collar',
  'fabric',
  'primer',
  'mortar',
  'sealant',
  'drain',
  'board',
  'tray',
  'liner',
  'other',
] as const;
/** One lot of a material. `opened` and `left` count packages, for time and material. A use-by in the past is outside. */
export const Material = z.looseObject({
  material: Id,
  what: z.enum(MATERIALS),
  name: Name,
  lot: Words,
  useBy: z.nullable(Day),
  opened: z.optional(Decimal),
  left: z.optional(Decimal),
});
export type Material = z.infer<typeof Material>;

/** The maker's data sheet itself: its PDF, or photos of its pages, so that the edition in force can be read in ten years. */
export const DataSheet = z.looseObject({
  sheet: Id,
  title: Name,
  edition: Words,
  materials: z.array(Id).check(z.maxLength(50)),
  files: z.array(Picture).check(z.minLength(1), z.maxLength(50)),
});

/** Which material is named with which, and where that is written. `with` may be a substrate code in place of a material's id. */
export const Pair = z.looseObject({
  material: Id,
  with: Id,
  named: z.enum(['in-sheet', 'in-letter', 'not-named']),
  where: Words,
});

/** A system of the crew's own: its steps in the order in which each covers the one before it. */
export const OwnSystem = z.looseObject({ system: Id, name: Name, steps: z.array(Step).check(z.minLength(1), z.maxLength(20)) });

/** A thing the crew wants proved besides what the book asks for. */
export const OwnRule = z.looseObject({
  rule: Id,
  step: Step,
  want: z.union([z.literal('shot'), Measure]),
  places: z.array(z.enum(PLACES)).check(z.minLength(1)),
  name: Name,
  reason: Words,
});
export type OwnRule = z.infer<typeof OwnRule>;
