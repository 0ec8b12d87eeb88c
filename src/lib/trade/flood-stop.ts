import { ok } from '../result.ts';
import { COVERAGE, stepUncertainty } from './_reading-error.ts';
import { levelFaults, type Level } from './flood-levels.ts';
import { firstFault, numberFault, type Computed, type Span } from './input.ts';

const RATE_MM_H: Span = [0, 100];
const HOUR_MS = 3_600_000;

/**
 * Where a failing test's level came to rest, which is about the height of the lowest hole it drained through. `stopped`: between
 * `lowMm` and `highMm`, best guess `levelMm`, reached between two moments. `falling`: still on its way, so the hole lies below
 * `belowMm`. `no-fall`: it never fell by more than evaporation and reading explain, or rose.
 */
export type StopLevel =
  | {
      readonly state: 'stopped';
      readonly levelMm: number;
      readonly lowMm: number;
      readonly highMm: number;
      readonly fromMs: number;
      readonly toMs: number;
    }
  | { readonly state: 'falling'; readonly belowMm: number }
  | { readonly state: 'no-fall' };

/**
 * The height where the fall of a failing test stops, from levels over time at one mark; the basin's own evaporation is no more than
 * `evaporationMmPerH` (a pan's pace, or the upper edge of what formulas allow).
 * The rest begins with the first reading from which every later one differs by no more than evaporation and half a step each. It
 * counts as reached when it lasted at least as long as the fall, and what may still creep is small beside what fell: then a seep, whose
 * pace goes with the head over the hole, has lost 63 % of what was left meanwhile. An orifice comes to rest sooner than a seep, water
 * over an edge later, so the interval is no certainty. The hole lies at most as much above the first level at rest as evaporated since
 * the reading before, and at most as much below as a seep may yet creep.
 * Errors: fewer than three levels, a value that is no number or out of range, two levels at one moment, a pace outside 0 to 100 mm/h.
 * Source: JCGM 100:2008, F.2.2.1 for the readings; the rest is geometry and our own judgement.
 */
export function stopLevel(failing: { readonly levels: readonly Level[]; readonly evaporationMmPerH: number }): Computed<StopLevel> {
  const { levels, evaporationMmPerH } = failing;
  const fault = firstFault([...levelFaults('levels', levels, 3), numberFault('evaporationMmPerH', evaporationMmPerH, RATE_MM_H)]);
  if (fault) return fault;
  const sorted = [...levels].sort((a, b) => a.atMs - b.atMs);
  const evaporated = (from: Level, to: Level) => (evaporationMmPerH * (to.atMs - from.atMs)) / HOUR_MS;
  const explained = (from: Level, to: Level) => Math.abs(from.levelMm - to.levelMm) <= evaporated(from, to) + pairMm(from, to);
  const rest = sorted.findIndex((from, at) => sorted.slice(at).every((to) => explained(from, to)));
  const [first, at, last] = [sorted[0]!, sorted[rest]!, sorted.at(-1)!];
  if (rest === 0 || at.levelMm >= first.levelMm) return ok({ state: 'no-fall' });
  const before = sorted[rest - 1]!;
  const lost = 1 - Math.exp(-(last.atMs - at.atMs) / (at.atMs - first.atMs));
  const creepMm = (Math.max(0, at.levelMm - last.levelMm) + pairMm(at, last)) / lost;
  const rested = last.atMs - at.atMs >= at.atMs - first.atMs && first.levelMm - at.levelMm >= (Math.E - 1) * creepMm;
  if (!rested) return ok({ state: 'falling', belowMm: last.levelMm + COVERAGE * stepUncertainty(last.resolutionMm) });
  return ok({
    state: 'stopped',
    levelMm: at.levelMm,
    lowMm: at.levelMm - creepMm,
    highMm: at.levelMm + evaporated(before, at) + COVERAGE * stepUncertainty(at.resolutionMm),
    fromMs: before.atMs,
    toMs: at.atMs,
  });
}

/**
 * How far two readings of one level may lie apart: half a step each. Not 2 u, which one pair of readings in twenty passes, as here each
 * reading of a series is held against all the others.
 */
function pairMm(a: Level, b: Level): number {
  return (a.resolutionMm + b.resolutionMm) / 2;
}
