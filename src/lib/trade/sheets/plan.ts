import { ceiling, type Ratio } from '#lib/measure/exact.ts';
import { exactXAt, trapezoids, xAt } from '#lib/measure/trapezoids.ts';
import { doubleArea, type Point } from '#lib/measure/plane.ts';
import { packRolls, type CutRoll, type RollStock } from './packing.ts';
import type { Budget, KeepOut, StripProblem } from './problem.ts';
import { compareStrips, planStrips, type StripAnswer, type StripPiece, type StripPlan } from './strips.ts';

/** Strips along x (0) or along y (90). */
export type Direction = 0 | 90;

/** A surface to be covered with strips from rolls. All lengths are whole ten-thousandths of the drawing's unit. */
export interface SheetTask {
  /** Outline of a floor or wall, and holes in it such as a niche; none of them meets another. */
  readonly rings: readonly (readonly Point[])[];
  readonly gauge: number;
  readonly roll: RollStock & { readonly width: number };
  readonly minOverlap: number;
  readonly upturn: number;
  readonly direction: 'free' | Direction;
  readonly keepOuts: readonly KeepOut[];
  /** Places across where a strip has to start. With pins the direction is fixed. */
  readonly pins: readonly number[];
  /** A cap somebody put on the cut of a piece. */
  readonly longestPiece: number | null;
}

export interface SheetPiece {
  /** A, B ... Z, AA ... by strip, and along the strip. */
  readonly id: string;
  readonly strip: number;
  /** Extent along the strip on the surface, without upturn. */
  readonly from: Ratio;
  readonly to: Ratio;
  readonly cutLength: number;
  readonly notched: boolean;
  /** What it covers, as convex polygons side by side, in the drawing's coordinates; corners as near as a double says. */
  readonly parts: readonly (readonly Point[])[];
}

export interface SheetPlan {
  readonly direction: Direction;
  readonly positions: readonly number[];
  readonly pieces: readonly SheetPiece[];
  readonly totalCut: number;
  readonly notched: number;
  readonly seamLength: Ratio;
  /** Null where there is one strip. */
  readonly smallestOverlap: number | null;
  /** Walls along the strips, between the lowest and the highest, that no floor sheet goes up; the base band owes it. */
  readonly upturnMissing: readonly number[];
  readonly rolls: readonly CutRoll[];
  readonly proven: { readonly plan: boolean; readonly packing: boolean };
  /** Total cut over its lower bound at this number of pieces, less 1. */
  readonly gap: number;
}

/** What is known when there is no plan: that none exists, or only that the time was up; or a plan that the rolls are too short for. */
export type NoPlan =
  | { readonly kind: 'none'; readonly isProven: boolean }
  | { readonly kind: 'rolls'; readonly isProven: boolean; readonly cuts: readonly number[] };

/** The best plan of sheets, proven unless the time runs out. Aims in their order: see docs/plan.md. */
export function planSheets(task: SheetTask, budget: Budget): { plan: SheetPlan } | { plan: null; why: NoPlan } {
  const { plan, isProven } = planSurface(task, budget);
  if (plan === null) return { plan: null, why: { kind: 'none', isProven } };
  const cuts = plan.pieces.map(({ cutLength }) => cutLength);
  const packing = packRolls(cuts, task.roll, budget);
  if (packing.rolls === null) return { plan: null, why: { kind: 'rolls', isProven: packing.isProven, cuts } };
  return { plan: { ...plan, rolls: packing.rolls, proven: { plan: isProven, packing: packing.isProven } } };
}

/** A plan before its pieces are put on rolls. */
export type SurfacePlan = Omit<SheetPlan, 'rolls' | 'proven'>;

