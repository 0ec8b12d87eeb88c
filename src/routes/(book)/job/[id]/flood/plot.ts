import type { Level } from '#lib/trade/flood-levels.ts';

/** Points of a series on the plot: hours since the fill, and how far the level fell since its first reading, in mm. */
export interface PlotPoint {
  readonly hours: number;
  readonly dropMm: number;
}

const HOUR_MS = 3_600_000;

export function dropsOf(levels: readonly Level[], filledMs: number): PlotPoint[] {
  const first = levels[0];
  return first === undefined
    ? []
    : levels.map(({ atMs, levelMm }) => ({ hours: Math.max(0, (atMs - filledMs) / HOUR_MS), dropMm: first.levelMm - levelMm }));
}

/** Round steps for an axis: at most `most` of them, none finer than `least`. */
export function axisSteps(to: number, most: number, least: number): number[] {
  const rough = Math.max(to / most, least);
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = [1, 2, 5, 10].map((digit) => digit * power).find((one) => one >= rough * (1 - 1e-9)) ?? rough;
  return Array.from({ length: Math.floor(to / step + 1e-9) + 1 }, (_, i) => i * step);
}
