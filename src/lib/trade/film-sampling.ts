import { ok } from '../result.ts';
import { mean } from './_range.ts';
import { FILM_UM } from './film.ts';
import { choiceFault, firstFault, numberFault, numbersFaults, type Computed, type Span } from './input.ts';

/** How many films are read, and what is said of them in a table. */

export const SAMPLING_LEVELS = ['core', 'warranty', 'full'] as const;
export type SamplingLevel = (typeof SAMPLING_LEVELS)[number];

const AREA_M2: Span = [0.01, 10_000];
const RISK_PLACES: Span = [0, 200];
const M2_PER_FT2 = 0.09290304;
/** One more spot for each started 2 m2 (own choice, no source): a shower of 8 m2 with six risk places has ten. */
const M2_PER_SPOT = 2;
const SPOTS_PER_AREA = 5;
const READINGS_PER_SPOT = 3;

/**
 * Where and how often a film is read: first at each place that leaks (drain, corners, curb, niche, penetrations), then by area. `core`
 * reads each spot once, `warranty` three times, `full` follows the published plan besides the risk places: areas of 100 ft2 up to
 * 300 ft2, three of them up to 1000 ft2, one more for each further 1000 ft2 or part; five spots an area, three readings a spot.
 * Errors: area outside 0.01 to 10,000 m2, risk places outside 0 to 200 or no whole number, an unknown level.
 * Source: SSPC-PA 2 for `full`, in the square feet it is written in (its 10, 30 and 100 m2 are roundings); `core` and `warranty` are
 * our own choice.
 */
export function filmSampling(job: { readonly areaM2: number; readonly riskPlaces: number; readonly level: SamplingLevel }): Computed<{
  areas: number;
  riskSpots: number;
  areaSpots: number;
  readingsPerSpot: number;
  readings: number;
}> {
  const { areaM2, riskPlaces, level } = job;
  const fault = firstFault([
    numberFault('areaM2', areaM2, AREA_M2),
    numberFault('riskPlaces', riskPlaces, RISK_PLACES),
    Number.isInteger(riskPlaces) ? null : { code: 'not-a-number', field: 'riskPlaces', bound: null },
    choiceFault('level', level, SAMPLING_LEVELS),
  ]);
  if (fault) return fault;
  const areas = level === 'full' ? publishedAreas(areaM2) : 1;
  const areaSpots = level === 'full' ? areas * SPOTS_PER_AREA : started(areaM2 / M2_PER_SPOT);
  const readingsPerSpot = level === 'core' ? 1 : READINGS_PER_SPOT;
  return ok({ areas, riskSpots: riskPlaces, areaSpots, readingsPerSpot, readings: (riskPlaces + areaSpots) * readingsPerSpot });
}

function publishedAreas(areaM2: number): number {
  const ft2 = areaM2 / M2_PER_FT2;
  if (ft2 <= 300 + HAIR) return started(ft2 / 100);
  return 3 + Math.max(0, started((ft2 - 1000) / 1000));
}

/** Square feet that went through square metres come back a hair off. */
const HAIR = 1e-6;

/** Whole parts, the last one begun. */
function started(parts: number): number {
  return Math.ceil(parts - HAIR);
}

/**
 * Number, mean, least, most and standard deviation of films in µm, as a table of readings prints them; no deviation of one reading.
 * Errors: no values, one outside 1 to 20,000 µm.
 * Source: sample standard deviation over n - 1; the columns are those of ISO 2360, section 9.
 */
export function filmSummary({ filmsUm }: { readonly filmsUm: readonly number[] }): Computed<{
  n: number;
  meanUm: number;
  leastUm: number;
  mostUm: number;
  deviationUm: number | null;
}> {
  const fault = firstFault(numbersFaults('filmsUm', filmsUm, 1, FILM_UM));
  if (fault) return fault;
  const n = filmsUm.length;
  const meanUm = mean(filmsUm);
  const squares = filmsUm.reduce((sum, um) => sum + (um - meanUm) ** 2, 0);
  return ok({
    n,
    meanUm,
    leastUm: Math.min(...filmsUm),
    mostUm: Math.max(...filmsUm),
    deviationUm: n < 2 ? null : Math.sqrt(squares / (n - 1)),
  });
}
