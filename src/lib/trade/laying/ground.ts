import { doubleArea, type Point } from '#lib/measure/plane.ts';
import type { Doorway, Room } from '../sheets/room.ts';

export interface Segment {
  readonly a: Point;
  readonly b: Point;
}

/** A rectangle outside a doorway, as wide as it and as deep as the reach. */
export interface Apron {
  /** Where the doorway starts on its wall. */
  readonly at: Point;
  /** Unit vectors along the wall and away from the floor. */
  readonly along: Point;
  readonly away: Point;
  readonly width: number;
  readonly depth: number;
}

/**
 * Where a crew can be and what stops it. Lengths are ten-thousandths of the drawing's unit, as near as a double says. A wall stops
 * whoever is in an apron too: what of an apron lies behind another wall is drawn, but nobody gets there.
 */
export interface Ground {
  readonly floor: readonly Point[];
  /** In the order of the doorways. */
  readonly aprons: readonly Apron[];
  /** The outline of floor and aprons together, and walls inside aprons: a place to stand keeps clear of them. */
  readonly edges: readonly Segment[];
  /** What an arm goes round: walls that are not low, and the outline of floor, aprons and what lies beyond low walls together. */
  readonly barriers: readonly Segment[];
}

/** What is nearer than this is the same place: a tenth of a ten-thousandth. */
export const SAME = 0.1;

export function groundOf({ floor, doorways, lowWalls, reach }: Pick<Room, 'floor' | 'doorways' | 'lowWalls' | 'reach'>): Ground {
  const isLeft = doubleArea(floor) > 0n;
  const aprons = doorways.map((doorway) => apronAt(floor, doorway, isLeft, reach));
  const walls = floor.map((_, wall) => ({ wall, parts: wallParts(floor, wall, doorways) }));
  const stops = walls.flatMap(({ wall, parts }) => (lowWalls.includes(wall) ? [] : parts));
  const sides = outerSides(floor, aprons);
  const reached = lowWalls.length === 0 ? sides : outerSides(floor, [...aprons, ...beyondLow(floor, lowWalls, isLeft, reach)]);
  return { floor, aprons, edges: [...walls.flatMap(({ parts }) => parts), ...sides], barriers: [...stops, ...reached] };
}

/** Beyond a low wall an arm passes as over an apron as wide as the wall; nobody stands there. */
function beyondLow(floor: readonly Point[], lowWalls: readonly number[], isLeft: boolean, depth: number): Apron[] {
  return [...new Set(lowWalls)].map((wall) => {
    const { a, b } = wallOf(floor, wall);
    return apronAt(floor, { wall, from: 0, to: Math.hypot(b.x - a.x, b.y - a.y) }, isLeft, depth);
  });
}

function outerSides(floor: readonly Point[], aprons: readonly Apron[]): Segment[] {
  return aprons.flatMap((apron) =>
    sidesOf(apron).flatMap((side) =>
      outerParts(
        side,
        floor,
        aprons.filter((other) => other !== apron),
      ),
    ),
  );
}

function apronAt(floor: readonly Point[], { wall, from, to }: Doorway, isLeft: boolean, depth: number): Apron {
  const { a, b } = wallOf(floor, wall);
  const length = Math.hypot(b.x - a.x, b.y - a.y);
  const along = { x: (b.x - a.x) / length, y: (b.y - a.y) / length };
  const away = isLeft ? { x: along.y, y: -along.x } : { x: -along.y, y: along.x };
  return { at: { x: a.x + from * along.x, y: a.y + from * along.y }, along, away, width: to - from, depth };
}

function wallOf(floor: readonly Point[], wall: number): Segment {
  return { a: floor[wall]!, b: floor[(wall + 1) % floor.length]! };
}

/** A wall less its doorways. */
function wallParts(floor: readonly Point[], wall: number, doorways: readonly Doorway[]): Segment[] {
  const { a, b } = wallOf(floor, wall);
  const length = Math.hypot(b.x - a.x, b.y - a.y);
  const openings = doorways.filter((doorway) => doorway.wall === wall).sort((one, other) => one.from - other.from);
  const parts: Segment[] = [];
  let from = 0;
  for (const opening of [...openings, { from: length, to: length }]) {
    if (opening.from - from > SAME) parts.push({ a: onto(a, b, from / length), b: onto(a, b, opening.from / length) });
    from = Math.max(from, opening.to);
  }
  return parts;
}

function onto(a: Point, b: Point, share: number): Point {
  if (share <= 0) return a;
  return share >= 1 ? b : { x: a.x + (b.x - a.x) * share, y: a.y + (b.y - a.y) * share };
}

