import { compare, type Ratio } from './exact.ts';
import type { Point } from './plane.ts';

/** A wall that is not level, from its lower to its upper end. */
export interface Side {
  readonly x1: number;
  readonly y1: number;
  readonly x2: number;
  readonly y2: number;
}

/** The part of a region between two levels and two sides. `above`: the cells of the next slab it shares an edge, not only a point, with. */
export interface Trapezoid {
  readonly lo: number;
  readonly hi: number;
  readonly left: Side;
  readonly right: Side;
  readonly above: readonly number[];
}

/** A region cut level with each of its corners. Slab i holds cells[starts[i]] up to cells[starts[i + 1]], between levels i and i + 1. */
export interface Trapezoids {
  readonly levels: readonly number[];
  readonly cells: readonly Trapezoid[];
  readonly starts: readonly number[];
}

/** Distance below which two computed places may be one: coordinates to 10^9 are computed to some 10^-6. */
const NEAR = 1e-3;

/** Where a side is at a level, as near as a double says; exact at its ends and when it is upright. */
export function xAt({ x1, y1, x2, y2 }: Side, y: number): number {
  if (x1 === x2 || y === y1) return x1;
  return y === y2 ? x2 : x1 + ((y - y1) / (y2 - y1)) * (x2 - x1);
}

/** Where a side is at a level, exactly. */
export function exactXAt({ x1, y1, x2, y2 }: Side, y: number): Ratio {
  const under = BigInt(y2 - y1);
  return { over: BigInt(x1) * under + BigInt(y - y1) * BigInt(x2 - x1), under };
}

/** Which of two places on sides lies further left: -1 the first, 1 the second, 0 neither. Exact. */
export function compareX(side: Side, y: number, other: Side, otherY: number): -1 | 0 | 1 {
  const off = xAt(side, y) - xAt(other, otherY);
  if (Math.abs(off) > NEAR) return off > 0 ? 1 : -1;
  return compare(exactXAt(side, y), exactXAt(other, otherY));
}

/** Cuts a region into trapezoids. Rings: an outline and its holes, each a simple polygon in either sense, none meeting another. */
export function trapezoids(rings: readonly (readonly Point[])[]): Trapezoids {
  const sides = rings.flatMap(sidesOf);
  const levels = [...new Set(rings.flat().map(({ y }) => y))].sort((a, b) => a - b);
  const slabs = levels.slice(1).map((hi, i) => slabBetween(sides, levels[i]!, hi));
  const starts = [0];
  for (const slab of slabs) starts.push(starts.at(-1)! + slab.length);
  const cells = slabs.flatMap((slab, i) =>
    slab.map((cell) => ({
      ...cell,
      above: (slabs[i + 1] ?? []).flatMap((next, k) => (sharesEdge(cell, next, cell.hi) ? [starts[i + 1]! + k] : [])),
    })),
  );
  return { levels, cells, starts };
}

type Cell = Omit<Trapezoid, 'above'>;

function sidesOf(ring: readonly Point[]): Side[] {
  return ring.flatMap((a, i) => {
    const b = ring[(i + 1) % ring.length]!;
    if (a.y === b.y) return [];
    const [low, high] = a.y < b.y ? [a, b] : [b, a];
    return [{ x1: low.x, y1: low.y, x2: high.x, y2: high.y }];
  });
}

function slabBetween(sides: readonly Side[], lo: number, hi: number): Cell[] {
  const across = sides.filter(({ y1, y2 }) => y1 <= lo && y2 >= hi);
  // Sides of simple rings do not cross: one that is left of another at one level and not right of it at the other is left of it.
  across.sort((a, b) => compareX(a, lo, b, lo) || compareX(a, hi, b, hi));
  const cells: Cell[] = [];
  for (let i = 0; i + 1 < across.length; i += 2) cells.push({ lo, hi, left: across[i]!, right: across[i + 1]! });
  return cells;
}

function sharesEdge(below: Cell, above: Cell, y: number): boolean {
  return (
    compareX(below.left, y, above.right, y) < 0 && compareX(above.left, y, below.right, y) < 0 && hasWidth(below, y) && hasWidth(above, y)
  );
}

function hasWidth({ left, right }: Cell, y: number): boolean {
  return compareX(left, y, right, y) < 0;
}

/** The slabs that a band between two levels meets with positive height, as first and last index; first > last when there is none. */
export function slabsBetween({ levels }: Trapezoids, lo: number, hi: number): { first: number; last: number } {
  let first = 0;
  while (first < levels.length - 1 && levels[first + 1]! <= lo) first++;
  let last = levels.length - 2;
  while (last >= 0 && levels[last]! >= hi) last--;
  return { first, last };
}
