import { baseOf } from '../measure/dimension.ts';
import { SCHEMAS, type DataOf, type Draft } from '../record/kinds.ts';
import type { Quantity, Reading } from '../record/kinds/reading.ts';
import type { Surface } from '../record/kinds/setup.ts';
import { fail, ok, type Result as Outcome } from '../result.ts';
import { judge, type Verdict } from '../trade/limits.ts';
import type { FormFault, Typed } from './form-drafts.ts';
import { clockMoved, waits, waitsBegun, type StandingWait } from './waits.ts';
import { roomsOf, surfacesIn } from './proof.ts';
import type { Fact, JobState, Measured } from './state.ts';

export type FloodStand = 'open' | 'passed' | 'failed' | 'void';
type Result = DataOf<'flood-end'>['result'];
type Ceiling = DataOf<'flood-look'>['ceiling'];

/** One attempt at a flood test, with all that was said of it. */
export interface Attempt {
  /** Counted from 1 over the attempts that put water on the same surfaces. */
  readonly n: number;
  readonly id: string;
  readonly fill: Fact<'flood-fill'>;
  readonly holdMs: number;
  readonly filledMs: number;
  /** When the stated hold is over, by the clock as it stands now. */
  readonly readyMs: number;
  /** Water at the threshold, as last measured. */
  readonly depth: Measured | null;
  readonly levels: readonly Measured[];
  readonly control: readonly Measured[];
  readonly looks: readonly Fact<'flood-look'>[];
  readonly end: Fact<'flood-end'> | null;
  readonly stand: FloodStand;
}

/** The attempts of a job in order of filling. Of several ends of one attempt the worst stands: a leak is not unseen. */
export function attempts(job: JobState): Attempt[] {
  const place = new Map(job.lines.map(({ entry }, i) => [entry.body.id, i]));
  const fills = job.facts['flood-fill'];
  return fills.map((fill, i) => {
    const ends = job.facts['flood-end'].filter(({ data, open }) => data.attempt === fill.id && !open);
    const end = (['failed', 'void', 'passed'] as const).flatMap((result) => ends.filter(({ data }) => data.result === result))[0] ?? null;
    const readings = job.readings.filter((one) => one.attempt === fill.id && !one.open);
    const levels = readings.filter(({ what }) => what === 'flood-level');
    const filledMs = Date.parse(fill.utc) + clockMoved(job, fill, place);
    const holdMs = Number(fill.data.holdMin) * MINUTE_MS;
    return {
      n: 1 + fills.slice(0, i).filter((one) => sameWater(one.data.under, fill.data.under)).length,
      id: fill.id,
      fill,
      holdMs,
      filledMs,
      readyMs: filledMs + holdMs,
      depth: readings.findLast(({ what }) => what === 'flood-depth') ?? null,
      levels: levels.filter(({ water }) => water !== 'control'),
      control: levels.filter(({ water }) => water === 'control'),
      looks: job.facts['flood-look'].filter(({ data, open }) => data.attempt === fill.id && !open),
      end,
      stand: end?.data.result ?? 'open',
    };
  });
}

const MINUTE_MS = 60_000;

/** Whether the depth was written down only after the attempt had ended: it is kept at its own time, and said to be late. */
export function isDepthLate({ depth, end }: Pick<Attempt, 'depth' | 'end'>): boolean {
  return depth !== null && end !== null && Date.parse(depth.utc) > Date.parse(end.utc);
}

/** A depth that was forgotten may still be written down of a test that passed: of one that did not, the next is measured anew. */
export function mayTypeDepthLate({ depth, stand }: Pick<Attempt, 'depth' | 'stand'>): boolean {
  return depth === null && stand === 'passed';
}

/** An empty list stands for all surfaces. */
function sameWater(one: readonly string[], other: readonly string[]): boolean {
  return one.length === 0 || other.length === 0 || one.some((id) => other.includes(id));
}

/** How long the water must still stand by the rule of the attempt, and the share of the hold that is over, 0 to 1. */
export function holdLeft({ readyMs, filledMs, holdMs }: Attempt, nowMs: number): { leftMs: number; share: number } {
  const share = holdMs === 0 ? 1 : Math.min(1, Math.max(0, (nowMs - filledMs) / holdMs));
  // A screen's minute hand may lag behind the fill: never more is left than the whole.
  return { leftMs: Math.min(holdMs, Math.max(0, readyMs - nowMs)), share };
}

