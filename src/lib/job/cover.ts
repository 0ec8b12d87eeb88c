import type { Surface } from '../record/kinds/setup.ts';
import { judgeReading, proves, type Judged } from './judged.ts';
import { openMisses } from './misses.ts';
import type { LayerProof, Owed } from './proof.ts';
import type { Fact, JobState, Measured, Run } from './state.ts';
import { LAYER_OF_STEP, stepsOn, type Layer } from './systems.ts';

export type Unresolved = Measured & { readonly judged: Judged };

/** Whether the layer now on top may be covered, and what still stands in the way. */
export interface ClearToCover {
  /** The layer being worked on: the last begun, or the first of all. */
  readonly layer: Layer | null;
  readonly clear: boolean;
  readonly missing: readonly Owed[];
  /** Values outside their limit that nobody has mended, re-measured or owned up to. */
  readonly outside: readonly Unresolved[];
  /** Photos of a coat with places it misses that nobody has mended or owned up to. */
  readonly misses: readonly Fact<'coverage'>[];
  /** Surfaces of a system that the book does not hold, so that it cannot say what they owe. */
  readonly unruled: readonly Surface[];
  /** Steps still going on: what is being worked on is not covered, whether it owes anything or not. */
  readonly running: readonly Run[];
}

/**
 * Clear only when every begun layer shows all it owes, and every layer skipped under it: a gap lower down is no smaller for
 * lying deeper; when no value stands outside its limit unanswered, and no place that a coat misses; when no step is going on, since the proof
 * owed of a layer may have been taken on the surfaces done before; and when the book holds the system of every surface, as it cannot say what one it does
 * not hold owes. What was left out with a reason is no longer owed.
 */
export function clearToCover(layers: readonly LayerProof[], job: JobState): ClearToCover {
  return clearOf(layers, job.surfaces, unresolved(job), openMisses(job), running(job), job);
}

/** The same for one surface: what it owes itself, and what is owed once for its room. */
export function clearOn(surface: Surface, layers: readonly LayerProof[], job: JobState): ClearToCover {
  const here = layers.flatMap((layer): LayerProof[] => {
    const items = layer.items.filter((item) => item.surfaces.some((one) => one.surface === surface.surface));
    const worked = workedOn(layer.layer, job).has(surface.surface);
    if (items.length === 0 && !worked) return [];
    return [{ ...layer, items, stand: worked || items.some((item) => item.shown) ? layer.stand : 'not-begun' }];
  });
  const outside = unresolved(job).filter((one) => one.surface === null || one.surface === surface.surface);
  const misses = openMisses(job).filter(({ data }) => data.surface === null || data.surface === surface.surface);
  const going = running(job).filter((run) => run.surfaces.length === 0 || run.surfaces.includes(surface.surface));
  return clearOf(here, [surface], outside, misses, going, job);
}

function clearOf(
  layers: readonly LayerProof[],
  surfaces: readonly Surface[],
  outside: ClearToCover['outside'],
  misses: ClearToCover['misses'],
  running: ClearToCover['running'],
  job: JobState,
): ClearToCover {
  const begun = layers.filter((layer) => layer.stand !== 'not-begun');
  const items = layers.flatMap((layer, i) => (begun.includes(layer) ? layer.items : skipped(layer, layers.slice(i + 1), job)));
  const missing = items.filter((item) => item.stand === 'owed');
  const unruled = surfaces.filter((one) => stepsOn(one, job).length === 0);
  const inTheWay = [missing, outside, misses, unruled, running].some((one) => one.length > 0);
  const clear = surfaces.length > 0 && begun.length > 0 && !inTheWay;
  return { layer: begun.at(-1)?.layer ?? layers[0]?.layer ?? null, clear, missing, outside, misses, unruled, running };
}

/** Nothing is in the way of covering but steps that are still going on. */
export function onlyRunning({ missing, outside, misses, unruled, running }: ClearToCover): boolean {
  return running.length > 0 && [missing, outside, misses, unruled].every((one) => one.length === 0);
}

function running(job: JobState): readonly Run[] {
  return job.runs.filter((run) => run.stopUtc === null);
}

/** Items of a layer not begun on surfaces where one of those above it is: what was to be seen there is being covered. */
function skipped(layer: LayerProof, above: readonly LayerProof[], job: JobState): readonly Owed[] {
  const begun = above.filter((one) => one.stand !== 'not-begun');
  const laid = new Set(
    begun.flatMap((one) => [...one.items.flatMap((item) => item.surfaces.map((on) => on.surface)), ...workedOn(one.layer, job)]),
  );
  return layer.items.filter((item) => item.surfaces.some((on) => laid.has(on.surface)));
}

/** Surfaces that a run on the layer names; all of the job's where one names none. */
function workedOn(layer: Layer, job: JobState): ReadonlySet<string> {
  const runs = job.runs.filter((run) => LAYER_OF_STEP[run.step] === layer);
  return new Set(runs.flatMap((run) => (run.surfaces.length === 0 ? job.surfaces.map((one) => one.surface) : run.surfaces)));
}

/**
 * Readings outside their limit that are still open: not owned up to in a deviation, nor mended and measured again within the
 * limit. A second reading beside the first mends nothing: every reading counts (default rule for membranes; common practice, no source).
 */
export function unresolved(job: JobState): readonly Unresolved[] {
  const judged = job.readings.map((reading) => ({ ...reading, judged: judgeReading(reading, job.limits) }));
  return judged.filter((one, i) => {
    if (one.judged.verdict !== 'outside') return false;
    if (job.facts.deviation.some(({ data, open }) => !open && data.against === one.id)) return false;
    const mended = job.facts.repair.some(({ data, open }) => !open && data.of.includes(one.id));
    const again = judged
      .slice(i + 1)
      .some(
        (later) =>
          later.what === one.what && later.surface === one.surface && later.judged.verdict === 'within' && proves(later, job.limits),
      );
    return !(mended && again);
  });
}
