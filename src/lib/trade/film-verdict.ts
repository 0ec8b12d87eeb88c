import { ok } from '../result.ts';
import { mean, worstOf } from './_range.ts';
import { FILM_UM } from './film.ts';
import { firstFault, listFault, numberFault, orderFault, type Computed, type InputFault } from './input.ts';
import { judge, type Bounds, type Verdict } from './limits.ts';

/**
 * Whether a film is as thick as it must be. A reading is an interval (a comb's two teeth) or a value (both ends alike). The default rule
 * is that every reading counts by itself; spot means and allowances were written for paint on steel, and stand only where the source of
 * a limit says so.
 */

/** A film read on a comb, or a value with both ends alike; wet or dry, as the limit it is held against. */
export interface FilmReading {
  readonly fromUm: number;
  readonly toUm: number;
}

/** Readings at each end of what the limit allows, in µm; null where the sheet states none. */
interface FilmLimit {
  readonly minUm: number | null;
  readonly maxUm: number | null;
}

const NM_PER_UM = 1000;
/** SSPC-PA 2, default level: a spot may be down to 80 % of the minimum and up to 120 % of the maximum. */
const SPOT_LOW = 0.8;
const SPOT_HIGH = 1.2;
/** ISO 19840: no reading under 80 % of the nominal, and fewer than 20 % of them under the nominal. */
const NOMINAL_LOW = 0.8;
const LOW_SHARE = 0.2;

/**
 * Every reading against the sheet's least and most; the worst decides. `failing` and `open` are the places in the list.
 * Errors: no readings, a film outside 1 to 20,000 µm or turned round, a maximum below the minimum.
 * Source: every reading at or above the data sheet's minimum is common practice, no source; the interval is that of ASTM D4414.
 */
export function filmVerdict(film: FilmLimit & { readonly readings: readonly FilmReading[] }): Computed<{
  verdict: Verdict;
  failing: readonly number[];
  open: readonly number[];
  leastUm: number;
  mostUm: number;
}> {
  const { readings, minUm, maxUm } = film;
  const fault = firstFault([...readingFaults('readings', readings, 1), ...limitFaults(film)]);
  if (fault) return fault;
  const verdicts = readings.map((reading) => judged(reading, { min: minUm, max: maxUm }));
  const places = (of: Verdict) => verdicts.flatMap((verdict, at) => (verdict === of ? [at] : []));
  return ok({
    verdict: worstOf(verdicts),
    failing: places('outside'),
    open: places('not-proven'),
    leastUm: Math.min(...readings.map(({ fromUm }) => fromUm)),
    mostUm: Math.max(...readings.map(({ toUm }) => toUm)),
  });
}

/**
 * Spot and area means: each spot, the mean of its readings, within 80 % of the minimum and 120 % of the maximum, and the mean of the
 * spots within both. Only where a limit's source names this rule.
 * Errors: no spots, a spot of fewer than three readings, and as for filmVerdict.
 * Source: SSPC-PA 2 (2015, ed. 2018), spot of three readings, area mean, default level of 80 and 120 %; for magnetic gauges on steel.
 */
export function filmBySpots(
  film: FilmLimit & { readonly spots: readonly { readonly readings: readonly FilmReading[] }[] },
): Computed<{ verdict: Verdict; spots: readonly (FilmReading & { verdict: Verdict })[]; area: FilmReading & { verdict: Verdict } }> {
  const { spots, minUm, maxUm } = film;
  const list = firstFault([listFault('spots', spots, 1)]);
  if (list) return list;
  const fault = firstFault([
    ...spots.flatMap(({ readings }, at) => readingFaults(`spots[${at}].readings`, readings, 3)),
    ...limitFaults(film),
  ]);
  if (fault) return fault;
  const spotBounds = { min: minUm === null ? null : minUm * SPOT_LOW, max: maxUm === null ? null : maxUm * SPOT_HIGH };
  const means = spots.map(({ readings }) => meanOf(readings));
  const judgedSpots = means.map((spot) => ({ ...spot, verdict: judged(spot, spotBounds) }));
  const areaMean = meanOf(means);
  const area = { ...areaMean, verdict: judged(areaMean, { min: minUm, max: maxUm }) };
  return ok({ verdict: worstOf([area.verdict, ...judgedSpots.map(({ verdict }) => verdict)]), spots: judgedSpots, area });
}