/** The best plan of one surface; its rolls are not packed. */
export function planSurface(task: SheetTask, budget: Budget): { readonly plan: SurfacePlan | null; readonly isProven: boolean } {
  const answers = directionsOf(task).map((direction) => ({ direction, ...planStrips(stripProblem(task, direction), budget) }));
  const best = answers.reduce<{ direction: Direction; strips: StripPlan } | null>(
    (one, { direction, plan }) =>
      plan !== null && (one === null || compareStrips(plan, one.strips) < 0) ? { direction, strips: plan } : one,
    null,
  );
  const isProven = answers.every((answer) => answer.isProven);
  if (best === null) return { plan: null, isProven };
  const { direction, strips } = best;
  const plan = {
    direction,
    positions: strips.positions,
    pieces: strips.pieces.map((piece, i) => sheetPiece(piece, i, task, strips.positions[piece.strip]!, direction)),
    totalCut: strips.cut * task.gauge,
    notched: strips.notched,
    seamLength: strips.seam,
    smallestOverlap: strips.positions.length > 1 ? strips.smallestOverlap : null,
    upturnMissing: task.upturn > 0 ? wallsBetween(task.rings[0]!, direction) : [],
    gap: strips.cut / leastCut(task, strips, answers) - 1,
  };
  return { plan, isProven };
}

export function directionsOf({ direction }: Pick<SheetTask, 'direction'>): Direction[] {
  return direction === 'free' ? [0, 90] : [direction];
}

/** The task for strips in one direction, in coordinates along and across them. */
export function stripProblem(task: SheetTask, direction: Direction): StripProblem {
  const turned = (at: Point): Point => (direction === 0 ? at : { x: at.y, y: at.x });
  const { roll, longestPiece } = task;
  return {
    region: trapezoids(task.rings.map((ring) => ring.map(turned))),
    gauge: task.gauge,
    width: roll.width,
    overlap: task.minOverlap,
    upturn: task.upturn,
    longest: Math.min(longestPiece ?? Infinity, Math.max(...roll.atHand, roll.newLength ?? 0)),
    keepOuts: task.keepOuts.map(({ at, radius }) => ({ at: turned(at), radius })),
    pins: task.pins,
  };
}

/** A for 0, Z for 25, AA for 26. */
export function pieceId(index: number): string {
  const letter = String.fromCharCode(65 + (index % 26));
  return index < 26 ? letter : pieceId(Math.floor(index / 26) - 1) + letter;
}

function sheetPiece(piece: StripPiece, index: number, task: SheetTask, lo: number, direction: Direction): SheetPiece {
  const hi = lo + task.roll.width;
  const turned = (x: number, y: number): Point => (direction === 0 ? { x, y } : { x: y, y: x });
  return {
    id: pieceId(index),
    strip: piece.strip,
    from: exactXAt(piece.from.side, piece.from.y),
    to: exactXAt(piece.to.side, piece.to.y),
    cutLength: piece.cut * task.gauge,
    notched: piece.notched,
    parts: piece.cells.map(({ left, right, ...cell }) => {
      const [y1, y2] = [Math.max(lo, cell.lo), Math.min(hi, cell.hi)];
      return [turned(xAt(left, y1), y1), turned(xAt(right, y1), y1), turned(xAt(right, y2), y2), turned(xAt(left, y2), y2)];
    }),
  };
}

function wallsBetween(outline: readonly Point[], direction: Direction): number[] {
  const across = (at: Point) => (direction === 0 ? at.y : at.x);
  const levels = outline.map(across);
  const [lowest, highest] = [Math.min(...levels), Math.max(...levels)];
  return levels.flatMap((level, wall) => (level === levels[(wall + 1) % levels.length] && level > lowest && level < highest ? [wall] : []));
}

/** A lower bound, in gauges, of the cut of all plans with as many pieces: the least cut itself where it is known, else what the area takes. */
function leastCut({ rings, roll, upturn, gauge }: SheetTask, { pieces, cut }: StripPlan, answers: readonly StripAnswer[]): number {
  if (answers.every(({ isLeastCut, plan, isProven }) => isLeastCut || (plan === null && isProven))) return cut;
  const areas = rings.map((ring) => doubleArea(ring)).map((area) => (area < 0n ? -area : area));
  const area = areas.slice(1).reduce((rest, hole) => rest - hole, areas[0]!);
  // Every piece covers at most its extent times the width of the roll, and is cut longer by two upturns.
  const under = 2n * BigInt(roll.width);
  return Number(ceiling({ over: area + BigInt(2 * upturn * pieces.length) * under, under: under * BigInt(gauge) }));
}
