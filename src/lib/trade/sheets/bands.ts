import { ceiling, minus } from '#lib/measure/exact.ts';
import { compareX, exactXAt, slabsBetween, xAt, type Side, type Trapezoid, type Trapezoids } from '#lib/measure/trapezoids.ts';

/** A place on a side: where a piece ends. */
interface End {
  readonly side: Side;
  readonly y: number;
}

/** A part of region and open band with connected interior. */
export interface BandPiece {
  readonly from: End;
  readonly to: End;
  /** Not a rectangle with sides along and across the strip. */
  readonly notched: boolean;
  /** The trapezoids of the region it takes part of, from low to high. */
  readonly cells: readonly Trapezoid[];
}

/** The parts of the region between two levels, in order of where they start; of two that start level with each other the lower first. */
export function piecesOfBand(region: Trapezoids, lo: number, hi: number): BandPiece[] {
  const { first, last } = slabsBetween(region, lo, hi);
  if (first > last) return [];
  const base = region.starts[first]!;
  const groups = groupsOf(region, base, region.starts[last + 1]!, region.starts[last]!);
  const pieces = groups.map((cells) => pieceOf(cells, lo, hi));
  return pieces.sort((a, b) => compareX(a.from.side, a.from.y, b.from.side, b.from.y) || a.cells[0]!.lo - b.cells[0]!.lo);
}

/** Cells from `base` up to `end` by which hang together; those from `top` on are in the last slab, above which nothing counts. */
function groupsOf(region: Trapezoids, base: number, end: number, top: number): Trapezoid[][] {
  const parent = new Int32Array(end - base).map((_, i) => i);
  const root = (i: number): number => {
    while (parent[i] !== i) i = parent[i]!;
    return i;
  };
  for (let i = base; i < top; i++) for (const k of region.cells[i]!.above) parent[root(k - base)] = root(i - base);
  const groups = new Map<number, Trapezoid[]>();
  for (let i = base; i < end; i++) {
    const group = groups.get(root(i - base));
    if (group === undefined) groups.set(root(i - base), [region.cells[i]!]);
    else group.push(region.cells[i]!);
  }
  return [...groups.values()];
}

function pieceOf(cells: readonly Trapezoid[], lo: number, hi: number): BandPiece {
  let from: End | null = null;
  let to: End | null = null;
  const { left: left0, right: right0 } = cells[0]!;
  let notched = false;
  for (const { lo: cellLo, hi: cellHi, left, right } of cells) {
    const y1 = Math.max(lo, cellLo);
    const y2 = Math.min(hi, cellHi);
    const start: End = { side: left, y: left.x2 < left.x1 ? y2 : y1 };
    const stop: End = { side: right, y: right.x2 > right.x1 ? y2 : y1 };
    if (from === null || compareX(start.side, start.y, from.side, from.y) < 0) from = start;
    if (to === null || compareX(stop.side, stop.y, to.side, to.y) > 0) to = stop;
    notched ||= left.x1 !== left0.x1 || right.x1 !== right0.x1 || left.x1 !== left.x2 || right.x1 !== right.x2;
  }
  return { from: from!, to: to!, notched, cells };
}

/** How near to a whole gauge a computed length is looked at exactly. */
const NEAR = 1e-3;

/** The cut of a piece in whole gauges: extent along the strip and the upturn at both ends, rounded up. Exact. */
export function cutInGauges({ from, to }: Pick<BandPiece, 'from' | 'to'>, upturn: number, gauge: number): number {
  const length = xAt(to.side, to.y) - xAt(from.side, from.y) + 2 * upturn;
  const up = Math.ceil(length / gauge);
  if (length - (up - 1) * gauge > NEAR && up * gauge - length > NEAR) return up;
  const extent = minus(exactXAt(to.side, to.y), exactXAt(from.side, from.y));
  const exact = { over: extent.over + BigInt(2 * upturn) * extent.under, under: extent.under * BigInt(gauge) };
  return Number(ceiling(exact));
}
