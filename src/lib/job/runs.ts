import type { Draft } from '../record/kinds.ts';
import type { Step } from '../record/kinds/setup.ts';
import type { Owed } from './proof.ts';
import type { JobState, Run } from './state.ts';
import { LAYER_OF_STEP } from './systems.ts';
import { waitsBegun } from './waits.ts';

/** A step still open after so long was left open by mistake (own choice, no source); water stands for a day and longer on purpose. */
const FORGOTTEN_MS = 16 * 3_600_000;

/**
 * The entries that end a run at `at`, UTC: its stop, and the waits that begin with it. A forgotten run is read as having ended about when
 * its last photo was taken; its waits count from the moment somebody noticed, as nobody can say that the work was over before.
 */
export function stopDrafts(job: JobState, run: Run, at: string): Draft[] {
  const forgotten = run.step !== 'flood-test' && Date.parse(at) - Date.parse(run.startUtc) > FORGOTTEN_MS;
  const stop: Draft = { kind: 'run-stop', run: run.id, refs: [run.id], data: { end: forgotten ? 'about' : 'touched' } };
  return [stop, ...waitsBegun(job, run.step, at, run.surfaces, run.id)];
}

/** The number of the next coat on surfaces: one more than the last of any of them. */
export function nextCoat(job: JobState, surfaces: readonly string[]): number {
  const before = job.runs.filter(
    (run) => run.step === 'liquid-coat' && (run.surfaces.length === 0 || run.surfaces.some((id) => surfaces.includes(id))),
  );
  return Math.min(20, 1 + Math.max(0, ...before.map((run) => run.coat ?? 1)));
}

/** The lots that were in hand when this step was last begun: what "same as before" copies. */
export function lastMaterials(job: JobState, step: Step): readonly string[] {
  return job.runs.findLast((run) => run.step === step && run.materials.length > 0)?.materials ?? [];
}

/**
 * The open run that what is owed is given in: of its step and coat. A photo that says what it shows may be taken in another step of the same
 * layer as well: corner pieces are set while the bands are laid. Null where its step is still to begin.
 */
export function runFor({ rule, coat, surfaces }: Pick<Owed, 'rule' | 'coat' | 'surfaces'>, running: readonly Run[]): Run | null {
  const own = running.findLast((run) => run.step === rule.step && (coat === null || (run.coat ?? 1) === coat));
  if (own !== undefined) return own;
  if (!('shot' in rule.want) || rule.overview === true || coat !== null) return null;
  const here = (run: Run) => run.surfaces.length === 0 || surfaces.some(({ surface }) => run.surfaces.includes(surface));
  return running.findLast((run) => LAYER_OF_STEP[run.step] === rule.layer && here(run)) ?? null;
}
