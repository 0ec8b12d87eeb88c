import { signOf } from './exact.ts';

/** A point of a drawing in whole ten-thousandths of its unit, at most 10^9 from zero (measure/exact.ts). */
export interface Point {
  readonly x: number;
  readonly y: number;
}

/** Share of the sum of two products by which their computed difference can be off, with room to spare (Shewchuk's filter is 3.3e-16). */
const FILTER = 1e-15;

/** Which way a walk from a over b to c turns: 1 left, -1 right, 0 straight on or back. Exact. */
export function turn(a: Point, b: Point, c: Point): -1 | 0 | 1 {
  const left = (b.x - a.x) * (c.y - a.y);
  const right = (b.y - a.y) * (c.x - a.x);
  const off = left - right;
  if (Math.abs(off) > FILTER * (Math.abs(left) + Math.abs(right))) return off > 0 ? 1 : -1;
  return signOf(BigInt(b.x - a.x) * BigInt(c.y - a.y) - BigInt(b.y - a.y) * BigInt(c.x - a.x));
}

/** Whether q, known to lie on the line through a and b, lies between them or on one of them. */
function between(a: Point, b: Point, q: Point): boolean {
  return Math.min(a.x, b.x) <= q.x && q.x <= Math.max(a.x, b.x) && Math.min(a.y, b.y) <= q.y && q.y <= Math.max(a.y, b.y);
}

function onSegment(a: Point, b: Point, q: Point): boolean {
  return turn(a, b, q) === 0 && between(a, b, q);
}

/** How two segments meet: `cross` inside both, `touch` in an end or along a stretch, null apart. Exact. */
export function meeting(a: Point, b: Point, c: Point, d: Point): 'cross' | 'touch' | null {
  if (Math.max(a.x, b.x) < Math.min(c.x, d.x) || Math.max(c.x, d.x) < Math.min(a.x, b.x)) return null;
  if (Math.max(a.y, b.y) < Math.min(c.y, d.y) || Math.max(c.y, d.y) < Math.min(a.y, b.y)) return null;
  if (turn(a, b, c) * turn(a, b, d) < 0 && turn(c, d, a) * turn(c, d, b) < 0) return 'cross';
  const touch = onSegment(a, b, c) || onSegment(a, b, d) || onSegment(c, d, a) || onSegment(c, d, b);
  return touch ? 'touch' : null;
}

/** Why a ring of corners is no simple polygon. Wall i joins corner i and the next. */
export type OutlineFault =
  | { readonly code: 'few-corners' }
  | { readonly code: 'zero-wall'; readonly wall: number }
  | { readonly code: 'self-crossing' | 'self-touching'; readonly wall: number; readonly other: number };

/** The first thing that keeps a ring of corners from being a simple polygon, or null. Corners on a straight wall are allowed. Exact. */
export function outlineFault(corners: readonly Point[]): OutlineFault | null {
  const count = corners.length;
  if (count < 3) return { code: 'few-corners' };
  const corner = (i: number) => corners[i % count]!;
  for (let i = 0; i < count; i++) {
    if (corner(i).x === corner(i + 1).x && corner(i).y === corner(i + 1).y) return { code: 'zero-wall', wall: i };
  }
  let touching: OutlineFault | null = null;
  for (let i = 0; i < count; i++) {
    const [a, b, c] = [corner(i), corner(i + 1), corner(i + 2)];
    if (turn(a, b, c) === 0 && (between(a, b, c) || between(b, c, a)))
      touching ??= { code: 'self-touching', wall: i, other: (i + 1) % count };
    // Neighbours share a corner: only the walls between the next but one and the last but one can meet this one by fault.
    const last = i === 0 ? count - 1 : count;
    for (let k = i + 2; k < last; k++) {
      const met = meeting(a, b, corner(k), corner(k + 1));
      if (met === 'cross') return { code: 'self-crossing', wall: i, other: k };
      if (met === 'touch') touching ??= { code: 'self-touching', wall: i, other: k };
    }
  }
  return touching;
}

/** Where a point lies to a simple polygon: 1 inside, 0 on its outline, -1 outside. Exact. */
export function placeIn(corners: readonly Point[], q: Point): -1 | 0 | 1 {
  let inside = false;
  for (let i = 0; i < corners.length; i++) {
    const a = corners[i]!;
    const b = corners[(i + 1) % corners.length]!;
    if (onSegment(a, b, q)) return 0;
    if (a.y > q.y === b.y > q.y) continue;
    const [low, high] = a.y < b.y ? [a, b] : [b, a];
    if (turn(low, high, q) > 0) inside = !inside;
  }
  return inside ? 1 : -1;
}

/** Twice the area, positive when the corners run against the clock (y upwards). Exact. */
export function doubleArea(corners: readonly Point[]): bigint {
  let sum = 0n;
  for (let i = 0; i < corners.length; i++) {
    const a = corners[i]!;
    const b = corners[(i + 1) % corners.length]!;
    sum += BigInt(a.x) * BigInt(b.y) - BigInt(b.x) * BigInt(a.y);
  }
  return sum;
}
