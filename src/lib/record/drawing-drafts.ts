import * as z from 'zod/mini';
import { Id } from './entry.ts';
import { THINGS, WALL_KINDS } from './kinds/drawing.ts';

/** The forms of the drawing and the plan as they are typed, kept on disk until they are saved. An empty string stands for "not said". */
const Index = z.int().check(z.minimum(0));

export const WallRow = z.object({ length: z.string(), turn: z.string(), as: z.enum(WALL_KINDS), height: z.string(), depth: z.string() });
export type WallRow = z.infer<typeof WallRow>;

export const DoorwayRow = z.object({ wall: Index, along: z.string(), width: z.string(), height: z.string() });
export type DoorwayRow = z.infer<typeof DoorwayRow>;

export const ThingRow = z.object({
  thing: z.enum(THINGS),
  wall: Index,
  along: z.string(),
  out: z.string(),
  up: z.string(),
  width: z.string(),
  height: z.string(),
  depth: z.string(),
});
export type ThingRow = z.infer<typeof ThingRow>;

export const STARTS = ['alcove', 'wing-walls', 'cut-corner', 'open-side', 'whole-room', 'ell'] as const;
export type Start = (typeof STARTS)[number];

export const DrawingForm = z.object({
  room: Id,
  /** The shape it was begun with; null where an earlier drawing is changed. */
  start: z.nullable(z.enum(STARTS)),
  height: z.string(),
  walls: z.array(WallRow),
  /** Empty until somebody says what becomes of the gap. */
  closing: z.enum(['', 'spread', 'one-wall']),
  givenTo: Index,
  doorways: z.array(DoorwayRow),
  things: z.array(ThingRow),
});
export type DrawingForm = z.infer<typeof DrawingForm>;

/** What the sheets of a floor are cut from and how they are laid. */
export const PlanForm = z.object({
  width: z.string(),
  /** Rolls at hand, one a line. */
  atHand: z.string(),
  newLength: z.string(),
  overlap: z.string(),
  upturn: z.string(),
  /** No overlap nearer to the edge of a drain or flange. */
  clear: z.string(),
  direction: z.enum(['free', '0', '90']),
  longest: z.string(),
  reach: z.string(),
  /** Places where a strip has to start, one a line: a seam that somebody dragged. */
  pins: z.string(),
  /** A remedy taken: fields of the planner's input that stand in place of what follows from the form, as JSON. */
  taken: z.string(),
  /** Walls that get no sheets, as their indices. */
  without: z._default(z.array(z.string()), []),
});
export type PlanForm = z.infer<typeof PlanForm>;
