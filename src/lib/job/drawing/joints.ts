import type { Point } from '../../measure/plane.ts';
import { besideWall, type RoomShape, type ShapeThing, type ShapeWall } from './shape.ts';

/** Where two planes of a room meet, by kind; the last three bring several joints each. */
export const JOINT_KINDS = ['floor-wall', 'wall-wall-inside', 'wall-wall-outside', 'curb', 'bench', 'niche'] as const;
export type JointKind = (typeof JOINT_KINDS)[number];

export interface Joint {
  readonly kind: JointKind;
  /** In ten-thousandths. */
  readonly length: number;
  /** A fold towards the room: banded on an edge, not into a corner. */
  readonly isEdge: boolean;
}

/** `inside`: all three joints that meet fold inwards; `outside`: at least one runs over an edge. */
export type CornerKind = 'inside' | 'outside';

/** A place of the drawing that owes proof of its own. On a wall x runs along it and y up; on the floor they are the drawing's own. */
export interface Spot {
  /** Stays as long as the list it is counted in does. */
  readonly id: string;
  readonly kind: CornerKind | 'collar';
  /** The places that leak first: the ends of a curb, and whatever goes through the membrane. */
  readonly isRisk: boolean;
  readonly wall: number | null;
  readonly x: number;
  readonly y: number;
}

/**
 * Every joint of the floor, the walls and what stands in them, each edge of a curb, bench or niche by itself. Doorways and open sides have no
 * wall; behind and under a bench its own joints take the wall's place. The tops of walls are not counted: what ends there is tiled on.
 */
export function jointsOf({ walls, doorways, things }: RoomShape): Joint[] {
  const joints: Joint[] = [];
  const add = (kind: JointKind, isEdge: boolean, ...lengths: number[]) => {
    for (const length of lengths) if (length > 0) joints.push({ kind, isEdge, length });
  };
  walls.forEach((wall, i) => {
    const gone = doorways.filter((one) => one.wall === i).reduce((sum, { width }) => sum + width, 0);
    const benches = things.filter((one) => one.thing === 'bench');
    const ownBenches = benches.filter((one) => one.wall === i).reduce((sum, { width }) => sum + width, 0);
    const beside = benches.filter((one) => reaches(one, walls, i)).reduce((sum, { depth }) => sum + depth, 0);
    if (isUpright(wall)) add('floor-wall', false, wall.length - gone - ownBenches - beside);
    if (wall.as === 'curb') {
      add('curb', false, wall.length);
      add('curb', true, wall.length, wall.length);
    }
    const next = walls[(i + 1) % walls.length]!;
    if (wall.corner === 0 || wall.as === 'open' || next.as === 'open') return;
    const curb = wall.as === 'curb' ? wall : next.as === 'curb' ? next : null;
    // Up the inner face, across the top, down the outer face.
    if (curb !== null) add('curb', wall.corner < 0, 2 * curb.height + curb.depth);
    else {
      const bench = benches.find((one) => isInCorner(one, walls, (i + 1) % walls.length));
      add(
        wall.corner > 0 ? 'wall-wall-inside' : 'wall-wall-outside',
        wall.corner < 0,
        Math.min(wall.height, next.height) - (bench?.height ?? 0),
      );
    }
  });
  for (const thing of things) {
    if (thing.thing === 'bench') benchJoints(thing, walls, add);
    if (thing.thing === 'niche') {
      const { width, height, depth } = thing;
      add('niche', true, width, width, height, height);
      add('niche', false, width, width, height, height, depth, depth, depth, depth);
    }
  }
  return joints;
}

function benchJoints(
  bench: ShapeThing,
  walls: readonly ShapeWall[],
  add: (kind: JointKind, isEdge: boolean, ...lengths: number[]) => void,
): void {
  const { width, depth, height } = bench;
  // The seat at the wall, the front at the floor; the front's upper edge.
  add('bench', false, width, width);
  add('bench', true, width);
  for (const isFree of freeEnds(bench, walls)) {
    if (isFree) {
      // The end at the wall and at the floor; its edges to seat and front.
      add('bench', false, height, depth);
      add('bench', true, depth, height);
    } else add('bench', false, depth, height);
  }
}

/** Whether a bench of another wall runs up to wall i. */
function reaches(bench: ShapeThing, walls: readonly ShapeWall[], i: number): boolean {
  const [first, last] = freeEnds(bench, walls);
  const after = (bench.wall + 1) % walls.length;
  const before = (bench.wall + walls.length - 1) % walls.length;
  return (!first && before === i) || (!last && after === i);
}