/** Why an end cannot be stated now, or null. An attempt can fail or be void at any time; it passes only when the stated hold is over. */
export function endRefused(attempt: Attempt, result: Result, nowMs: number): { code: 'hold-not-over'; leftMs: number } | null {
  const { leftMs } = holdLeft(attempt, nowMs);
  return result === 'passed' && leftMs > 0 ? { code: 'hold-not-over', leftMs } : null;
}

/** How deep the water stands, as last measured, against what the attempt wanted. */
export function depthVerdict(attempt: Attempt): Verdict {
  return attempt.depth === null ? 'no-limit' : depthVerdictOf(attempt.depth.said, attempt);
}

/** A depth against what the attempt wanted; no limit where it is filled to the threshold. */
export function depthVerdictOf(said: Pick<Quantity, 'value' | 'unit'>, { fill }: Attempt): Verdict {
  if (fill.data.depth === null) return 'no-limit';
  const at = nm(said);
  return judge({ from: at, to: at }, { min: nm(fill.data.depth), max: null });
}

/** What was seen, the first of the two statements: the worst look, and the ceiling below before and after. */
export interface Seen {
  /** Null while nobody has looked. */
  readonly worst: DataOf<'flood-look'>['seen'] | null;
  readonly looks: readonly Fact<'flood-look'>[];
  readonly before: Ceiling;
  readonly after: Ceiling | null;
  /** The ceiling looks wetter than before the fill. */
  readonly worse: boolean;
}

export function seen({ fill, looks }: Attempt): Seen {
  const worst = (['leak', 'damp', 'no-leak'] as const).find((code) => looks.some(({ data }) => data.seen === code)) ?? null;
  const before = fill.data.ceiling;
  const after = looks.at(-1)?.data.ceiling ?? null;
  const wetness: readonly Ceiling[] = ['dry', 'stained', 'wet'];
  const wettest = Math.max(-1, ...looks.map(({ data }) => wetness.indexOf(data.ceiling)));
  return { worst, looks, before, after, worse: wetness.includes(before) && wettest > wetness.indexOf(before) };
}

/** Surfaces that stood under water, and the others of their rooms, which the test says nothing of. */
export function tested({ fill }: Attempt, job: JobState): { under: readonly Surface[]; above: readonly Surface[] } {
  const ids = fill.data.under;
  const rooms = roomsOf(job)
    .map((room) => surfacesIn(room, job))
    .filter((on) => ids.length === 0 || on.some(({ surface }) => ids.includes(surface)));
  const isUnder = ({ surface }: Surface) => ids.length === 0 || ids.includes(surface);
  return { under: rooms.flat().filter(isUnder), above: rooms.flat().filter((one) => !isUnder(one)) };
}

/** Where a failed attempt leads: a patch that names it, the cure of the patch, and water again when it is over. */
export interface AfterFailure {
  readonly patch: Fact<'repair'> | null;
  readonly cure: StandingWait | null;
}

export function afterFailure(attempt: Attempt, job: JobState, nowMs: number): AfterFailure {
  const patch = job.facts.repair.findLast(({ data, open }) => !open && data.of.includes(attempt.id)) ?? null;
  const since = patch === null ? Infinity : Date.parse(patch.utc);
  const cure =
    waits(job, nowMs).findLast(
      ({ wait }) =>
        wait.data.what === 'before-flooding' && Date.parse(wait.utc) >= since && sameWater(wait.data.surfaces, attempt.fill.data.under),
    ) ?? null;
  return { patch, cure };
}

/** The next attempt on the same surfaces. */
export function filledAgain(attempt: Attempt, job: JobState): Attempt | null {
  return attempts(job).find((one) => one.n > attempt.n && sameWater(one.fill.data.under, attempt.fill.data.under)) ?? null;
}

/** Floors that no attempt of the job put under water. */
export function floorsUntested(job: JobState): Surface[] {
  const all = attempts(job);
  return job.surfaces.filter(({ surface, place }) => place === 'floor' && !all.some(({ fill }) => sameWater(fill.data.under, [surface])));
}

