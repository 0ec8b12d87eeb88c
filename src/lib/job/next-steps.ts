import { STEPS, type Step, type Surface } from '../record/kinds/setup.ts';
import type { JobState, Run } from './state.ts';
import { coatsOwed } from './proof.ts';
import { stepsOn } from './systems.ts';
import { heldUp, type StandingWait } from './waits.ts';

/** A step that some surfaces come to next, and the waits that stand in its way. */
export interface NextStep {
  readonly step: Step;
  readonly surfaces: readonly Surface[];
  readonly held: readonly StandingWait[];
}

/**
 * What can be worked on next, by step in the order of work: of each surface the first step after the last one begun there, and the
 * coat again until the coats owed are on.
 */
export function nextSteps(job: JobState, standing: readonly StandingWait[]): NextStep[] {
  const coatsOn = (surface: Surface, step: Step) => coatsIn(runsOn(job, surface, step));
  const next = job.surfaces.flatMap((surface) => {
    const steps = stepsOn(surface, job);
    const last = steps.findLastIndex((step) => coatsOn(surface, step) > 0);
    const again = steps[last] === 'liquid-coat' && coatsOn(surface, 'liquid-coat') < coatsOwed(job, [surface]);
    // Corner pieces may go on before the bands.
    const bands = steps[last] === 'corners' && coatsOn(surface, 'band-seams') === 0 && steps.includes('band-seams');
    const step = bands ? 'band-seams' : steps[again ? last : last + 1];
    return step === undefined ? [] : [{ step, surface }];
  });
  const byStep = [...Map.groupBy(next, ({ step }) => step)].toSorted(([a], [b]) => STEPS.indexOf(a) - STEPS.indexOf(b));
  return byStep.map(([step, on]) => {
    const surfaces = on.map(({ surface }) => surface);
    return {
      step,
      surfaces,
      held: heldUp(
        standing,
        step,
        surfaces.map(({ surface }) => surface),
      ),
    };
  });
}

function runsOn(job: JobState, surface: Surface, step: Step): readonly Run[] {
  return job.runs.filter((run) => run.step === step && (run.surfaces.length === 0 || run.surfaces.includes(surface.surface)));
}

function coatsIn(runs: readonly Run[]): number {
  return new Set(runs.map((run) => run.coat ?? 1)).size;
}

/** How far a surface is with a step; a coat is to do until the coats owed are on, and a repair always. */
export function standOn(job: JobState, surface: Surface, step: Step): 'to-do' | 'running' | 'done' {
  const runs = runsOn(job, surface, step);
  if (runs.some((run) => run.stopUtc === null)) return 'running';
  const enough = step === 'liquid-coat' ? coatsOwed(job, [surface]) : 1;
  return step === 'repair' || coatsIn(runs) < enough ? 'to-do' : 'done';
}
