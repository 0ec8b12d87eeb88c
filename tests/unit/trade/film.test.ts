import { sampleStandardDeviation } from 'simple-statistics';
import { couponFilm, filmByPail, litresNeeded } from '#lib/trade/film-second.ts';
import { filmSampling, filmSummary, type SamplingLevel } from '#lib/trade/film-sampling.ts';
import { filmByNominal, filmBySpots, filmVerdict, type FilmReading } from '#lib/trade/film-verdict.ts';
import { combInterval, dryFilm, filmCoverage, wetFilm } from '#lib/trade/film.ts';
import type { Computed } from '#lib/trade/input.ts';
import { expect, test } from 'vitest';
import { valueOf } from './computed.ts';

const MIL = 25.4;
const FT2 = 0.09290304;
const exactly = (um: number): FilmReading => ({ fromUm: um, toUm: um });
const teeth = (fromUm: number, toUm: number): FilmReading => ({ fromUm, toUm });
const faultOf = (result: Computed<object>) => (result.ok ? null : result.fault);

// Half width over the root of three, by hand.
test.each([
  ['um', [200, 225, 250], 200, 225, 212.5, 7.217],
  ['um', [500, 550], 500, 550, 525, 14.434],
  ['um', [750, 875], 750, 875, 812.5, 36.084],
] as const)('a comb of %s %j wet at %d, dry at %d', (unit, all, lastWet, firstDry, middleUm, standardUm) => {
  const { standardUm: u, ...interval } = valueOf(combInterval({ unit, teeth: all, lastWet, firstDry }));
  expect(interval).toEqual({ fromUm: lastWet, toUm: firstDry, middleUm });
  expect(u).toBeCloseTo(standardUm, 3);
});

test('a comb in mil reads in µm', () => {
  expect(valueOf(combInterval({ unit: 'mil', teeth: [24, 26], lastWet: 24, firstDry: 26 }))).toMatchObject({ fromUm: 609.6, toUm: 660.4 });
});

test.each([
  ['teeth swapped', { lastWet: 26, firstDry: 24 }, 'out-of-order', 'firstDry', 26],
  ['the same tooth wet and dry', { lastWet: 24, firstDry: 24 }, 'unknown-choice', 'firstDry', 26],
  ['a tooth left out between', { lastWet: 22, firstDry: 26 }, 'unknown-choice', 'firstDry', 24],
  ['a tooth the gauge does not have', { lastWet: 23, firstDry: 24 }, 'unknown-choice', 'lastWet', null],
  ['no dry tooth', { lastWet: 24, firstDry: 30 }, 'unknown-choice', 'firstDry', null],
  ['the gauge turned round', { teeth: [26, 24, 22] }, 'out-of-order', 'teeth[1]', 26],
  ['a tooth twice', { teeth: [22, 22, 24, 26] }, 'out-of-order', 'teeth[1]', 22],
  ['one tooth', { teeth: [24] }, 'empty', 'teeth', 2],
  ['no gauge', { teeth: null as unknown as number[] }, 'empty', 'teeth', 2],
  ['a gauge of texts', { teeth: ['22', '24'] as unknown as number[] }, 'not-a-number', 'teeth[0]', null],
  ['a unit that is none', { unit: 'mm' as 'um' }, 'unknown-choice', 'unit', null],
])('%s is refused by name', (_, change, code, field, bound) => {
  const comb = { unit: 'mil' as const, teeth: [22, 24, 26], lastWet: 24, firstDry: 26 };
  expect(faultOf(combInterval({ ...comb, ...change }))).toEqual({ code, field, bound });
});

// WFT x VS / (1 + R) by hand; 48 mil of 60 at 80 % is a public exam item.
test.each([
  [60, 80, 0, 48],
  [8, 35, 0, 2.8],
  [8, 35, 10, 2.545],
  [10, 100, 100, 5],
])('%d mil wet at %d %% solids, %d %% thinner: %d mil dry', (wet, solidsPct, thinnerPct, dry) => {
  const { dryLowUm, dryHighUm } = valueOf(dryFilm({ wetLowUm: wet * MIL, wetHighUm: 2 * wet * MIL, solidsPct, thinnerPct }));
  expect(dryLowUm / MIL).toBeCloseTo(dry, 3);
  expect(dryHighUm / MIL).toBeCloseTo(2 * dry, 2);
});

