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
  /** What an arm goes round: the edges less the low walls. */
  readonly barriers: readonly Segment[];
}

/** What is nearer than this is the same place: a tenth of a ten-thousandth. */
export const SAME = 0.1;

export function groundOf({ floor, doorways, lowWalls, reach }: Pick<Room, 'floor' | 'doorways' | 'lowWalls' | 'reach'>): Ground {
  const isLeft = doubleArea(floor) > 0n;
  const aprons = doorways.map((doorway) => apronAt(floor, doorway, isLeft, reach));
  const walls = floor.map((_, wall) => ({ wall, parts: wallParts(floor, wall, doorways) }));
  const sides = aprons.flatMap((apron) =>
    sidesOf(apron).flatMap((side) =>
      outerParts(
        side,
        floor,
        aprons.filter((other) => other !== apron),
      ),
    ),
  );
  const stops = walls.flatMap(({ wall, parts }) => (lowWalls.includes(wall) ? [] : parts));
  return { floor, aprons, edges: [...walls.flatMap(({ parts }) => parts), ...sides], barriers: [...stops, ...sides] };
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

function sidesOf(apron: Apron): Segment[] {
  const { width, depth } = apron;
  const corners = [inApron(apron, 0, 0), inApron(apron, 0, depth), inApron(apron, width, depth), inApron(apron, width, 0)];
  return corners.slice(1).map((b, i) => ({ a: corners[i]!, b }));
}

/** The parts of an apron's side that lie neither in the floor nor in another apron. */
function outerParts(side: Segment, floor: readonly Point[], others: readonly Apron[]): Segment[] {
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
    const isInside = isInFloor(floor, middle) || others.some((apron) => isInApron(apron, middle));
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
