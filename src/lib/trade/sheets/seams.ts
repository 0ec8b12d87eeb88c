import { commonDivisor, type Ratio } from '#lib/measure/exact.ts';
import type { Side, Trapezoids } from '#lib/measure/trapezoids.ts';
import type { StripProblem } from './problem.ts';

/** Length of the seam in an overlap zone: of the projection of the region between two levels onto the strip's direction. */
export interface SeamMeter {
  /** Lengths further apart than this, in the meter's own unit, compare as they should; 0 when all lengths are exact. */
  readonly blur: number;
  /** Measures zones below one upper level, for lower levels that descend. */
  sweep(top: number): SeamSweep;
  /** The exact length, in a unit that is the same for all zones. */
  exact(lo: number, hi: number): bigint;
  /** What a sum of exact lengths is in ten-thousandths. */
  ratioOf(sum: bigint): Ratio;
}

export interface SeamSweep {
  /** The length, in the meter's own unit. */
  down(lo: number): number;
  /** Whether the last length was exact whatever the blur. */
  readonly isExact: boolean;
}

/** How far a sum of rounded lengths can be off, with room to spare: coordinates to 10^9 are computed to some 10^-6. */
const BLUR = 1e-2;

/** The largest sum that doubles hold exactly, with room to spare. */
const EXACT_MAX = 2 ** 51;

/**
 * A meter for plans of up to `seams` seams. All places where a side can meet the edge of a zone have a common denominator. While it is
 * small the meter counts in its parts, and doubles are exact; else it counts in rounded ten-thousandths, and what is near is exact in BigInts.
 */
export function seamMeter(problem: StripProblem, seams: number): SeamMeter {
  const { region } = problem;
  const step = commonStep(problem);
  const under = denominator(region, step);
  const left = Math.min(...region.cells.flatMap((cell) => [cell.left.x1, cell.left.x2]));
  const right = Math.max(...region.cells.flatMap((cell) => [cell.right.x1, cell.right.x2]));
  const isSmall = Number(under) * (right - left) * (seams + 2) < EXACT_MAX;
  const lines = isSmall ? linesOf(region, left, under, step) : linesOf(region, left, 1n, 1n);
  return {
    blur: isSmall ? 0 : BLUR,
    sweep: (top) => sweep(region, lines, top),
    exact: (lo, hi) => exactLength(region, under, lo, hi),
    ratioOf: (sum) => ({ over: sum, under }),
  };
}

/** All levels that may occur are its multiples. */
function commonStep({ region, gauge, width }: StripProblem): bigint {
  return [width, ...region.levels].reduce((a, b) => commonDivisor(a, BigInt(b)), BigInt(gauge));
}

/** The smallest number by which every place of a side at a multiple of the step becomes whole. */
function denominator({ cells }: Trapezoids, step: bigint): bigint {
  let under = 1n;
  for (const { left, right } of cells) {
    for (const { x1, y1, x2, y2 } of [left, right]) {
      const over = BigInt(x2 - x1) * step;
      const own = BigInt(y2 - y1) / commonDivisor(BigInt(y2 - y1), over);
      under *= own / commonDivisor(under, own);
    }
  }
  return under;
}

/** A side as x = x1 + ((y - y1) / step) * run, in the meter's unit: whole numbers throughout where the meter is exact. */
interface Line {
  readonly x1: number;
  readonly y1: number;
  readonly step: number;
  readonly run: number;
}

interface Lines {
  readonly left: readonly Line[];
  readonly right: readonly Line[];
}

function linesOf({ cells }: Trapezoids, origin: number, under: bigint, step: bigint): Lines {
  const line = ({ x1, y1, x2, y2 }: Side): Line => {
    const over = BigInt(x2 - x1) * under * step;
    const rise = BigInt(y2 - y1);
    const run = over % rise === 0n ? Number(over / rise) : Number(over) / Number(rise);
    return { x1: (x1 - origin) * Number(under), y1, step: Number(step), run };
  };
  return { left: cells.map((cell) => line(cell.left)), right: cells.map((cell) => line(cell.right)) };
}

const xOf = ({ x1, y1, step, run }: Line, y: number) => x1 + ((y - y1) / step) * run;

function sweep({ levels, starts }: Trapezoids, { left, right }: Lines, top: number): SeamSweep {
  let slab = levels.length - 2;
  while (slab >= 0 && levels[slab]! >= top) slab--;
  // Disjoint stretches of what lies wholly above the slab in hand, ascending.
  const covered: number[] = [];
  let isExact = true;
  let upright = NaN;

  /** Adds what one slab has between two levels to disjoint ascending stretches. */
  const add = (stretches: number[], lo: number, hi: number) => {
    let slanted = false;
    for (let i = starts[slab]!; i < starts[slab + 1]!; i++) {
      const [l, r] = [left[i]!, right[i]!];
      slanted ||= l.run !== 0 || r.run !== 0;
      include(stretches, Math.min(xOf(l, lo), xOf(l, hi)), Math.max(xOf(r, lo), xOf(r, hi)));
    }
    if (slanted) isExact = false;
    return slanted;
  };

  return {
    down(lo) {
      while (slab >= 0 && lo <= levels[slab]!) {
        add(covered, levels[slab]!, Math.min(levels[slab + 1]!, top));
        slab--;
        upright = NaN;
      }
      if (slab < 0 || lo >= Math.min(levels[slab + 1]!, top)) return lengthOf(covered);
      // Between upright walls the length stays what it is all the way down.
      if (!Number.isNaN(upright)) return upright;
      const all = covered.slice();
      const slanted = add(all, lo, Math.min(levels[slab + 1]!, top));
      const length = lengthOf(all);
      if (!slanted) upright = length;
      return length;
    },
    get isExact() {
      return isExact;
    },
  };
}

/** Adds a stretch to disjoint ascending ones, kept as from, to, from, to ... */
function include(stretches: number[], from: number, to: number): void {
  if (to <= from) return;
  let i = 0;
  while (i < stretches.length && stretches[i + 1]! < from) i += 2;
  let k = i;
  while (k < stretches.length && stretches[k]! <= to) {
    from = Math.min(from, stretches[k]!);
    to = Math.max(to, stretches[k + 1]!);
    k += 2;
  }
  stretches.splice(i, k - i, from, to);
}

function lengthOf(stretches: readonly number[]): number {
  let sum = 0;
  for (let i = 0; i < stretches.length; i += 2) sum += stretches[i + 1]! - stretches[i]!;
  return sum;
}

function exactLength({ cells }: Trapezoids, under: bigint, lo: number, hi: number): bigint {
  const x = ({ x1, y1, x2, y2 }: Side, y: number) => BigInt(x1) * under + (BigInt(y - y1) * BigInt(x2 - x1) * under) / BigInt(y2 - y1);
  const stretches: { from: bigint; to: bigint }[] = [];
  for (const cell of cells) {
    const [y1, y2] = [Math.max(lo, cell.lo), Math.min(hi, cell.hi)];
    if (y1 >= y2) continue;
    const { left, right } = cell;
    stretches.push({ from: x(left, left.x2 < left.x1 ? y2 : y1), to: x(right, right.x2 > right.x1 ? y2 : y1) });
  }
  stretches.sort((a, b) => (a.from < b.from ? -1 : a.from > b.from ? 1 : 0));
  let sum = 0n;
  let end: bigint | null = null;
  for (const { from, to } of stretches) {
    const start: bigint = end === null || from > end ? from : end;
    if (to > start) sum += to - start;
    if (end === null || to > end) end = to;
  }
  return sum;
}