test.each([
  [20, 55, 0, null, 36.364, null],
  [20, 55, 10, 20, 40, 2],
  [20, 55, 10, 40, 40, 1],
  [20, 55, 10, 39.9, 40, 2],
])('%d mil dry at %d %% solids, %d %% thinner, coats to %j mil: %d mil wet in %j coats', (dry, solidsPct, thinnerPct, most, wet, coats) => {
  const done = valueOf(wetFilm({ dryUm: dry * MIL, solidsPct, thinnerPct, coatMaxUm: most === null ? null : most * MIL }));
  expect(done.wetUm / MIL).toBeCloseTo(wet, 3);
  expect(done.coats).toBe(coats);
});

// ft2/gal of liquid deck coatings, Construction Waterproofing Handbook, table 3.21 (p. 3.57). It tells no solids; what it prints is what
// coatings of 65 to 85 % by volume cover; 40.7458 ft2/gal are 1 m2/L.
test.each([
  [5, 250],
  [10, 130],
  [15, 72],
  [20, 55],
  [25, 44],
  [30, 36],
  [50, 27],
])('a dry film of %d mil: %d ft2 of a gallon are published', (mil, published) => {
  const ours = [65, 85].map((solidsPct) => valueOf(filmCoverage({ dryUm: mil * MIL, solidsPct, lossPct: 0 })).m2PerL * 40.7458);
  expect(Math.floor(ours[0]!)).toBeLessThanOrEqual(published);
  expect(Math.ceil(ours[1]!)).toBeGreaterThanOrEqual(published);
});

test('coverage of a litre, and what is lost', () => {
  expect(valueOf(filmCoverage({ dryUm: 500, solidsPct: 50, lossPct: 0 }))).toEqual({ m2PerL: 1, lPerM2: 1 });
  expect(valueOf(filmCoverage({ dryUm: 500, solidsPct: 50, lossPct: 20 })).lPerM2).toBeCloseTo(1.25, 12);
  const { m2PerL } = valueOf(filmCoverage({ dryUm: 20 * MIL, solidsPct: 55, lossPct: 0 }));
  expect((m2PerL * 3.785411784) / FT2).toBeCloseTo(44.11, 2);
});

test.each([
  [() => dryFilm({ wetLowUm: 500, wetHighUm: 400, solidsPct: 50, thinnerPct: 0 }), 'out-of-order', 'wetHighUm'],
  [() => dryFilm({ wetLowUm: 0.9, wetHighUm: 400, solidsPct: 50, thinnerPct: 0 }), 'too-small', 'wetLowUm'],
  [() => dryFilm({ wetLowUm: 400, wetHighUm: 20_001, solidsPct: 50, thinnerPct: 0 }), 'too-large', 'wetHighUm'],
  [() => dryFilm({ wetLowUm: 400, wetHighUm: 500, solidsPct: 0, thinnerPct: 0 }), 'too-small', 'solidsPct'],
  [() => dryFilm({ wetLowUm: 400, wetHighUm: 500, solidsPct: 50, thinnerPct: 101 }), 'too-large', 'thinnerPct'],
  [() => wetFilm({ dryUm: 0, solidsPct: 50, thinnerPct: 0, coatMaxUm: null }), 'too-small', 'dryUm'],
  [() => wetFilm({ dryUm: 500, solidsPct: 101, thinnerPct: 0, coatMaxUm: null }), 'too-large', 'solidsPct'],
  [() => wetFilm({ dryUm: 500, solidsPct: 50, thinnerPct: 0, coatMaxUm: 0 }), 'too-small', 'coatMaxUm'],
  [() => filmCoverage({ dryUm: 0, solidsPct: 50, lossPct: 0 }), 'too-small', 'dryUm'],
  [() => filmCoverage({ dryUm: 500, solidsPct: 0, lossPct: 0 }), 'too-small', 'solidsPct'],
  [() => filmCoverage({ dryUm: 500, solidsPct: 50, lossPct: 91 }), 'too-large', 'lossPct'],
])('%#: what cannot be is refused', (compute, code, field) => {
  expect(faultOf(compute())).toMatchObject({ code, field });
});

