import { baseOf } from '../measure/dimension.ts';
import type { Quantity } from '../record/kinds/reading.ts';
import { expectedEvaporation } from '../trade/evaporation.ts';
import { floodLoad } from '../trade/flood-load.ts';
import { stopLevel, type StopLevel } from '../trade/flood-stop.ts';
import { netDrop, type Level, type NetDrop } from '../trade/flood-levels.ts';
import { smallestLoss } from '../trade/flood.ts';
import type { Air } from '../trade/weather.ts';
import { airOf, lastConditions } from './conditions.ts';
import type { Attempt } from './flood.ts';
import type { JobState, Measured } from './state.ts';

/** Air as taken where nobody has measured it: a heated room (own choice, no source), said where it is used. */
const HEATED_ROOM: Air = { airC: 21, humidityPct: 50 };
/** How much a pan's own loss may differ from the basin's, as a share of what may evaporate: other depth, other draught (own choice, no source). */
const PAN_UNLIKE = 0.25;

/** What may evaporate over a time: `highMm` at most. `measured` is false where the air was taken for a heated room's. */
export interface MayEvaporate {
  readonly highMm: number;
  readonly air: Air;
  readonly measured: boolean;
}

/** By the last conditions of the job. Still water of the room's own temperature is taken, which gives off the most without heating. */
export function mayEvaporate(job: JobState, holdMs: number): MayEvaporate {
  const last = lastConditions(job);
  const air = last === null ? null : airOf(last.data);
  const said = air === null ? null : expectedEvaporation({ ...air, waterC: air.airC, holdMs });
  if (air !== null && said?.ok === true) return { highMm: said.value.highMm, air, measured: true };
  const taken = expectedEvaporation({ ...HEATED_ROOM, waterC: HEATED_ROOM.airC, holdMs });
  if (!taken.ok) throw new RangeError(`holdMs: ${taken.fault.code} ${holdMs}`);
  return { highMm: taken.value.highMm, air: HEATED_ROOM, measured: false };
}

/** What a test can show, said before it is filled. Litres only where the size of the pan is known. */
export interface CanShow {
  readonly detectableMm: number;
  readonly litres: number | null;
  readonly evaporates: MayEvaporate;
}

/** Null while ruler or hold are not known, or no such test can be. */
export function canShow(
  plan: { readonly ruler: Quantity | null; readonly holdMs: number; readonly pan: boolean; readonly under: readonly string[] },
  job: JobState,
): CanShow | null {
  const resolutionMm = plan.ruler === null ? null : mm(plan.ruler);
  if (resolutionMm === null || plan.holdMs <= 0) return null;
  const evaporates = mayEvaporate(job, plan.holdMs);
  const areaM2 = areaOf(plan.under, job);
  const evaporation = plan.pan
    ? ({ kind: 'pan', resolutionMm, unlikeMm: evaporates.highMm * PAN_UNLIKE } as const)
    : ({ kind: 'at-most', highMm: evaporates.highMm } as const);
  const smallest = smallestLoss({ resolutionMm, holdMs: plan.holdMs, areaM2: areaM2 ?? 1, evaporation });
  if (!smallest.ok) return null;
  const { detectableMm, detectableL } = smallest.value;
  return { detectableMm, litres: areaM2 === null ? null : detectableL, evaporates };
}

/** The floors under water, by the sizes typed at set-up; null where one has none. */
function areaOf(under: readonly string[], job: JobState): number | null {
  const floors = job.surfaces.filter(({ surface, place }) => place === 'floor' && under.includes(surface));
  const sizes = floors.map(({ width, height }) =>
    width === undefined || height === undefined ? null : ((mm(width) ?? 0) * (mm(height) ?? 0)) / 1e6,
  );
  const sum = sizes.reduce<number>((all, one) => all + (one ?? NaN), 0);
  return sum > 0 ? sum : null;
}

/** Weight of the water, where it stands this deep; null for a depth nobody fills. */
export interface Load {
  readonly pa: number;
  readonly shareOfDwelling: number;
  readonly engineerFirst: boolean;
}

