import { judgeReading } from '../job/judged.ts';
import { quantity } from '../job/said-field.ts';
import type { Fact, JobState, Measured, Run, Shot } from '../job/state.ts';
import type { StandingWait } from '../job/waits.ts';
import type { Entry } from '../record/entry.ts';
import { known } from '../record/kinds.ts';
import type { Limit } from '../record/kinds/setup.ts';
import { moment } from './line.ts';
import type { Moment, RecordReading, RecordRun, RecordShot, RecordWait } from './record-document.ts';

/** When each run was first stopped: the entry the projection reads, with the offset it leaves out. */
export function stopMoments(entries: readonly Entry[]): Map<string, Moment> {
  const stops = new Map<string, Moment>();
  for (const entry of entries) {
    const { run } = entry.body;
    if (run !== undefined && known(entry).kind === 'run-stop' && !stops.has(run)) stops.set(run, moment(entry));
  }
  return stops;
}

export function recordRun(run: Run, stop: Moment | undefined): RecordRun {
  const { id, step, surfaces, coat, materials, by, startUtc, startOffsetMin, stopUtc, stopAbout } = run;
  return {
    id,
    step,
    surfaces: [...surfaces],
    coat,
    materials: [...materials],
    by,
    start: { utc: startUtc, offsetMin: startOffsetMin },
    stop: stopUtc === null ? null : { utc: stopUtc, offsetMin: stop?.offsetMin ?? startOffsetMin, about: stopAbout },
  };
}

export function recordShot(shot: Shot, printed: ReadonlyMap<string, string>): RecordShot {
  const { id, run, step, coat, surfaces, shows, distance, pair, material, sorted, by, utc, offsetMin, from, cameraSaysTaken, picture } =
    shot;
  return {
    id,
    run,
    step,
    coat,
    surfaces: [...surfaces],
    shows: [...shows],
    distance: distance ?? null,
    pair,
    material,
    sorted,
    by,
    at: { utc, offsetMin },
    from,
    cameraSays: cameraSaysTaken,
    sha256: picture.sha256,
    bytes: picture.bytes,
    type: picture.type,
    printed: printed.get(picture.sha256) ?? null,
  };
}

export function recordReading(reading: Measured, limits: readonly Limit[]): RecordReading {
  const { id, run, step, coat, surface, spot, by, utc, offsetMin, what, said, scale, how, shot, attempt, water, open } = reading;
  const { verdict, limit } = judgeReading(reading, limits);
  return {
    id,
    run,
    step,
    coat,
    surface,
    spot,
    by,
    at: { utc, offsetMin },
    what,
    said: quantity(said),
    scale: scale ?? null,
    how,
    shot,
    attempt,
    water: water ?? null,
    open,
    verdict,
    limit: limit?.limit ?? null,
    ...photoPart(reading),
  };
}

/** Only where there is one: records made before could not hold it. */
function photoPart({ photo, confirmed }: Measured): Pick<RecordReading, 'photo'> {
  return photo === null ? {} : { photo: { low: photo.low, high: photo.high, method: photo.method, plane: photo.plane ?? null, confirmed } };
}

/** The stated deadlines of a wait on the dial of the phone that began it, and how it ended. */
export function recordWait({ wait, stand, ended, early, clockMovedMs }: StandingWait, job: JobState): RecordWait {
  const { id, data, offsetMin } = wait;
  const on = (utc: string | null) => (utc === null ? null : { utc, offsetMin });
  const { surfaces, what, fromUtc, readyUtc, latestUtc, limit } = data;
  const spokenOf = early ?? earlyIn(wait, job);
  return {
    id,
    at: at(wait),
    what,
    surfaces: [...surfaces],
    from: { utc: fromUtc, offsetMin },
    ready: on(readyUtc),
    latest: on(latestUtc),
    limit,
    stand,
    ended: ended && {
      step: ended.run.step,
      at: { utc: ended.run.startUtc, offsetMin: ended.run.startOffsetMin },
      early: ended.early,
      late: ended.late,
    },
    early: spokenOf?.id ?? null,
    clockMovedMs,
  };
}

/** An entry that speaks of the wait and is itself in dispute is still shown beside it. */
function earlyIn(wait: Fact<'wait'>, job: JobState): Fact<'early'> | null {
  return job.facts.early.findLast((one) => one.data.wait === wait.id) ?? null;
}

function at({ utc, offsetMin }: Fact): Moment {
  return { utc, offsetMin };
}