test.each<[FilmReading[], number | null, number | null, string, number[], number[]]>([
  [[exactly(500), exactly(600)], 500, null, 'within', [], []],
  [[exactly(500), exactly(499.999)], 500, null, 'outside', [1], []],
  // Less than a nanometre is rounding.
  [[exactly(499.9999)], 500, null, 'within', [], []],
  [[teeth(475, 500), teeth(500, 550)], 500, null, 'outside', [0], []],
  [[teeth(475, 525), teeth(500, 550), teeth(450, 510)], 500, null, 'not-proven', [], [0, 2]],
  [[teeth(475, 525), teeth(400, 450)], 500, null, 'outside', [1], [0]],
  [[teeth(500, 550), teeth(700, 800)], 500, 700, 'not-proven', [], [1]],
  [[teeth(710, 800)], 500, 700, 'outside', [0], []],
  [[exactly(700)], null, 700, 'within', [], []],
  [[exactly(700)], null, null, 'no-limit', [], []],
])('readings %j against %j to %j: %s', (readings, minUm, maxUm, verdict, failing, open) => {
  const done = valueOf(filmVerdict({ readings, minUm, maxUm }));
  expect(done).toEqual({
    verdict,
    failing,
    open,
    leastUm: Math.min(...readings.map(({ fromUm }) => fromUm)),
    mostUm: Math.max(...readings.map(({ toUm }) => toUm)),
  });
});

// PA 2, default level: a range of 8 to 12 mil lets a spot be 6.4 to 14.4 mil.
test.each([
  [
    'all inside',
    [
      [8, 9, 10],
      [11, 12, 10],
    ],
    'within',
    ['within', 'within'],
    'within',
  ],
  [
    'a thin reading that its spot carries',
    [
      [5, 7, 12],
      [9, 9, 9],
    ],
    'within',
    ['within', 'within'],
    'within',
  ],
  [
    'a spot at the edge, carried by the area',
    [
      [6.4, 6.4, 6.4],
      [11, 11, 11],
    ],
    'within',
    ['within', 'within'],
    'within',
  ],
  [
    'a spot below it',
    [
      [6.3, 6.3, 6.3],
      [11, 11, 11],
    ],
    'outside',
    ['outside', 'within'],
    'within',
  ],
  [
    'a spot at the upper edge',
    [
      [14.4, 14.4, 14.4],
      [9, 9, 9],
    ],
    'within',
    ['within', 'within'],
    'within',
  ],
  [
    'a spot above it',
    [
      [14.5, 14.5, 14.5],
      [9, 9, 9],
    ],
    'outside',
    ['outside', 'within'],
    'within',
  ],
  [
    'an area that is thin in the mean',
    [
      [7, 7, 7],
      [8, 8, 8],
    ],
    'outside',
    ['within', 'within'],
    'outside',
  ],
])('by spots, %s', (_, mils, verdict, spots, area) => {
  const of = mils.map((all) => ({ readings: all.map((mil) => exactly(mil * MIL)) }));
  const done = valueOf(filmBySpots({ spots: of, minUm: 8 * MIL, maxUm: 12 * MIL }));
  expect([done.verdict, done.spots.map((spot) => spot.verdict), done.area.verdict]).toEqual([verdict, spots, area]);
});

test('spots keep their intervals, and a limit that is not stated judges nothing', () => {
  const spots = [{ readings: [teeth(400, 500), teeth(500, 600), teeth(600, 700)] }];
  const done = valueOf(filmBySpots({ spots, minUm: 550, maxUm: null }));
  expect(done).toEqual({
    verdict: 'not-proven',
    spots: [{ fromUm: 500, toUm: 600, verdict: 'within' }],
    area: { fromUm: 500, toUm: 600, verdict: 'not-proven' },
  });
  expect(valueOf(filmBySpots({ spots, minUm: null, maxUm: null })).verdict).toBe('no-limit');
  expect(valueOf(filmBySpots({ spots, minUm: null, maxUm: 400 })).spots[0]!.verdict).toBe('outside');
});

