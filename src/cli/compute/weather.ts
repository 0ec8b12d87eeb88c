import { equivalentAge, extendedWait, temperatureTime } from '#lib/trade/cure.ts';
import { dryingIndex, extendedDrying } from '#lib/trade/drying.ts';
import { expectedEvaporation, mortarEvaporation, wetBulb } from '#lib/trade/evaporation.ts';
import { dewPoint, surfaceSpread } from '#lib/trade/weather.ts';
import { row, type Row } from './row.ts';

const HUMIDITY = '% relative humidity over water, 1 to 100';
const WORKED = 'C, 0 to 50';
const STAYS = 'list of { durationMs, tempC }: ms and C, -40 to 80';
const WAIT = {
  waitMs: 'ms, never less than stated; null when it stands still and nothing says for how long',
  knownMs: 'ms that readings speak for',
  projectedMs: 'ms at the projected pace',
  unknownMs: 'ms that nobody read, counted at the sheet’s pace',
  unknownAfterMs: 'ms of the unknown after the last reading',
};

export const WEATHER_ROWS: readonly Row[] = [
  row(dewPoint, {
    part: 'weather',
    what: 'Dew point of air.',
    inputs: { airC: 'C, -40 to 50', humidityPct: HUMIDITY },
    result: { dewPointC: 'C' },
    source: 'Magnus form over water, a 17.625, b 243.04 C (Alduchov and Eskridge 1996)',
    limits: 'Within 0.35 C from -40 to 50 C. Below 0 C the dew point over water, not the frost point.',
    example: { airC: 25, humidityPct: 60 },
  }),
  row(surfaceSpread, {
    part: 'weather',
    what: 'How far a surface stands above the dew point, and whether two published rules are met.',
    inputs: { airC: 'C, -40 to 50', humidityPct: HUMIDITY, surfaceC: 'C, -40 to 100' },
    result: { dewPointC: 'C', spreadK: 'K', wet: 'true or false', met: 'true or false: both rules', rules: 'list of { key, minSurfaceC, met }: 5-f and 3-c' },
    source: '5 F: a coating dew point chart; 3 C: galvanisers’ handbook, chapter 13',
    limits: 'Advice. Both rules were written for paint on steel; the data sheet governs.',
    example: { airC: 21, humidityPct: 50, surfaceC: 15 },
  }),
  row(wetBulb, {
    part: 'weather',
    what: 'Wet bulb, and the vapour pressure deficit of air.',
    inputs: { airC: WORKED, humidityPct: HUMIDITY },
    result: { wetBulbC: 'C', deficitPa: 'Pa' },
    source: 'ASHRAE Handbook Fundamentals 2017, chapter 1, equations 5, 6, 20, 33, 35',
    limits: 'At 101,325 Pa.',
    example: { airC: 25, humidityPct: 60 },
  }),
  row(expectedEvaporation, {
    part: 'weather',
    what: 'How much a still, indoor water surface may fall through evaporation.',
    inputs: { airC: WORKED, humidityPct: HUMIDITY, waterC: WORKED, holdMs: 'ms, 1 to a year' },
    result: { middleMm: 'mm', highMm: 'mm, the most', middleKgM2H: 'kg/m2/h', airLiftKgM3: 'kg/m3, dry air of the room less that at the water' },
    source: 'Shah, ASHRAE SE-14-001; upper edge the ASHRAE pool form with activity 1',
    limits: 'A band of what may be, never a correction. Fans and open windows void it.',
    example: { airC: 21, humidityPct: 50, waterC: 21, holdMs: 86_400_000 },
  }),
  row(mortarEvaporation, {
    part: 'weather',
    what: 'Water that fresh mortar gives off, and whether precautions are called for.',
    inputs: { airC: WORKED, humidityPct: HUMIDITY, surfaceC: WORKED, windKmh: 'km/h, 0 to 100' },
    result: { kgM2H: 'kg/m2/h', act: 'true from 1 kg/m2/h on' },
    source: 'Uno 1998 (ACI 95-M34) in exact metric form as restated by Hover, ACI SP-338; threshold of ACI 305R and 308',
    limits: 'May be off by 40 % either way.',
    example: { airC: 30, humidityPct: 40, surfaceC: 30, windKmh: 20 },
  }),
  row(equivalentAge, {
    part: 'waits',
    what: 'Age at a reference temperature that does as much as the stays did.',
    inputs: { stays: STAYS, referenceC: 'C, -40 to 80', activationK: 'K, activation energy over the gas constant, 1000 to 10,000' },
    result: { equivalentH: 'h', elapsedH: 'h' },
    source: 'ASTM C1074 (Arrhenius), as restated in a textbook of concrete quality control',
    limits: 'For what hardens with water, not for what dries.',
    example: { stays: [{ durationMs: 86_400_000, tempC: 12 }], referenceC: 20, activationK: 5000 },
  }),
  row(temperatureTime, {
    part: 'waits',
    what: 'Temperature-time factor.',
    inputs: { stays: STAYS, datumC: 'C, -20 to 10' },
    result: { degreeHours: 'C h' },
    source: 'ASTM C1074 (Nurse-Saul)',
    limits: 'Colder than the datum counts as nothing.',
    example: { stays: [{ durationMs: 2_419_200_000, tempC: 15 }], datumC: -11 },
  }),
  row(extendedWait, {
    part: 'waits',
    what: 'The wait of a data sheet for a cementitious layer, longer where it was colder than the sheet speaks of.',
    inputs: {
      statedMs: 'ms, 1 to a year', startMs: 'ms since 1970', readings: 'list of { fromMs, toMs, coldestC }; may be empty', reachMs: 'ms a reading speaks for before and after, to a day',
      referenceC: 'C, lower end of the sheet’s range, 0.1 to 80', projectC: 'C assumed after the log, or null', maturity: '{ kind: arrhenius, activationK } or { kind: nurse-saul, datumC }',
    },
    result: WAIT,
    source: 'the two maturity functions of ASTM C1074; never faster than at the reference, which is our own',
    limits: 'Advice beside the sheet’s wait; nothing hardens at or below 0 C.',
    example: {
      statedMs: 86_400_000, startMs: 1_772_528_400_000, readings: [{ fromMs: 1_772_528_400_000, toMs: 1_772_557_200_000, coldestC: 8 }], reachMs: 10_800_000,
      referenceC: 15, projectC: null, maturity: { kind: 'nurse-saul', datumC: 0 },
    },
  }),
  row(dryingIndex, {
    part: 'waits',
    what: 'How fast a water-based coat dries beside the air its sheet speaks of.',
    inputs: { air: '{ airC, humidityPct }: C, 0 to 50; %, 1 to 100', surfaceC: WORKED, reference: '{ airC, humidityPct } of the sheet; %, 1 to 95' },
    result: { index: '1 as fast, 0 not at all' },
    source: 'difference of vapour pressures (Dalton); that a wait goes with it is our own estimate',
    limits: 'Advice; no published wait stands behind it.',
    example: { air: { airC: 15, humidityPct: 75 }, surfaceC: 13, reference: { airC: 21, humidityPct: 50 } },
  }),
  row(extendedDrying, {
    part: 'waits',
    what: 'The wait of a data sheet for a water-based coat, longer where it was colder or damper than the sheet speaks of.',
    inputs: {
      statedMs: 'ms, 1 to a year', startMs: 'ms since 1970', readings: 'list of { fromMs, toMs, airC, humidityPct, surfaceC }; may be empty', reachMs: 'ms, to a day',
      reference: '{ airC, humidityPct } of the sheet', project: '{ airC, humidityPct, surfaceC } assumed after the log, or null',
    },
    result: WAIT,
    source: 'as for dryingIndex',
    limits: 'Advice beside the sheet’s wait, and only ever longer.',
    example: {
      statedMs: 14_400_000, startMs: 1_772_528_400_000, readings: [{ fromMs: 1_772_528_400_000, toMs: 1_772_528_400_000, airC: 15, humidityPct: 80, surfaceC: 14 }], reachMs: 10_800_000,
      reference: { airC: 21, humidityPct: 50 }, project: null,
    },
  }),
]; // prettier-ignore