/** Whether a bench fills a corner of the room. */
function isInCorner(bench: ShapeThing, walls: readonly ShapeWall[], corner: number): boolean {
  const [first, last] = freeEnds(bench, walls);
  return (!first && bench.wall === corner) || (!last && (bench.wall + 1) % walls.length === corner);
}

/** Whether the bench ends free, where its wall begins and where it ends; else it runs up to the next wall. */
export function freeEnds({ wall, along, width }: ShapeThing, walls: readonly ShapeWall[]): [boolean, boolean] {
  const [own, before] = [walls[wall]!, walls[(wall + walls.length - 1) % walls.length]!];
  const after = walls[(wall + 1) % walls.length]!;
  return [!(along === 0 && before.corner > 0 && isUpright(before)), !(along + width >= own.length && own.corner > 0 && isUpright(after))];
}

export function isUpright({ as }: Pick<ShapeWall, 'as'>): boolean {
  return as === 'full' || as === 'low';
}

/** Every corner piece and collar, each where it goes. */
export function spotsOf(shape: RoomShape): Spot[] {
  return [...shape.walls.flatMap((_, i) => cornerSpots(shape, i)), ...shape.things.flatMap((thing, i) => thingSpots(shape, thing, i))];
}

/** Where wall i begins. Where a curb meets a wall: one at the floor, two where its upper edges run against the wall. */
function cornerSpots({ walls, outline, things }: RoomShape, i: number): Spot[] {
  const [before, wall] = [walls[(i + walls.length - 1) % walls.length]!, walls[i]!];
  if (before.corner === 0 || before.as === 'open' || wall.as === 'open') return [];
  const { x, y } = outline[i]!;
  const inside = before.corner > 0;
  const spot = (id: string, kind: CornerKind, isRisk: boolean): Spot => ({ id, kind, isRisk, wall: null, x, y });
  if (before.as === 'curb' || wall.as === 'curb') {
    return [
      spot(`corner-${i}`, inside ? 'inside' : 'outside', true),
      spot(`corner-${i}-top-in`, 'outside', true),
      spot(`corner-${i}-top-out`, 'outside', true),
    ];
  }
  // A bench in the corner has its own two.
  const isUnderBench = things.some((one) => one.thing === 'bench' && isInCorner(one, walls, i));
  return isUnderBench ? [] : [spot(`corner-${i}`, inside ? 'inside' : 'outside', false)];
}

function thingSpots({ walls }: RoomShape, thing: ShapeThing, i: number): Spot[] {
  const { wall, along, up, width, height, depth, out } = thing;
  const on = (id: string, kind: Spot['kind'], x: number, y: number, isRisk = false): Spot => ({
    id: `thing-${i}${id}`,
    kind,
    isRisk,
    wall,
    x,
    y,
  });
  if (thing.thing === 'niche') {
    const at = [
      [along, up],
      [along + width, up],
      [along, up + height],
      [along + width, up + height],
    ] as const;
    return at.flatMap(([x, y], k) => [on(`-back-${k}`, 'inside', x, y), on(`-face-${k}`, 'outside', x, y)]);
  }
  if (thing.thing === 'bench') {
    const [first, last] = freeEnds(thing, walls);
    const end = (name: string, x: number, isFree: boolean): Spot[] => {
      const [low, high] = [floorSpot(walls[wall]!, x, depth), floorSpot(walls[wall]!, x, 0)];
      const at = (id: string, kind: CornerKind, { x, y }: Point): Spot => ({
        id: `thing-${i}-${name}-${id}`,
        kind,
        isRisk: false,
        wall: null,
        x,
        y,
      });
      return [
        // At the floor where the front ends; at the floor by the wall, where the end is free.
        at('front', isFree ? 'outside' : 'inside', low),
        ...(isFree ? [at('wall', 'inside', high)] : []),
        at('seat-front', 'outside', low),
        at('seat-wall', isFree ? 'outside' : 'inside', high),
      ];
    };
    return [...end('a', along, first), ...end('b', along + width, last)];
  }
  if (thing.thing === 'valve' || thing.thing === 'pipe') return [on('', 'collar', along, up, true)];
  if (thing.thing === 'toilet-flange' || thing.thing === 'floor-pipe') {
    const { x, y } = floorSpot(walls[wall]!, along, out);
    return [{ id: `thing-${i}`, kind: 'collar', isRisk: true, wall: null, x, y }];
  }
  return [];
}

function floorSpot(wall: ShapeWall, along: number, out: number): Point {
  const { x, y } = besideWall(wall, along, out);
  return { x: Math.round(x) + 0, y: Math.round(y) + 0 };
}
