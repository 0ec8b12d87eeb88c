import type { Entry } from '../record/entry.ts';
import type { DataOf } from '../record/kinds.ts';
import type { Step, Surface } from '../record/kinds/setup.ts';
import { isCorrection, standings, type Standing } from './corrections.ts';
import { order, type Placed } from './order.ts';
import {
  EMPTY_JOB,
  type At,
  type Fact,
  type FactKind,
  type JobState,
  type Measured,
  type PrintedRecord,
  type Run,
  type Shot,
} from './state.ts';

/** The projection and what it was read from, so that more entries can be added without reading all again. */
export interface Projection {
  readonly state: JobState;
  readonly placed: readonly Placed[];
}

export const EMPTY_PROJECTION: Projection = { state: EMPTY_JOB, placed: [] };

/** The state of a job from all its entries, in any order. */
export function project(entries: readonly Entry[]): Projection {
  const placed = order(entries);
  return { placed, state: read(EMPTY_JOB, placed, standingsOf(placed)) };
}

/**
 * The projection with more entries. Equal to projecting all from scratch: entries that read after everything so far are
 * added one by one; when any belongs earlier, corrects what was read, or was corrected before it came, all is read again.
 */
export function extend(before: Projection, more: readonly Entry[]): Projection {
  const placed = order([...before.placed.map((one) => one.entry), ...more]);
  const appended = before.placed.every((one, i) => placed[i]?.entry === one.entry);
  const untouched = appended && !more.some(isCorrection) && !correctsAny(before.placed, more);
  const rest = untouched ? placed.slice(before.placed.length) : placed;
  return { placed, state: read(untouched ? before.state : EMPTY_JOB, rest, standingsOf(rest)) };
}

/** Whether a correction read before speaks of an entry that comes only now. */
function correctsAny(placed: readonly Placed[], more: readonly Entry[]): boolean {
  const ids = new Set<unknown>(more.map(({ body }) => body.id));
  return placed.some(({ entry }) => isCorrection(entry) && ids.has(entry.body.data['of']));
}

function standingsOf(placed: readonly Placed[]): ReadonlyMap<Entry, Standing> {
  return standings(placed.map(({ entry }) => entry));
}

function read(state: JobState, placed: readonly Placed[], standing: ReadonlyMap<Entry, Standing>): JobState {
  return placed.reduce((sum, { entry }) => apply(sum, entry, standing.get(entry)!), state);
}