// ISO 19840, nominal 500 µm: fewer than a fifth under it, none under 400.
test.each([
  [
    'two of ten low is a fifth, which is not fewer',
    [520, 510, 480, 505, 530, 495, 560, 515, 540, 505],
    null,
    ['within', 'within', 'outside', 'no-limit'],
    'outside',
  ],
  ['one of ten low', [520, 510, 480, 505, 530, 500, 560, 515, 540, 505], null, ['within', 'within', 'within', 'no-limit'], 'within'],
  ['one far too low', [520, 510, 399, 505, 530, 500, 560, 515, 540, 505], null, ['within', 'outside', 'within', 'no-limit'], 'outside'],
  ['one just at 80 %', [520, 510, 400, 505, 530, 500, 560, 515, 540, 505], null, ['within', 'within', 'within', 'no-limit'], 'within'],
  ['a mean that is low', [500, 500, 500, 500, 500, 499], null, ['outside', 'within', 'within', 'no-limit'], 'outside'],
  ['one above the most', [520, 510, 1501, 505, 530, 500], 1500, ['within', 'within', 'within', 'outside'], 'outside'],
  ['one at the most', [520, 510, 1500, 505, 530, 500], 1500, ['within', 'within', 'within', 'within'], 'within'],
] as const)('against a nominal film, %s', (_, ums, maxUm, [mean, each, share, most], verdict) => {
  const done = valueOf(filmByNominal({ readings: ums.map(exactly), nominalUm: 500, maxUm }));
  expect(done).toMatchObject({ mean, each, share, most, verdict });
});

test('intervals leave open what they leave open', () => {
  const done = valueOf(
    filmByNominal({ readings: [teeth(480, 520), teeth(600, 650), teeth(600, 650), teeth(390, 410)], nominalUm: 500, maxUm: 640 }),
  );
  expect(done).toEqual({
    verdict: 'outside',
    mean: 'within',
    each: 'not-proven',
    share: 'outside',
    most: 'not-proven',
    fewestUnder: 1,
    mostUnder: 2,
  });
  const open = valueOf(
    filmByNominal({ readings: [teeth(480, 520), ...Array.from({ length: 4 }, () => teeth(600, 650))], nominalUm: 500, maxUm: null }),
  );
  expect(open).toMatchObject({ verdict: 'not-proven', share: 'not-proven', fewestUnder: 0, mostUnder: 1 });
});

test.each([
  [() => filmVerdict({ readings: [], minUm: null, maxUm: null }), 'empty', 'readings'],
  [() => filmVerdict({ readings: [teeth(500, 400)], minUm: null, maxUm: null }), 'out-of-order', 'readings[0].toUm'],
  [() => filmVerdict({ readings: [exactly(0)], minUm: null, maxUm: null }), 'too-small', 'readings[0].fromUm'],
  [() => filmVerdict({ readings: [teeth(1, 20_001)], minUm: null, maxUm: null }), 'too-large', 'readings[0].toUm'],
  [() => filmVerdict({ readings: [exactly(500)], minUm: 0, maxUm: null }), 'too-small', 'minUm'],
  [() => filmVerdict({ readings: [exactly(500)], minUm: null, maxUm: 30_000 }), 'too-large', 'maxUm'],
  [() => filmVerdict({ readings: [exactly(500)], minUm: 600, maxUm: 500 }), 'out-of-order', 'maxUm'],
  [() => filmBySpots({ spots: [], minUm: null, maxUm: null }), 'empty', 'spots'],
  [() => filmBySpots({ spots: [{ readings: [exactly(1), exactly(2)] }], minUm: null, maxUm: null }), 'empty', 'spots[0].readings'],
  [() => filmBySpots({ spots: [{ readings: [1, 2, 3].map(exactly) }], minUm: 2, maxUm: 1 }), 'out-of-order', 'maxUm'],
  [() => filmByNominal({ readings: [], nominalUm: 500, maxUm: null }), 'empty', 'readings'],
  [() => filmByNominal({ readings: [exactly(1)], nominalUm: 0, maxUm: null }), 'too-small', 'nominalUm'],
  [() => filmByNominal({ readings: [exactly(1)], nominalUm: 500, maxUm: 400 }), 'out-of-order', 'maxUm'],
])('%#: a film that cannot be judged is refused', (compute, code, field) => {
  expect(faultOf(compute())).toMatchObject({ code, field });
});

