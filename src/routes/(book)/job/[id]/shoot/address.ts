import type { JobState, Run } from '#lib/job/state.ts';
import { PROOF_RULES } from '#lib/job/proof-rules.ts';
import { MEASURES, type Measure } from '#lib/record/kinds/reading.ts';

/** Where the viewfinder was asked to point. Names the job does not know are left out: what is kept must stand. */
export interface FinderAddress {
  readonly run: Run | null;
  readonly surfaces: readonly string[];
  readonly shows: readonly string[];
  readonly pair: string | null;
  readonly material: string | null;
  /** The measure on the pad that the next photo goes with. */
  readonly reading: Measure | null;
  /** The place of a drawing that the photo is owed of, as `ROOM@SPOT`. */
  readonly at: string | null;
}

/** Without a run in the address that of the person holding the phone, or the one begun last. */
export function finderAddress(query: Pick<URLSearchParams, 'get' | 'getAll'>, job: JobState, person: string): FinderAddress {
  const running = job.runs.filter((run) => run.stopUtc === null);
  const rules = [...PROOF_RULES.map(({ id }) => id), ...job.ownRules.map(({ rule }) => `own-${rule}`)];
  const [pair, material, reading] = ['pair', 'material', 'reading'].map((name) => query.get(name));
  return {
    run: job.runs.find(({ id }) => id === query.get('run')) ?? running.findLast((run) => run.by === person) ?? running.at(-1) ?? null,
    surfaces: query.getAll('surface').filter((id) => job.surfaces.some(({ surface }) => surface === id)),
    shows: query.getAll('shows').filter((id) => rules.includes(id)),
    pair: job.shots.find(({ id }) => id === pair)?.id ?? null,
    material: job.materials.find((one) => one.material === material)?.material ?? null,
    reading: MEASURES.find((measure) => measure === reading) ?? null,
    at: query.get('at'),
  };
}
