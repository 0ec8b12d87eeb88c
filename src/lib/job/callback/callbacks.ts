import { ISOLATION_TESTS, type IsolationTest } from '../../record/kinds/callback.ts';
import type { DataOf } from '../../record/kinds.ts';
import type { TouchedPlace } from '../behind/strata.ts';
import { marksIn } from '../drawing/marks.ts';
import { baseOf } from '../../measure/dimension.ts';
import type { Fact, JobState } from '../state.ts';

/**
 * What a test of the series showed: below it got wetter, dried or stayed as it was; `open` while nobody looked after it began, or where the
 * two looks cannot be compared.
 */
export type Outcome = 'wetter' | 'same' | 'drier' | 'open';

export interface Isolation {
  readonly begun: Fact<'isolation'>;
  /** The latest last. */
  readonly looks: readonly Fact<'isolation-look'>[];
  readonly outcome: Outcome;
}

export interface Callback {
  readonly fact: Fact<'callback'>;
  readonly isOpen: boolean;
  readonly isolations: readonly Isolation[];
  /** The first test of the series that was not begun: causes outside the membrane come first. Null when all were. */
  readonly next: IsolationTest | null;
  /** What was said before anything was opened; null before that. */
  readonly opening: Fact<'opening'> | null;
}

/** Callbacks of a job with what was tried for each, the latest last. */
export function callbacks(job: JobState): Callback[] {
  return job.facts.callback.map((fact) => {
    const isolations = job.facts.isolation.filter(({ data }) => data.callback === fact.id).map((begun) => isolationOf(begun, job));
    const tried = new Set(isolations.map(({ begun }) => begun.data.test));
    return {
      fact,
      isOpen: isOpen(fact.data),
      isolations,
      next: ISOLATION_TESTS.find((test) => !tried.has(test)) ?? null,
      opening: job.facts.opening.findLast(({ data }) => data.callback === fact.id) ?? null,
    };
  });
}

/** The one asked for; else the latest that is open, or the latest of all. Null where none was written down. */
export function callbackInHand(all: readonly Callback[], asked: string | null): Callback | null {
  return all.find(({ fact }) => fact.id === asked) ?? all.findLast(({ isOpen }) => isOpen) ?? all.at(-1) ?? null;
}

/** Closed by word; one of an older version, without the word, once it was answered. */
export function isOpen({ stand, answer }: DataOf<'callback'>): boolean {
  return stand === undefined ? answer.trim() === '' : stand === 'open';
}

/** The callback that an entry, or an amendment of one, is about; null for any other. */
export function callbackOf(entry: string, { facts, lines }: JobState): string | null {
  const id = lines.find(({ standing }) => standing.amendments.includes(entry))?.entry.body.id ?? entry;
  if (facts.callback.some((one) => one.id === id)) return id;
  const begun = facts['isolation-look'].find((one) => one.id === id)?.data.isolation ?? id;
  return [...facts.isolation, ...facts.opening].find((one) => one.id === begun)?.data.callback ?? null;
}

function isolationOf(begun: Fact<'isolation'>, job: JobState): Isolation {
  const looks = job.facts['isolation-look'].filter(({ data }) => data.isolation === begun.id);
  const last = looks.at(-1);
  return { begun, looks, outcome: last === undefined ? 'open' : outcomeOf(begun.data, last.data) };
}

type Seen = Pick<DataOf<'isolation'>, 'below' | 'moisture' | 'scale'>;
const WET: Readonly<Partial<Record<Seen['below'], number>>> = { dry: 0, stained: 1, wet: 2 };

/** What is seen decides; where it looks the same, the meter does, if it was read in one scale both times. */
function outcomeOf(before: Seen, after: Seen): Outcome {
  const [was, is] = [WET[before.below], WET[after.below]];
  if (was === undefined || is === undefined) return byMeter(before, after) ?? 'open';
  if (was !== is) return is > was ? 'wetter' : 'drier';
  return byMeter(before, after) ?? 'same';
}

function byMeter(before: Seen, after: Seen): Outcome | null {
  if (before.moisture === undefined || after.moisture === undefined || before.scale !== after.scale) return null;
  const [was, is] = [baseOf(before.moisture.value, before.moisture.unit), baseOf(after.moisture.value, after.moisture.unit)];
  if (!was.ok || !is.ok) return null;
  return is.value > was.value ? 'wetter' : is.value < was.value ? 'drier' : 'same';
}

/** What of a test stands for all its repeats: wetter if it ever got wetter, else the last that was not open. */
export function outcomeOfTest({ isolations }: Callback, test: IsolationTest): Outcome | null {
  const outcomes = isolations.filter(({ begun }) => begun.data.test === test).map(({ outcome }) => outcome);
  if (outcomes.length === 0) return null;
  return outcomes.includes('wetter') ? 'wetter' : (outcomes.findLast((one) => one !== 'open') ?? 'open');
}

/** The places marked for a callback, the latest last. */
export function lookedAt(callback: string, job: JobState): TouchedPlace[] {
  return job.drawings.flatMap(({ room, data: { unit } }) =>
    marksIn(job, room, unit)
      .filter(({ of }) => of === callback)
      .map(({ wall, x, y }): TouchedPlace => ({ room, unit, wall, x, y })),
  );
}

/** What came of the layers since somebody said what was told to whom: their photos, and dry film by calliper. */
export function takenOff({ utc, data: { surfaces } }: Fact<'opening'>, job: JobState): { photos: number; dryFilm: number } {
  const since = (one: { readonly utc: string }) => Date.parse(one.utc) > Date.parse(utc);
  const here = (on: readonly string[]) => surfaces.length === 0 || on.some((surface) => surfaces.includes(surface));
  return {
    photos: job.shots.filter((shot) => since(shot) && shot.from !== 'watch' && (shot.surfaces.length === 0 || here(shot.surfaces))).length,
    dryFilm: job.readings.filter((one) => since(one) && one.what === 'dry-film' && one.how === 'caliper').length,
  };
}
