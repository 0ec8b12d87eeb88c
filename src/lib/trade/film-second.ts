import { ok } from '../result.ts';
import { mean } from './_range.ts';
import { boundsUncertainty, COVERAGE, stepUncertainty } from './_reading-error.ts';
import { FILM_UM, LOSS_PCT } from './film.ts';
import { meanOf, readingFaults, type FilmReading } from './film-verdict.ts';
import { firstFault, numberFault, numbersFaults, orderFault, type Computed, type InputFault, type Span } from './input.ts';

/** A second opinion on a film that a comb was held into: from the pail, and from a coupon coated along with the wall. */

const AREA_M2: Span = [0.01, 10_000];
const USED_L: Span = [0, 1000];
const PLATE_MM: Span = [0.01, 100];
const STEP_MM: Span = [0.0001, 1];

/**
 * Mean wet film by the pail, between the most and the least that was lost, beside the mean of the comb's readings (no readings: null).
 * `apartUm`: by how much the two intervals miss each other, above zero where the comb reads more than the pail can have given, below
 * where it reads less, 0 where they meet. A mean says nothing of thin places.
 * Errors: volume outside 0 to 1000 L, area outside 0.01 to 10,000 m2, loss outside 0 to 90 % or turned round, as for filmVerdict.
 * Source: volume over area, 1 L on 1 m2 is 1 mm.
 */
export function filmByPail(pail: {
  readonly usedL: number;
  readonly areaM2: number;
  readonly lossLowPct: number;
  readonly lossHighPct: number;
  readonly readings: readonly FilmReading[];
}): Computed<{ lowUm: number; highUm: number; combLowUm: number | null; combHighUm: number | null; apartUm: number | null }> {
  const { usedL, areaM2, lossLowPct, lossHighPct, readings } = pail;
  const fault = firstFault([
    numberFault('usedL', usedL, USED_L),
    numberFault('areaM2', areaM2, AREA_M2),
    ...lossFaults(lossLowPct, lossHighPct),
    ...readingFaults('readings', readings, 0),
  ]);
  if (fault) return fault;
  const lostUm = (lossPct: number) => (usedL / areaM2) * 1000 * (1 - lossPct / 100);
  const [lowUm, highUm] = [lostUm(lossHighPct), lostUm(lossLowPct)];
  if (readings.length === 0) return ok({ lowUm, highUm, combLowUm: null, combHighUm: null, apartUm: null });
  const { fromUm, toUm } = meanOf(readings);
  const apartUm = Math.max(0, fromUm - highUm) - Math.max(0, lowUm - toUm);
  return ok({ lowUm, highUm, combLowUm: fromUm, combHighUm: toUm, apartUm });
}

/**
 * Litres still to be put on an area until it holds `wetUm` in the mean, by what was used so far and the most and least that is lost.
 * Errors: as for filmByPail; a film outside 1 to 20,000 µm.
 * Source: volume over area, what is lost on top.
 */
export function litresNeeded(coat: {
  readonly areaM2: number;
  readonly wetUm: number;
  readonly usedL: number;
  readonly lossLowPct: number;
  readonly lossHighPct: number;
}): Computed<{ lowL: number; highL: number }> {
  const { areaM2, wetUm, usedL, lossLowPct, lossHighPct } = coat;
  const fault = firstFault([
    numberFault('areaM2', areaM2, AREA_M2),
    numberFault('wetUm', wetUm, FILM_UM),
    numberFault('usedL', usedL, USED_L),
    ...lossFaults(lossLowPct, lossHighPct),
  ]);
  if (fault) return fault;
  const left = (lossPct: number) => Math.max(0, (areaM2 * wetUm) / 1000 / (1 - lossPct / 100) - usedL);
  return ok({ lowL: left(lossLowPct), highL: left(lossHighPct) });
}

/**
 * Dry film on a witness coupon, a scrap that was coated in the same passes: the mean thickness coated less the mean bare, in µm, with
 * its expanded uncertainty (2 u). Reading errors of one calliper are not averaged away, and the spread of each set adds to u. Below
 * zero where the readings do not tell the film from none.
 * Errors: no readings, a thickness outside 0.01 to 100 mm, a step outside 0.0001 to 1 mm.
 * Source: JCGM 100:2008, F.2.2.1, 4.3.7, 5.1.2, 6.3.3. It speaks of the coupon; that the wall got the same is the person's word.
 */
export function couponFilm(coupon: {
  readonly bareMm: readonly number[];
  readonly coatedMm: readonly number[];
  readonly stepMm: number;
}): Computed<{ filmUm: number; expandedUm: number; lowUm: number; highUm: number }> {
  const { bareMm, coatedMm, stepMm } = coupon;
  const fault = firstFault([
    ...numbersFaults('bareMm', bareMm, 1, PLATE_MM),
    ...numbersFaults('coatedMm', coatedMm, 1, PLATE_MM),
    numberFault('stepMm', stepMm, STEP_MM),
  ]);
  if (fault) return fault;
  const filmUm = (mean(coatedMm) - mean(bareMm)) * 1000;
  const spread = [bareMm, coatedMm].map((all) => boundsUncertainty((Math.max(...all) - Math.min(...all)) / 2));
  const expandedUm = COVERAGE * 1000 * Math.hypot(Math.SQRT2 * stepUncertainty(stepMm), ...spread);
  return ok({ filmUm, expandedUm, lowUm: filmUm - expandedUm, highUm: filmUm + expandedUm });
}

function lossFaults(lowPct: number, highPct: number): (InputFault | null)[] {
  return [
    numberFault('lossLowPct', lowPct, LOSS_PCT),
    numberFault('lossHighPct', highPct, LOSS_PCT),
    orderFault('lossHighPct', lowPct, highPct),
  ];
}
