import { RULES_VERSION, judgeSaid } from '../job/judged.ts';
import type { JobState, Line, Measured, Run, Shot } from '../job/project.ts';
import { proofOwed } from '../job/proof.ts';
import type { Entry, Times } from '../record/entry.ts';
import { known, type Limit } from '../record/kinds.ts';
import { recordChains, recordHeads } from './chains.ts';
import { recordLayer } from './layers.ts';
import { openPoints } from './open.ts';
import type {
  Moment,
  RecordDocument,
  RecordLimit,
  RecordLine,
  RecordReading,
  RecordRun,
  RecordSet,
  RecordShot,
  RecordSurface,
} from './record-document.ts';

export interface DocumentInput {
  readonly job: JobState;
  /** Rows of the store that no longer parse. */
  readonly unreadable: number;
  /** When the record is built, and by whom (a person's id). */
  readonly built: Times;
  readonly by: string;
  /** Hash of each picture to be printed, by the hash of the photo it was made from. */
  readonly printed: ReadonlyMap<string, string>;
}

/** The document tree of a job. Pure: the same log, time and pictures give the same tree. */
export function buildDocument({ job, unreadable, built, by, printed }: DocumentInput): RecordDocument {
  const entries = job.lines.map((line) => line.entry);
  const readings = job.readings.map((reading) => recordReading(reading, job.limits));
  const layers = proofOwed(job).map((proof) => recordLayer(proof, job, readings));
  const stops = stopMoments(entries);
  const runs = job.runs.map((run) => recordRun(run, stops.get(run.id)));
  const shots = job.shots.map((shot) => recordShot(shot, printed));
  const chains = recordChains(entries);
  const log = job.lines.map(recordLine);
  return {
    v: 1,
    rules: RULES_VERSION,
    built: { utc: built.utc, offsetMin: built.offsetMin, by },
    job: { id: job.id ?? '', name: job.name, address: job.address, units: job.units, lang: job.lang, example: job.example },
    heads: recordHeads(entries),
    chains,
    open: openPoints({ layers, readings, runs, shots, chains, log, clockJumps: job.clockJumps, unreadable }),
    people: Object.entries(job.people).map(([person, name]) => ({ person, name })),
    surfaces: job.surfaces.map(recordSurface),
    limits: job.limits.map(recordLimit),
    layers,
    runs,
    shots,
    readings,
    clockJumps: entries.flatMap((entry) => {
      const view = known(entry);
      if (view.kind !== 'clock-jump') return [];
      return [{ id: entry.body.id, at: moment(entry), wallDeltaMs: view.data.wallDeltaMs, monoDeltaMs: view.data.monoDeltaMs }];
    }),
    records: job.records.map(({ id, utc, offsetMin, pdf }) => ({ id, at: { utc, offsetMin }, pdf })),
    unreadable,
    log,
  };
}

function moment({ body: { times } }: Entry): Moment {
  return { utc: times.utc, offsetMin: times.offsetMin };
}

/** When each run was first stopped: the entry the projection reads, with the offset it leaves out. */
function stopMoments(entries: readonly Entry[]): Map<string, Moment> {
  const stops = new Map<string, Moment>();
  for (const entry of entries) {
    const { run } = entry.body;
    if (run !== undefined && known(entry).kind === 'run-stop' && !stops.has(run)) stops.set(run, moment(entry));
  }
  return stops;
}

function recordRun({ id, step, surfaces, by, startUtc, startOffsetMin, stopUtc, stopAbout }: Run, stop: Moment | undefined): RecordRun {
  return {
    id,
    step,
    surfaces: [...surfaces],
    by,
    start: { utc: startUtc, offsetMin: startOffsetMin },
    stop: stopUtc === null ? null : { utc: stopUtc, offsetMin: stop?.offsetMin ?? startOffsetMin, about: stopAbout },
  };
}

function recordShot(
  { id, run, step, surface, picture, from, cameraSaysTaken, by, utc, offsetMin }: Shot,
  printed: DocumentInput['printed'],
): RecordShot {
  return {
    id,
    run,
    step,
    surface,
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

function recordReading({ id, run, step, surface, by, utc, offsetMin, what, said, how }: Measured, limits: readonly Limit[]): RecordReading {
  const { verdict, limit } = judgeSaid(what, said, limits);
  const to = 'to' in said && typeof said.to === 'string' ? said.to : null;
  const resolution = 'resolution' in said && typeof said.resolution === 'string' ? said.resolution : null;
  const value = { text: said.text, value: said.value, to, unit: said.unit, resolution };
  return { id, run, step, surface, by, at: { utc, offsetMin }, what, said: value, how, verdict, limit: limit?.limit ?? null };
}

function recordSurface({ surface, name, place, system }: RecordSurface): RecordSurface {
  return { surface, name, place, system };
}

function recordLimit({ limit, what, min, max, unit, source }: Limit): RecordLimit {
  return { limit, what, min, max, unit, source: { kind: source.kind, text: source.text } };
}

function recordLine({ entry, unknown }: Line): RecordLine {
  const { device, seq, id, kind, by, run = null } = entry.body;
  const set = entrySet(entry);
  return { device, seq, id, kind, known: !unknown, by, at: moment(entry), run, hash: entry.hash.slice(0, 16), ...(set && { set }) };
}

function entrySet(entry: Entry): RecordSet | undefined {
  const view = known(entry);
  switch (view.kind) {
    case 'job':
      return { kind: 'job', name: view.data.name, address: view.data.address };
    case 'person':
      return { kind: 'person', name: view.data.name };
    case 'surface':
      return { kind: 'surface', ...recordSurface(view.data) };
    case 'limit':
      return { kind: 'limit', ...recordLimit(view.data) };
    default:
      return undefined;
  }
}