/**
 * Against a nominal film: the mean at or above it, no reading under 80 % of it, fewer than 20 % of the readings under it, none above
 * the maximum. Only where a limit's source names this rule. `fewestUnder` and `mostUnder` count the readings that are and may be under it.
 * Errors: as for filmVerdict.
 * Source: ISO 19840:2012, acceptance criteria, as quoted by an association of coating contractors; for steel.
 */
export function filmByNominal(film: {
  readonly readings: readonly FilmReading[];
  readonly nominalUm: number;
  readonly maxUm: number | null;
}): Computed<{ verdict: Verdict; mean: Verdict; each: Verdict; share: Verdict; most: Verdict; fewestUnder: number; mostUnder: number }> {
  const { readings, nominalUm, maxUm } = film;
  const fault = firstFault([
    ...readingFaults('readings', readings, 1),
    numberFault('nominalUm', nominalUm, FILM_UM),
    ...limitFaults({ minUm: nominalUm, maxUm }),
  ]);
  if (fault) return fault;
  const under = readings.map((reading) => judged(reading, { min: nominalUm, max: null }));
  const fewestUnder = under.filter((verdict) => verdict === 'outside').length;
  const mostUnder = under.filter((verdict) => verdict !== 'within').length;
  const few = (count: number) => count < LOW_SHARE * readings.length;
  const parts = {
    mean: judged(meanOf(readings), { min: nominalUm, max: null }),
    each: worstOf(readings.map((reading) => judged(reading, { min: nominalUm * NOMINAL_LOW, max: null }))),
    share: few(mostUnder) ? ('within' as const) : few(fewestUnder) ? ('not-proven' as const) : ('outside' as const),
    most: worstOf(readings.map((reading) => judged(reading, { min: null, max: maxUm }))),
  };
  return ok({ verdict: worstOf(Object.values(parts)), ...parts, fewestUnder, mostUnder });
}

/** In whole nanometres, so that 0.8 of 60 mil is 48 mil and not a bit less. */
function judged({ fromUm, toUm }: FilmReading, { min, max }: Bounds): Verdict {
  const whole = (um: number) => Math.round(um * NM_PER_UM);
  return judge({ from: whole(fromUm), to: whole(toUm) }, { min: min === null ? null : whole(min), max: max === null ? null : whole(max) });
}

export function meanOf(readings: readonly FilmReading[]): FilmReading {
  return { fromUm: mean(readings.map(({ fromUm }) => fromUm)), toUm: mean(readings.map(({ toUm }) => toUm)) };
}

export function readingFaults(field: string, readings: readonly FilmReading[], least: number): (InputFault | null)[] {
  const list = listFault(field, readings, least);
  if (list) return [list];
  return readings.flatMap(({ fromUm, toUm }, at) => [
    numberFault(`${field}[${at}].fromUm`, fromUm, FILM_UM),
    numberFault(`${field}[${at}].toUm`, toUm, FILM_UM),
    orderFault(`${field}[${at}].toUm`, fromUm, toUm),
  ]);
}

function limitFaults({ minUm, maxUm }: FilmLimit): (InputFault | null)[] {
  return [
    minUm === null ? null : numberFault('minUm', minUm, FILM_UM),
    maxUm === null ? null : numberFault('maxUm', maxUm, FILM_UM),
    minUm === null || maxUm === null ? null : orderFault('maxUm', minUm, maxUm),
  ];
}
