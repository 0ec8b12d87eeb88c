import type { LaidPiece } from './laid.ts';
import { besideWall, footprint, isRound, type RoomShape, type ShapeThing } from './shape.ts';
import type { Point } from '../../measure/plane.ts';

/** A stretch of a wall as it is drawn. */
export interface Stroke {
  readonly as: RoomShape['walls'][number]['as'] | 'door';
  readonly a: Point;
  readonly b: Point;
  readonly wall: number;
}

/** The walls of a room cut where their doorways are. */
export function strokesOf({ walls, doorways }: Pick<RoomShape, 'walls' | 'doorways'>): Stroke[] {
  return walls.flatMap((wall, i): Stroke[] => {
    const open = doorways.filter((one) => one.wall === i).toSorted((a, b) => a.along - b.along);
    const stops = [0, ...open.flatMap(({ along, width }) => [along, along + width]), wall.length];
    return stops.slice(1).flatMap((to, k): Stroke[] => {
      const from = stops[k]!;
      if (to <= from) return [];
      return [{ as: k % 2 === 1 ? 'door' : wall.as, a: besideWall(wall, from, 0), b: besideWall(wall, to, 0), wall: i }];
    });
  });
}

/** The curb's top, outside the floor. */
export function curbsOf({ walls }: Pick<RoomShape, 'walls'>): Point[][] {
  return walls
    .filter(({ as }) => as === 'curb')
    .map((wall) => [
      besideWall(wall, 0, 0),
      besideWall(wall, wall.length, 0),
      besideWall(wall, wall.length, -wall.depth),
      besideWall(wall, 0, -wall.depth),
    ]);
}

/** A thing as it is seen from above. */
export type Seen =
  | { readonly is: 'circle'; readonly thing: ShapeThing['thing']; readonly at: Point; readonly radius: number }
  | { readonly is: 'area'; readonly thing: ShapeThing['thing']; readonly corners: readonly Point[] };

/** Half the width that a pipe without a width of its own is drawn with: an inch, as near as 25 mm. */
const PIPE = { in: 10_000, mm: 250_000 } as const;

export function seenOf({ walls, things, unit }: Pick<RoomShape, 'walls' | 'things' | 'unit'>): Seen[] {
  return things.map((thing): Seen => {
    const wall = walls[thing.wall]!;
    const { along, width, depth } = thing;
    if (thing.thing === 'niche') {
      const corners = [
        besideWall(wall, along, 0),
        besideWall(wall, along, -depth),
        besideWall(wall, along + width, -depth),
        besideWall(wall, along + width, 0),
      ];
      return { is: 'area', thing: thing.thing, corners };
    }
    if (!isRound(thing.thing)) return { is: 'area', thing: thing.thing, corners: footprint(thing, wall) };
    const at = besideWall(wall, along, thing.out);
    return { is: 'circle', thing: thing.thing, at, radius: width === 0 ? PIPE[unit] : width / 2 };
  });
}

/** How far a wall's own things reach beyond it: a curb's top, the back of a niche. */
export function beyond({ walls, things }: Pick<RoomShape, 'walls' | 'things'>, wall: number): number {
  return Math.max(walls[wall]!.depth, ...things.filter((one) => one.thing === 'niche' && one.wall === wall).map(({ depth }) => depth));
}

/** All places a floor's drawing reaches to. */
export function reachOf(shape: RoomShape): Point[] {
  return [...shape.outline, ...curbsOf(shape).flat(), ...seenOf(shape).flatMap((one) => (one.is === 'area' ? one.corners : []))];
}

/** A wall as it is seen from inside, unfolded beside the one before it; x in ten-thousandths from the left of its row. */
export interface Elevation {
  readonly wall: number;
  readonly x: number;
  readonly width: number;
  readonly height: number;
}

/** The walls unfolded in the order of the walk, in rows no longer than `longest`. A curb shows its inner face, an open side nothing. */
export function unfolded({ walls }: Pick<RoomShape, 'walls'>, longest: number): Elevation[][] {
  const rows: Elevation[][] = [];
  let end = Infinity;
  walls.forEach(({ length, height, as }, wall) => {
    if (as === 'open') {
      end = Infinity;
      return;
    }
    if (end + length > longest) {
      rows.push([]);
      end = 0;
    }
    rows.at(-1)!.push({ wall, x: end, width: length, height });
    end += length;
  });
  return rows;
}

/** What is cut in a wall or stands at it, from its left edge and the floor. */
export interface OnWall {
  readonly thing: ShapeThing['thing'] | 'door';
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

export function onWall({ doorways, things, unit }: RoomShape, wall: number): OnWall[] {
  const doors = doorways
    .filter((one) => one.wall === wall)
    .map(({ along, width, height }): OnWall => ({ thing: 'door', x: along, y: 0, width, height }));
  const others = things
    .filter((one) => one.wall === wall)
    .flatMap(({ thing, along, up, width, height }): OnWall[] => {
      if (thing === 'niche') return [{ thing, x: along, y: up, width, height }];
      if (thing === 'bench') return [{ thing, x: along, y: 0, width, height }];
      const r = PIPE[unit] * (thing === 'valve' ? 2 : 1);
      return thing === 'valve' || thing === 'pipe' ? [{ thing, x: along - r, y: up - r, width: 2 * r, height: 2 * r }] : [];
    });
  return [...doors, ...others];
}

/** Where the name of each piece stands: a quarter along what of it lies on the surface, clear of the drain in the middle. */
export function namePlaces(
  pieces: readonly LaidPiece[],
  isAlongX: boolean,
  surface: readonly Point[],
): { readonly id: string; readonly at: Point }[] {
  const across = surface.map(({ x, y }) => (isAlongX ? y : x));
  const [lowest, highest] = [Math.min(...across), Math.max(...across)];
  return pieces.map(({ id, corners }) => {
    const [first, , last] = corners as readonly [Point, Point, Point];
    const [low, high] = isAlongX ? [first.y, last.y] : [last.x, first.x];
    const middle = (Math.max(lowest, Math.min(low, high)) + Math.min(highest, Math.max(low, high))) / 2;
    const at = isAlongX ? { x: first.x + (last.x - first.x) / 4, y: middle } : { x: middle, y: first.y + (last.y - first.y) / 4 };
    return { id, at };
  });
}