/** One entry further. Entries are facts: a second `job` or `limit` of the same id replaces what is shown, never what is kept. */
function apply(state: JobState, entry: Entry, standing: Standing): JobState {
  const { view } = standing;
  const { id, by, run = null, device } = entry.body;
  const { utc, offsetMin } = entry.body.times;
  const at: At = { id, run, by, utc, offsetMin };
  const next: JobState = {
    ...state,
    id: state.id ?? entry.body.job,
    lines: [...state.lines, { entry, unknown: view.kind === 'unknown', standing }],
  };
  if (standing.state === 'withdrawn') return next;
  const open = standing.state === 'open';
  switch (view.kind) {
    case 'device':
    case 'unknown':
    case 'amendment':
    case 'withdrawal':
      return next;
    case 'job': {
      const { name, address, units, lang, example = false, permit = '', proof = 'core' } = view.data;
      return { ...next, name, address, units, lang, example, permit, proof };
    }
    case 'person':
      return { ...next, people: { ...state.people, [view.data.person]: view.data.name } };
    case 'room':
      return { ...next, rooms: replaceBy(state.rooms, view.data, 'room') };
    case 'surface':
      return { ...next, surfaces: replaceBy(state.surfaces, view.data, 'surface') };
    case 'limit':
      return { ...next, limits: replaceBy(state.limits, view.data, 'limit') };
    case 'material':
      return { ...next, materials: replaceBy(state.materials, view.data, 'material') };
    case 'own-system':
      return { ...next, ownSystems: replaceBy(state.ownSystems, view.data, 'system') };
    case 'own-rule':
      return { ...next, ownRules: replaceBy(state.ownRules, view.data, 'rule') };
    case 'drawing': {
      const drawn = { id, room: view.data.room, data: view.data, open };
      return { ...next, drawings: replaceBy(state.drawings, drawn, 'room') };
    }
    case 'run-start': {
      const { step, surfaces, coat = null, materials = [] } = view.data;
      const started: Run = {
        id,
        step,
        surfaces,
        coat,
        materials,
        by,
        startUtc: utc,
        startOffsetMin: offsetMin,
        stopUtc: null,
        stopAbout: false,
        open,
      };
      return { ...next, runs: [...state.runs, started] };
    }
    case 'run-stop':
      return { ...next, runs: stopped(state, run, view.data.end === 'about', utc) };
    case 'shot': {
      const { surface, surfaces, shows = [], distance = null, pair = null, material = null, picture, from, cameraSays } = view.data;
      const of = runOf(state, run);
      const on = surfaces ?? (surface === null ? onlySurface(of) : [surface]);
      const shot: Shot = {
        ...at,
        step: of?.step ?? null,
        coat: of?.coat ?? null,
        surfaces: on,
        shows,
        distance,
        pair,
        material,
        picture,
        from,
        cameraSaysTaken: cameraSays?.taken ?? null,
        sorted: from !== 'watch' && (of !== null || on.length > 0 || shows.length > 0 || material !== null) && !open && of?.open !== true,
      };
      return { ...next, shots: [...state.shots, shot] };
    }
    case 'tag': {
      if (open) return next;
      const { shots, run: into, step, surfaces, shows = [], distance = null } = view.data;
      const of = runOf(state, into);
      // Whatever its tag says, a photo stays in the tray while the run it is in is in dispute.
      const tagged = (shot: Shot): Shot => ({
        ...shot,
        run: into ?? shot.run,
        step: step ?? of?.step ?? shot.step,
        coat: of === null ? shot.coat : of.coat,
        surfaces,
        shows,
        distance: distance ?? shot.distance,
        sorted: runOf(state, into ?? shot.run)?.open !== true,
      });
      return { ...next, shots: state.shots.map((shot) => (shots.includes(shot.id) ? tagged(shot) : shot)) };
    }
    case 'reading': {
      const { what, surface, said, how, spot = null, coat = null, scale = null, shot = null, attempt = null, water = null } = view.data;
      const { photo = null, lap = null, confirmed = null } = view.data;
      const of = runOf(state, run);
      const on = surface ?? onlySurface(of)[0] ?? null;
      const step: Step | null = of?.step ?? null;
      const reading: Measured = {
        ...at,
        step,
        coat: coat ?? of?.coat ?? null,
        surface: on,
        what,
        said,
        how,
        spot,
        scale,
        shot,
        attempt,
        water,
        photo,
        lap,
        confirmed,
        open: open || of?.open === true,
      };
      return { ...next, readings: [...state.readings, reading] };
    }
    case 'record':
      return { ...next, records: [...state.records, { id, utc, offsetMin, ...printed(view.data) }] };
    default: {
      const fact = { ...at, device, data: view.data, open } as Fact;
      return { ...next, facts: { ...state.facts, [view.kind satisfies FactKind]: [...state.facts[view.kind], fact] } };
    }
  }
}

function printed({ document, pdf, pictures, derived = [] }: DataOf<'record'>): Omit<PrintedRecord, 'id' | 'utc' | 'offsetMin'> {
  const { paper } = document;
  return { paper: typeof paper === 'string' ? paper : null, pdf: pdf.sha256, pictures, derived };
}

/** A run ends once, at its first stop. A forgotten stop says when it ended, about: at its last shot, not when somebody noticed. */
function stopped(state: JobState, run: string | null, about: boolean, utc: string): readonly Run[] {
  const lastShot = state.shots.findLast((one) => one.run === run);
  const stopUtc = about ? (lastShot?.utc ?? utc) : utc;
  return state.runs.map((one) => (one.id === run && one.stopUtc === null ? { ...one, stopUtc, stopAbout: about } : one));
}

function runOf(state: JobState, run: string | null): Run | null {
  return state.runs.find((one) => one.id === run) ?? null;
}

/** The surfaces a run is on; all of the job's where it names none, or there is no run. */
export function surfacesOf(job: JobState, run: Run | null): readonly Surface[] {
  return run === null || run.surfaces.length === 0 ? job.surfaces : job.surfaces.filter(({ surface }) => run.surfaces.includes(surface));
}

function onlySurface(run: Run | null): readonly string[] {
  return run !== null && run.surfaces.length === 1 ? run.surfaces : [];
}

function replaceBy<T, K extends keyof T>(list: readonly T[], item: T, key: K): readonly T[] {
  return list.some((one) => one[key] === item[key]) ? list.map((one) => (one[key] === item[key] ? item : one)) : [...list, item];
}
