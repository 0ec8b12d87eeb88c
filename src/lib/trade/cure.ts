import { ok } from '../result.ts';
import { stretch, type Stretched } from './_stretch.ts';
import {
  choiceFault,
  DURATION_MS,
  firstFault,
  listFault,
  missingFault,
  MOMENT_MS,
  numberFault,
  type Computed,
  type InputFault,
  type Span,
} from './input.ts';

/**
 * Waits of cementitious layers in the cold. For what hardens with water only: a dispersion dries, and has `drying.ts`. Advice beside
 * the data sheet's wait, and only ever longer than it.
 */

/**
 * How temperature sets the pace of hardening. `arrhenius`: activation energy over the gas constant, in K (5000 K is Ea 41.5 kJ/mol; from
 * memory, between 4000 and 6000 for Portland cements). `nurse-saul`: the datum below which nothing happens, in C.
 */
export type Maturity =
  { readonly kind: 'arrhenius'; readonly activationK: number } | { readonly kind: 'nurse-saul'; readonly datumC: number };

/** A stretch of time at one temperature. */
export interface Stay {
  readonly durationMs: number;
  readonly tempC: number;
}

/** The coldest between two moments: a thermometer read once (both alike), or a minimum thermometer since it was set. */
export interface LoggedTemperature {
  readonly fromMs: number;
  readonly toMs: number;
  readonly coldestC: number;
}

const KELVIN = 273.15;
const HOUR_MS = 3_600_000;
const LAYER_C: Span = [-40, 80];
const ACTIVATION_K: Span = [1000, 10_000];
const DATUM_C: Span = [-20, 10];
/** Nothing hardens in ice, whatever a formula says (common practice, no source). */
const FROZEN_C = 0;

/**
 * Age at `referenceC` that does as much as the stays did: `te = sum(exp(-Q(1/T - 1/Tr)) dt)`, in kelvin. In hours.
 * Errors: no stays, a duration outside 0 to a year, a temperature outside -40 to 80 C, Q outside 1000 to 10,000 K.
 * Source: ASTM C1074 (equivalent age; Arrhenius), as restated in a textbook of concrete quality control.
 */
export function equivalentAge(log: {
  readonly stays: readonly Stay[];
  readonly referenceC: number;
  readonly activationK: number;
}): Computed<{ equivalentH: number; elapsedH: number }> {
  const maturity = { kind: 'arrhenius', activationK: log.activationK } as const;
  const fault = firstFault([
    ...stayFaults(log.stays),
    numberFault('referenceC', log.referenceC, LAYER_C),
    ...maturityFaults(maturity, log.referenceC),
  ]);
  if (fault) return fault;
  const equivalentH = total(log.stays, ({ tempC }) => paceOf(maturity, tempC, log.referenceC));
  return ok({ equivalentH, elapsedH: total(log.stays, () => 1) });
}

/**
 * Temperature-time factor `M = sum((T - T0) dt)`, colder than the datum counted as nothing. In C h.
 * Errors: as for equivalentAge; a datum outside -20 to 10 C.
 * Source: ASTM C1074 (Nurse-Saul); T0 0 C where it was not tested, -10 or -11 C in older books.
 */
export function temperatureTime(log: { readonly stays: readonly Stay[]; readonly datumC: number }): Computed<{ degreeHours: number }> {
  const fault = firstFault([...stayFaults(log.stays), numberFault('datumC', log.datumC, DATUM_C)]);
  return fault ?? ok({ degreeHours: total(log.stays, ({ tempC }) => Math.max(0, tempC - log.datumC)) });
}

/**
 * The wait of a data sheet, longer where the log was colder than `referenceC`, the temperature it is stated for (of a range, the lower
 * end). Warm hours never make up for cold ones; at or below 0 C the layer stands still. A reading speaks for `reachMs` before and after
 * itself, and of several the coldest counts. `projectC`: what is assumed after the log, null for nothing. Hours nobody read are counted
 * at the sheet's own pace, and said to be unknown.
 * Errors: the field that is no number or out of range (stated wait to a year, temperatures -40 to 80 C, reach to a day), a reading
 * that ends before it begins, a reference that is not above 0 C and the datum. An empty log is none: all of it is unknown.
 * Source: the two maturity functions of ASTM C1074; holding the pace at 1 above the reference is our own, so that it only lengthens.
 */
