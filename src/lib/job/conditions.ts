import { celsiusOf } from '../measure/dimension.ts';
import type { Conditions } from '../record/kinds/work.ts';
import { dewPoint, surfaceSpread, type Air } from '../trade/weather.ts';
import type { Fact, JobState } from './state.ts';

/** An instant and the minutes east of UTC that the clock here shows. */
export interface Here {
  readonly utc: string;
  readonly offsetMin: number;
}

/** The calendar day of an instant on the clock it was seen on, RFC 3339. */
export function dayOf({ utc, offsetMin }: Here): string {
  return new Date(Date.parse(utc) + offsetMin * 60_000).toISOString().slice(0, 10);
}

/** Whether nobody has said yet what the weather is today: asked on arrival, once a day. */
export function conditionsDue(job: JobState, now: Here): boolean {
  return !job.facts.conditions.some((one) => dayOf(one) === dayOf(now));
}

/** What a person may carry over from the last entry. The night's lowest and highest are of that night alone. */
export const CARRIED = ['air', 'humidity', 'surface'] as const;

/** The last entry that says one of them; an entry that two people amended otherwise says nothing for certain. */
export function lastConditions(job: JobState): Fact<'conditions'> | null {
  return job.facts.conditions.findLast(({ data, open }) => !open && CARRIED.some((name) => data[name] !== undefined)) ?? null;
}

/** A surface so near to the dew point, air so cold, or so damp, is worth a word (own choice, no source). */
const NEAR_K = 5;
const COLD_C = 10;
const DAMP_PCT = 80;

/** What the air says of wet surfaces. `spreadK` and `met` (both published rules) are null where the surface was not measured. */
export interface DewPoint {
  readonly dewPointC: number;
  readonly spreadK: number | null;
  readonly met: boolean | null;
}

/** The dew point where it matters: a surface near it, cold air, or damp air. Null where it does not, or air and humidity are not both said. */
export function dewPointThatMatters(said: Pick<Conditions, 'air' | 'humidity' | 'surface'>): DewPoint | null {
  const air = airOf(said);
  const dew = air === null ? null : dewPoint(air);
  if (air === null || dew?.ok !== true) return null;
  const surfaceC = said.surface === undefined ? null : celsiusOf(said.surface.value, said.surface.unit);
  const spread = surfaceC === null ? null : surfaceSpread({ ...air, surfaceC });
  const near = spread?.ok === true && spread.value.spreadK <= NEAR_K;
  if (!near && air.airC >= COLD_C && air.humidityPct <= DAMP_PCT) return null;
  return {
    dewPointC: dew.value.dewPointC,
    ...(spread?.ok === true ? { spreadK: spread.value.spreadK, met: spread.value.met } : { spreadK: null, met: null }),
  };
}

/** Air as the formulas take it; null unless temperature and humidity are both said. */
export function airOf({ air, humidity }: Pick<Conditions, 'air' | 'humidity'>): Air | null {
  const airC = air === undefined ? null : celsiusOf(air.value, air.unit);
  return airC === null || humidity === undefined ? null : { airC, humidityPct: Number(humidity.value) };
}