/** A place in an apron, so far along its doorway and so far out. */
export function inApron({ at, along, away }: Apron, far: number, out: number): Point {
  return { x: at.x + far * along.x + out * away.x, y: at.y + far * along.y + out * away.y };
}

/** The other way round. */
export function fromApron({ at, along, away }: Apron, { x, y }: Point): { far: number; out: number } {
  const [dx, dy] = [x - at.x, y - at.y];
  return { far: dx * along.x + dy * along.y, out: dx * away.x + dy * away.y };
}

/** A side of an apron, and a step away from the apron there. */
interface Side extends Segment {
  readonly off: Point;
}

function sidesOf(apron: Apron): Side[] {
  const { width, depth, along, away } = apron;
  const corners = [inApron(apron, 0, 0), inApron(apron, 0, depth), inApron(apron, width, depth), inApron(apron, width, 0)];
  const offs = [{ x: -along.x, y: -along.y }, away, along].map(({ x, y }) => ({ x: 4 * SAME * x, y: 4 * SAME * y }));
  return corners.slice(1).map((b, i) => ({ a: corners[i]!, b, off: offs[i]! }));
}

/** The parts of an apron's side beyond which lies neither floor nor another apron. */
function outerParts(side: Side, floor: readonly Point[], others: readonly Apron[]): Segment[] {
  const lines = [
    ...floor.map((_, wall) => wallOf(floor, wall)),
    ...others.flatMap(sidesOf),
    ...others.map((apron) => ({ a: apron.at, b: inApron(apron, apron.width, 0) })),
  ];
  const shares = [0, 1, ...lines.flatMap((line) => crossingShare(side, line))].sort((a, b) => a - b);
  const length = Math.hypot(side.b.x - side.a.x, side.b.y - side.a.y);
  return shares.slice(1).flatMap((to, i) => {
    const from = shares[i]!;
    if ((to - from) * length < SAME) return [];
    const middle = onto(side.a, side.b, (from + to) / 2);
    const beyond = { x: middle.x + side.off.x, y: middle.y + side.off.y };
    const isInside = isInFloor(floor, beyond) || others.some((apron) => isInApron(apron, beyond));
    return isInside ? [] : [{ a: onto(side.a, side.b, from), b: onto(side.a, side.b, to) }];
  });
}

/** Where on a segment, as a share of it, another one crosses or touches it; nothing for parallels. */
function crossingShare({ a, b }: Segment, line: Segment): number[] {
  const [dx, dy] = [b.x - a.x, b.y - a.y];
  const [ex, ey] = [line.b.x - line.a.x, line.b.y - line.a.y];
  const cross = dx * ey - dy * ex;
  if (Math.abs(cross) < 1e-9 * Math.hypot(dx, dy) * Math.hypot(ex, ey)) return [];
  const [fx, fy] = [line.a.x - a.x, line.a.y - a.y];
  const share = (fx * ey - fy * ex) / cross;
  const other = (fx * dy - fy * dx) / cross;
  return share > 0 && share < 1 && other > -1e-9 && other < 1 + 1e-9 ? [share] : [];
}

/** Whether a place lies well inside the floor, by crossings; on the outline either answer may come. */
export function isInFloor(floor: readonly Point[], { x, y }: Point): boolean {
  let inside = false;
  for (let i = 0; i < floor.length; i++) {
    const { a, b } = wallOf(floor, i);
    if (a.y > y !== b.y > y && x < a.x + ((y - a.y) / (b.y - a.y)) * (b.x - a.x)) inside = !inside;
  }
  // A place within SAME of the outline is outside.
  return inside && floor.every((_, i) => distanceTo(wallOf(floor, i), { x, y }) > SAME);
}

/** Whether a place lies in an apron, SAME or more from its sides. */
function isInApron(apron: Apron, at: Point): boolean {
  const { far, out } = fromApron(apron, at);
  return far > SAME && out > SAME && far < apron.width - SAME && out < apron.depth - SAME;
}

/** Distance of a place from a segment. */
export function distanceTo({ a, b }: Segment, { x, y }: Point): number {
  const [dx, dy] = [b.x - a.x, b.y - a.y];
  const square = dx * dx + dy * dy;
  const share = square === 0 ? 0 : Math.min(1, Math.max(0, ((x - a.x) * dx + (y - a.y) * dy) / square));
  // Ten times as fast as Math.hypot, and no coordinate comes near to where a square overflows.
  const [ex, ey] = [x - a.x - share * dx, y - a.y - share * dy];
  return Math.sqrt(ex * ex + ey * ey);
}
