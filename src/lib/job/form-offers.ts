import { isOpen } from './callback/callbacks.ts';
import { CARRIED, dayOf, lastConditions, type Here } from './conditions.ts';
import { unresolved } from './cover.ts';
import { listOf, type Typed } from './form-drafts.ts';
import { openMisses } from './misses.ts';
import { fieldsOf, type FormField, type FormKind } from './forms.ts';
import type { LayerProof } from './proof.ts';
import type { JobState } from './state.ts';
import { waits, waitsBegun } from './waits.ts';
import type { Draft } from '../record/kinds.ts';

/** What a link into a form may say beforehand. */
export interface Asked {
  readonly surfaces: readonly string[];
  /** Entries, limits or owed items that it is about. */
  readonly about: readonly string[];
  readonly step: string | null;
}

/** A form as it first stands, and the entry its values were carried over from. */
export interface FirstTyped {
  readonly typed: Typed;
  readonly from: string | null;
}

/** What is filled in before anything is typed: what the link said, today, the permit, and the last conditions. Never a verdict or a yes. */
export function firstTyped(kind: FormKind, job: JobState, asked: Asked, now: Here): FirstTyped {
  const known = asked.surfaces.filter((id) => job.surfaces.some(({ surface }) => surface === id));
  const first = (name: string, field: FormField): string | readonly string[] => {
    switch (field.type) {
      case 'surfaces':
        return known.length === 0 && field.required === true && job.surfaces.length === 1 ? [job.surfaces[0]!.surface] : known;
      case 'entries':
        return asked.about;
      case 'entry':
        return asked.about[0] ?? '';
      case 'day':
        return dayOf(now);
      case 'line':
        return field.first === 'permit' ? job.permit : '';
      case 'choice':
        return (name === 'step' || name === 'test') && asked.step !== null ? asked.step : '';
      default:
        return '';
    }
  };
  const typed = Object.fromEntries(fieldsOf(kind).map(([name, field]) => [name, first(name, field)]));
  if (kind !== 'conditions') return { typed, from: null };
  const last = lastConditions(job);
  const carried = CARRIED.flatMap((name) => (last?.data[name] === undefined ? [] : [[name, last.data[name].value]]));
  return { typed: { ...typed, ...(Object.fromEntries(carried) as Typed) }, from: last?.id ?? null };
}

/** Something a field may speak of. What it is called is for `words` to say. */
export interface Offer {
  readonly is: 'entry' | 'limit' | 'item';
  readonly id: string;
}

/** What a field of entries offers to choose from, the latest first; whatever is chosen already is among it. `amends`: the entry said anew. */
export function offers(
  field: FormField,
  typed: Typed,
  chosen: string | readonly string[],
  job: JobState,
  layers: readonly LayerProof[],
  nowMs: number,
  amends: string | null = null,
): Offer[] {
  if (field.type !== 'entry' && field.type !== 'entries') return [];
  const found = offered(field.offers, typed, job, layers, nowMs, amends);
  const more = listOf(chosen).filter((id) => !found.some((one) => one.id === id));
  return [...more.map((id) => offerOf(id, job)), ...found];
}

function offerOf(id: string, job: JobState): Offer {
  if (job.limits.some(({ limit }) => limit === id)) return { is: 'limit', id };
  return { is: job.lines.some(({ entry }) => entry.body.id === id) ? 'entry' : 'item', id };
}

const PAILS = 4;

function offered(
  which: 'to-mend' | 'owed' | 'broken' | 'waits' | 'pails' | 'callbacks' | 'isolations',
  typed: Typed,
  job: JobState,
  layers: readonly LayerProof[],
  nowMs: number,
  amends: string | null,
): Offer[] {
  const entry = ({ id }: { readonly id: string }): Offer => ({ is: 'entry', id });
  const { deviation, repair, pair, mix } = job.facts;
  switch (which) {
    case 'to-mend': {
      const mended = new Set(repair.flatMap(({ data }) => data.of));
      const failed = job.facts['flood-end'].filter(({ data }) => data.result === 'failed').map(({ data }) => ({ id: data.attempt }));
      return [...unresolved(job), ...openMisses(job), ...deviation, ...failed]
        .filter(({ id }) => !mended.has(id))
        .reverse()
        .map(entry);
    }
    case 'broken':
      return [
        ...[...unresolved(job), ...openMisses(job)].reverse().map(entry),
        ...waits(job, nowMs)
          .filter(({ stand }) => stand === 'waiting' || stand === 'too-late')
          .reverse()
          .map(({ wait }) => entry(wait)),
        ...pair
          .filter(({ data }) => data.named === 'not-named')
          .reverse()
          .map(entry),
        ...job.limits.map(({ limit }): Offer => ({ is: 'limit', id: limit })),
      ];
    case 'waits':
      return waits(job, nowMs)
        .filter(({ stand }) => stand === 'waiting')
        .reverse()
        .map(({ wait }) => entry(wait));
    case 'callbacks':
      return job.facts.callback
        .filter(({ data }) => isOpen(data))
        .toReversed()
        .map(entry);
    case 'isolations': {
      const current = new Set(job.facts.callback.filter(({ data }) => isOpen(data)).map(({ id }) => id));
      return job.facts.isolation
        .filter(({ data }) => current.has(data.callback))
        .toReversed()
        .map(entry);
    }
    case 'pails': {
      // A pail repeats one before it, never itself.
      const at = mix.findIndex(({ id }) => id === amends);
      return mix
        .slice(0, at < 0 ? mix.length : at)
        .slice(-PAILS)
        .reverse()
        .map(entry);
    }
    case 'owed':
      return layers.flatMap(({ items }) =>
        items
          .filter((item) => item.stand === 'owed' && item.rule.step === typed['step'])
          .map(({ key }): Offer => ({ is: 'item', id: key })),
      );
  }
}

/** The clocks that start with what was stated: a pail's own, and the cure of a patch. `at`: when it is kept, UTC. */
export function begunBy(draft: Draft, job: JobState, at: string): Draft[] {
  const run = draft.run ?? null;
  if (draft.kind === 'mix') {
    // Another pail of the same is of the same material.
    const same = job.facts.mix.find(({ id }) => id === draft.data.same);
    const material = job.materials.find((one) => one.material === (draft.data.material ?? same?.data.material));
    return waitsBegun(job, material === undefined || material.what === 'mortar' ? 'mix-mortar' : 'mix-other', at, draft.data.surfaces, run);
  }
  // A repair that runs as a step begins its cure when that step ends.
  const running = job.runs.some((one) => one.step === 'repair' && one.stopUtc === null);
  return draft.kind === 'repair' && !running ? waitsBegun(job, 'repair', at, draft.data.surfaces, run) : [];
}
