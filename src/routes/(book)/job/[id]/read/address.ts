import type { JobState, Run } from '#lib/job/state.ts';
import { MEASURE_KINDS } from '#lib/job/measures.ts';
import { MEASURES_OF_STEP } from '#lib/job/systems.ts';
import { MEASURES, type Measure } from '#lib/record/kinds/reading.ts';

/** What a reading was asked for. Names the job does not know are left out. */
export interface ReadAddress {
  readonly what: Measure;
  readonly run: Run | null;
  readonly surface: string | null;
  readonly coat: number | null;
  /** The flood test's attempt it belongs to. */
  readonly attempt: string | null;
  /** The photo to type it from. */
  readonly shot: string | null;
  /** The place of the drawing it is owed of. */
  readonly spot: string | null;
  /** The reading just kept elsewhere. */
  readonly kept: string | null;
}

/** What is measured of one coat. */
const OF_A_COAT: readonly Measure[] = ['wet-film', 'dry-film', 'volume-used'];

/** Without a measure in the address the first of the run's step. */
export function readAddress(query: Pick<URLSearchParams, 'get' | 'getAll'>, job: JobState): ReadAddress {
  const run = job.runs.find(({ id }) => id === query.get('run')) ?? null;
  const what = MEASURES.find((one) => one === query.get('what')) ?? (run === null ? null : MEASURES_OF_STEP[run.step][0]) ?? 'overlap';
  const coat = OF_A_COAT.includes(what) ? Number(query.get('coat') ?? run?.coat ?? NaN) : NaN;
  return {
    what,
    run,
    surface: job.surfaces.find(({ surface }) => surface === query.get('surface'))?.surface ?? null,
    coat: Number.isInteger(coat) && coat >= 1 && coat <= 20 ? coat : null,
    attempt: job.facts['flood-fill'].find(({ id }) => id === query.get('attempt'))?.id ?? null,
    shot: job.shots.find(({ id }) => id === query.get('shot'))?.id ?? null,
    spot: query.get('spot'),
    kept: job.readings.find(({ id }) => id === query.get('kept'))?.id ?? null,
  };
}

/** What can be read here: the measures of the step, or all that are read where no step runs; what was asked for besides. */
export function measuresHere(what: Measure, run: Run | null): readonly Measure[] {
  const of = run === null ? MEASURES.filter((one) => MEASURE_KINDS[one].read) : MEASURES_OF_STEP[run.step];
  return of.includes(what) ? of : [what, ...of];
}

/** The address of the pad, or of the viewfinder that takes the photo that goes with it. */
export function padHref(job: string, page: 'read' | 'shoot', parts: Readonly<Record<string, string | number | null>>): string {
  const said = Object.entries(parts).flatMap(([name, value]) => (value === null ? [] : [[name, String(value)]]));
  return `/job/${job}/${page}?${new URLSearchParams(said)}`;
}
