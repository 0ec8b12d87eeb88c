import type { Point } from './geometry.ts';

/** A row beside the drawing: the middle of its left edge. */
export interface RowAt {
  readonly x: number;
  readonly y: number;
}

/**
 * The leader from a gap in the wall to its row: level where the row lies beside the gap, else with one bend. It leaves the
 * gap where that is nearest to the row, so that leaders of gaps in the order of their rows do not cross.
 */
export function wallLeader(gap: { from: number; to: number; face: number }, row: RowAt): Point[] {
  const inset = Math.min(6, (gap.to - gap.from) / 4);
  const y = Math.min(Math.max(row.y, gap.from + inset), gap.to - inset);
  const start = { x: gap.face - 3, y };
  return y === row.y ? [start, row] : [start, { x: row.x - 6, y: row.y }, row];
}

/** The leader from a row to a layer without a wall leg: level out of its circle, then down to the floor. */
export function floorLeader(row: RowAt, x: number, y: number): Point[] {
  return [row, { x, y: row.y }, { x, y }];
}

/** A mark above a gap, or above a run of neighbours when there are too many to name each. */
export interface FloorKey {
  /** Centre of its box. */
  readonly x: number;
  readonly text: string;
  /** Where its leader ends. */
  readonly toY: number;
}

/** More items than this in a leg and a run of owed neighbours is marked as one, with its count. */
const NAMED_MAX = 8;

/** Keys above the gaps of a floor leg. `letter` is null for what is no gap. */
export function floorKeys(cells: readonly { from: number; to: number; face: number; letter: string | null }[]): FloorKey[] {
  const key = (run: typeof cells, text: string): FloorKey => ({
    x: (run[0]!.from + run.at(-1)!.to) / 2,
    text,
    toY: run[0]!.face + 3,
  });
  const gaps = cells.map((cell) => ({ ...cell, gap: cell.letter !== null }));
  if (cells.length <= NAMED_MAX) return gaps.filter(({ gap }) => gap).map((cell) => key([cell], cell.letter!));
  const runs: (typeof gaps)[] = [];
  gaps.forEach((cell, i) => {
    if (!cell.gap) return;
    if (gaps[i - 1]?.gap === true) runs.at(-1)!.push(cell);
    else runs.push([cell]);
  });
  return runs.map((run) => key(run, run.length === 1 ? run[0]!.letter! : String(run.length)));
}

/** Points as an SVG attribute, to a hundredth of a pixel. */
export function pointsText(points: readonly Point[]): string {
  return points.map(({ x, y }) => `${round(x)},${round(y)}`).join(' ');
}

function round(n: number): number {
  return Math.round(n * 100) / 100;
}
