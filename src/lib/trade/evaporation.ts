import { ok } from '../result.ts';
import { dryAirDensity, humidityRatio, ratioFromWetBulb, saturationPa } from './_moist-air.ts';
import { DURATION_MS, firstFault, numberFault, type Computed, type Span } from './input.ts';
import { HUMIDITY_PCT, type Air } from './weather.ts';

/**
 * What air can still take up, and what water gives off into it. The formulas differ by a factor of three on the same room: a band of
 * what may be, never a correction. Nothing here is a limit of a data sheet.
 */

/** Water does not stand below freezing; above 50 C nobody works. */
export const WET_AIR_C: Span = [0, 50];
const WATER_C: Span = [0, 50];
const WIND_KMH: Span = [0, 100];
const HOUR_MS = 3_600_000;
/** Where ACI 305R and 308 want precautions, and at half of it for mixes with silica fume. */
const ACT_KG_M2_H = 1;

/**
 * Wet bulb in C and vapour pressure deficit in Pa: the first is where unheated water drifts to, the second what dries a coat.
 * Errors: a field that is no number or outside 0 to 50 C, 1 to 100 %.
 * Source: ASHRAE Handbook Fundamentals 2017, ch. 1, eq. 5, 6, 20, 33, 35, at 101,325 Pa.
 */
export function wetBulb({ airC, humidityPct }: Air): Computed<{ wetBulbC: number; deficitPa: number }> {
  const fault = wetAirFault({ airC, humidityPct });
  if (fault) return fault;
  const saturated = saturationPa(airC);
  const vapourPa = (saturated * humidityPct) / 100;
  return ok({ wetBulbC: wetBulbOf(airC, humidityRatio(vapourPa)), deficitPa: saturated - vapourPa });
}

/**
 * How much a still, indoor water surface may fall through evaporation over a test, in mm: `middleMm` by Shah, no more than `highMm`.
 * There is no lower edge but zero: a formula never proves that water did evaporate. Fans and open windows void it.
 * `airLiftKgM3`: dry air of the room less that at the water, by density; above zero the damp air rises and makes room.
 * Errors: air or water outside 0 to 50 C, humidity outside 1 to 100 %, a time outside 1 ms to a year.
 * Source: Shah, `35 rho_w cbrt(rho_r - rho_w)(W_w - W_r)` with the densities of dry air, or `0.00005 (p_w - p_r)` where that is more
 * (Shah, ASHRAE SE-14-001); upper edge the ASHRAE pool form 0.144 kg/m2/h per kPa with activity 1 (its constant from memory).
 */
export function expectedEvaporation(room: Air & { readonly waterC: number; readonly holdMs: number }): Computed<{
  middleMm: number;
  highMm: number;
  middleKgM2H: number;
  airLiftKgM3: number;
}> {
  const { airC, humidityPct, waterC, holdMs } = room;
  const fault =
    wetAirFault({ airC, humidityPct }) ?? firstFault([numberFault('waterC', waterC, WATER_C), numberFault('holdMs', holdMs, DURATION_MS)]);
  if (fault) return fault;
  const waterPa = saturationPa(waterC);
  const roomPa = (saturationPa(airC) * humidityPct) / 100;
  const { kgM2H: middleKgM2H, airLiftKgM3 } = shah({ tempC: waterC, vapourPa: waterPa }, { tempC: airC, vapourPa: roomPa });
  const highKgM2H = Math.max(middleKgM2H, (0.144 * (waterPa - roomPa)) / 1000);
  const hours = holdMs / HOUR_MS;
  return ok({ middleMm: middleKgM2H * hours, highMm: highKgM2H * hours, middleKgM2H, airLiftKgM3 });
}

/**
 * Water that fresh mortar gives off, in kg/m2/h, and whether that calls for precautions (1 kg/m2/h, ACI 305R and 308).
 * Errors: air or surface outside 0 to 50 C, humidity outside 1 to 100 %, wind outside 0 to 100 km/h.
 * Source: Uno 1998 (ACI 95-M34) in exact metric form, `5.275((Tc+17.778)^2.5 - r(Ta+17.778)^2.5)(V+4.02336)1e-6` as restated by Hover,
 * ACI SP-338, who warns of 40 % either way. The form rounded to 5, 18 and 4 is about 4 % lower.
 */
export function mortarEvaporation(site: Air & { readonly surfaceC: number; readonly windKmh: number }): Computed<{
  kgM2H: number;
  act: boolean;
}> {
  const { airC, humidityPct, surfaceC, windKmh } = site;
  const fault =
    wetAirFault({ airC, humidityPct }) ??
    firstFault([numberFault('surfaceC', surfaceC, WATER_C), numberFault('windKmh', windKmh, WIND_KMH)]);
  if (fault) return fault;
  const drive = (surfaceC + 17.778) ** 2.5 - (humidityPct / 100) * (airC + 17.778) ** 2.5;
  const kgM2H = Math.max(0, 5.275 * drive * (windKmh + 4.02336) * 1e-6);
  return ok({ kgM2H, act: kgM2H >= ACT_KG_M2_H });
}

/** The fault of air that these formulas do not speak of, as a failed result. */
export function wetAirFault({ airC, humidityPct }: Air) {
  return firstFault([numberFault('airC', airC, WET_AIR_C), numberFault('humidityPct', humidityPct, HUMIDITY_PCT)]);
}

interface Vapour {
  readonly tempC: number;
  readonly vapourPa: number;
}

function shah(water: Vapour, room: Vapour): { kgM2H: number; airLiftKgM3: number } {
  const waterRatio = humidityRatio(water.vapourPa);
  const roomRatio = humidityRatio(room.vapourPa);
  const waterDensity = dryAirDensity(water.tempC, waterRatio);
  const airLiftKgM3 = dryAirDensity(room.tempC, roomRatio) - waterDensity;
  const convected = airLiftKgM3 > 0 ? 35 * waterDensity * Math.cbrt(airLiftKgM3) * (waterRatio - roomRatio) : 0;
  return { kgM2H: Math.max(0, convected, 0.00005 * (water.vapourPa - room.vapourPa)), airLiftKgM3 };
}

/** By halving: humidity ratio rises with the wet bulb, and the wet bulb lies between the air and 40 K below it. */
function wetBulbOf(airC: number, ratio: number): number {
  let [low, high] = [airC - 40, airC];
  for (let step = 0; step < 60; step++) {
    const middle = (low + high) / 2;
    if (ratioFromWetBulb(airC, middle) < ratio) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
