import type { Ratio } from '#lib/measure/exact.ts';
import { candidates, multiplesRange, NEVER, startsOf } from './candidates.ts';
import { fewest } from './fewest.ts';
import { exactXAt } from '#lib/measure/trapezoids.ts';
import { packRolls } from './packing.ts';
import { directionsOf, planSheets, stripProblem, type Direction, type NoPlan, type SheetTask } from './plan.ts';
import type { Budget, StripProblem } from './problem.ts';
import { planStrips } from './strips.ts';

/** Which limit stands in the way of any plan. */
export type ImpossibleCode =
  | 'piece-too-long'
  | 'keep-out'
  | 'piece-too-long-and-keep-out'
  | 'pins'
  | 'upturn-too-deep'
  | 'gauge-too-coarse'
  | 'rolls-too-short'
  | 'no-time';

/** A change of the task with which a plan exists; tried. */
export interface SheetRemedy {
  readonly kind:
    | 'direction'
    | 'longer-roll'
    | 'longer-piece-and-smaller-keep-out'
    | 'longer-piece'
    | 'wider-roll'
    | 'smaller-keep-out'
    | 'smaller-upturn'
    | 'finer-gauge'
    | 'free-seams';
  readonly change: Partial<Pick<SheetTask, 'direction' | 'roll' | 'longestPiece' | 'keepOuts' | 'upturn' | 'gauge' | 'pins'>>;
}

export interface Impossible {
  readonly code: ImpossibleCode;
  /** The longest piece of the plan whose longest piece is shortest, where that is what stands in the way. */
  readonly piece: LongPiece | null;
  /** Indices of the keep-outs in the way. */
  readonly keepOuts: readonly number[];
  readonly remedies: readonly SheetRemedy[];
  /** False where only the time was up. */
  readonly isProven: boolean;
}

interface LongPiece {
  readonly direction: Direction;
  readonly position: number;
  readonly from: Ratio;
  readonly to: Ratio;
  readonly cutLength: number;
}

const ALWAYS: Budget = () => true;

/** Why there is no plan, and what would help: every remedy named was tried. */
export function whyImpossible(task: SheetTask, why: NoPlan, budget: Budget): Impossible {
  if (!why.isProven) return { code: 'no-time', piece: null, keepOuts: [], remedies: [], isProven: false };
  if (why.kind === 'rolls') {
    const remedies = tried(task, [...givenDirections(task), newRoll(task, why.cuts)], budget);
    return { code: 'rolls-too-short', piece: null, keepOuts: [], remedies, isProven: true };
  }
  const problems = directionsOf(task).map((direction) => ({ direction, problem: stripProblem(task, direction) }));
  // The direction in which least stands in the way.
  const limits = problems
    .map((one) => ({ ...one, code: limitOf(one.problem) }))
    .sort((a, b) => ORDER.indexOf(a.code) - ORDER.indexOf(b.code));
  const { code, problem } = limits[0]!;
  const needs = problems
    .flatMap(({ direction, problem: own }) => (budget() ? shortestLongest(own, direction, budget) : []))
    .sort((a, b) => a.cutLength - b.cutLength);
  const tooLong = code.startsWith('piece-too-long') ? (needs[0] ?? null) : null;
  return {
    code,
    piece: tooLong,
    keepOuts: code.endsWith('keep-out') ? keepOutsInTheWay(problem) : [],
    remedies: tried(task, proposals(task, code, tooLong, budget), budget),
    isProven: true,
  };
}

const ORDER: readonly ImpossibleCode[] = [
  'pins',
  'piece-too-long',
  'keep-out',
  'piece-too-long-and-keep-out',
  'gauge-too-coarse',
  'upturn-too-deep',
];

function hasPlan(problem: StripProblem): boolean {
  const { first, last } = multiplesRange(problem);
  const at = startsOf(problem, Math.max(1, Math.ceil((last - first) / 4000)));
  if (!problem.pins.every((pin) => at.includes(pin))) return false;
  return fewest(candidates(problem, at, ALWAYS)!).start >= 0;
}

