import { couponFilm, filmByPail, litresNeeded } from '#lib/trade/film-second.ts';
import { filmSampling, filmSummary, SAMPLING_LEVELS } from '#lib/trade/film-sampling.ts';
import { filmByNominal, filmBySpots, filmVerdict } from '#lib/trade/film-verdict.ts';
import { combInterval, dryFilm, filmCoverage, wetFilm } from '#lib/trade/film.ts';
import { row, type Row } from './row.ts';

const READINGS = 'list of { fromUm, toUm }, µm, 1 to 20,000; both ends alike for a single value; the film is thinner than toUm otherwise';
const VERDICT = 'within, outside, not-proven or no-limit';
const SOLIDS = '% by volume of the unthinned material, 1 to 100; not solids by weight';
const THINNER = '% of the material’s volume, 0 to 100';
const LOSS = '% of the pail, 0 to 90';

export const FILM_ROWS: readonly Row[] = [
  row(combInterval, {
    part: 'film',
    what: 'A comb reading as the interval it is.',
    inputs: { unit: 'mil or um: unit of the teeth', teeth: 'list of numbers in unit, ascending, at least two', lastWet: 'number in unit: longest wetted tooth', firstDry: 'number in unit: the next tooth, dry' },
    result: { fromUm: 'µm, reached', toUm: 'µm, not reached', middleUm: 'µm', standardUm: 'µm, standard uncertainty of the middle' },
    source: 'ASTM D4414-95(2020); JCGM 100:2008, 4.3.7',
    limits: 'No tooth wetted, or all of them: no reading, take another face. Not to be used to prove solids content.',
    example: { unit: 'mil', teeth: [22, 24, 26, 28], lastWet: 24, firstDry: 26 },
  }),
  row(dryFilm, {
    part: 'film',
    what: 'Dry film of a wet one.',
    inputs: { wetLowUm: 'µm, 1 to 20,000', wetHighUm: 'µm; the same for a single value', solidsPct: SOLIDS, thinnerPct: THINNER },
    result: { dryLowUm: 'µm', dryHighUm: 'µm' },
    source: 'DFT = WFT x VS / (1 + R), wet and dry film formulas of the coating trade',
    limits: 'Not for cement slurries, which bind water. Matt coats may dry thicker (ASTM D4414).',
    example: { wetLowUm: 1524, wetHighUm: 1524, solidsPct: 80, thinnerPct: 0 },
  }),
  row(wetFilm, {
    part: 'film',
    what: 'Wet film in all coats together that dries to a given one, and the number of coats.',
    inputs: { dryUm: 'µm, 1 to 20,000', solidsPct: SOLIDS, thinnerPct: THINNER, coatMaxUm: 'µm wet, the most of one coat; or null' },
    result: { wetUm: 'µm', coats: 'whole number; null without a most of one coat' },
    source: 'WFT = DFT x (1 + R) / VS',
    limits: 'As for dryFilm.',
    example: { dryUm: 508, solidsPct: 55, thinnerPct: 0, coatMaxUm: 500 },
  }),
  row(filmCoverage, {
    part: 'film',
    what: 'What a litre of unthinned material covers at a dry film.',
    inputs: { dryUm: 'µm, 1 to 20,000', solidsPct: SOLIDS, lossPct: LOSS },
    result: { m2PerL: 'm2 for a litre', lPerM2: 'L for a m2' },
    source: 'm2/L = 10 VS% / DFT in µm; ft2/gal = 1604 VS / DFT in mil',
    limits: 'A loss is a share of what leaves the pail, so coverage is multiplied by what is not lost.',
    example: { dryUm: 50.8, solidsPct: 35, lossPct: 0 },
  }),
  row(filmVerdict, {
    part: 'film',
    what: 'Every reading against the sheet’s least and most; the worst decides. The rule for membranes unless a limit’s source says otherwise.',
    inputs: { readings: READINGS, minUm: 'µm or null', maxUm: 'µm or null' },
    result: { verdict: VERDICT, failing: 'places in the list that are outside, from 0', open: 'places not proven', leastUm: 'µm', mostUm: 'µm' },
    source: 'common practice, no source; interval of ASTM D4414-95(2020)',
    limits: 'Wet readings against a wet limit, dry against dry.',
    example: { readings: [{ fromUm: 609.6, toUm: 660.4 }], minUm: 508, maxUm: null },
  }),
  row(filmBySpots, {
    part: 'film',
    what: 'Spot means within 80 % of the least and 120 % of the most, and the mean of the spots within both.',
    inputs: { spots: `list of { readings }, each ${READINGS}, at least three`, minUm: 'µm or null', maxUm: 'µm or null' },
    result: { verdict: VERDICT, spots: 'list of { fromUm, toUm, verdict }, mean of each', area: '{ fromUm, toUm, verdict }, mean of the spots' },
    source: 'SSPC-PA 2 (2015, ed. 2018), default level',
    limits: 'Written for magnetic gauges on steel: only where a limit’s source names it.',
    example: { spots: [{ readings: [9, 8, 10].map((mil) => ({ fromUm: mil * 25.4, toUm: mil * 25.4 })) }], minUm: 203.2, maxUm: 304.8 },
  }),
  row(filmByNominal, {
    part: 'film',
    what: 'Against a nominal film: mean at or above it, no reading under 80 % of it, fewer than 20 % of them under it, none above the most.',
    inputs: { readings: READINGS, nominalUm: 'µm', maxUm: 'µm or null' },
    result: {
      verdict: VERDICT, mean: `${VERDICT}: the mean`, each: `${VERDICT}: the 80 %`, share: `${VERDICT}: the share under nominal`, most: `${VERDICT}: the most`,
      fewestUnder: 'readings under nominal for certain', mostUnder: 'readings that may be',
    },
    source: 'ISO 19840:2012, acceptance criteria, as quoted by an association of coating contractors',
    limits: 'Written for steel: only where a limit’s source names it.',
    example: { readings: [520, 510, 480, 505, 530].map((um) => ({ fromUm: um, toUm: um })), nominalUm: 500, maxUm: null },
  }),
  row(filmSampling, {
    part: 'film',
    what: 'How many films are read: at each risk place first, then by area.',
    inputs: { areaM2: 'm2, 0.01 to 10,000', riskPlaces: 'whole number, 0 to 200', level: `one of ${SAMPLING_LEVELS.join(', ')}` },
    result: { areas: 'areas measured', riskSpots: 'spots at risk places', areaSpots: 'spots by area', readingsPerSpot: 'readings at a spot', readings: 'readings in all' },
    source: 'SSPC-PA 2 for full (100, 300 and 1000 ft2); core and warranty are our own choice, no source',
    limits: 'The plan of the standard is for steel.',
    example: { areaM2: 260.1285, riskPlaces: 0, level: 'full' },
  }),
  row(filmSummary, {
    part: 'film',
    what: 'Number, mean, least, most and standard deviation of films.',
    inputs: { filmsUm: 'list of µm, 1 to 20,000' },
    result: { n: 'number of values', meanUm: 'µm', leastUm: 'µm', mostUm: 'µm', deviationUm: 'µm, over n - 1; null for one value' },
    source: 'sample standard deviation; columns of ISO 2360, section 9',
    limits: 'Readings of one spot are not independent: for a statement on an area take spot means.',
    example: { filmsUm: [520, 510, 480, 505, 530] },
  }),
  row(filmByPail, {
    part: 'film',
    what: 'Mean wet film by the volume used, beside the mean of the comb’s readings.',
    inputs: { usedL: 'L, 0 to 1000', areaM2: 'm2, 0.01 to 10,000', lossLowPct: LOSS, lossHighPct: LOSS, readings: `${READINGS}; may be empty` },
    result: { lowUm: 'µm', highUm: 'µm', combLowUm: 'µm or null', combHighUm: 'µm or null', apartUm: 'µm: above 0 the comb reads more than the pail can have given, below 0 less, 0 they meet; or null' },
    source: 'volume over area: 1 L on 1 m2 is 1 mm',
    limits: 'A mean says nothing of thin places.',
    example: { usedL: 3, areaM2: 5, lossLowPct: 2, lossHighPct: 10, readings: [{ fromUm: 500, toUm: 550 }] },
  }),
  row(litresNeeded, {
    part: 'film',
    what: 'Litres still to be put on until an area holds a wet film in the mean.',
    inputs: { areaM2: 'm2, 0.01 to 10,000', wetUm: 'µm, all coats together', usedL: 'L so far', lossLowPct: LOSS, lossHighPct: LOSS },
    result: { lowL: 'L', highL: 'L' },
    source: 'volume over area, what is lost on top',
    limits: 'A mean says nothing of thin places.',
    example: { areaM2: 5, wetUm: 1000, usedL: 3, lossLowPct: 2, lossHighPct: 10 },
  }),
  row(couponFilm, {
    part: 'film',
    what: 'Dry film on a scrap coated in the same passes, by calliper.',
    inputs: { bareMm: 'list of mm, 0.01 to 100: thickness bare', coatedMm: 'list of mm: thickness coated and dry', stepMm: 'mm, 0.0001 to 1: step of the calliper' },
    result: { filmUm: 'µm', expandedUm: 'µm, 2 u', lowUm: 'µm', highUm: 'µm' },
    source: 'JCGM 100:2008, F.2.2.1, 4.3.7, 5.1.2, 6.3.3',
    limits: 'It speaks of the coupon; that the wall got the same is the person’s word.',
    example: { bareMm: [6.02, 6.04, 6.03], coatedMm: [6.55, 6.6, 6.58], stepMm: 0.01 },
  }),
]; // prettier-ignore
