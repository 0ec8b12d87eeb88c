import type { Surface } from '../record/kinds.ts';
import { judgeSaid, type Judged } from './judged.ts';
import type { JobState, Measured, Run, Shot } from './project.ts';
import { LAYERS, LAYER_OF_STEP, PROOF_RULES, SYSTEM_LAYERS, type Layer, type ProofRule } from './systems.ts';

/** One owed item: a rule on one surface, with what answers it so far. */
export interface Owed {
  readonly key: string;
  readonly rule: ProofRule;
  readonly surface: Surface;
  readonly shot: Shot | null;
  /** The latest reading of this item, and how it stands against its limit. */
  readonly reading: (Measured & { readonly judged: Judged }) | null;
  readonly shown: boolean;
}

export type LayerStand = 'not-begun' | 'owed' | 'shown';

/** A layer of the job with what it owes, over all surfaces that have it. */
export interface LayerProof {
  readonly layer: Layer;
  readonly items: readonly Owed[];
  readonly shown: number;
  readonly stand: LayerStand;
  readonly running: readonly Run[];
}

/**
 * What every layer of the job owes and shows, in order from the substrate inwards: layers that owe something, and those the
 * crew worked on besides. A reading answers its item whatever its verdict: proof owed asks whether it was looked at; the
 * verdict says what was seen.
 */
export function proofOwed(job: JobState): LayerProof[] {
  return LAYERS.flatMap((layer) => {
    const items = PROOF_RULES.filter((rule) => rule.layer === layer).flatMap((rule) =>
      job.surfaces.filter((surface) => owes(surface, rule)).map((surface) => owed(job, rule, surface)),
    );
    const runs = job.runs.filter((run) => LAYER_OF_STEP[run.step] === layer);
    if (items.length === 0 && runs.length === 0) return [];
    const shown = items.filter((item) => item.shown).length;
    const stand = runs.length === 0 ? 'not-begun' : shown === items.length ? 'shown' : 'owed';
    return [{ layer, items, shown, stand, running: runs.filter((run) => run.stopUtc === null) }];
  });
}

function owes(surface: Surface, rule: ProofRule): boolean {
  return SYSTEM_LAYERS[surface.system].includes(rule.layer) && rule.places.includes(surface.place);
}

function owed(job: JobState, rule: ProofRule, surface: Surface): Owed {
  const key = `${rule.id}:${surface.surface}`;
  const here = (one: { step: string | null; surface: string | null }) => one.step === rule.step && one.surface === surface.surface;
  if ('reading' in rule.want) {
    const what = rule.want.reading;
    const last = job.readings.findLast((one) => one.what === what && here(one)) ?? null;
    const reading = last === null ? null : { ...last, judged: judgeSaid(last.what, last.said, job.limits) };
    return { key, rule, surface, shot: null, reading, shown: reading !== null };
  }
  const shot = job.shots.findLast(here) ?? null;
  return { key, rule, surface, shot, reading: null, shown: shot !== null };
}

/** Whether the layer now on top may be covered, and what still stands in the way. */
export interface ClearToCover {
  /** The layer being worked on: the last begun, or the first of all. */
  readonly layer: Layer | null;
  readonly clear: boolean;
  readonly missing: readonly Owed[];
  readonly outside: readonly Owed[];
}

/**
 * Clear only when every begun layer shows all it owes, and every layer skipped under it: a gap lower down is no smaller for
 * lying deeper. A value outside its limit is named beside it; it does not count as missing, and the person decides (repair, or
 * a deviation owned up to).
 */
export function clearToCover(layers: readonly LayerProof[]): ClearToCover {
  const begun = layers.filter((layer) => layer.stand !== 'not-begun');
  const items = layers.flatMap((layer, i) => (begun.includes(layer) ? layer.items : skipped(layer, layers.slice(i + 1))));
  const missing = items.filter((item) => !item.shown);
  const outside = items.filter((item) => item.reading?.judged.verdict === 'outside');
  return { layer: begun.at(-1)?.layer ?? layers[0]?.layer ?? null, clear: begun.length > 0 && missing.length === 0, missing, outside };
}

/** Items of a layer not begun on surfaces where one of those above it is: what was to be seen there is being covered. */
function skipped(layer: LayerProof, above: readonly LayerProof[]): readonly Owed[] {
  const laid = above.filter((one) => one.stand !== 'not-begun').flatMap((one) => one.items);
  return layer.items.filter((item) => laid.some((one) => one.surface.surface === item.surface.surface));
}
