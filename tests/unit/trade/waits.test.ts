import { equivalentAge, extendedWait, temperatureTime, type LoggedTemperature, type Maturity } from '#lib/trade/cure.ts';
import { dryingIndex, extendedDrying, type LoggedAir } from '#lib/trade/drying.ts';
import { expect, test } from 'vitest';
import { valueOf } from './computed.ts';

const HOUR = 3_600_000;
const START = Date.UTC(2026, 2, 3, 7);
const ARRHENIUS: Maturity = { kind: 'arrhenius', activationK: 5000 };
const stays = (...list: [hours: number, tempC: number][]) => list.map(([hours, tempC]) => ({ durationMs: hours * HOUR, tempC }));
const read = (fromH: number, toH: number, coldestC: number): LoggedTemperature => ({
  fromMs: START + fromH * HOUR,
  toMs: START + toH * HOUR,
  coldestC,
});

// calc: the formula by another program.
test.each([
  [5, 8.048, 9.566],
  [10, 11.055, 13.14],
  [15, 15.019, 17.852],
  [20, 20.192, 24],
  [25, 26.878, 31.947],
  [30, 35.442, 42.127],
])('24 h at %d °C are %d h at 23 °C and %d h at 20 °C', (tempC, at23, at20) => {
  const age = (referenceC: number) => valueOf(equivalentAge({ stays: stays([24, tempC]), referenceC, activationK: 5000 }));
  expect(age(23)).toEqual({ equivalentH: expect.closeTo(at23, 3) as number, elapsedH: 24 });
  expect(age(20).equivalentH).toBeCloseTo(at20, 3);
});

// calc, as above.
test('a log of four stays adds up', () => {
  const log = stays([6, 20], [6, 24], [12, 18], [24, 12]);
  expect(valueOf(equivalentAge({ stays: log, referenceC: 23, activationK: 5000 }))).toEqual({
    equivalentH: expect.closeTo(32.891, 3) as number,
    elapsedH: 48,
  });
  expect(valueOf(temperatureTime({ stays: log, datumC: 0 })).degreeHours).toBe(768);
  expect(valueOf(temperatureTime({ stays: log, datumC: -10 })).degreeHours).toBe(1248);
  expect(valueOf(temperatureTime({ stays: stays([10, -20], [10, 5]), datumC: 0 })).degreeHours).toBe(50);
});

const wait = (readings: readonly LoggedTemperature[], over: Partial<Parameters<typeof extendedWait>[0]> = {}) =>
  valueOf(
    extendedWait({
      statedMs: 24 * HOUR,
      startMs: START,
      readings,
      reachMs: 2 * HOUR,
      referenceC: 20,
      projectC: null,
      maturity: ARRHENIUS,
      ...over,
    }),
  );

test('without a reading the stated wait stands, and all of it is unknown', () => {
  expect(wait([])).toEqual({ waitMs: 24 * HOUR, knownMs: 0, projectedMs: 0, unknownMs: 24 * HOUR, unknownAfterMs: 24 * HOUR });
});

test('warm hours never make up for cold ones, nor shorten a wait', () => {
  expect(wait([read(0, 24, 35)]).waitMs).toBe(24 * HOUR);
  const cold = wait([read(0, 10, 10)], { reachMs: 0 });
  expect(wait([read(0, 10, 10), read(10, 40, 45)], { reachMs: 0 }).waitMs).toBe(cold.waitMs);
});

test('ten hours at 10 °C do what they do, and the rest goes on at the stated pace', () => {
  const pace = Math.exp(-5000 * (1 / 283.15 - 1 / 293.15));
  const { waitMs, ...rest } = wait([read(0, 10, 10)], { reachMs: 0 });
  expect(waitMs).toBe(Math.ceil(10 * HOUR + (24 - 10 * pace) * HOUR - 1e-3));
  expect(rest).toMatchObject({ knownMs: 10 * HOUR, projectedMs: 0, unknownMs: expect.closeTo((24 - 10 * pace) * HOUR, 3) as number });
  expect(rest.unknownAfterMs).toBe(rest.unknownMs);
});

test('a gap between two readings is unknown, apart from what lies after the last', () => {
  const { knownMs, unknownMs, unknownAfterMs } = wait([read(0, 2, 20), read(12, 14, 20)], { reachMs: HOUR });
  expect([knownMs, unknownMs, unknownAfterMs].map((ms) => ms / HOUR)).toEqual([7, 17, 9]);
});

