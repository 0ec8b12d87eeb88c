import { lengthNm } from '../../measure/quantity.ts';
import { dimensionOf } from '../../measure/dimension.ts';
import { doubleArea, outlineFault, placeIn, turn, type Point } from '../../measure/plane.ts';
import type { Drawing, DrawnThing, WALL_KINDS } from '../../record/kinds/drawing.ts';
import type { Quantity } from '../../record/kinds/reading.ts';
import { fail, ok, type Result } from '../../result.ts';
import { closed, gapOf, type Closing, type Gap, type WalkedWall } from './walk.ts';

/** All lengths of a shape are whole ten-thousandths of the drawing's unit (measure/exact.ts), unless they run aslant. */
export interface ShapeWall {
  readonly from: Point;
  readonly to: Point;
  /** After the gap was closed. */
  readonly length: number;
  readonly as: (typeof WALL_KINDS)[number];
  /** 0 where there is no wall. */
  readonly height: number;
  /** Of a curb: across its top; else 0. */
  readonly depth: number;
  /** How it goes on into the next wall: 1 inside corner, -1 outside corner, 0 straight. */
  readonly corner: 1 | -1 | 0;
}

export interface ShapeDoorway {
  readonly wall: number;
  readonly along: number;
  readonly width: number;
  /** The wall's own where it was not said. */
  readonly height: number;
}

export interface ShapeThing {
  readonly thing: DrawnThing['thing'];
  readonly wall: number;
  readonly along: number;
  readonly out: number;
  readonly up: number;
  readonly width: number;
  readonly height: number;
  readonly depth: number;
}

/** A room as it is drawn. */
export interface RoomShape {
  readonly unit: 'in' | 'mm';
  readonly gap: Gap;
  /** Corners in the order of the walk, with the clock. */
  readonly outline: readonly Point[];
  readonly walls: readonly ShapeWall[];
  readonly doorways: readonly ShapeDoorway[];
  readonly things: readonly ShapeThing[];
  /** The outline without what benches stand on. */
  readonly floor: readonly Point[];
}

export type ShapeFaultCode =
  | 'not-a-length'
  | 'not-closed'
  | 'other-way'
  | 'self-crossing'
  | 'self-touching'
  | 'zero-wall'
  | 'few-corners'
  | 'no-such-wall'
  | 'beyond-wall'
  | 'above-wall'
  | 'outside-floor'
  | 'benches-meet';

/** What keeps a drawing from being drawn; `at` is the index in the list it names. */
export interface ShapeFault {
  readonly list: 'walls' | 'doorways' | 'things';
  readonly at: number;
  readonly code: ShapeFaultCode;
}

/** A quantity in whole ten-thousandths of a unit; null where it is no length above zero. */
export function partsOf({ value, unit }: Pick<Quantity, 'value' | 'unit'>, of: 'in' | 'mm'): number | null {
  if (dimensionOf(unit) !== 'length') return null;
  const nm = lengthNm(value, unit as 'in');
  if (!nm.ok || nm.value < 0) return null;
  return Math.round(nm.value / (of === 'in' ? 2540 : 100));
}

/** The shape of a drawing, or the first thing that keeps it from being one. Total: a drawing of a stranger is data like any other. */
export function shapeOf(drawing: Drawing): Result<RoomShape, ShapeFault> {
  const { unit } = drawing;
  const parts = (said: Quantity | undefined) => (said === undefined ? 0 : partsOf(said, unit));
  const wrong = (list: ShapeFault['list'], at: number, code: ShapeFaultCode) => fail({ list, at, code });

  const lengths = drawing.walls.map(({ length }) => parts(length));
  const none = lengths.findIndex((length) => length === null || length === 0);
  if (none >= 0) return wrong('walls', none, lengths[none] === 0 ? 'zero-wall' : 'not-a-length');
  const walk: WalkedWall[] = drawing.walls.map(({ turn = '0' }, i) => ({ length: lengths[i]!, turn: Number(turn) }));
  const closing = closingOf(drawing);
  const gap = gapOf(walk);
  // Half a ten-thousandth is rounding of a slanted wall.
  if (closing.how === 'exact' && gap.length > 2) return wrong('walls', walk.length - 1, 'not-closed');
  const outline = closed(walk, closing);
  const fault = outlineFault(outline);
  if (fault !== null) return wrong('walls', fault.code === 'few-corners' ? 0 : fault.wall, fault.code);
  if (doubleArea(outline) > 0n) return wrong('walls', 0, 'other-way');

  const roomHeight = parts(drawing.height);
  const walls: ShapeWall[] = [];
  for (const [i, { as, height, depth }] of drawing.walls.entries()) {
    const [from, to] = [outline[i]!, outline[(i + 1) % outline.length]!];
    const tall = as === 'open' ? 0 : height === undefined ? roomHeight : parts(height);
    const across = parts(depth);
    if (tall === null || across === null || (tall === 0 && as !== 'open')) return wrong('walls', i, 'not-a-length');
    const bend = turn(from, to, outline[(i + 2) % outline.length]!);
    walls.push({
      from,
      to,
      length: distance(from, to),
      as,
      height: tall,
      depth: as === 'curb' ? across : 0,
      corner: bend === 0 ? 0 : bend < 0 ? 1 : -1,
    });
  }

  const doorways: ShapeDoorway[] = [];
  for (const [i, { wall, along, width, height }] of drawing.doorways.entries()) {
    const of = walls[wall];
    if (of === undefined) return wrong('doorways', i, 'no-such-wall');
    const [at, wide, tall] = [parts(along), parts(width), height === undefined ? of.height : parts(height)];
    if (at === null || wide === null || wide === 0 || tall === null) return wrong('doorways', i, 'not-a-length');
    if (at + wide > of.length) return wrong('doorways', i, 'beyond-wall');
    if (tall > of.height) return wrong('doorways', i, 'above-wall');
    doorways.push({ wall, along: at, width: wide, height: tall });
  }

  const things: ShapeThing[] = [];
  for (const [i, one] of drawing.things.entries()) {
    const of = walls[one.wall];
    if (of === undefined) return wrong('things', i, 'no-such-wall');
    const said = {
      along: parts(one.along),
      out: parts(one.out),
      up: parts(one.up),
      width: parts(one.width),
      height: parts(one.height),
      depth: parts(one.depth),
    };
    if (Object.values(said).includes(null)) return wrong('things', i, 'not-a-length');
    const thing = { thing: one.thing, wall: one.wall, ...(said as Record<keyof typeof said, number>) };
    const end = isRound(thing.thing) ? thing.along : thing.along + thing.width;
    if (end > of.length) return wrong('things', i, 'beyond-wall');
    const top = thing.thing === 'niche' ? thing.up + thing.height : thing.thing === 'bench' ? thing.height : thing.up;
    if (top > of.height && isOnWall(thing.thing)) return wrong('things', i, 'above-wall');
    const places = footprint(thing, of);
    if (places.some((place) => placeIn(outline, { x: Math.round(place.x), y: Math.round(place.y) }) < 0))
      return wrong('things', i, 'outside-floor');
    things.push(thing);
  }

  const floor = withoutBenches(outline, walls, things);
  if (outlineFault(floor) !== null)
    return wrong(
      'things',
      things.findLastIndex(({ thing }) => thing === 'bench'),
      'benches-meet',
    );
  return ok({ unit, gap, outline, walls, doorways, things, floor });
}

