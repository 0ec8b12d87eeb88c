import { compare, type Ratio } from '#lib/measure/exact.ts';
import { cutInGauges, piecesOfBand, type BandPiece } from './bands.ts';
import { candidates, multiplesRange, startsOf, type Candidates } from './candidates.ts';
import { fewest, follows, type Fewest } from './fewest.ts';
import { finest } from './finest.ts';
import type { Budget, StripProblem } from './problem.ts';
import { seamMeter } from './seams.ts';

/** A piece of a strip: its part of the region, and its cut in whole gauges. */
export interface StripPiece extends BandPiece {
  readonly strip: number;
  readonly cut: number;
}

/** A plan of strips in one direction with what it is measured by. */
export interface StripPlan {
  readonly positions: readonly number[];
  readonly pieces: readonly StripPiece[];
  /** Sum of the cuts in whole gauges. */
  readonly cut: number;
  readonly notched: number;
  readonly seam: Ratio;
  /** Infinity where there is one strip. */
  readonly smallestOverlap: number;
}

export interface StripAnswer {
  /** Null: none exists when `isProven`, else none was found in time. */
  readonly plan: StripPlan | null;
  readonly isProven: boolean;
  /** No plan of as few pieces has less cut, in whole gauges, and none has fewer pieces; null when that is not known. */
  readonly isLeastCut: boolean;
}

/** Up to this many starts all are weighed whatever the time; more only after a choice of them has given a plan. */
const AT_ONCE = 12_000;
/** More starts than this are not even listed. */
const TOO_MANY = 3_000_000;

/** The best plan in one direction. Proven best, unless the time runs out. */
export function planStrips(problem: StripProblem, budget: Budget): StripAnswer {
  const { first, last } = multiplesRange(problem);
  const count = last - first + 1;
  const always = () => true;
  if (count <= AT_ONCE) return solve(problem, startsOf(problem, 1), always, budget);
  const some = solve(problem, startsOf(problem, Math.ceil(count / AT_ONCE)), always, budget);
  const all = count <= TOO_MANY && budget() ? solve(problem, startsOf(problem, 1), budget, budget) : null;
  if (all === null || (all.plan === null && !all.isProven)) return { ...some, isProven: false, isLeastCut: false };
  if (all.isProven || some.plan === null) return all;
  return { ...all, plan: all.plan === null || compareStrips(some.plan, all.plan) < 0 ? some.plan : all.plan };
}

function solve(problem: StripProblem, at: Float64Array, toWeigh: Budget, toRefine: Budget): StripAnswer {
  if (!problem.pins.every((pin) => at.includes(pin))) return { plan: null, isProven: true, isLeastCut: false };
  const bands = candidates(problem, at, toWeigh);
  if (bands === null) return { plan: null, isProven: false, isLeastCut: false };
  const best = fewest(bands);
  const { on } = best;
  if (on === null) return { plan: null, isProven: true, isLeastCut: false };
  const meter = seamMeter(problem, best.toEnd.pieces[best.start]!);
  const chosen = finest(bands, problem.width, { ...best, on }, meter, toRefine);
  const plan = drawStrips(
    problem,
    Array.from(chosen ?? anyWay(bands, { ...best, on }), (i) => at[i]!),
  );
  return { plan, isProven: chosen !== null, isLeastCut: true };
}

/** One of the plans of fewest pieces, least cut and fewest notched pieces. */
function anyWay({ after, before, cost, lastFrom }: Candidates, { on, start, toEnd }: Fewest & { on: Uint8Array }): number[] {
  const way = [start];
  let i = start;
  while (i < lastFrom) {
    let k = before[i]!;
    while (k > after[i]! && !(on[k] === 1 && follows(toEnd, cost, i, k))) k--;
    way.push((i = k));
  }
  return way;
}

/** Which of two plans of a region is better by the measures, in their order: below zero the first. Directions and positions are not looked at. */
export function compareStrips(a: StripPlan, b: StripPlan): number {
  return (
    a.pieces.length - b.pieces.length ||
    a.cut - b.cut ||
    a.notched - b.notched ||
    compare(a.seam, b.seam) ||
    // Infinity less Infinity is no number.
    (a.smallestOverlap === b.smallestOverlap ? 0 : b.smallestOverlap - a.smallestOverlap)
  );
}

/** A plan of given positions with its pieces and measures. */
export function drawStrips(problem: StripProblem, positions: readonly number[]): StripPlan {
  const { region, width, upturn, gauge } = problem;
  const pieces = positions.flatMap((at, strip) =>
    piecesOfBand(region, at, at + width).map((piece) => ({ ...piece, strip, cut: cutInGauges(piece, upturn, gauge) })),
  );
  const meter = seamMeter(problem, positions.length);
  const zones = positions.slice(1).map((at, k) => ({ lo: at, hi: positions[k]! + width }));
  return {
    positions,
    pieces,
    cut: pieces.reduce((sum, { cut }) => sum + cut, 0),
    notched: pieces.filter(({ notched }) => notched).length,
    seam: meter.ratioOf(zones.reduce((sum, { lo, hi }) => sum + meter.exact(lo, hi), 0n)),
    smallestOverlap: Math.min(Infinity, ...zones.map(({ lo, hi }) => hi - lo)),
  };
}
