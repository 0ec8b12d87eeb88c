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

const PlannedSheets = z.looseObject({
  unit: z.enum(['in', 'mm']),
  direction: z.enum(['0', '90']),
  positions: z.array(Decimal),
  pieces: z.array(z.looseObject({ id: z.string(), strip: Decimal, from: Decimal, to: Decimal, cutLength: Decimal, notched: z.boolean() })),
  totalCut: Decimal,
  seamLength: Decimal,
  smallestOverlap: z.nullable(Decimal),
  upturnMissing: z.array(Decimal),
  rolls: z.array(z.looseObject({ length: Decimal, new: z.boolean(), pieces: z.array(z.string()) })),
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

const NoSheets = z.looseObject({ impossible: z.string(), remedies: z.array(Remedy) });

/** An answer of the planner: sheets, or why there are none. */
export type ReadPlan =
  { readonly sheets: PlannedSheets; readonly none: null } | { readonly sheets: null; readonly none: z.infer<typeof NoSheets> };

/** Null for an answer that another version wrote. */
export function readPlan(result: unknown): ReadPlan | null {
  const planned = PlannedSheets.safeParse(result);
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
