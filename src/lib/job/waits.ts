import { baseOf } from '../measure/dimension.ts';
import type { Draft } from '../record/kinds.ts';
import type { Limit, Step } from '../record/kinds/setup.ts';
import { WAITS } from '../record/kinds/work.ts';
import type { Fact, JobState, Run } from './state.ts';

export type WaitCode = (typeof WAITS)[number];

/** What ends with a moment begins these waits, where the job states a limit for them. Common practice, no source: the sheet's own figures fill them. */
const BEGUN_BY: Readonly<Partial<Record<Step | 'mix-mortar' | 'comb-mortar' | 'mix-other', readonly WaitCode[]>>> = {
  'bond-sheets': ['walk-on', 'cover-within', 'before-flooding'],
  'band-seams': ['before-flooding', 'cover-within'],
  corners: ['before-flooding'],
  'liquid-coat': ['recoat', 'cover-within', 'before-flooding'],
  repair: ['before-flooding'],
  'mix-mortar': ['slake', 'pot-life'],
  'mix-other': ['pot-life'],
  'comb-mortar': ['open-time'],
};
export type Beginning = keyof typeof BEGUN_BY;

/** Steps that must not begin before the wait is over, on the surfaces that wait: a walk-on wait binds only who must kneel there. */
const HOLDS: Readonly<Record<WaitCode, readonly Step[]>> = {
  slake: [],
  'pot-life': [],
  'open-time': [],
  'walk-on': ['band-seams', 'corners', 'liquid-coat', 'flood-test', 'protect', 'check'],
  recoat: ['liquid-coat'],
  'cover-within': [],
  'before-flooding': ['flood-test'],
};

/** Steps that bring a wait to its end: what it waited for was done. */
const ENDED_BY: Readonly<Record<WaitCode, readonly Step[]>> = {
  ...HOLDS,
  'open-time': ['bond-sheets'],
  'cover-within': ['liquid-coat', 'protect'],
};

/** Steps that come after all that could end a wait: once one is begun nobody waits any more, as for a coat over the last one. */
const OUTLIVED_BY: Readonly<Partial<Record<WaitCode, readonly Step[]>>> = {
  recoat: ['flood-test', 'protect', 'check'],
  'before-flooding': ['protect', 'check'],
};

/**
 * The waits that begin when something ends (`at`, UTC) on some surfaces: one for each limit the job states, with the deadline in
 * full, since the sheet in force then is what counts. A minimum is when it is over, a maximum when it is too late. Hours are hours
 * of elapsed time, whatever the clocks do that night.
 */
export function waitsBegun(job: JobState, beginning: Beginning, at: string, surfaces: readonly string[], run: string | null): Draft[] {
  const of = run === null ? {} : { run };
  return (BEGUN_BY[beginning] ?? []).flatMap((what) =>
    job.limits
      .filter((limit) => limit.what === what)
      .map((limit): Draft => ({
        kind: 'wait',
        ...of,
        data: { what, surfaces: [...surfaces], fromUtc: at, ...deadlines(limit, at), limit: limit.limit },
      })),
  );
}

function deadlines(limit: Limit, at: string): { readyUtc: string | null; latestUtc: string | null } {
  const after = (value: string | null) => {
    const ms = value === null ? null : baseOf(value, limit.unit);
    return ms?.ok === true ? new Date(Date.parse(at) + ms.value).toISOString() : null;
  };
  return { readyUtc: after(limit.min), latestUtc: after(limit.max) };
}

/** Beyond this share of its time a latest-by is warned of. */
const WARN_AT = 0.75;

export type WaitStand = 'waiting' | 'ready' | 'latest-soon' | 'too-late' | 'ended';