export function closingOf({ closing, givenTo = 0 }: Pick<Drawing, 'closing' | 'givenTo'>): Closing {
  return closing === 'one-wall' ? { how: closing, wall: givenTo } : { how: closing };
}

/** Told by its middle, not by an edge. */
export function isRound(thing: DrawnThing['thing']): boolean {
  return thing === 'drain' || thing === 'toilet-flange' || thing === 'floor-pipe' || thing === 'valve' || thing === 'pipe';
}

/** Whether it sits in or on a wall. */
export function isOnWall(thing: DrawnThing['thing']): boolean {
  return thing === 'valve' || thing === 'pipe' || thing === 'niche' || thing === 'bench';
}

export function distance(a: Point, b: Point): number {
  return Math.hypot(b.x - a.x, b.y - a.y);
}

/** A place so far along a wall and so far from it into the room, as near as a double says. */
export function besideWall({ from, to }: Pick<ShapeWall, 'from' | 'to'>, along: number, out: number): Point {
  const length = distance(from, to);
  const [x, y] = [(to.x - from.x) / length, (to.y - from.y) / length];
  // The walk has its wall on the left, so the room lies on the right.
  return { x: from.x + x * along + y * out, y: from.y + y * along - x * out };
}

/** The places of the floor that a thing takes: its middle, or its corners. Those in the wall take none. */
export function footprint(thing: ShapeThing, wall: ShapeWall): Point[] {
  const { along, out, width, depth } = thing;
  switch (thing.thing) {
    case 'drain':
    case 'toilet-flange':
    case 'floor-pipe':
      return [besideWall(wall, along, out)];
    case 'line-drain':
      return rectangle(wall, along, width, out, out + depth);
    case 'bench':
      return rectangle(wall, along, width, 0, depth);
    default:
      return [];
  }
}

function rectangle(wall: ShapeWall, along: number, width: number, near: number, far: number): Point[] {
  return [
    besideWall(wall, along, near),
    besideWall(wall, along, far),
    besideWall(wall, along + width, far),
    besideWall(wall, along + width, near),
  ];
}

/** The outline led around each bench. */
function withoutBenches(outline: readonly Point[], walls: readonly ShapeWall[], things: readonly ShapeThing[]): Point[] {
  const around = outline.flatMap((corner, i) => [
    corner,
    ...things
      .filter(({ thing, wall }) => thing === 'bench' && wall === i)
      .toSorted((a, b) => a.along - b.along)
      .flatMap((bench) => footprint(bench, walls[i]!).map(({ x, y }) => ({ x: Math.round(x) + 0, y: Math.round(y) + 0 }))),
  ]);
  return things.some(({ thing }) => thing === 'bench') ? withoutSpikes(around) : [...outline];
}

/** Without corners that are none: on a straight wall, or at the tip of a way that goes there and comes back. */
function withoutSpikes(corners: readonly Point[]): Point[] {
  let ring = [...corners];
  for (;;) {
    const at = ring.findIndex((corner, i) => turn(ring.at(i - 1)!, corner, ring[(i + 1) % ring.length]!) === 0);
    if (at < 0 || ring.length < 3) return ring;
    ring = ring.filter((_, i) => i !== at);
  }
}
