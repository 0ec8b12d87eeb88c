import { celsiusOf } from '../measure/dimension.ts';
import { extendedWait, type LoggedTemperature } from '../trade/cure.ts';
import type { LoggedAir } from '../trade/drying.ts';
import { extendedDrying } from '../trade/drying.ts';
import type { Fact, JobState } from './state.ts';
import type { StandingWait } from './waits.ts';

/** How far a single look at the thermometer speaks, before and after; own choice, no source. */
const REACH_MS = 3 * 3_600_000;
/** Temperature below which mortar is taken not to harden, where the sheet names none (ASTM C1074: 0 °C where it was not tested). */
const DATUM_C = 0;

/** Our estimate beside a stated wait: advice, and only ever longer. */
export interface Extension {
  /** When it would be over by our estimate; null when nothing says how long, as in frost. */
  readonly readyMs: number | null;
  /** Hours of the wait that nobody read a thermometer for. */
  readonly unknownMs: number;
}

/**
 * The estimate for a wait that is still to be waited for: mortar by its temperatures, a coat by temperature and humidity, both against the
 * lower end of the range the job's own limits state. Null where there is nothing to say: no stated wait, no stated range, no reading,
 * or nothing colder or damper than the range.
 */
export function extension(job: JobState, { wait, fromMs, readyMs }: StandingWait): Extension | null {
  if (readyMs === null || readyMs <= fromMs) return null;
  const referenceC = lowestStated(job);
  const statedMs = readyMs - fromMs;
  const step = job.runs.find((run) => run.id === wait.run)?.step;
  const coat = step === 'liquid-coat' || step === 'band-seams' || step === 'corners';
  if (referenceC === null) return null;
  const common = { statedMs, startMs: fromMs, reachMs: REACH_MS };
  const done = coat
    ? extendedDrying({ ...common, readings: airs(job), reference: { airC: referenceC, humidityPct: highestStated(job) }, project: null })
    : extendedWait({
        ...common,
        readings: temperatures(job),
        referenceC,
        projectC: null,
        maturity: { kind: 'nurse-saul', datumC: DATUM_C },
      });
  if (!done.ok || done.value.knownMs === 0) return null;
  const { waitMs, unknownMs } = done.value;
  return waitMs !== null && waitMs - statedMs < 60_000 ? null : { readyMs: waitMs === null ? null : fromMs + waitMs, unknownMs };
}

/** The lowest temperature the limits allow, in °C. */
function lowestStated(job: JobState): number | null {
  const stated = job.limits.filter(({ what, min }) => (what === 'air-temperature' || what === 'surface-temperature') && min !== null);
  const all = stated.flatMap(({ min, unit }) => celsiusOf(min!, unit) ?? []).filter((tempC) => tempC > DATUM_C);
  return all.length === 0 ? null : Math.max(...all);
}

/** The highest humidity the limits allow; 85 % where they name none (common practice, no source). */
function highestStated(job: JobState): number {
  const stated = job.limits.flatMap(({ what, max }) => (what === 'humidity' && max !== null ? [Number(max)] : []));
  return Math.min(95, ...(stated.length === 0 ? [85] : stated));
}

function temperatures(job: JobState): LoggedTemperature[] {
  return job.facts.conditions.flatMap((fact, i): LoggedTemperature[] => {
    const atMs = Date.parse(fact.utc);
    const seen = [fact.data.air, fact.data.surface].flatMap((one) => (one === undefined ? [] : (celsiusOf(one.value, one.unit) ?? [])));
    const now = seen.length === 0 ? [] : [{ fromMs: atMs, toMs: atMs, coldestC: Math.min(...seen) }];
    return [...night(fact, job.facts.conditions[i - 1]), ...now];
  });
}

/** A minimum thermometer speaks for all the time since it was last looked at. */
function night(fact: Fact<'conditions'>, before: Fact<'conditions'> | undefined): LoggedTemperature[] {
  const lowest = fact.data.lowest === undefined ? null : celsiusOf(fact.data.lowest.value, fact.data.lowest.unit);
  if (lowest === null || before === undefined) return [];
  const [fromMs, toMs] = [Date.parse(before.utc), Date.parse(fact.utc)];
  return toMs < fromMs ? [] : [{ fromMs, toMs, coldestC: lowest }];
}

function airs(job: JobState): LoggedAir[] {
  return job.facts.conditions.flatMap(({ utc, data }): LoggedAir[] => {
    const airC = data.air === undefined ? null : celsiusOf(data.air.value, data.air.unit);
    if (airC === null || data.humidity === undefined) return [];
    const surfaceC = data.surface === undefined ? airC : (celsiusOf(data.surface.value, data.surface.unit) ?? airC);
    const atMs = Date.parse(utc);
    return [{ fromMs: atMs, toMs: atMs, airC, humidityPct: Number(data.humidity.value), surfaceC }];
  });
}
