import { slabsBetween, type Trapezoids } from '#lib/measure/trapezoids.ts';
import { cutInGauges, piecesOfBand } from './bands.ts';
import { meetsZone } from './keep-out.ts';
import type { Budget, StripProblem } from './problem.ts';

/** What bands cost, or what the best rest of a plan costs from a band on: fewest pieces first, then least cut, then fewest notched. */
export interface Tally {
  /** NEVER where there is no way. */
  readonly pieces: Int32Array;
  /** Cut length in gauges. */
  readonly cut: Float64Array;
  readonly notched: Int32Array;
}

export const NEVER = 2 ** 30;

/** The bands a plan may choose from, and which may follow which. */
export interface Candidates {
  /** Where each starts, ascending. */
  readonly at: Float64Array;
  readonly cost: Tally;
  /** The longest cut of each, in gauges. */
  readonly longest: Float64Array;
  /** After band i come those from after[i] to before[i], first and last included; none when after > before. Neither ever falls. */
  readonly after: Int32Array;
  readonly before: Int32Array;
  /** A plan starts with one up to this index and ends with one from `lastFrom` on. */
  readonly firstUpTo: number;
  readonly lastFrom: number;
}

/** First and last multiple of the gauge at which a band holds floor. */
export function multiplesRange({ region, gauge, width }: StripProblem): { first: number; last: number } {
  const { lowest, highest } = reach(region.levels);
  return { first: Math.floor((lowest - width) / gauge) + 1, last: Math.ceil(highest / gauge) - 1 };
}

/** All possible starts, or every `step`th of them and those where a band begins or ends level with a corner, and the pins. */
export function startsOf(problem: StripProblem, step: number): Float64Array {
  const { region, gauge, width, upturn, overlap, pins } = problem;
  const { first, last } = multiplesRange(problem);
  if (step === 1) return Float64Array.from({ length: last - first + 1 }, (_, i) => (first + i) * gauge);
  const some = region.levels.flatMap((y) => [y, y - width, y - width + upturn, y - upturn, y - width + overlap]);
  const beside = some.flatMap((y) => [Math.floor(y / gauge), Math.ceil(y / gauge)]).filter((m) => m >= first && m <= last);
  const wanted = [...beside, ...pins.map((pin) => pin / gauge).filter((m) => Number.isInteger(m) && m >= first && m <= last)];
  for (let m = Math.ceil(first / step) * step; m <= last; m += step) wanted.push(m);
  return Float64Array.from(new Set(wanted), (m) => m * gauge).sort();
}

/** Costs and successions of the bands that start at given places. Null when the time is up. */
export function candidates(problem: StripProblem, at: Float64Array, budget: Budget): Candidates | null {
  const { region, width, upturn, pins } = problem;
  const count = at.length;
  const cost: Tally = { pieces: new Int32Array(count), cut: new Float64Array(count), notched: new Int32Array(count) };
  const longest = new Float64Array(count);
  const after = new Int32Array(count);
  const before = new Int32Array(count);
  const isUpright = uprightSlabs(region);
  let known = { first: -1, last: -1 };
  let free = 0;
  let far = -1;
  for (let i = 0; i < count; i++) {
    if (i % 512 === 511 && !budget()) return null;
    const top = at[i]! + width;
    const slabs = slabsBetween(region, at[i]!, top);
    const { first, last } = slabs;
    // Where a band ends between upright walls it costs what one costs that ends a little beside.
    if (first === known.first && last === known.last && isUpright[first] && isUpright[last]) {
      longest[i] = longest[i - 1]!;
      for (const key of ['pieces', 'cut', 'notched'] as const) cost[key][i] = cost[key][i - 1]!;
    } else longest[i] = weigh(problem, at[i]!, cost, i);
    known = slabs;
    free = Math.max(free, i + 1);
    while (free < count && isBlocked(problem, at[free]!, top)) free++;
    while (far + 1 < count && at[far + 1]! <= top - problem.overlap) far++;
    after[i] = free;
    // No step leads past a pin.
    before[i] = Math.min(far, indexOf(at, pins.find((pin) => pin > at[i]!) ?? Infinity));
  }
  const { lowest, highest } = reach(region.levels);
  const firstUpTo = lastUpTo(at, Math.min(lowest - upturn, pins[0] ?? Infinity));
  const lastFrom = indexOf(at, Math.max(highest + upturn - width, pins.at(-1) ?? -Infinity));
  return { at, cost, longest, after, before, firstUpTo, lastFrom };
}

function uprightSlabs({ cells, starts }: Trapezoids): boolean[] {
  return starts
    .slice(1)
    .map((end, slab) => cells.slice(starts[slab], end).every(({ left, right }) => left.x1 === left.x2 && right.x1 === right.x2));
}

function reach(levels: readonly number[]): { lowest: number; highest: number } {
  return { lowest: levels[0]!, highest: levels.at(-1)! };
}

/** Notes what a band costs, and returns its longest cut. */
function weigh({ region, width, upturn, gauge, longest }: StripProblem, at: number, cost: Tally, i: number): number {
  const pieces = piecesOfBand(region, at, at + width);
  let most = 0;
  for (const piece of pieces) {
    const cut = cutInGauges(piece, upturn, gauge);
    cost.cut[i]! += cut;
    if (piece.notched) cost.notched[i]!++;
    most = Math.max(most, cut);
  }
  cost.pieces[i] = most * gauge > longest ? NEVER : pieces.length;
  return most;
}

function isBlocked({ region, keepOuts }: StripProblem, lo: number, hi: number): boolean {
  return keepOuts.some((keepOut) => meetsZone(region, keepOut, lo, hi));
}

/** Index of the first start that is not below y, or the count of starts. */
function indexOf(at: Float64Array, y: number): number {
  let [low, high] = [0, at.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (at[middle]! < y) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** Index of the last start that is not above y, or -1. */
function lastUpTo(at: Float64Array, y: number): number {
  const i = indexOf(at, y);
  return at[i] === y ? i : i - 1;
}
