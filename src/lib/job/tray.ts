import type { Draft } from '../record/kinds.ts';
import type { Step } from '../record/kinds/setup.ts';
import type { LayerProof, Owed } from './proof.ts';
import type { ProofRule } from './proof-rules.ts';
import type { Run, Shot } from './state.ts';

/** Photos of which nobody has said where they belong, newest first. The frames of a watch lie on its own strip. */
export function inTray(shots: readonly Shot[]): readonly Shot[] {
  return shots.filter((shot) => !shot.sorted && shot.from !== 'watch').toReversed();
}

/** Frames of watches that nobody has picked out, newest first. */
export function onStrip(shots: readonly Shot[]): readonly Shot[] {
  return shots.filter((shot) => !shot.sorted && shot.from === 'watch').toReversed();
}

export function sorted(shots: readonly Shot[]): readonly Shot[] {
  return shots.filter((shot) => shot.sorted).toReversed();
}

/** How long nothing is photographed between two groups, in minutes: own choice, no source. */
const APART_MIN = 10;

/**
 * Photos in the groups in which they were taken: each at most ten minutes from its neighbour. They keep their order; a clock that was
 * moved in between parts them too.
 */
export function takenTogether(shots: readonly Shot[]): readonly (readonly Shot[])[] {
  const groups: Shot[][] = [];
  for (const shot of shots) {
    const last = groups.at(-1)?.at(-1);
    if (last !== undefined && Math.abs(Date.parse(last.utc) - Date.parse(shot.utc)) <= APART_MIN * 60_000) groups.at(-1)!.push(shot);
    else groups.push([shot]);
  }
  return groups;
}

/**
 * Runs by how near in time they were to the photos, nearest first: the sum over the photos of the time to the run, 0 while it was open.
 * Of equals a run of the person who took the first photo, then the one begun last. `nowUtc` ends a run that is still open.
 */
export function runsNear(runs: readonly Run[], shots: readonly Shot[], nowUtc: string): readonly Run[] {
  const by = shots[0]?.by;
  const far = new Map(runs.map((run) => [run, shots.reduce((sum, shot) => sum + awayMs(run, shot, nowUtc), 0)]));
  return runs.toSorted(
    (a, b) => far.get(a)! - far.get(b)! || Number(b.by === by) - Number(a.by === by) || Date.parse(b.startUtc) - Date.parse(a.startUtc),
  );
}

function awayMs(run: Run, shot: Shot, nowUtc: string): number {
  const at = Date.parse(shot.utc);
  const from = Date.parse(run.startUtc);
  const to = Math.max(from, Date.parse(run.stopUtc ?? nowUtc));
  return Math.max(0, from - at, at - to);
}

/** What a photo is said to be of. Without surfaces it may be of any; `coat` as its run counts, null where it counts none. */
export interface PhotoOf {
  readonly step: Step | null;
  readonly surfaces: readonly string[];
  readonly coat: number | null;
}

/** One thing a photo may be said to show, and the items it would answer. */
export interface PhotoOwed {
  readonly rule: ProofRule;
  readonly items: readonly Owed[];
}

/** The photos still owed for a step on these surfaces, rule by rule. */
export function photosOwed(layers: readonly LayerProof[], of: PhotoOf): readonly PhotoOwed[] {
  const items = owedShots(layers).filter((item) => item.rule.step === of.step && isHere(item, of));
  return [...Map.groupBy(items, (item) => item.rule)].map(([rule, answered]) => ({ rule, items: answered }));
}

/** House number and door: offered whatever the step, until its room shows it. */
export function frontOwed(layers: readonly LayerProof[], of: PhotoOf): readonly PhotoOwed[] {
  return of.step === 'survey' ? [] : photosOwed(layers, { ...of, step: 'survey' }).filter(({ rule }) => rule.id === 'front');
}

/** The owed items a photo answers: those it is said to show, or the overview of its step when it shows nothing else. */
export function wouldAnswer(layers: readonly LayerProof[], of: PhotoOf, shows: readonly string[]): readonly Owed[] {
  return owedShots(layers).filter((item) => {
    if (shows.length > 0) return shows.includes(item.rule.id) && isHere(item, of);
    return item.rule.overview === true && item.rule.step === of.step && of.surfaces.length > 0 && isHere(item, of);
  });
}

function owedShots(layers: readonly LayerProof[]): readonly Owed[] {
  return layers.flatMap((layer) => layer.items.filter((item) => 'shot' in item.rule.want && item.stand === 'owed'));
}

function isHere(item: Owed, { surfaces, coat }: PhotoOf): boolean {
  const on = surfaces.length === 0 || item.surfaces.some(({ surface }) => surfaces.includes(surface));
  return on && (item.coat === null || item.coat === (coat ?? 1));
}

/** The most shots one `tag` entry names. */
const TAG_MAX = 500;

/** The entry that sorts photos; several where there are more than one may name. A run says its own step. */
export function tagDrafts(
  shots: readonly string[],
  { run, step, surfaces, shows }: { run: string | null; step: Step | null; surfaces: readonly string[]; shows: readonly string[] },
): Draft[] {
  const parts = Array.from({ length: Math.ceil(shots.length / TAG_MAX) }, (_, i) => shots.slice(i * TAG_MAX, (i + 1) * TAG_MAX));
  return parts.map((part) => ({
    kind: 'tag',
    refs: [...(run === null ? [] : [run]), ...part],
    data: {
      shots: part,
      run,
      step: run === null ? step : null,
      surfaces: [...surfaces],
      ...(shows.length === 0 ? {} : { shows: [...shows] }),
    },
  }));
}
