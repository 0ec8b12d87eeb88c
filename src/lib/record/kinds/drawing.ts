import * as z from 'zod/mini';
import { Id } from '../entry.ts';
import { Decimal } from './fields.ts';
import { Quantity } from './reading.ts';

/**
 * What an edge of the floor is. `low`: a wall an arm reaches over; `curb`: a dam that is stepped over; `open`: no wall, the floor goes on.
 */
export const WALL_KINDS = ['full', 'low', 'curb', 'open'] as const;

/** One wall of the walk, from corner to corner. The turn at its end is in degrees, to the right above zero; the last wall needs none. */
const Wall = z.looseObject({
  length: Quantity,
  turn: z.optional(Decimal),
  as: z.enum(WALL_KINDS),
  /** Where it is not the room's. */
  height: z.optional(Quantity),
  /** Of a curb: across its top. */
  depth: z.optional(Quantity),
});

/** Which wall, from 0, in the order of the walk. */
const WallIndex = z.int().check(z.minimum(0), z.maximum(399));

const Doorway = z.looseObject({ wall: WallIndex, along: Quantity, width: Quantity, height: z.optional(Quantity) });

export const THINGS = ['drain', 'line-drain', 'toilet-flange', 'floor-pipe', 'valve', 'pipe', 'niche', 'bench'] as const;
/**
 * A thing in the room, by tape from a wall: `along` from where the wall begins (to the middle of a round thing, to the near edge of any
 * other), `out` from the wall into the room, `up` from the floor.
 */
const Thing = z.looseObject({
  thing: z.enum(THINGS),
  wall: WallIndex,
  along: Quantity,
  out: z.optional(Quantity),
  up: z.optional(Quantity),
  width: z.optional(Quantity),
  height: z.optional(Quantity),
  depth: z.optional(Quantity),
});

/** A room as it was walked: wall after wall with the wall on the left hand, so that inside corners turn right. */
export const Drawing = z.looseObject({
  room: Id,
  /** Unit of its coordinates. Corner 0 is at 0, 0 and wall 0 runs along y. */
  unit: z.enum(['in', 'mm']),
  height: Quantity,
  walls: z.array(Wall).check(z.minLength(3), z.maxLength(400)),
  /** What became of the gap between the end of the walk and its beginning. */
  closing: z.enum(['exact', 'spread', 'one-wall']),
  givenTo: z.optional(WallIndex),
  doorways: z.array(Doorway).check(z.maxLength(50)),
  things: z.array(Thing).check(z.maxLength(200)),
});
export type Drawing = z.infer<typeof Drawing>;
export type DrawnWall = z.infer<typeof Wall>;
export type DrawnDoorway = z.infer<typeof Doorway>;
export type DrawnThing = z.infer<typeof Thing>;

const Point = z.tuple([Decimal, Decimal]);
/** In order around, on the drawing against its picture: the first of the one is the first of the other. */
const Corners = z.tuple([Point, Point, Point, Point]);

/**
 * Where an entry belongs on the drawing of its room. On a wall x runs along it and y up; on the floor they are the drawing's own. A photo
 * may show an area: then x and y are its middle.
 */
export const Mark = z.looseObject({
  of: Id,
  room: Id,
  wall: z.optional(WallIndex),
  x: Quantity,
  y: Quantity,
  /** The place of the drawing that it shows, such as `corner-2`, where proof is owed of that place. */
  spot: z.optional(Id),
  /** The area's corners on the drawing, in its unit. */
  corners: z.optional(Corners),
  /** The same corners in the photo, in pixels of the upright picture: by them it is laid straight. */
  inPhoto: z.optional(z.looseObject({ width: z.int().check(z.minimum(1)), height: z.int().check(z.minimum(1)), corners: Corners })),
});
export type Mark = z.infer<typeof Mark>;

/**
 * A plan of sheets as it was worked out on the day: input and answer in the form of `layerbook plan` (docs/plan.md), with each number as its
 * decimal string.
 */
export const Plan = z.looseObject({
  room: Id,
  /** Id of the drawing's entry. */
  drawing: Id,
  /** A wall, from 0; absent for the floor. */
  wall: z.optional(WallIndex),
  input: z.record(z.string(), z.unknown()),
  result: z.record(z.string(), z.unknown()),
});