export function extendedWait(wait: {
  readonly statedMs: number;
  readonly startMs: number;
  readonly readings: readonly LoggedTemperature[];
  readonly reachMs: number;
  readonly referenceC: number;
  readonly projectC: number | null;
  readonly maturity: Maturity;
}): Computed<Stretched> {
  const { readings, referenceC, projectC, maturity } = wait;
  const fault = firstFault([
    ...waitFaults(wait),
    numberFault('referenceC', referenceC, [0.1, LAYER_C[1]]),
    projectC === null ? null : numberFault('projectC', projectC, LAYER_C),
    ...maturityFaults(maturity, referenceC),
    ...readingFaults(readings),
  ]);
  if (fault) return fault;
  const pace = (tempC: number) => (tempC >= referenceC ? 1 : tempC <= FROZEN_C ? 0 : paceOf(maturity, tempC, referenceC));
  const paces = readings.map(({ fromMs, toMs, coldestC }) => ({ fromMs, toMs, pace: pace(coldestC) }));
  return ok(stretch(wait, paces, projectC === null ? null : pace(projectC)));
}

/** The faults of a stated wait, of the moment it began and of how far a reading reaches. */
export function waitFaults(wait: { readonly statedMs: number; readonly startMs: number; readonly reachMs: number }): (InputFault | null)[] {
  return [
    numberFault('statedMs', wait.statedMs, DURATION_MS),
    numberFault('startMs', wait.startMs, MOMENT_MS),
    numberFault('reachMs', wait.reachMs, [0, 24 * HOUR_MS]),
  ];
}

/** The faults of a reading's two moments. */
export function momentFaults(field: string, { fromMs, toMs }: { readonly fromMs: number; readonly toMs: number }): (InputFault | null)[] {
  return [
    numberFault(`${field}.fromMs`, fromMs, MOMENT_MS),
    numberFault(`${field}.toMs`, toMs, MOMENT_MS),
    toMs < fromMs ? { code: 'out-of-order', field: `${field}.toMs`, bound: fromMs } : null,
  ];
}

function paceOf(maturity: Maturity, tempC: number, referenceC: number): number {
  return maturity.kind === 'arrhenius'
    ? Math.exp(-maturity.activationK * (1 / (tempC + KELVIN) - 1 / (referenceC + KELVIN)))
    : Math.max(0, tempC - maturity.datumC) / (referenceC - maturity.datumC);
}

function total(stays: readonly Stay[], pace: (stay: Stay) => number): number {
  return stays.reduce((sum, stay) => sum + pace(stay) * (stay.durationMs / HOUR_MS), 0);
}

function maturityFaults(maturity: Maturity, referenceC: number): (InputFault | null)[] {
  const kind = missingFault('maturity', maturity) ?? choiceFault('maturity.kind', maturity.kind, ['arrhenius', 'nurse-saul']);
  if (kind) return [kind];
  if (maturity.kind === 'arrhenius') return [numberFault('activationK', maturity.activationK, ACTIVATION_K)];
  const datum = numberFault('datumC', maturity.datumC, DATUM_C);
  return [datum ?? (maturity.datumC >= referenceC ? { code: 'out-of-order', field: 'datumC', bound: referenceC } : null)];
}

function stayFaults(stays: readonly Stay[]): (InputFault | null)[] {
  const list = listFault('stays', stays, 1);
  if (list) return [list];
  return stays.flatMap(({ durationMs, tempC }, at) => [
    numberFault(`stays[${at}].durationMs`, durationMs, [0, DURATION_MS[1]]),
    numberFault(`stays[${at}].tempC`, tempC, LAYER_C),
  ]);
}

function readingFaults(readings: readonly LoggedTemperature[]): (InputFault | null)[] {
  const list = listFault('readings', readings, 0);
  if (list) return [list];
  return readings.flatMap((reading, at) => [
    ...momentFaults(`readings[${at}]`, reading),
    numberFault(`readings[${at}].coldestC`, reading.coldestC, LAYER_C),
  ]);
}