/** A wait as it stands now. Moments are milliseconds of the wall clock as this phone shows it. */
export interface StandingWait {
  readonly wait: Fact<'wait'>;
  readonly fromMs: number;
  readonly readyMs: number | null;
  readonly latestMs: number | null;
  /** When three quarters of the time to the latest-by are gone. */
  readonly warnMs: number | null;
  readonly stand: WaitStand;
  /** Share of the way to ready (or to the latest-by where nothing is waited for), 0 to 1. */
  readonly share: number;
  /** The run that brought it to its end, and whether that was too soon or too late. */
  readonly ended: { readonly run: Run; readonly early: boolean; readonly late: boolean } | null;
  /**
   * It is over, and of no more account: a step that comes after what it was for has begun, the water stood elsewhere in the job since, or the whole
   * job was handed over.
   */
  readonly outlived: boolean;
  /** What was said when somebody went on early. */
  readonly early: Fact<'early'> | null;
  /** How far the clock was moved since it began, in ms; deadlines are shifted by it. */
  readonly clockMovedMs: number;
}

/** Every wait of the job, in order of their beginning. */
export function waits(job: JobState, nowMs: number): StandingWait[] {
  const place = new Map(job.lines.map(({ entry }, i) => [entry.body.id, i]));
  return job.facts.wait.filter((wait) => !wait.open).map((wait) => standing(job, wait, nowMs, place));
}

function standing(job: JobState, wait: Fact<'wait'>, nowMs: number, place: ReadonlyMap<string, number>): StandingWait {
  const { what, surfaces, fromUtc, readyUtc, latestUtc } = wait.data;
  const moved = clockMoved(job, wait, place);
  const shifted = (utc: string | null) => (utc === null ? null : Date.parse(utc) + moved);
  const fromMs = Date.parse(fromUtc) + moved;
  const readyMs = shifted(readyUtc);
  const latestMs = shifted(latestUtc);
  const warnMs = latestMs === null ? null : fromMs + (latestMs - fromMs) * WARN_AT;
  const began = place.get(wait.id) ?? 0;
  const after = (steps: readonly Step[] = []) =>
    job.runs.find((one) => steps.includes(one.step) && (place.get(one.id) ?? -1) > began && meets(one.surfaces, surfaces)) ?? null;
  const run = after(ENDED_BY[what]);
  const startMs =
    run === null ? null : Date.parse(run.startUtc) + clockMoved(job, { id: run.id, device: deviceOf(job, run.id, place) }, place);
  const ended =
    run === null || startMs === null
      ? null
      : { run, early: readyMs !== null && startMs < readyMs, late: latestMs !== null && startMs > latestMs };
  const end = readyMs ?? latestMs ?? fromMs;
  const share = end === fromMs ? 1 : Math.min(1, Math.max(0, (nowMs - fromMs) / (end - fromMs)));
  const stand: WaitStand =
    ended !== null
      ? 'ended'
      : latestMs !== null && nowMs > latestMs
        ? 'too-late'
        : readyMs !== null && nowMs < readyMs
          ? 'waiting'
          : warnMs !== null && nowMs >= warnMs
            ? 'latest-soon'
            : 'ready';
  const early = job.facts.early.findLast((one) => one.data.wait === wait.id && !one.open) ?? null;
  const since = (utc: string) => readyMs !== null && Date.parse(utc) >= readyMs;
  const outlived =
    stand !== 'ended' &&
    stand !== 'waiting' &&
    (after(OUTLIVED_BY[what]) !== null ||
      (what === 'before-flooding' && job.runs.some((one) => one.step === 'flood-test' && since(one.startUtc))) ||
      job.facts['hand-over'].some((one) => !one.open && one.data.surfaces.length === 0 && since(one.utc)));
  return { wait, fromMs, readyMs, latestMs, warnMs, stand, share, ended, outlived, early, clockMovedMs: moved };
}

/**
 * How far the clock of the phone that wrote an entry was moved after it, as far as its monotonic clock proves it. Set forward, a wait
 * would seem over too soon; set back, it would seem longer than stated: both are undone. A clock that went back between two times in
 * sight leaves no proof by how much: the stated instant stays, and the wait can only last longer.
 */
