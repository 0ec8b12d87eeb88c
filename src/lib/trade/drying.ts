import { ok } from '../result.ts';
import { saturationPa } from './_moist-air.ts';
import { stretch, type Stretched } from './_stretch.ts';
import { momentFaults, waitFaults } from './cure.ts';
import { WET_AIR_C } from './evaporation.ts';
import { firstFault, listFault, missingFault, numberFault, type Computed, type InputFault, type Span } from './input.ts';
import { HUMIDITY_PCT, type Air } from './weather.ts';

/**
 * Waits of water-based coats in cold and damp. They dry by giving water to the air, so humidity counts and maturity does not. Advice
 * beside the data sheet's wait, and only ever longer than it.
 */

/** A data sheet's own air, and a surface of the same temperature. Above 95 % no sheet is written. */
const REFERENCE_HUMIDITY_PCT: Span = [1, 95];

/** Air and the coat's surface between two moments (both alike when read once). */
export interface LoggedAir extends Air {
  readonly fromMs: number;
  readonly toMs: number;
  readonly surfaceC: number;
}

/**
 * How fast a water-based coat dries beside the air its data sheet speaks of: 1 as fast, 0 not at all; not held at 1.
 * `(p_s(surface) - RH p_s(air))` over the same at the reference: the difference of vapour pressures that drives evaporation (Dalton).
 * That a coat's wait goes with it is our own estimate; no published wait stands behind it.
 * Errors: air or surface outside 0 to 50 C, humidity outside 1 to 100 %, at the reference outside 1 to 95 %.
 */
export function dryingIndex(now: { readonly air: Air; readonly surfaceC: number; readonly reference: Air }): Computed<{ index: number }> {
  const fault = firstFault([
    ...airFaults('air', now.air),
    numberFault('surfaceC', now.surfaceC, WET_AIR_C),
    ...referenceFaults(now.reference),
  ]);
  return fault ?? ok({ index: indexOf({ ...now.air, surfaceC: now.surfaceC }, now.reference) });
}

/**
 * The wait of a data sheet, longer where the log was colder or damper than `reference`. The rules are those of extendedWait: a reading
 * speaks for `reachMs` before and after itself, of several the slowest counts, dry hours never make up for damp ones, `project` is what
 * is assumed after the log, and hours nobody read are counted at the sheet's own pace and said to be unknown.
 * Errors: as for dryingIndex; a stated wait outside 1 ms to a year, a reading that ends before it begins.
 */
export function extendedDrying(wait: {
  readonly statedMs: number;
  readonly startMs: number;
  readonly readings: readonly LoggedAir[];
  readonly reachMs: number;
  readonly reference: Air;
  readonly project: (Air & { readonly surfaceC: number }) | null;
}): Computed<Stretched> {
  const { readings, reference, project } = wait;
  const fault = firstFault([
    ...waitFaults(wait),
    ...referenceFaults(reference),
    ...(project === null ? [] : surfaceFaults('project', project)),
    ...readingFaults(readings),
  ]);
  if (fault) return fault;
  const paces = readings.map((reading) => ({ fromMs: reading.fromMs, toMs: reading.toMs, pace: indexOf(reading, reference) }));
  return ok(stretch(wait, paces, project === null ? null : indexOf(project, reference)));
}

function indexOf(at: Air & { readonly surfaceC: number }, reference: Air): number {
  const drivePa = saturationPa(at.surfaceC) - (at.humidityPct / 100) * saturationPa(at.airC);
  const referencePa = saturationPa(reference.airC) * (1 - reference.humidityPct / 100);
  return Math.max(0, drivePa / referencePa);
}

function airFaults(field: string, air: Air): (InputFault | null)[] {
  const missing = missingFault(field, air);
  return missing
    ? [missing]
    : [numberFault(`${field}.airC`, air.airC, WET_AIR_C), numberFault(`${field}.humidityPct`, air.humidityPct, HUMIDITY_PCT)];
}

function surfaceFaults(field: string, air: Air & { readonly surfaceC: number }): (InputFault | null)[] {
  const missing = missingFault(field, air);
  return missing ? [missing] : [...airFaults(field, air), numberFault(`${field}.surfaceC`, air.surfaceC, WET_AIR_C)];
}

function referenceFaults(reference: Air): (InputFault | null)[] {
  const faults = airFaults('reference', reference);
  return faults[0]?.code === 'missing'
    ? faults
    : [...faults, numberFault('reference.humidityPct', reference.humidityPct, REFERENCE_HUMIDITY_PCT)];
}

function readingFaults(readings: readonly LoggedAir[]): (InputFault | null)[] {
  const list = listFault('readings', readings, 0);
  if (list) return [list];
  return readings.flatMap((reading, at) => [...momentFaults(`readings[${at}]`, reading), ...surfaceFaults(`readings[${at}]`, reading)]);
}
