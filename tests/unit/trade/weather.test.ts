import { expectedEvaporation, mortarEvaporation, wetBulb } from '#lib/trade/evaporation.ts';
import { dewPoint, surfaceSpread } from '#lib/trade/weather.ts';
// @ts-expect-error -- the package has no types
import psychrolib from 'psychrolib';
import { expect, test } from 'vitest';
import { valueOf } from './computed.ts';

const reference = psychrolib as {
  SI: number;
  SetUnitSystem: (system: number) => void;
  GetTDewPointFromRelHum: (tempC: number, share: number) => number;
  GetTWetBulbFromRelHum: (tempC: number, share: number, pressurePa: number) => number;
  GetSatVapPres: (tempC: number) => number;
};
reference.SetUnitSystem(reference.SI);

const AIRS = [0.5, 5, 10, 15, 21, 25, 30, 35, 50].flatMap((airC) =>
  [20, 50, 65, 80, 95, 100].map((humidityPct) => ({ airC, humidityPct })),
);

// Over ice below 0 °C the reference gives the frost point, we the dew point over water.
test.each(AIRS.filter((air) => valueOf(dewPoint(air)).dewPointC > 0))(
  'dew point at $airC °C, $humidityPct %, beside the reference',
  (air) => {
    expect(Math.abs(valueOf(dewPoint(air)).dewPointC - reference.GetTDewPointFromRelHum(air.airC, air.humidityPct / 100))).toBeLessThan(
      0.06,
    );
  },
);

test.each(AIRS)('wet bulb and deficit at $airC °C, $humidityPct %, beside the reference', (air) => {
  const { wetBulbC, deficitPa } = valueOf(wetBulb(air));
  expect(wetBulbC).toBeCloseTo(reference.GetTWetBulbFromRelHum(air.airC, air.humidityPct / 100, 101_325), 2);
  expect(deficitPa).toBeCloseTo(reference.GetSatVapPres(air.airC) * (1 - air.humidityPct / 100), 3);
});

test('saturated air has its dew point and its wet bulb where it is, and takes up nothing', () => {
  expect(valueOf(dewPoint({ airC: 18, humidityPct: 100 })).dewPointC).toBeCloseTo(18, 9);
  const { wetBulbC, deficitPa } = valueOf(wetBulb({ airC: 18, humidityPct: 100 }));
  expect([wetBulbC, deficitPa]).toEqual([expect.closeTo(18, 6), 0]);
});

// calc: 21 °C, 50 % has its dew point at 10.18 °C; 5 F are 2.78 K, so the rules part between 12.96 and 13.18 °C.
test.each([
  [10.1, true, false, false],
  [10.3, false, false, false],
  [12.9, false, false, false],
  [13, false, true, false],
  [13.1, false, true, false],
  [13.2, false, true, true],
])('a surface at %d °C: wet %j, 5 F above %j, 3 C above %j', (surfaceC, wet, fiveF, threeC) => {
  const spread = valueOf(surfaceSpread({ airC: 21, humidityPct: 50, surfaceC }));
  expect(spread).toMatchObject({
    wet,
    met: threeC,
    rules: [
      { key: '5-f', met: fiveF },
      { key: '3-c', met: threeC },
    ],
  });
  expect(spread.spreadK).toBeCloseTo(surfaceC - 10.181, 3);
});

// Shah's table, to the 0.3 % to which its own vapour data can be met.
test.each([
  [28, 28, 0.136],
  [28, 29, 0.1171],
  [28, 30, 0.0968],
  [29, 28, 0.1651],
  [29, 29, 0.1463],
  [29, 30, 0.1268],
  [30, 28, 0.1959],
  [30, 29, 0.1771],
])('water at %d °C, air at %d °C and 50 %% gives off %d kg/m2 h', (waterC, airC, rate) => {
  const { middleKgM2H } = valueOf(expectedEvaporation({ airC, humidityPct: 50, waterC, holdMs: 3_600_000 }));
  expect(middleKgM2H / rate).toBeGreaterThan(0.997);
  expect(middleKgM2H / rate).toBeLessThan(1.003);
});

// calc, mm in 24 h: Shah, or its floor once the air no longer rises; then the upper edge.
test.each([
  [21, 50, 21, 1.91, 4.3],
  [21, 50, 19, 1.14, 3.3],
  [21, 50, 18, 0.98, 2.84],
  [21, 30, 21, 2.98, 6.02],
  [21, 70, 21, 0.97, 2.58],
  [25, 50, 25, 2.6, 5.48],
])('a day at %d °C and %d %%, water at %d °C: some %d mm, at most %d mm', (airC, humidityPct, waterC, middleMm, highMm) => {
  const band = valueOf(expectedEvaporation({ airC, humidityPct, waterC, holdMs: 86_400_000 }));
  expect(band.middleMm).toBeCloseTo(middleMm, 2);
  expect(band.highMm).toBeCloseTo(highMm, 2);
  expect(band.middleMm).toBeLessThanOrEqual(band.highMm);
});

test('water colder than the dew point gives nothing off', () => {
  const band = valueOf(expectedEvaporation({ airC: 30, humidityPct: 80, waterC: 20, holdMs: 86_400_000 }));
  expect(band).toMatchObject({ middleMm: 0, highMm: 0 });
  expect(valueOf(mortarEvaporation({ airC: 30, humidityPct: 90, surfaceC: 20, windKmh: 10 }))).toEqual({ kgM2H: 0, act: false });
});

// calc, Uno in exact metric form; the last two stand on either side of 1 kg/m2 h.
test.each([
  [21, 50, 21, 0, 0.0994, false],
  [27, 50, 27, 19, 0.8147, false],
  [30, 40, 30, 20, 1.1997, true],
  [25, 50, 35, 10, 1.0543, true],
])(
  'mortar in air of %d °C and %d %%, its surface at %d °C, wind %d km/h: %d kg/m2 h, precautions %j',
  (airC, humidityPct, surfaceC, windKmh, kgM2H, act) => {
    expect(valueOf(mortarEvaporation({ airC, humidityPct, surfaceC, windKmh }))).toEqual({
      kgM2H: expect.closeTo(kgM2H, 4) as number,
      act,
    });
  },
);