function limitOf(problem: StripProblem): ImpossibleCode {
  const open = { ...problem, longest: Infinity, keepOuts: [] };
  const free = { ...open, pins: [] };
  if (!hasPlan(free)) return hasPlan({ ...free, upturn: 0 }) ? 'upturn-too-deep' : 'gauge-too-coarse';
  if (!hasPlan(open) || hasPlan({ ...problem, pins: [] })) return 'pins';
  if (hasPlan({ ...problem, longest: Infinity })) return 'piece-too-long';
  return hasPlan({ ...problem, keepOuts: [] }) ? 'keep-out' : 'piece-too-long-and-keep-out';
}

/** The longest piece of a plan whose longest piece is as short as can be, whatever the rolls; keep-outs too, unless they leave no plan. */
function shortestLongest(limited: StripProblem, direction: Direction, budget: Budget): LongPiece[] {
  const around = { ...limited, longest: Infinity };
  const problem = hasPlan(around) ? around : { ...around, keepOuts: [] };
  const { first, last } = multiplesRange(problem);
  const bands = candidates(problem, startsOf(problem, Math.max(1, Math.ceil((last - first) / 4000))), ALWAYS)!;
  const lengths = [...new Set(bands.longest)].sort((a, b) => a - b);
  const capped = (most: number) => ({
    ...bands,
    cost: { ...bands.cost, pieces: bands.cost.pieces.map((n, i) => (bands.longest[i]! > most ? NEVER : n)) },
  });
  let [low, high] = [0, lengths.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (fewest(capped(lengths[middle]!)).start >= 0) high = middle;
    else low = middle + 1;
  }
  const need = lengths[low];
  if (need === undefined) return [];
  const { plan } = planStrips({ ...problem, longest: need * problem.gauge }, budget);
  const piece = plan?.pieces.find(({ cut }) => cut === Math.max(...plan.pieces.map((one) => one.cut)));
  if (plan === null || piece === undefined) return [];
  const { from, to } = piece;
  return [
    {
      direction,
      position: plan.positions[piece.strip]!,
      from: exactXAt(from.side, from.y),
      to: exactXAt(to.side, to.y),
      cutLength: piece.cut * problem.gauge,
    },
  ];
}

function keepOutsInTheWay(problem: StripProblem): number[] {
  const all = problem.keepOuts.map((_, i) => i);
  const open = { ...problem, longest: Infinity };
  const single = all.filter((i) => hasPlan({ ...open, keepOuts: problem.keepOuts.toSpliced(i, 1) }));
  return single.length > 0 ? single : all;
}

/** The remedies that work; where none does alone, those that do with a longer new roll. */
function tried(task: SheetTask, remedies: readonly SheetRemedy[], budget: Budget): SheetRemedy[] {
  const short: SheetRemedy[] = [];
  const found = remedies.filter(({ kind, change }) => {
    if (!budget()) return false;
    const changed = { ...task, ...change };
    const planned = planSheets(changed, budget);
    if (planned.plan !== null) return true;
    if (planned.why.kind === 'rolls') short.push({ kind, change: { ...change, ...newRoll(changed, planned.why.cuts).change } });
    return false;
  });
  return found.length > 0 ? found : short.filter(({ change }) => budget() && planSheets({ ...task, ...change }, budget).plan !== null);
}

function proposals(task: SheetTask, code: ImpossibleCode, tooLong: LongPiece | null, budget: Budget): SheetRemedy[] {
  const { direction, pins, roll, gauge } = task;
  const found: SheetRemedy[] = [];
  if (pins.length > 0) found.push({ kind: 'free-seams', change: { pins: [] } });
  if (direction !== 'free') found.push(...givenDirections(task));
  const longer = tooLong === null ? null : longerPiece(task, tooLong.cutLength);
  if (code === 'piece-too-long-and-keep-out') {
    const [smaller] = longer === null ? [] : smallerKeepOuts({ ...task, ...longer.change });
    if (smaller !== undefined) found.push({ kind: 'longer-piece-and-smaller-keep-out', change: { ...longer!.change, ...smaller.change } });
  } else if (longer !== null) found.push(longer);
  if (code === 'keep-out') found.push(...smallerKeepOuts(task), ...widerRoll(task, budget));
  if (code === 'upturn-too-deep') found.push(...smallerUpturn(task), ...widerRoll(task, budget));
  if (code === 'gauge-too-coarse') {
    const finer = [2, 4, 8, 16, 32].map((n) => gauge / n).find((g) => Number.isInteger(g) && works({ ...task, gauge: g }));
    if (finer !== undefined) found.push({ kind: 'finer-gauge', change: { gauge: finer } });
    if (roll.width < gauge) found.push(...widerRoll(task, budget));
  }
  return found;
}