test.each<[ft2: number, level: SamplingLevel, risk: number, areas: number, areaSpots: number, each: number, readings: number]>([
  [60, 'full', 0, 1, 5, 3, 15],
  [100, 'full', 0, 1, 5, 3, 15],
  [101, 'full', 0, 2, 10, 3, 30],
  [240, 'full', 0, 3, 15, 3, 45],
  [300, 'full', 0, 3, 15, 3, 45],
  [301, 'full', 0, 3, 15, 3, 45],
  [1000, 'full', 0, 3, 15, 3, 45],
  [1001, 'full', 0, 4, 20, 3, 60],
  [2000, 'full', 0, 4, 20, 3, 60],
  [2800, 'full', 4, 5, 25, 3, 87],
  [86, 'core', 6, 1, 4, 1, 10],
  [86, 'warranty', 6, 1, 4, 3, 30],
  [8, 'core', 0, 1, 1, 1, 1],
  [400, 'core', 0, 1, 19, 1, 19],
])('%d ft2 at the %s level with %d risk places', (ft2, level, riskPlaces, areas, areaSpots, readingsPerSpot, readings) => {
  expect(valueOf(filmSampling({ areaM2: ft2 * FT2, riskPlaces, level }))).toEqual({
    areas,
    riskSpots: riskPlaces,
    areaSpots,
    readingsPerSpot,
    readings,
  });
});

test.each([
  [{ areaM2: 0 }, 'too-small', 'areaM2'],
  [{ riskPlaces: -1 }, 'too-small', 'riskPlaces'],
  [{ riskPlaces: 201 }, 'too-large', 'riskPlaces'],
  [{ riskPlaces: 1.5 }, 'not-a-number', 'riskPlaces'],
  [{ level: 'most' as 'core' }, 'unknown-choice', 'level'],
])('a sampling of %j is refused', (change, code, field) => {
  expect(faultOf(filmSampling({ areaM2: 5, riskPlaces: 2, level: 'core', ...change }))).toMatchObject({ code, field });
});

test('a summary agrees with a library of statistics, and one reading has no deviation', () => {
  const filmsUm = [520, 510, 480, 505, 530, 495, 560, 515, 540, 505];
  const { deviationUm, ...rest } = valueOf(filmSummary({ filmsUm }));
  expect(rest).toEqual({ n: 10, meanUm: 516, leastUm: 480, mostUm: 560 });
  expect(deviationUm).toBeCloseTo(sampleStandardDeviation(filmsUm), 10);
  expect(valueOf(filmSummary({ filmsUm: [500, 510] })).deviationUm).toBeCloseTo(Math.sqrt(50), 12);
  expect(valueOf(filmSummary({ filmsUm: [500] })).deviationUm).toBeNull();
  expect(faultOf(filmSummary({ filmsUm: [] }))).toEqual({ code: 'empty', field: 'filmsUm', bound: 1 });
  expect(faultOf(filmSummary({ filmsUm: [500, NaN] }))).toEqual({ code: 'not-a-number', field: 'filmsUm[1]', bound: null });
  expect(faultOf(filmSummary({ filmsUm: Array.from({ length: 10_081 }, () => 500) }))).toEqual({
    code: 'too-many',
    field: 'filmsUm',
    bound: 10_080,
  });
});

// 3 L on 5 m2 are 600 µm, less what is lost.
test.each<[FilmReading[], number | null]>([
  [[], null],
  [[teeth(500, 550)], 0],
  [[teeth(560, 700)], 0],
  [[teeth(600, 650), teeth(640, 700)], 32],
  [[teeth(400, 500)], -40],
  [[teeth(400, 540)], 0],
])('the pail beside the comb %j: %j µm apart', (readings, apartUm) => {
  const done = valueOf(filmByPail({ usedL: 3, areaM2: 5, lossLowPct: 2, lossHighPct: 10, readings }));
  expect(done.lowUm).toBeCloseTo(540, 9);
  expect(done.highUm).toBeCloseTo(588, 9);
  if (apartUm === null) expect(done).toMatchObject({ apartUm: null, combLowUm: null, combHighUm: null });
  else expect(done.apartUm).toBeCloseTo(apartUm, 9);
  if (readings.length === 2) expect(done).toMatchObject({ combLowUm: 620, combHighUm: 675 });
});

