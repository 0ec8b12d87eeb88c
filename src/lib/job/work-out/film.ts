import { filmSampling, filmSummary, SAMPLING_LEVELS } from '../../trade/film-sampling.ts';
import { couponFilm, filmByPail, litresNeeded } from '../../trade/film-second.ts';
import { filmByNominal, filmBySpots, filmVerdict } from '../../trade/film-verdict.ts';
import { combInterval, dryFilm, filmCoverage, wetFilm } from '../../trade/film.ts';
import { ok } from '../../result.ts';
import { reckoning, type Found, type Reckoning } from './ask.ts';
import { AREA, choice, FILM, found, LENGTH, NUMBER, optional, PAIL, PERCENT, several } from './asked.ts';

const single = (um: number) => ({ fromUm: um, toUm: um });
const perLitre = { in: 'ft2', mm: 'm2', si: 'm2' } as const;

export const FILM_RECKONINGS: readonly Reckoning[] = [
  reckoning('comb', 'film', 'ASTM D4414-95(2020)', { teeth: several(FILM), lastWet: FILM, firstDry: FILM }, (asked) => {
    const comb = combInterval({ ...asked, unit: 'um' });
    if (!comb.ok) return comb;
    const { fromUm, toUm, standardUm } = comb.value;
    return ok([found('wet-between', FILM, fromUm, toUm), found('uncertainty', FILM, standardUm)]);
  }),
  reckoning('dry-of-wet', 'film', null, { wetLowUm: FILM, solidsPct: PERCENT, thinnerPct: PERCENT }, (asked) => {
    const dry = dryFilm({ ...asked, wetHighUm: asked.wetLowUm });
    return dry.ok ? ok([found('dry', FILM, dry.value.dryLowUm)]) : dry;
  }),
  reckoning('wet-for-dry', 'film', null, { dryUm: FILM, solidsPct: PERCENT, thinnerPct: PERCENT, coatMaxUm: optional(FILM) }, (asked) => {
    const wet = wetFilm(asked);
    if (!wet.ok) return wet;
    const { wetUm, coats } = wet.value;
    return ok([found('wet-in-all', FILM, wetUm), ...(coats === null ? [] : [{ what: 'coats', kind: 'number', value: coats } as const])]);
  }),
  reckoning('film-coverage', 'film', null, { dryUm: FILM, solidsPct: PERCENT, lossPct: PERCENT, areaM2: AREA }, ({ areaM2, ...asked }) => {
    const coverage = filmCoverage(asked);
    if (!coverage.ok) return coverage;
    const { m2PerL, lPerM2 } = coverage.value;
    return ok([found('area-per-litre', perLitre, m2PerL), found('litres', PAIL, lPerM2 * areaM2)]);
  }),
  reckoning(
    'film-by-pail',
    'film',
    null,
    { usedL: PAIL, areaM2: AREA, lossLowPct: PERCENT, lossHighPct: PERCENT, readings: several(FILM) },
    (asked) => {
      const pail = filmByPail({ ...asked, readings: asked.readings.map(single) });
      if (!pail.ok) return pail;
      const { lowUm, highUm, combLowUm, combHighUm, apartUm } = pail.value;
      const comb = combLowUm === null || combHighUm === null ? [] : [found('film-by-comb', FILM, combLowUm, combHighUm)];
      const apart: Found[] =
        apartUm === null
          ? []
          : apartUm === 0
            ? [{ what: 'apart', kind: 'word', code: 'they-meet' }]
            : [found(apartUm > 0 ? 'comb-more' : 'comb-less', FILM, Math.abs(apartUm))];
      return ok([found('film-by-pail', FILM, lowUm, highUm), ...comb, ...apart]);
    },
  ),
  reckoning('litres-left', 'film', null, { areaM2: AREA, wetUm: FILM, usedL: PAIL, lossLowPct: PERCENT, lossHighPct: PERCENT }, (asked) => {
    const litres = litresNeeded(asked);
    return litres.ok ? ok([found('litres', PAIL, litres.value.lowL, litres.value.highL)]) : litres;
  }),
  reckoning(
    'coupon',
    'film',
    'JCGM 100:2008',
    { bareMm: several(LENGTH), coatedMm: several(LENGTH), stepMm: { ...LENGTH, in: 'mm' } },
    (asked) => {
      const coupon = couponFilm(asked);
      return coupon.ok
        ? ok([found('dry', FILM, coupon.value.filmUm), found('dry-between', FILM, coupon.value.lowUm, coupon.value.highUm)])
        : coupon;
    },
  ),
  reckoning(
    'film-each',
    'film',
    null,
    { readings: several(FILM), minUm: optional(FILM), maxUm: optional(FILM) },
    ({ readings, ...limit }) => {
      const verdict = filmVerdict({ readings: readings.map(single), ...limit });
      if (!verdict.ok) return verdict;
      const summary = filmSummary({ filmsUm: readings });
      if (!summary.ok) return summary;
      const { n, meanUm, leastUm, mostUm, deviationUm } = summary.value;
      return ok([
        { what: 'all-readings', kind: 'verdict', verdict: verdict.value.verdict },
        { what: 'n-readings', kind: 'number', value: n },
        found('between', FILM, leastUm, mostUm),
        found('mean', FILM, meanUm),
        ...(deviationUm === null ? [] : [found('deviation', FILM, deviationUm)]),
      ]);
    },
  ),
  reckoning(
    'film-by-spots',
    'film',
    'SSPC-PA 2',
    { spots: several(FILM), perSpot: NUMBER, minUm: optional(FILM), maxUm: optional(FILM) },
    ({ spots, perSpot, ...limit }) => {
      const each = Math.max(1, Math.floor(perSpot));
      const spotted = Array.from({ length: Math.ceil(spots.length / each) }, (_, at) => ({
        readings: spots.slice(at * each, (at + 1) * each).map(single),
      }));
      const judged = filmBySpots({ spots: spotted, ...limit });
      if (!judged.ok) return judged;
      const { verdict, area } = judged.value;
      return ok([
        { what: 'area-and-spots', kind: 'verdict', verdict },
        found('mean', FILM, area.fromUm, area.toUm),
        { what: 'n-spots', kind: 'number', value: judged.value.spots.length },
      ]);
    },
  ),
  reckoning(
    'film-by-nominal',
    'film',
    'ISO 19840:2012',
    { readings: several(FILM), nominalUm: FILM, maxUm: optional(FILM) },
    ({ readings, ...limit }) => {
      const judged = filmByNominal({ readings: readings.map(single), ...limit });
      if (!judged.ok) return judged;
      const { verdict, mean, each, share, most } = judged.value;
      return ok([
        { what: 'against-nominal', kind: 'verdict', verdict },
        { what: 'mean', kind: 'verdict', verdict: mean },
        { what: 'each-80', kind: 'verdict', verdict: each },
        { what: 'share-under', kind: 'verdict', verdict: share },
        { what: 'at-most', kind: 'verdict', verdict: most },
      ]);
    },
  ),
  reckoning('film-sampling', 'film', 'SSPC-PA 2', { areaM2: AREA, riskPlaces: NUMBER, level: choice(SAMPLING_LEVELS) }, (asked) => {
    const plan = filmSampling(asked);
    if (!plan.ok) return plan;
    const { riskSpots, areaSpots, readingsPerSpot, readings } = plan.value;
    return ok([
      { what: 'risk-spots', kind: 'number', value: riskSpots },
      { what: 'area-spots', kind: 'number', value: areaSpots },
      { what: 'readings-per-spot', kind: 'number', value: readingsPerSpot },
      { what: 'n-readings', kind: 'number', value: readings },
    ]);
  }),
];