/** The waits before water may stand on what it will stand on. */
export function cureLeft(under: readonly string[], job: JobState, nowMs: number): StandingWait[] {
  return waits(job, nowMs).filter(
    (one) =>
      one.wait.data.what === 'before-flooding' && one.stand === 'waiting' && one.early === null && sameWater(one.wait.data.surfaces, under),
  );
}

/** The step that a fill is part of: the one running, else one that begins with it under `id`. */
export function withRun(draft: Draft & { kind: 'flood-fill' }, job: JobState, id: string): Draft[] {
  const running = job.runs.find((run) => run.step === 'flood-test' && run.stopUtc === null && sameWater(run.surfaces, draft.data.under));
  if (running !== undefined) return [{ ...draft, run: running.id }];
  return [
    { kind: 'run-start', id, data: { step: 'flood-test', surfaces: draft.data.under } },
    { ...draft, run: id, refs: [id] },
  ];
}

/** An end, and the end of the step the attempt ran in. */
export function endDrafts({ id, fill }: Attempt, result: Result, words: string, job: JobState): Draft[] {
  const running = job.runs.find((run) => run.id === fill.run && run.stopUtc === null);
  const of = fill.run === null ? {} : { run: fill.run };
  const end: Draft = { kind: 'flood-end', ...of, refs: [id], data: { attempt: id, result, words } };
  return running === undefined ? [end] : [end, { kind: 'run-stop', run: running.id, refs: [running.id], data: { end: 'touched' } }];
}

/** A level or depth of an attempt. It is read on the pan's floor, where proof of it is owed; once the water is gone it is no more than typed. */
export function levelDraft(attempt: Attempt, what: 'depth' | 'test' | 'control', said: Quantity, spot: string, job: JobState): Draft {
  const floor = job.surfaces.find(
    ({ surface, place }) => place === 'floor' && (attempt.fill.data.under.length === 0 || attempt.fill.data.under.includes(surface)),
  );
  const data: Reading = {
    what: what === 'depth' ? 'flood-depth' : 'flood-level',
    surface: floor?.surface ?? attempt.fill.data.under[0] ?? null,
    said,
    how: attempt.end === null ? 'tape' : 'typed',
    attempt: attempt.id,
    ...(what === 'depth' ? {} : { water: what }),
    ...(spot === '' ? {} : { spot }),
  };
  return { kind: 'reading', ...(attempt.fill.run === null ? {} : { run: attempt.fill.run }), refs: [attempt.id], data };
}

export const LOOKS = SCHEMAS['flood-look'].shape.seen.options;
export const ENDS = SCHEMAS['flood-end'].shape.result.options;

/** What was seen, or what stands in the way of saying it. */
export function lookDraft({ id, fill }: Attempt, typed: Typed): Outcome<Draft, FormFault[]> {
  const seen = LOOKS.find((one) => one === typed['seen']);
  const ceiling = SCHEMAS['flood-look'].shape.ceiling.options.find((one) => one === typed['ceiling']);
  const words = (typeof typed['words'] === 'string' ? typed['words'] : '').trim().toWellFormed();
  const missing: FormFault[] = [
    ...(seen === undefined ? [{ field: 'seen', code: 'not-chosen' } as const] : []),
    ...(ceiling === undefined ? [{ field: 'ceiling', code: 'not-chosen' } as const] : []),
    ...(words.length > 2_000 ? [{ field: 'words', code: 'too-long' } as const] : []),
  ];
  if (seen === undefined || ceiling === undefined || missing.length > 0) return fail(missing);
  return ok({
    kind: 'flood-look',
    ...(fill.run === null ? {} : { run: fill.run }),
    refs: [id],
    data: { attempt: id, seen, ceiling, words },
  });
}

/** The cure of a patch by the job's own limits, from now on. */
export function cureDrafts(attempt: Attempt, job: JobState, at: string): Draft[] {
  return waitsBegun(job, 'repair', at, attempt.fill.data.under, null);
}

function nm({ value, unit }: Pick<Quantity, 'value' | 'unit'>): number {
  const size = baseOf(value, unit);
  if (!size.ok) throw new RangeError(`${value} ${unit}: ${size.fault.code}`);
  return size.value;
}
