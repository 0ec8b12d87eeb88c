import * as z from 'zod/mini';
import { Decimal } from './kinds/fields.ts';

/** What `layerbook plan` answers (docs/plan.md), with each number as its decimal string: how a plan is kept, and read to be drawn. */
const Place = z.tuple([Decimal, Decimal]);

const Step = z.looseObject({
  piece: z.string(),
  stretch: z.looseObject({ i: Decimal, of: Decimal, from: Decimal, to: Decimal }),
  stands: z.array(Place),
  exit: Decimal,
});

const Remedy = z.looseObject({ kind: z.string() });
export type Remedy = z.infer<typeof Remedy>;

const STRIPS = {
  direction: z.enum(['0', '90']),
  positions: z.array(Decimal),
  pieces: z.array(z.looseObject({ id: z.string(), strip: Decimal, from: Decimal, to: Decimal, cutLength: Decimal, notched: z.boolean() })),
  totalCut: Decimal,
  seamLength: Decimal,
  smallestOverlap: z.nullable(Decimal),
};

const ROLLS = {
  unit: z.enum(['in', 'mm']),
  rolls: z.array(z.looseObject({ length: Decimal, new: z.boolean(), pieces: z.array(z.string()) })),
  proven: z.looseObject({ plan: z.boolean(), packing: z.boolean() }),
};

/** The strips of one surface, and the rolls they are cut from, perhaps with others. */
const PlannedStrips = z.looseObject({ ...STRIPS, ...ROLLS });
export type PlannedStrips = z.infer<typeof PlannedStrips>;

const PlannedSheets = z.looseObject({
  ...STRIPS,
  ...ROLLS,
  upturnMissing: z.array(Decimal),
  /** Steps, or the trap and its remedies. */
  laying: z.looseObject({
    steps: z.optional(z.array(Step)),
    trap: z.optional(z.string()),
    pieces: z.optional(z.array(z.string())),
    remedies: z.optional(z.array(Remedy)),
  }),
  proven: z.looseObject({ plan: z.boolean(), packing: z.boolean(), laying: z.boolean() }),
});
export type PlannedSheets = z.infer<typeof PlannedSheets>;

const NoSheets = z.looseObject({ impossible: z.string(), wall: z.optional(Decimal), remedies: z.array(Remedy) });
export type NoSheets = z.infer<typeof NoSheets>;

/** An answer of the planner: sheets, or why there are none. */
export type ReadPlan = { readonly sheets: PlannedSheets; readonly none: null } | { readonly sheets: null; readonly none: NoSheets };

/** Null for an answer that another version wrote. */
export function readPlan(result: unknown): ReadPlan | null {
  const planned = PlannedSheets.safeParse(result);
  if (planned.success) return { sheets: planned.data, none: null };
  const none = NoSheets.safeParse(result);
  return none.success ? { sheets: null, none: none.data } : null;
}

/** The strips of one wall, as its entry keeps them. */
export function readStrips(result: unknown): PlannedStrips | null {
  const planned = PlannedStrips.safeParse(result);
  return planned.success ? planned.data : null;
}

const PlannedWalls = z.looseObject({ ...ROLLS, walls: z.array(z.looseObject({ ...STRIPS, wall: Decimal })) });
export type PlannedWalls = z.infer<typeof PlannedWalls>;

/** The walls of a room by the planner, or why there are none; null for an answer of another version. */
export function readWallsPlan(
  result: unknown,
): { readonly sheets: PlannedWalls; readonly none: null } | { readonly sheets: null; readonly none: NoSheets } | null {
  const planned = PlannedWalls.safeParse(result);
  if (planned.success) return { sheets: planned.data, none: null };
  const none = NoSheets.safeParse(result);
  return none.success ? { sheets: null, none: none.data } : null;
}

const DECIMAL = /^-?\d+(?:\.\d+)?$/;

/** Plain data with each number as its decimal string: no fraction is ever hashed. Numbers come from the planner, which rounds them to a few places. */
export function frozen(value: unknown): unknown {
  if (typeof value === 'number') return String(value + 0);
  if (Array.isArray(value)) return value.map(frozen);
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([key, one]) => [key, frozen(one)]));
}

/** The same data with its numbers as numbers again, as `layerbook plan` reads it. */
export function thawed(value: unknown): unknown {
  if (typeof value === 'string') return DECIMAL.test(value) ? Number(value) : value;
  if (Array.isArray(value)) return value.map(thawed);
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([key, one]) => [key, thawed(one)]));
}