/** Directions that were not asked for. */
function givenDirections({ direction, pins }: SheetTask): SheetRemedy[] {
  const others = ([0, 90] as const).filter((one) => one !== direction && pins.length === 0);
  return others.map((one) => ({ kind: 'direction', change: { direction: one } }));
}

/** Whether there is a plan of strips; rolls are not packed. */
function works(task: SheetTask): boolean {
  return directionsOf(task).some((direction) => hasPlan(stripProblem(task, direction)));
}

function longerPiece({ roll, longestPiece }: SheetTask, need: number): SheetRemedy {
  const isRollShort = Math.max(...roll.atHand, roll.newLength ?? 0) < need;
  const cap = longestPiece !== null && longestPiece < need ? { longestPiece: need } : {};
  return isRollShort
    ? { kind: 'longer-roll', change: { roll: { ...roll, newLength: need }, ...cap } }
    : { kind: 'longer-piece', change: cap };
}

/** The largest radius, in gauges, down to which the larger keep-outs would have to shrink. */
function smallerKeepOuts(task: SheetTask): SheetRemedy[] {
  const shrunk = (most: number) => ({
    keepOuts: task.keepOuts.map(({ at, radius }) => ({ at, radius: Math.min(radius, most * task.gauge) })),
  });
  const most = largest(Math.floor(Math.max(...task.keepOuts.map(({ radius }) => radius)) / task.gauge), (n) =>
    works({ ...task, ...shrunk(n) }),
  );
  return most === null ? [] : [{ kind: 'smaller-keep-out', change: shrunk(most) }];
}

function smallerUpturn(task: SheetTask): SheetRemedy[] {
  const most = largest(Math.floor(task.upturn / task.gauge), (n) => works({ ...task, upturn: n * task.gauge }));
  return most === null ? [] : [{ kind: 'smaller-upturn', change: { upturn: most * task.gauge } }];
}

/** A wider roll, up to three times the width in 48 steps: wider is not always better, so they are tried in turn. */
function widerRoll(task: SheetTask, budget: Budget): SheetRemedy[] {
  const step = Math.ceil(task.roll.width / 24 / task.gauge) * task.gauge;
  for (let n = 1; n <= 48 && budget(); n++) {
    const roll = { ...task.roll, width: task.roll.width + n * step };
    if (works({ ...task, roll })) return [{ kind: 'wider-roll', change: { roll } }];
  }
  return [];
}

/** The largest whole number up to `most` that holds, for what holds below any number it holds for; null when 0 does not. */
function largest(most: number, holds: (n: number) => boolean): number | null {
  if (!holds(0)) return null;
  let [low, high] = [0, most];
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (holds(middle)) low = middle;
    else high = middle - 1;
  }
  return low;
}

/** The shortest new roll, in gauges, of which one is enough beside the rolls at hand. */
export function newRoll({ roll, gauge }: Pick<SheetTask, 'roll' | 'gauge'>, cuts: readonly number[]): SheetRemedy {
  const isEnough = (length: number) => packRolls(cuts, { atHand: [...roll.atHand, length], newLength: null }, ALWAYS).rolls !== null;
  let low = Math.max(...cuts) / gauge;
  let high = cuts.reduce((sum, cut) => sum + cut, 0) / gauge;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (isEnough(middle * gauge)) high = middle;
    else low = middle + 1;
  }
  return { kind: 'longer-roll', change: { roll: { ...roll, newLength: low * gauge } } };
}
