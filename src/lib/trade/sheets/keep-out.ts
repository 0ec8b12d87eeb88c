import { compare, minus, ratio, signOf, type Ratio } from '#lib/measure/exact.ts';
import { exactXAt, slabsBetween, xAt, type Side, type Trapezoids } from '#lib/measure/trapezoids.ts';
import type { KeepOut } from './problem.ts';

/** Distance within which a computed one is looked at exactly. */
const NEAR = 1e-2;

/** Whether an open disc meets the interior of the region between two levels. Its centre may lie in a hole of the region. Exact. */
export function meetsZone(region: Trapezoids, keepOut: KeepOut, lo: number, hi: number): boolean {
  const { at, radius } = keepOut;
  if (radius === 0 || hi <= lo || hi <= at.y - radius || lo >= at.y + radius) return false;
  const { first, last } = slabsBetween(region, lo, hi);
  if (first > last) return false;
  for (let i = region.starts[first]!; i < region.starts[last + 1]!; i++) {
    const cell = region.cells[i]!;
    const [from, to] = [Math.max(lo, cell.lo), Math.min(hi, cell.hi)];
    const levels = from < at.y && at.y < to ? [from, at.y, to] : [from, to];
    if (levels.slice(1).some((level, k) => meetsPart(keepOut, { ...cell, lo: levels[k]!, hi: level }))) return true;
  }
  return false;
}

/** A trapezoid cut off level, none of whose inner points is level with the centre of the disc it is held against. */
interface Part {
  readonly lo: number;
  readonly hi: number;
  readonly left: Side;
  readonly right: Side;
}

/**
 * Whether an open disc comes nearer to the part than its radius: to its level edges, or, where a side leans over the centre, to the
 * foot of the perpendicular on that side. The centre is not inside, as the part lies wholly above or below it.
 */
function meetsPart({ at, radius }: KeepOut, { lo, hi, left, right }: Part): boolean {
  return (
    [lo, hi].some((y) => nearEdge(at.x, y - at.y, radius, left, right, y)) ||
    [left, right].some((side) => nearSide(at, radius, side, lo, hi))
  );
}

function nearEdge(x: number, rise: number, radius: number, left: Side, right: Side, y: number): boolean {
  const past = Math.max(xAt(left, y) - x, x - xAt(right, y), 0);
  const off = Math.hypot(past, rise) - radius;
  if (Math.abs(off) > NEAR) return off < 0;
  const exactPast = [minus(exactXAt(left, y), ratio(x)), minus(ratio(x), exactXAt(right, y)), ratio(0)].reduce((a, b) =>
    compare(a, b) < 0 ? b : a,
  );
  return signOf(square(exactPast.over) - (square(BigInt(radius)) - square(BigInt(rise))) * square(exactPast.under)) < 0;
}

function nearSide(at: { x: number; y: number }, radius: number, { x1, y1, x2, y2 }: Side, lo: number, hi: number): boolean {
  const [dx, dy] = [BigInt(x2 - x1), BigInt(y2 - y1)];
  const [ax, ay] = [BigInt(at.x - x1), BigInt(at.y - y1)];
  const under = square(dx) + square(dy);
  // Level of the foot: y1 + dy * along / under.
  const foot: Ratio = { over: dy * (ax * dx + ay * dy), under };
  if (compare(foot, ratio(lo - y1)) < 0 || compare(foot, ratio(hi - y1)) > 0) return false;
  return square(ax * dy - ay * dx) < square(BigInt(radius)) * under;
}

function square(value: bigint): bigint {
  return value * value;
}
