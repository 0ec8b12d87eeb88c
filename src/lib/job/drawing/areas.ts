import { doubleArea } from '../../measure/plane.ts';
import type { RoomShape, ShapeThing, ShapeWall } from './shape.ts';
import { freeEnds, isUpright, type Joint, jointsOf, JOINT_KINDS, type JointKind, spotsOf } from './joints.ts';

/** What follows from a drawing. Lengths in the drawing's unit, areas in its square. */
export interface Takeoff {
  readonly floor: number;
  /** Each wall without doorways, with what a niche adds and what a bench hides; 0 for a curb and an open side. */
  readonly walls: readonly number[];
  /** Inner face, top and outer face. */
  readonly curbs: number;
  /** Seat, front and free ends. */
  readonly benches: number;
  /** Around the outline, open sides and doorways too. */
  readonly perimeter: number;
  readonly joints: Readonly<Record<JointKind, number>>;
  readonly insideCorners: number;
  readonly outsideCorners: number;
  readonly collars: number;
}

const PARTS = 10_000;

export function takeoff(shape: RoomShape): Takeoff {
  const { walls, things, floor } = shape;
  const joints = jointsOf(shape);
  const spots = spotsOf(shape);
  const count = (kind: (typeof spots)[number]['kind']) => spots.filter((spot) => spot.kind === kind).length;
  const sumOf = (kind: JointKind) => total(joints.filter((joint) => joint.kind === kind));
  return {
    floor: Math.abs(Number(doubleArea(floor))) / 2 / PARTS ** 2,
    walls: walls.map((wall, i) => (isUpright(wall) ? wallArea(shape, wall, i) : 0)),
    curbs: walls.reduce((sum, { as, length, height, depth }) => sum + (as === 'curb' ? area(length, 2 * height + depth) : 0), 0),
    benches: things.reduce((sum, thing) => sum + (thing.thing === 'bench' ? benchArea(shape, thing) : 0), 0),
    perimeter: walls.reduce((sum, { length }) => sum + length, 0) / PARTS,
    joints: Object.fromEntries(JOINT_KINDS.map((kind) => [kind, sumOf(kind)])) as Record<JointKind, number>,
    insideCorners: count('inside'),
    outsideCorners: count('outside'),
    collars: count('collar'),
  };
}

function total(joints: readonly Joint[]): number {
  return joints.reduce((sum, { length }) => sum + length, 0) / PARTS;
}

function area(width: number, height: number): number {
  return (width / PARTS) * (height / PARTS);
}

function wallArea({ doorways, things }: RoomShape, wall: ShapeWall, i: number): number {
  const doors = doorways.filter((one) => one.wall === i).reduce((sum, { width, height }) => sum + area(width, height), 0);
  const changed = things
    .filter((one) => one.wall === i)
    .reduce((sum, { thing, width, height, depth }) => {
      // The back of a niche is as large as its hole in the wall.
      if (thing === 'niche') return sum + 2 * area(width + height, depth);
      return thing === 'bench' ? sum - area(width, height) : sum;
    }, 0);
  return area(wall.length, wall.height) - doors + changed;
}

/** A free end shows its side; where the bench runs up to the next wall it hides that much of it. */
function benchArea({ walls }: RoomShape, bench: ShapeThing): number {
  const { width, height, depth } = bench;
  const sides = freeEnds(bench, walls).reduce((sum, isFree) => sum + (isFree ? 1 : -1) * area(depth, height), 0);
  return area(width, depth + height) + sides;
}
