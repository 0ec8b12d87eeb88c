import type { PlanForm } from '../../record/drawing-drafts.ts';
import type { Limit } from '../../record/kinds/setup.ts';
import { limitBase } from '../judged.ts';
import type { JobState } from '../state.ts';
import { keptPlan } from './laid.ts';
import { EMPTY_PLAN } from './plan-input.ts';

/**
 * What the form of a room's plan begins with: the laps by the job's limits; for walls what the floor is cut from, as it was typed (`floor`) or
 * else as its plan was kept. Rolls at hand are not taken over: the floor's pieces are cut from them.
 */
export function firstPlan(of: 'floor' | 'walls', job: JobState, room: string, floor: PlanForm | null): PlanForm {
  const overlap = leastOf('overlap', job.limits);
  if (of === 'floor') return { ...EMPTY_PLAN, overlap, upturn: endsAtWall(job, room) ? '' : leastOf('upturn', job.limits) };
  const kept = keptPlan(job, room);
  const { roll, minOverlap } = (kept?.fact.data.input ?? {}) as { roll?: Readonly<Record<string, unknown>>; minOverlap?: unknown };
  const said = (value: unknown) => (typeof value === 'string' && kept !== null ? `${value} ${kept.sheets.unit}` : '');
  const either = (typed: string | undefined, planned: unknown) => (typed === undefined || typed.trim() === '' ? said(planned) : typed);
  return {
    ...EMPTY_PLAN,
    width: either(floor?.width, roll?.['width']),
    newLength: either(floor?.newLength, roll?.['newLength']),
    overlap: either(floor?.overlap, minOverlap) || overlap,
  };
}

/** Under liquid walls the sheet ends at the wall, and the band turns up it in its place. */
function endsAtWall(job: JobState, room: string): boolean {
  const floors = job.surfaces.filter((one) => one.room === room && one.place === 'floor');
  return floors.length > 0 && floors.every(({ system }) => system === 'sheet-floor-liquid-walls');
}

/** What satisfies every lower limit of a measure, as its limit says it; nothing where none is set. */
function leastOf(what: 'overlap' | 'upturn', limits: readonly Limit[]): string {
  const lower = limits.filter((one) => one.what === what && one.min !== null);
  const strictest = lower.toSorted((a, b) => limitBase(b).min! - limitBase(a).min!)[0];
  return strictest === undefined ? '' : `${strictest.min} ${strictest.unit}`;
}
