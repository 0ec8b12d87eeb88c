import * as z from 'zod/mini';
import { Id } from './entry.ts';
import { Measure, SCALES, Unit } from './kinds/reading.ts';
import { MATERIALS, PLACES, ProofLevel, Room, Step, SUBSTRATES, Surface, SYSTEMS, SystemCode } from './kinds/setup.ts';

/**
 * The forms of the set-up as they are typed, kept on disk until they are saved. Nothing in them is checked beyond its shape: text
 * that is no length yet is text. An empty string stands for "not said".
 */
const SourceTyped = { sourceKind: z.enum(['data-sheet', 'code', 'standard', 'crew']), sourceText: z.string() };

/** A limit in its usual unit. */
export const LimitRow = z.object({ what: Measure, min: z.string(), max: z.string(), ...SourceTyped });
export type LimitRow = z.infer<typeof LimitRow>;

/** The form that starts a job. */
export const NewJob = z.object({
  name: z.string(),
  address: z.string(),
  person: z.string(),
  permit: z.string(),
  units: z.enum(['in', 'mm']),
  /** Name of the first room; empty where the job has no other. */
  room: z.string(),
  /** The system of the room, and of each surface that has none of its own. */
  system: z.enum(SYSTEMS),
  surfaces: z.array(z.object({ surface: Id, name: z.string(), place: z.enum(PLACES), system: z.nullable(z.enum(SYSTEMS)) })),
  limits: z.array(LimitRow),
  proof: ProofLevel,
});
export type NewJob = z.infer<typeof NewJob>;

/** What a job is called, where it is and how its values are said. */
export const JobForm = z.object({ name: z.string(), address: z.string(), permit: z.string(), units: z.enum(['in', 'mm']) });
export type JobForm = z.infer<typeof JobForm>;

/** A room, new or changed. `copyOf`: the room whose surfaces it is to have. */
export const RoomForm = z.object({
  room: Id,
  copyOf: z.nullable(Id),
  name: z.string(),
  steam: z.boolean(),
  drain: z.union([z.literal(''), z.nonoptional(Room.shape.drain)]),
});
export type RoomForm = z.infer<typeof RoomForm>;

const Known = z.nonoptional(Surface.shape.outside);
export const SurfaceForm = z.object({
  surface: Id,
  room: z.nullable(Id),
  name: z.string(),
  place: z.enum(PLACES),
  system: SystemCode,
  width: z.string(),
  height: z.string(),
  substrate: z.union([z.literal(''), z.enum(SUBSTRATES)]),
  outside: Known,
  retarder: Known,
});
export type SurfaceForm = z.infer<typeof SurfaceForm>;

export const MaterialForm = z.object({
  material: Id,
  what: z.enum(MATERIALS),
  name: z.string(),
  lot: z.string(),
  useBy: z.string(),
  opened: z.string(),
  left: z.string(),
});
export type MaterialForm = z.infer<typeof MaterialForm>;

/** A data sheet but for its pages, which are picked last. */
export const SheetForm = z.object({ sheet: Id, title: z.string(), edition: z.string(), materials: z.array(Id) });
export type SheetForm = z.infer<typeof SheetForm>;

/** A limit in any unit of its measure. */
export const LimitForm = z.object({ limit: Id, ...LimitRow.shape, unit: Unit, scale: z.union([z.literal(''), z.enum(SCALES)]) });
export type LimitForm = z.infer<typeof LimitForm>;

/** Limits chosen from published rules: which rows, and the edition in force where the job is. */
export const StarterForm = z.object({ family: z.string(), water: z.string(), edition: z.string(), chosen: z.array(z.string()) });
export type StarterForm = z.infer<typeof StarterForm>;

export const OwnSystemForm = z.object({ system: Id, name: z.string(), steps: z.array(Step) });
export type OwnSystemForm = z.infer<typeof OwnSystemForm>;

export const OwnRuleForm = z.object({
  rule: Id,
  step: Step,
  want: z.union([z.literal('shot'), Measure]),
  places: z.array(z.enum(PLACES)),
  name: z.string(),
  reason: z.string(),
});
export type OwnRuleForm = z.infer<typeof OwnRuleForm>;

/** Where the pair of two materials is written: one line for the whole table, as it is mostly the same sheet. */
export const PairsForm = z.object({ where: z.string() });
export type PairsForm = z.infer<typeof PairsForm>;

export const ProofForm = z.object({ proof: ProofLevel });
export type ProofForm = z.infer<typeof ProofForm>;
