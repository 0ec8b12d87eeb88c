import type { Entry } from '../record/entry.ts';
import { known, type Limit, type Picture, type Step, type Surface } from '../record/kinds.ts';
import type { Measure, Reading } from '../record/kinds/reading.ts';
import { order, type Placed } from './order.ts';

export interface Run {
  readonly id: string;
  readonly step: Step;
  readonly surfaces: readonly string[];
  readonly by: string;
  readonly startUtc: string;
  readonly startOffsetMin: number;
  readonly stopUtc: string | null;
  /** True when the end was inferred, not touched. */
  readonly stopAbout: boolean;
}

export interface Shot {
  readonly id: string;
  readonly run: string | null;
  readonly step: Step | null;
  readonly surface: string | null;
  readonly picture: Picture;
  readonly from: 'viewfinder' | 'file';
  readonly cameraSaysTaken: string | null;
  readonly by: string;
  readonly utc: string;
  readonly offsetMin: number;
}

export interface Measured {
  readonly id: string;
  readonly run: string | null;
  readonly step: Step | null;
  readonly surface: string | null;
  readonly what: Measure;
  readonly said: Reading['said'];
  readonly how: Reading['how'];
  readonly by: string;
  readonly utc: string;
  readonly offsetMin: number;
}

export interface PrintedRecord {
  readonly id: string;
  readonly utc: string;
  readonly offsetMin: number;
  /** SHA-256 of the PDF, and of the pictures made for it. */
  readonly pdf: string;
  readonly pictures: readonly string[];
}

/** A line of the log as the projection read it; `kind` is `unknown` for what a newer version wrote. */
export interface Line {
  readonly entry: Entry;
  readonly unknown: boolean;
}

/** The meaning of a job's log. A pure function of the entries: nothing here is ever stored. */
export interface JobState {
  readonly id: string | null;
  readonly name: string;
  readonly address: string;
  readonly units: 'in' | 'mm';
  readonly lang: string;
  readonly example: boolean;
  readonly people: Readonly<Record<string, string>>;
  readonly surfaces: readonly Surface[];
  readonly limits: readonly Limit[];
  readonly runs: readonly Run[];
  readonly shots: readonly Shot[];
  readonly readings: readonly Measured[];
  readonly records: readonly PrintedRecord[];
  readonly clockJumps: number;
  /** Every entry in reading order, so that none is ever unshown. */
  readonly lines: readonly Line[];
}

export const EMPTY_JOB: JobState = {
  id: null,
  name: '',
  address: '',
  units: 'in',
  lang: 'en',
  example: false,
  people: {},
  surfaces: [],
  limits: [],
  runs: [],
  shots: [],
  readings: [],
  records: [],
  clockJumps: 0,
  lines: [],
};

/** The projection and what it was read from, so that more entries can be added without reading all again. */
export interface Projection {
  readonly state: JobState;
  readonly placed: readonly Placed[];
}

export const EMPTY_PROJECTION: Projection = { state: EMPTY_JOB, placed: [] };

/** The state of a job from all its entries, in any order. */
export function project(entries: readonly Entry[]): Projection {
  const placed = order(entries);
  return { placed, state: placed.reduce((state, { entry }) => apply(state, entry), EMPTY_JOB) };
}

/**
 * The projection with more entries. Equal to projecting all from scratch: entries that read after everything so far are
 * added one by one; when any belongs earlier, all is read again.
 */
export function extend(before: Projection, more: readonly Entry[]): Projection {
  const placed = order([...before.placed.map((one) => one.entry), ...more]);
  const start = before.placed.length;
  const untouched = before.placed.every((one, i) => placed[i]?.entry === one.entry);
  const from = untouched ? start : 0;
  const state = placed.slice(from).reduce((sum, { entry }) => apply(sum, entry), untouched ? before.state : EMPTY_JOB);
  return { placed, state };
}

/** One entry further. Entries are facts: a second `job` or `limit` of the same id replaces what is shown, never what is kept. */
function apply(state: JobState, entry: Entry): JobState {
  const view = known(entry);
  const { id, by, run = null } = entry.body;
  const { utc, offsetMin } = entry.body.times;
  const next: JobState = {
    ...state,
    id: state.id ?? entry.body.job,
    lines: [...state.lines, { entry, unknown: view.kind === 'unknown' }],
  };
  switch (view.kind) {
    case 'device':
    case 'unknown':
      return next;
    case 'clock-jump':
      return { ...next, clockJumps: state.clockJumps + 1 };
    case 'job': {
      const { name, address, units, lang, example = false } = view.data;
      return { ...next, name, address, units, lang, example };
    }
    case 'person':
      return { ...next, people: { ...state.people, [view.data.person]: view.data.name } };
    case 'surface':
      return { ...next, surfaces: replaceBy(state.surfaces, view.data, 'surface') };
    case 'limit':
      return { ...next, limits: replaceBy(state.limits, view.data, 'limit') };
    case 'run-start': {
      const { step, surfaces } = view.data;
      const started = { id, step, surfaces, by, startUtc: utc, startOffsetMin: offsetMin, stopUtc: null, stopAbout: false };
      return { ...next, runs: [...state.runs, started] };
    }
    case 'run-stop': {
      const stopAbout = view.data.end === 'about';
      const lastShot = state.shots.findLast((one) => one.run === run);
      // A forgotten stop says when the run ended, about: at its last shot, not when somebody noticed.
      const stopUtc = stopAbout ? (lastShot?.utc ?? utc) : utc;
      return { ...next, runs: state.runs.map((one) => (one.id === run && one.stopUtc === null ? { ...one, stopUtc, stopAbout } : one)) };
    }
    case 'shot': {
      const { surface, picture, from, cameraSays } = view.data;
      const of = state.runs.find((one) => one.id === run) ?? null;
      const shot: Shot = {
        id,
        run,
        step: of?.step ?? null,
        surface: surface ?? onlySurface(of),
        picture,
        from,
        cameraSaysTaken: cameraSays?.taken ?? null,
        by,
        utc,
        offsetMin,
      };
      return { ...next, shots: [...state.shots, shot] };
    }
    case 'reading': {
      const { what, surface, said, how } = view.data;
      const of = state.runs.find((one) => one.id === run) ?? null;
      const reading: Measured = { id, run, step: of?.step ?? null, surface: surface ?? onlySurface(of), what, said, how, by, utc, offsetMin };
      return { ...next, readings: [...state.readings, reading] };
    }
    case 'record':
      return { ...next, records: [...state.records, { id, utc, offsetMin, pdf: view.data.pdf.sha256, pictures: view.data.pictures }] };
  }
}

/** The surfaces a run is on; all of the job's where it names none, or there is no run. */
export function surfacesOf(job: JobState, run: Run | null): readonly Surface[] {
  return run === null || run.surfaces.length === 0 ? job.surfaces : job.surfaces.filter(({ surface }) => run.surfaces.includes(surface));
}

function onlySurface(run: Run | null): string | null {
  return run !== null && run.surfaces.length === 1 ? run.surfaces[0]! : null;
}

function replaceBy<T, K extends keyof T>(list: readonly T[], item: T, key: K): readonly T[] {
  return list.some((one) => one[key] === item[key])
    ? list.map((one) => (one[key] === item[key] ? item : one))
    : [...list, item];
}
