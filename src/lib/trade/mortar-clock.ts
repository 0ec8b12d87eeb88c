import { ok } from '../result.ts';
import { DURATION_MS, firstFault, MOMENT_MS, numberFault, type Computed, type Span } from './input.ts';

/** From which share of a time limit on it is worth a warning (our own judgement). */
const WARN_SHARE = 0.75;
const HOUR_MS = 3_600_000;
const AREA_M2: Span = [0.01, 10_000];
const RATE_M2_H: Span = [0.01, 1000];
const MASS_KG: Span = [0.01, 1000];
const SPREAD_KG_M2: Span = [0.1, 100];

/** `slaking`: leave it. `remix`: stir once more, no more water, then use. `dead`: past its pot life. */
export type BatchState = 'slaking' | 'usable' | 'warn' | 'dead';

/**
 * Where a mixed batch stands. Times from the bag's sheet; the pot life counts from the first mixing.
 * `leftMs`: until the state's next change that matters (slaked, dead), 0 when dead.
 * Errors: a moment out of range, `nowMs` before `mixedAtMs`, times outside 0 to a year, a slake as long as the pot life.
 */
export function batchState(batch: {
  readonly mixedAtMs: number;
  readonly slakeMs: number;
  readonly potLifeMs: number;
  readonly nowMs: number;
}): Computed<{ state: BatchState; usableAtMs: number; deadAtMs: number; leftMs: number }> {
  const { mixedAtMs, slakeMs, potLifeMs, nowMs } = batch;
  const fault = firstFault([...momentFaults('mixedAtMs', mixedAtMs, nowMs), ...lifeFaults(slakeMs, potLifeMs)]);
  if (fault) return fault;
  const usableAtMs = mixedAtMs + slakeMs;
  const deadAtMs = mixedAtMs + potLifeMs;
  const state = nowMs < usableAtMs ? 'slaking' : agedState(nowMs - mixedAtMs, potLifeMs);
  return ok({ state, usableAtMs, deadAtMs, leftMs: Math.max(0, (state === 'slaking' ? usableAtMs : deadAtMs) - nowMs) });
}

/**
 * Where combed mortar stands against its open time; past it, it is scraped off, not wetted. Times from the bag's sheet.
 * Errors: a moment out of range, `nowMs` before `combedAtMs`, an open time outside 1 ms to a year.
 */
export function combedState(combed: { readonly combedAtMs: number; readonly openTimeMs: number; readonly nowMs: number }): Computed<{
  state: Exclude<BatchState, 'slaking'>;
  deadAtMs: number;
  leftMs: number;
}> {
  const { combedAtMs, openTimeMs, nowMs } = combed;
  const fault = firstFault([...momentFaults('combedAtMs', combedAtMs, nowMs), numberFault('openTimeMs', openTimeMs, DURATION_MS)]);
  if (fault) return fault;
  const deadAtMs = combedAtMs + openTimeMs;
  return ok({ state: agedState(nowMs - combedAtMs, openTimeMs), deadAtMs, leftMs: Math.max(0, deadAtMs - nowMs) });
}

/**
 * The largest batch that this crew lays before it is dead, and how many such batches the rest of the area takes.
 * `rateM2PerH` is the crew's own pace so far on this job, `spreadKgM2` the powder it used on a square metre.
 * Errors: area outside 0.01 to 10,000 m2, rate outside 0.01 to 1000 m2/h, spread outside 0.1 to 100 kg/m2, bag outside 0.01 to 1000 kg,
 * a slake as long as the pot life.
 */
export function layableBatch(laying: {
  readonly leftM2: number;
  readonly rateM2PerH: number;
  readonly spreadKgM2: number;
  readonly slakeMs: number;
  readonly potLifeMs: number;
  readonly batchKg: number;
}): Computed<{ mostM2: number; mostKg: number; batches: number; batchLaidInMs: number; batchDiesFirst: boolean }> {
  const { leftM2, rateM2PerH, spreadKgM2, slakeMs, potLifeMs, batchKg } = laying;
  const fault = firstFault([
    numberFault('leftM2', leftM2, AREA_M2),
    numberFault('rateM2PerH', rateM2PerH, RATE_M2_H),
    numberFault('spreadKgM2', spreadKgM2, SPREAD_KG_M2),
    numberFault('batchKg', batchKg, MASS_KG),
    ...lifeFaults(slakeMs, potLifeMs),
  ]);
  if (fault) return fault;
  const usableMs = potLifeMs - slakeMs;
  const mostM2 = (rateM2PerH * usableMs) / HOUR_MS;
  const batchLaidInMs = (batchKg / spreadKgM2 / rateM2PerH) * HOUR_MS;
  const batchM2 = Math.min(mostM2, batchKg / spreadKgM2);
  return ok({
    mostM2,
    mostKg: mostM2 * spreadKgM2,
    batches: Math.ceil(leftM2 / batchM2 - 1e-9),
    batchLaidInMs,
    batchDiesFirst: batchLaidInMs > usableMs,
  });
}

function agedState(ageMs: number, lifeMs: number): Exclude<BatchState, 'slaking'> {
  return ageMs >= lifeMs ? 'dead' : ageMs >= WARN_SHARE * lifeMs ? 'warn' : 'usable';
}

function momentFaults(field: string, sinceMs: number, nowMs: number) {
  return [
    numberFault(field, sinceMs, MOMENT_MS),
    numberFault('nowMs', nowMs, MOMENT_MS),
    nowMs < sinceMs ? ({ code: 'out-of-order', field: 'nowMs', bound: sinceMs } as const) : null,
  ];
}

function lifeFaults(slakeMs: number, potLifeMs: number) {
  return [
    numberFault('slakeMs', slakeMs, [0, DURATION_MS[1]]),
    numberFault('potLifeMs', potLifeMs, DURATION_MS),
    slakeMs >= potLifeMs ? ({ code: 'out-of-order', field: 'potLifeMs', bound: slakeMs } as const) : null,
  ];
}