test('litres still needed, by what is lost, and none where enough was used', () => {
  const coat = { areaM2: 5, wetUm: 1000, usedL: 3, lossLowPct: 0, lossHighPct: 20 };
  expect(valueOf(litresNeeded(coat))).toEqual({ lowL: 2, highL: 3.25 });
  expect(valueOf(litresNeeded({ ...coat, usedL: 6 }))).toEqual({ lowL: 0, highL: 0.25 });
  expect(valueOf(litresNeeded({ ...coat, usedL: 7 }))).toEqual({ lowL: 0, highL: 0 });
});

test('a coupon: coated less bare, with what the calliper cannot tell', () => {
  const done = valueOf(couponFilm({ bareMm: [6, 6], coatedMm: [6.5, 6.5], stepMm: 0.01 }));
  expect(done.filmUm).toBeCloseTo(500, 9);
  expect(done.expandedUm).toBeCloseTo(2 * Math.SQRT2 * (10 / Math.sqrt(12)), 9);
  expect([done.lowUm, done.highUm]).toEqual([done.filmUm - done.expandedUm, done.filmUm + done.expandedUm]);
  // Sets 0.06 and 0.03 apart: half of each over the root of three, all as squares.
  const spread = valueOf(couponFilm({ bareMm: [6, 6.06], coatedMm: [6.5, 6.53], stepMm: 0.01 }));
  expect(spread.filmUm).toBeCloseTo(485, 9);
  expect(spread.expandedUm).toBeCloseTo(2 * Math.hypot(Math.SQRT2 * (10 / Math.sqrt(12)), 30 / Math.sqrt(3), 15 / Math.sqrt(3)), 9);
  expect(valueOf(couponFilm({ bareMm: [6.5], coatedMm: [6], stepMm: 0.01 })).filmUm).toBeCloseTo(-500, 9);
});

test.each([
  [() => filmByPail({ usedL: -1, areaM2: 5, lossLowPct: 0, lossHighPct: 0, readings: [] }), 'too-small', 'usedL'],
  [() => filmByPail({ usedL: 1, areaM2: 0, lossLowPct: 0, lossHighPct: 0, readings: [] }), 'too-small', 'areaM2'],
  [() => filmByPail({ usedL: 1, areaM2: 5, lossLowPct: 10, lossHighPct: 5, readings: [] }), 'out-of-order', 'lossHighPct'],
  [() => filmByPail({ usedL: 1, areaM2: 5, lossLowPct: -1, lossHighPct: 5, readings: [] }), 'too-small', 'lossLowPct'],
  [() => filmByPail({ usedL: 1, areaM2: 5, lossLowPct: 1, lossHighPct: 95, readings: [] }), 'too-large', 'lossHighPct'],
  [() => filmByPail({ usedL: 1, areaM2: 5, lossLowPct: 1, lossHighPct: 5, readings: [exactly(0)] }), 'too-small', 'readings[0].fromUm'],
  [() => litresNeeded({ areaM2: 0, wetUm: 500, usedL: 1, lossLowPct: 0, lossHighPct: 0 }), 'too-small', 'areaM2'],
  [() => litresNeeded({ areaM2: 5, wetUm: 0, usedL: 1, lossLowPct: 0, lossHighPct: 0 }), 'too-small', 'wetUm'],
  [() => litresNeeded({ areaM2: 5, wetUm: 500, usedL: 1001, lossLowPct: 0, lossHighPct: 0 }), 'too-large', 'usedL'],
  [() => litresNeeded({ areaM2: 5, wetUm: 500, usedL: 1, lossLowPct: 5, lossHighPct: 0 }), 'out-of-order', 'lossHighPct'],
  [() => couponFilm({ bareMm: [], coatedMm: [6], stepMm: 0.01 }), 'empty', 'bareMm'],
  [() => couponFilm({ bareMm: [6], coatedMm: [], stepMm: 0.01 }), 'empty', 'coatedMm'],
  [() => couponFilm({ bareMm: [0], coatedMm: [6], stepMm: 0.01 }), 'too-small', 'bareMm[0]'],
  [() => couponFilm({ bareMm: [6], coatedMm: [101], stepMm: 0.01 }), 'too-large', 'coatedMm[0]'],
  [() => couponFilm({ bareMm: [6], coatedMm: [6], stepMm: 0 }), 'too-small', 'stepMm'],
])('%#: a second opinion on what cannot be is refused', (compute, code, field) => {
  expect(faultOf(compute())).toMatchObject({ code, field });
});