export function clockMoved(
  job: JobState,
  { id, device }: { readonly id: string; readonly device: string },
  place: ReadonlyMap<string, number>,
): number {
  const after = place.get(id) ?? 0;
  return job.facts['clock-jump']
    .filter((jump) => jump.device === device && (place.get(jump.id) ?? 0) > after)
    .reduce((sum, { data }) => sum + (data.monoDeltaMs === null ? 0 : data.wallDeltaMs - data.monoDeltaMs), 0);
}

function deviceOf(job: JobState, id: string, place: ReadonlyMap<string, number>): string {
  return job.lines[place.get(id) ?? -1]?.entry.body.device ?? '';
}

/** Surfaces in common; an empty list stands for all. */
function meets(one: readonly string[], other: readonly string[]): boolean {
  return one.length === 0 || other.length === 0 || one.some((id) => other.includes(id));
}

/** The waits that stand in the way of a step on surfaces now, the longest first, without those already answered for by going on early. */
export function heldUp(standing: readonly StandingWait[], step: Step, surfaces: readonly string[]): StandingWait[] {
  return standing
    .filter(
      (one) =>
        one.stand === 'waiting' &&
        one.early === null &&
        HOLDS[one.wait.data.what].includes(step) &&
        meets(one.wait.data.surfaces, surfaces),
    )
    .toSorted((a, b) => (b.readyMs ?? 0) - (a.readyMs ?? 0));
}

/**
 * The waits a person wants to see: those neither ended nor outlived, what is due first on top. A pail or combed bed is forgotten a day after it died.
 * One that a later wait for the same thing outlasts on all its surfaces is left out: "ready" would be said of what must still wait.
 */
export function openWaits(standing: readonly StandingWait[], nowMs: number): StandingWait[] {
  const due = (one: StandingWait) => (one.stand === 'waiting' ? one.readyMs : (one.latestMs ?? one.readyMs)) ?? one.fromMs;
  const open = standing.filter((one) => one.stand !== 'ended' && !one.outlived && !(isBucket(one) && nowMs - due(one) > DAY_MS));
  return open.filter((one, i) => !open.some((other, j) => outlasts(other, one, j > i))).toSorted((a, b) => due(a) - due(b));
}

/** Each pail and each combed bed waits for itself. */
function isBucket({ wait }: StandingWait): boolean {
  return ['slake', 'pot-life', 'open-time'].includes(wait.data.what);
}

/** Whether nothing is left to say of `one` beside `other`: of two that end at once, the one begun later is said. A latest-by is never left out. */
function outlasts(other: StandingWait, one: StandingWait, later: boolean): boolean {
  const [of, on] = [other.wait.data, one.wait.data];
  if (of.what !== on.what || isBucket(one) || one.latestMs !== null || one.readyMs === null || other.readyMs === null) return false;
  const covers = of.surfaces.length === 0 || (on.surfaces.length > 0 && on.surfaces.every((id) => of.surfaces.includes(id)));
  return covers && (other.readyMs > one.readyMs || (other.readyMs === one.readyMs && later));
}

const DAY_MS = 86_400_000;

/** What rings between two looks at the clock: a wait that became ready, a latest-by that came near, one that passed. */
export function bellsBetween(standing: readonly StandingWait[], fromMs: number, toMs: number): ('ready' | 'warn' | 'late')[] {
  const passed = (ms: number | null) => ms !== null && ms > fromMs && ms <= toMs;
  return standing
    .filter((one) => one.stand !== 'ended' && !one.outlived)
    .flatMap((one) => [
      ...(passed(one.readyMs) ? ['ready' as const] : []),
      ...(passed(one.warnMs) ? ['warn' as const] : []),
      ...(passed(one.latestMs) ? ['late' as const] : []),
    ]);
}