test('one look speaks for the reach before and after, also from before the start, and of two the colder counts', () => {
  expect(wait([read(-1, -1, 5)]).knownMs).toBe(HOUR);
  expect(wait([read(-3, -3, 5)]).knownMs).toBe(0);
  const twice = wait([read(0, 24, 20), read(5, 5, 5)]);
  expect(twice.waitMs).toBeGreaterThan(24 * HOUR);
  expect(twice.waitMs).toBe(wait([read(0, 3, 20), read(3, 7, 5), read(7, 40, 20)], { reachMs: 0 }).waitMs);
});

test('what is projected takes over after the last reading, and in frost nothing says how long', () => {
  const pace = Math.exp(-5000 * (1 / 278.15 - 1 / 293.15));
  expect(wait([read(0, 12, 20)], { reachMs: 0, projectC: 5 })).toMatchObject({
    knownMs: 12 * HOUR,
    unknownMs: 0,
    waitMs: Math.ceil(12 * HOUR + (12 * HOUR) / pace),
  });
  expect(wait([read(0, 12, 20)], { reachMs: 0, projectC: 0 })).toEqual({
    waitMs: null,
    knownMs: 12 * HOUR,
    projectedMs: 0,
    unknownMs: 0,
    unknownAfterMs: 0,
  });
  expect(wait([read(0, 30, 20)], { projectC: -5 }).waitMs).toBe(24 * HOUR);
});

test('at 0 °C and below the layer stands still for as long as it was read', () => {
  expect(wait([read(0, 10, 0)], { reachMs: 0 }).waitMs).toBe(34 * HOUR);
  expect(wait([read(0, 10, -15)], { reachMs: 0, maturity: { kind: 'nurse-saul', datumC: -20 } }).waitMs).toBe(34 * HOUR);
});

test('by Nurse and Saul 12 °C against a datum of 0 °C is three fifths of the pace at 20 °C', () => {
  expect(wait([read(0, 100, 12)], { reachMs: 0, maturity: { kind: 'nurse-saul', datumC: 0 } })).toMatchObject({
    waitMs: 40 * HOUR,
    unknownMs: 0,
  });
});

const SHEET = { airC: 21, humidityPct: 50 };
const seen = (fromH: number, toH: number, airC: number, humidityPct: number, surfaceC = airC): LoggedAir => ({
  ...{ fromMs: START + fromH * HOUR, toMs: START + toH * HOUR },
  ...{ airC, humidityPct, surfaceC },
});
const dry = (readings: readonly LoggedAir[], project: Parameters<typeof extendedDrying>[0]['project'] = null) =>
  valueOf(extendedDrying({ statedMs: 12 * HOUR, startMs: START, readings, reachMs: 0, reference: SHEET, project }));
const index = (airC: number, humidityPct: number, surfaceC = airC) =>
  valueOf(dryingIndex({ air: { airC, humidityPct }, surfaceC, reference: SHEET })).index;

test('the drying index is 1 at the sheet, half at half the deficit, 0 where the surface is at the dew point or below', () => {
  expect(index(21, 50)).toBe(1);
  expect(index(21, 75)).toBeCloseTo(0.5, 12);
  expect(index(21, 25)).toBeCloseTo(1.5, 12);
  expect(index(21, 100)).toBe(0);
  expect(index(21, 50, 10.1)).toBe(0);
  expect(index(21, 50, 10.3)).toBeGreaterThan(0);
});

test('a coat waits as long as the stated hours take at the pace of its air, never shorter', () => {
  expect(dry([seen(0, 100, 21, 75)])).toMatchObject({ waitMs: 24 * HOUR, unknownMs: 0 });
  expect(dry([seen(0, 6, 21, 75)]).waitMs).toBe(15 * HOUR);
  expect(dry([seen(0, 100, 35, 20)]).waitMs).toBe(12 * HOUR);
  const damp = dry([], { airC: 21, humidityPct: 75, surfaceC: 21 });
  expect(damp.waitMs).toBe(24 * HOUR);
  expect(damp.projectedMs).toBeCloseTo(24 * HOUR, 3);
  expect(dry([], { airC: 21, humidityPct: 100, surfaceC: 21 }).waitMs).toBeNull();
});