export function loadAt(depth: Quantity): Load | null {
  const depthMm = mm(depth);
  // Level floor, since the depth is that of the deepest point.
  const load = depthMm === null ? null : floodLoad({ areaM2: 1, depthAtThresholdMm: depthMm, slopeMmPerM: 0, runMm: 0, fall: 'point' });
  if (load?.ok !== true) return null;
  const { loadAtDrainPa, shareOfDwellingLiveLoad, overStandardHead } = load.value;
  return { pa: loadAtDrainPa, shareOfDwelling: shareOfDwellingLiveLoad, engineerFirst: overStandardHead };
}

/** Longer than any test, and as long as evaporation is worked out for: a year. */
const LONGEST_MS = 366 * 86_400_000;
const HOUR_MS = 3_600_000;

/** What the levels can show, the second of the two statements. `few`: no level was read twice yet. */
export type Levels =
  | { readonly state: 'few' }
  | { readonly state: 'unclear'; readonly field: string }
  | { readonly state: 'read'; readonly net: NetDrop; readonly evaporates: MayEvaporate | null };

export function levels(attempt: Attempt, job: JobState): Levels {
  const test = attempt.levels.map((one) => ({ ...levelOf(one), mark: one.spot ?? '' }));
  const times = test.map(({ atMs }) => atMs);
  const elapsedMs = Math.max(...times) - Math.min(...times);
  if (test.length < 2 || elapsedMs <= 0) return { state: 'few' };
  // A clock that was moved, not a test: nobody waits a year beside a pan.
  if (elapsedMs > LONGEST_MS) return { state: 'unclear', field: 'levels' };
  const pan = attempt.control.map(levelOf);
  const evaporates = mayEvaporate(job, elapsedMs);
  const maxLoss = attempt.fill.data.maxLoss;
  const net = netDrop({
    levels: test,
    beside:
      pan.length > 0
        ? { kind: 'pan', readings: pan, unlikeMm: evaporates.highMm * PAN_UNLIKE }
        : { kind: 'at-most', highMm: evaporates.highMm },
    // Water let in or out ends an attempt as void.
    disturbed: false,
    maxLossMm: maxLoss === undefined ? null : mm(maxLoss),
  });
  if (!net.ok) return { state: 'unclear', field: net.fault.field };
  return { state: 'read', net: net.value, evaporates: pan.length > 0 ? null : evaporates };
}

/**
 * Where the fall of an attempt came to rest, by the mark that was read most: about the height of the hole. Null where no mark was read
 * three times, or its times make no sense.
 */
export function restOf(attempt: Attempt, job: JobState): StopLevel | null {
  const marks = [...Map.groupBy(attempt.levels, ({ spot }) => spot ?? '').values()];
  const most = marks.toSorted((a, b) => b.length - a.length)[0];
  const read = (most ?? []).map(levelOf);
  const times = read.map(({ atMs }) => atMs);
  const holdMs = Math.max(...times) - Math.min(...times);
  if (read.length < 3 || holdMs <= 0 || holdMs > LONGEST_MS) return null;
  const rest = stopLevel({ levels: read, evaporationMmPerH: (mayEvaporate(job, holdMs).highMm * HOUR_MS) / holdMs });
  return rest.ok ? rest.value : null;
}

/** Steps of a ruler that did not say its own: what most have. */
const RULER = { in: '0.0625', mm: '1' } as const;

export function levelOf({ utc, said }: Measured): Level {
  const step = 'resolution' in said && typeof said.resolution === 'string' ? said.resolution : RULER[said.unit === 'in' ? 'in' : 'mm'];
  const unit = step === RULER.mm && said.unit !== 'in' ? 'mm' : said.unit;
  return { atMs: Date.parse(utc), levelMm: mm(said) ?? 0, resolutionMm: mm({ value: step, unit }) ?? 1 };
}

const NM_PER_MM = 1_000_000;

function mm({ value, unit }: Pick<Quantity, 'value' | 'unit'>): number | null {
  const size = baseOf(value, unit);
  return size.ok ? size.value / NM_PER_MM : null;
}
