import { equivalentAge, extendedWait, temperatureTime, type Maturity } from '#lib/trade/cure.ts';
import { dryingIndex, extendedDrying } from '#lib/trade/drying.ts';
import { expectedEvaporation, mortarEvaporation, wetBulb } from '#lib/trade/evaporation.ts';
import { netDrop } from '#lib/trade/flood-levels.ts';
import { floodLoad } from '#lib/trade/flood-load.ts';
import { againstProfile, contractProfile, MODEL_CODE_PROFILE } from '#lib/trade/flood-profile.ts';
import { stopLevel } from '#lib/trade/flood-stop.ts';
import { smallestLoss } from '#lib/trade/flood.ts';
import type { Computed } from '#lib/trade/input.ts';
import { batchState, combedState, layableBatch } from '#lib/trade/mortar-clock.ts';
import { bagsNeeded, expectedCoverage, meanBed, partBagWater } from '#lib/trade/mortar.ts';
import { dewPoint, surfaceSpread } from '#lib/trade/weather.ts';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { tries } from './runs.ts';
import { fieldOf, numbers, places, spoilt, standsAt } from './spoil.ts';

const runs = { seed: 20260303, numRuns: tries(300) };
const HOUR = 3_600_000;
const START = Date.UTC(2026, 2, 3, 7);

function valueOf<T>(computed: Computed<T>): T {
  if (!computed.ok) throw new RangeError(`${computed.fault.field}: ${computed.fault.code}`);
  return computed.value;
}

/** Shuffled by the generator's own chance. */
const shuffled = <T>(list: readonly T[]) => fc.shuffledSubarray([...list], { minLength: list.length, maxLength: list.length });
const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });

// Waits.

const span = fc.record({ fromH: fc.integer({ min: -5, max: 60 }), forH: fc.integer({ min: 0, max: 20 }) });
const times = ({ fromH, forH }: { fromH: number; forH: number }) => ({ fromMs: START + fromH * HOUR, toMs: START + (fromH + forH) * HOUR });
const temperature = fc.record({ at: span, coldestC: between(-20, 45) }).map(({ at, coldestC }) => ({ ...times(at), coldestC }));
const temperatures = fc.array(temperature, { maxLength: 12 });
const maturity = fc.oneof(
  between(1000, 10_000).map((activationK): Maturity => ({ kind: 'arrhenius', activationK })),
  between(-20, 5).map((datumC): Maturity => ({ kind: 'nurse-saul', datumC })),
);
const curing = fc.record({
  statedMs: fc.integer({ min: 1, max: 72 * HOUR }),
  startMs: fc.constant(START),
  reachMs: fc.integer({ min: 0, max: 6 * HOUR }),
  referenceC: between(6, 30),
  projectC: fc.option(between(-10, 40)),
  maturity,
});
/** A wait without end is longer than any. */
const lengthOf = (waitMs: number | null) => waitMs ?? Infinity;

test('colder never shortens a wait, and none is shorter than the sheet states', () => {
  fc.assert(
    fc.property(curing, temperatures, fc.array(between(0, 15), { minLength: 13, maxLength: 13 }), (wait, readings, colder) => {
      const warm = lengthOf(valueOf(extendedWait({ ...wait, readings })).waitMs);
      const chilled = readings.map((reading, at) => ({ ...reading, coldestC: reading.coldestC - colder[at]! }));
      const projectC = wait.projectC === null ? null : wait.projectC - colder[12]!;
      expect(warm).toBeGreaterThanOrEqual(wait.statedMs);
      // A wait ends in whole milliseconds, and a sum of other pieces may differ in its last bit.
      expect(lengthOf(valueOf(extendedWait({ ...wait, readings: chilled, projectC })).waitMs)).toBeGreaterThanOrEqual(warm - 1);
    }),
    runs,
  );
});

test('one more reading never shortens a wait for which nothing is projected', () => {
  fc.assert(
    fc.property(curing, temperatures, temperature, (wait, readings, more) => {
      const few = lengthOf(valueOf(extendedWait({ ...wait, projectC: null, readings })).waitMs);
      expect(lengthOf(valueOf(extendedWait({ ...wait, projectC: null, readings: [...readings, more] })).waitMs)).toBeGreaterThanOrEqual(
        few - 1,
      );
    }),
    runs,
  );
});

test('known, projected and unknown time are the whole wait, in whatever order the readings come', () => {
  const shuffle = temperatures.chain((readings) => fc.tuple(fc.constant(readings), shuffled(readings)));
  fc.assert(
    fc.property(curing, shuffle, (wait, [readings, mixed]) => {
      const result = valueOf(extendedWait({ ...wait, readings }));
      expect(valueOf(extendedWait({ ...wait, readings: mixed }))).toEqual(result);
      const { waitMs, knownMs, projectedMs, unknownMs, unknownAfterMs } = result;
      expect(Math.min(knownMs, projectedMs, unknownMs, unknownAfterMs, unknownMs - unknownAfterMs)).toBeGreaterThanOrEqual(-1e-3);
      if (waitMs !== null) expect(Math.abs(waitMs - knownMs - projectedMs - unknownMs)).toBeLessThanOrEqual(1.1);
    }),
    runs,
  );
});

const air = fc.record({ airC: between(15, 45), humidityPct: between(1, 100), surfaceC: between(15, 45) });
const airs = fc.array(
  fc.record({ at: span, air }).map(({ at, air: seen }) => ({ ...times(at), ...seen })),
  { maxLength: 10 },
);
const reference = fc.record({ airC: between(5, 40), humidityPct: between(1, 95) });

test('a coat that is colder as a whole, or in damper air, never waits less, and never less than the sheet states', () => {
  fc.assert(
    fc.property(
      airs,
      reference,
      between(0, 15),
      between(0, 1),
      fc.integer({ min: 1, max: 48 * HOUR }),
      (readings, sheet, colder, damper, statedMs) => {
        const wait = { statedMs, startMs: START, reachMs: HOUR, reference: sheet, project: null };
        const first = lengthOf(valueOf(extendedDrying({ ...wait, readings })).waitMs);
        expect(first).toBeGreaterThanOrEqual(statedMs);
        const cold = readings.map((seen) => ({ ...seen, airC: seen.airC - colder, surfaceC: seen.surfaceC - colder }));
        const damp = readings.map((seen) => ({ ...seen, humidityPct: seen.humidityPct + damper * (100 - seen.humidityPct) }));
        for (const worse of [cold, damp, readings.map((seen) => ({ ...seen, surfaceC: seen.surfaceC - colder }))]) {
          expect(lengthOf(valueOf(extendedDrying({ ...wait, readings: worse })).waitMs)).toBeGreaterThanOrEqual(first - 1);
        }
      },
    ),
    runs,
  );
});

// Flood test.

const step = fc.constantFrom(0.05, 0.1, 0.5, 1, 1.5875, 2, 3.175, 5);
const series = (least: number) =>
  fc
    .array(fc.record({ levelMm: between(-30, 100), resolutionMm: step }), { minLength: least, maxLength: 6 })
    .map((list) => list.map((one, at) => ({ ...one, atMs: START + (at === list.length - 1 ? 24 : at * 2) * HOUR })));
const marks = fc
  .array(series(1), { minLength: 1, maxLength: 4 })
  .map((all) => all.flatMap((list, at) => list.map((level) => ({ ...level, mark: `mark ${at}` }))));
const beside = fc.oneof(
  fc.record({ kind: fc.constant('pan' as const), readings: series(1), unlikeMm: between(0, 5) }),
  fc.record({ kind: fc.constant('at-most' as const), highMm: between(0, 10) }),
);
const flood = fc.record({ levels: marks, beside, disturbed: fc.boolean(), maxLossMm: fc.option(between(0, 20)) });
type Flood = typeof flood extends fc.Arbitrary<infer T> ? T : never;

const finer = (test: Flood, share: number): Flood => {
  const fine = <T extends { resolutionMm: number }>(level: T) => ({ ...level, resolutionMm: level.resolutionMm * share });
  const by = test.beside.kind === 'pan' ? { ...test.beside, readings: test.beside.readings.map(fine) } : test.beside;
  return { ...test, levels: test.levels.map(fine), beside: by };
};

test('a finer scale never weakens the verdict of a flood test', () => {
  fc.assert(
    fc.property(flood, between(0.02, 1), (test, share) => {
      const [coarse, fine] = [valueOf(netDrop(test)), valueOf(netDrop(finer(test, share)))];
      expect(fine.netMm).toBe(coarse.netMm);
      if (coarse.expandedMm !== null) expect(fine.expandedMm).toBeLessThanOrEqual(coarse.expandedMm);
      if (!coarse.evidence.conclusive) return;
      expect(fine.evidence.conclusive).toBe(true);
      if (coarse.evidence.finding !== 'loss') return;
      expect(fine.evidence).toMatchObject(coarse.evidence.aboveLimit === null ? { finding: 'loss' } : coarse.evidence);
    }),
    { ...runs, numRuns: tries(1000) },
  );
});

test('a finer scale says more before the fill too, and a finer pan', () => {
  fc.assert(
    fc.property(step, step, between(0, 5), between(0, 20), between(0.02, 1), (scale, panScale, unlikeMm, highMm, share) => {
      const common = { holdMs: 24 * HOUR, areaM2: 1.5 };
      const of = (resolutionMm: number, panMm: number) =>
        valueOf(smallestLoss({ ...common, resolutionMm, evaporation: { kind: 'pan', resolutionMm: panMm, unlikeMm } })).detectableMm;
      expect(of(Math.max(0.001, scale * share), panScale)).toBeLessThanOrEqual(of(scale, panScale));
      expect(of(scale, Math.max(0.001, panScale * share))).toBeLessThanOrEqual(of(scale, panScale));
      const covered = (resolutionMm: number) =>
        valueOf(smallestLoss({ ...common, resolutionMm, evaporation: { kind: 'at-most', highMm } })).detectableMm;
      expect(covered(Math.max(0.001, scale * share))).toBeLessThanOrEqual(covered(scale));
    }),
    runs,
  );
});

test('the order of levels does not matter, nor that of the pan, nor where the zero lies', () => {
  const mixed = flood.chain((test) =>
    fc.tuple(fc.constant(test), shuffled(test.levels), test.beside.kind === 'pan' ? shuffled(test.beside.readings) : fc.constant([])),
  );
  fc.assert(
    fc.property(mixed, ([test, levels, readings]) => {
      const by = test.beside.kind === 'pan' ? { ...test.beside, readings } : test.beside;
      expect(valueOf(netDrop({ ...test, levels, beside: by }))).toEqual(valueOf(netDrop(test)));
    }),
    runs,
  );
  fc.assert(
    fc.property(
      series(3),
      fc.integer({ min: -50, max: 50 }),
      fc.func(fc.integer()),
      between(0, 1),
      (levels, zeroMm, key, evaporationMmPerH) => {
        const at = valueOf(stopLevel({ levels, evaporationMmPerH }));
        expect(valueOf(stopLevel({ levels: levels.toSorted((a, b) => key(a) - key(b)), evaporationMmPerH }))).toEqual(at);
        const moved = valueOf(
          stopLevel({ levels: levels.map((level) => ({ ...level, levelMm: level.levelMm + zeroMm })), evaporationMmPerH }),
        );
        if (at.state === 'stopped' && moved.state === 'stopped') expect(moved.levelMm - at.levelMm).toBeCloseTo(zeroMm, 6);
      },
    ),
    runs,
  );
});

test('a hole lies in the interval that is said, whatever the seep, the scale and the evaporation', () => {
  const hole = fc.record({
    holeMm: between(5, 50),
    perHour: between(0.02, 2),
    paceMmH: between(0, 0.2),
    scale: step,
    everyH: fc.constantFrom(0.5, 1, 2),
    count: fc.integer({ min: 3, max: 40 }),
  });
  fc.assert(
    fc.property(hole, ({ holeMm, perHour, paceMmH, scale, everyH, count }) => {
      // Drained by the seep and by the air at once, in small steps, to the level at which the hole is dry.
      let exact = 60;
      const levels = Array.from({ length: count }, (_, at) => {
        for (let part = 0; at > 0 && part < 50; part++) exact -= (everyH / 50) * (Math.max(0, exact - holeMm) * perHour + paceMmH);
        return { atMs: START + at * everyH * HOUR, levelMm: Math.round(exact / scale) * scale, resolutionMm: scale };
      });
      const stop = valueOf(stopLevel({ levels, evaporationMmPerH: paceMmH }));
      if (stop.state === 'falling') expect(stop.belowMm).toBeGreaterThanOrEqual(Math.min(holeMm, exact));
      if (stop.state !== 'stopped') return;
      expect(stop.lowMm).toBeLessThanOrEqual(holeMm);
      expect(stop.highMm).toBeGreaterThanOrEqual(holeMm);
    }),
    { ...runs, numRuns: tries(2000) },
  );
});

// Bad input.

const GOOD: Readonly<Record<string, readonly [(given: never) => Computed<object>, object]>> = {
  dewPoint: [dewPoint, { airC: 20, humidityPct: 50 }],
  surfaceSpread: [surfaceSpread, { airC: 20, humidityPct: 50, surfaceC: 15 }],
  wetBulb: [wetBulb, { airC: 20, humidityPct: 50 }],
  expectedEvaporation: [expectedEvaporation, { airC: 20, humidityPct: 50, waterC: 18, holdMs: HOUR }],
  mortarEvaporation: [mortarEvaporation, { airC: 20, humidityPct: 50, surfaceC: 18, windKmh: 5 }],
  equivalentAge: [equivalentAge, { stays: [{ durationMs: HOUR, tempC: 12 }], referenceC: 20, activationK: 5000 }],
  temperatureTime: [temperatureTime, { stays: [{ durationMs: HOUR, tempC: 12 }], datumC: 0 }],
  extendedWait: [
    extendedWait,
    {
      ...{ statedMs: 24 * HOUR, startMs: START, reachMs: HOUR, referenceC: 20, projectC: 10 },
      ...{ readings: [{ fromMs: START, toMs: START + HOUR, coldestC: 12 }], maturity: { kind: 'arrhenius', activationK: 5000 } },
    },
  ],
  extendedWaitByDatum: [
    extendedWait,
    {
      statedMs: HOUR,
      startMs: START,
      reachMs: 0,
      referenceC: 20,
      projectC: null,
      readings: [],
      maturity: { kind: 'nurse-saul', datumC: -10 },
    },
  ],
  dryingIndex: [dryingIndex, { air: { airC: 20, humidityPct: 60 }, surfaceC: 18, reference: { airC: 21, humidityPct: 50 } }],
  extendedDrying: [
    extendedDrying,
    {
      ...{
        statedMs: HOUR,
        startMs: START,
        reachMs: HOUR,
        reference: { airC: 21, humidityPct: 50 },
        project: { airC: 20, humidityPct: 60, surfaceC: 20 },
      },
      readings: [{ fromMs: START, toMs: START + HOUR, airC: 15, humidityPct: 70, surfaceC: 14 }],
    },
  ],
  smallestLoss: [smallestLoss, { resolutionMm: 1, holdMs: HOUR, areaM2: 1, evaporation: { kind: 'pan', resolutionMm: 1, unlikeMm: 0.5 } }],
  smallestLossCovered: [smallestLoss, { resolutionMm: 1, holdMs: HOUR, areaM2: 1, evaporation: { kind: 'at-most', highMm: 2 } }],
  netDrop: [
    netDrop,
    {
      levels: [0, 24].map((hours) => ({ mark: 'a', atMs: START + hours * HOUR, levelMm: 50 - hours / 10, resolutionMm: 1 })),
      beside: {
        kind: 'pan',
        unlikeMm: 0.5,
        readings: [0, 24].map((hours) => ({ atMs: START + hours * HOUR, levelMm: 80, resolutionMm: 1 })),
      },
      ...{ disturbed: false, maxLossMm: 3 },
    },
  ],
  netDropCovered: [
    netDrop,
    {
      levels: [{ mark: 'a', atMs: START, levelMm: 50, resolutionMm: 1 }],
      beside: { kind: 'at-most', highMm: 2 },
      disturbed: false,
      maxLossMm: null,
    },
  ],
  stopLevel: [
    stopLevel,
    { levels: [60, 50, 45, 45].map((levelMm, at) => ({ atMs: START + at * HOUR, levelMm, resolutionMm: 1 })), evaporationMmPerH: 0.1 },
  ],
  floodLoad: [floodLoad, { areaM2: 1.5, depthAtThresholdMm: 50, slopeMmPerM: 20, runMm: 900, fall: 'point' }],
  contractProfile: [contractProfile, { depthAt: 'drain', minDepthMm: 50, minHoldMs: HOUR, source: 'contract' }],
  againstProfile: [againstProfile, { profile: MODEL_CODE_PROFILE, depthMm: 50, heldMs: HOUR }],
  partBagWater: [partBagWater, { bagKg: 20, waterMinL: 5, waterMaxL: 6, powderKg: 10 }],
  meanBed: [meanBed, { trowel: { notch: 'u', widthMm: 6, depthMm: 6, toothMm: 6 }, angleDeg: 60 }],
  expectedCoverage: [expectedCoverage, { uprightBedMm: 3, bagYieldL: 15, share: { low: 0.4, high: 0.6 } }],
  bagsNeeded: [bagsNeeded, { areaM2: 5, lossPct: 10, leastM2PerBag: 4, mostM2PerBag: 6 }],
  batchState: [batchState, { mixedAtMs: START, slakeMs: 600_000, potLifeMs: HOUR, nowMs: START + 1 }],
  combedState: [combedState, { combedAtMs: START, openTimeMs: HOUR, nowMs: START + 1 }],
  layableBatch: [layableBatch, { leftM2: 5, rateM2PerH: 3, spreadKgM2: 4, slakeMs: 600_000, potLifeMs: HOUR, batchKg: 10 }],
};

const CASES = Object.entries(GOOD).flatMap(([name, [compute, given]]) =>
  [...places(given)]
    // A rule's own inside is not typed in here.
    .filter(([first, ...rest]) => first !== 'profile' || rest.length === 0)
    .map((path) => ({ name, compute, given, path })),
);
const numeric = CASES.filter(({ given, path }) => typeof standsAt(given, path) === 'number');

test.each(Object.entries(GOOD))('%s computes what is good, in numbers', (_, [compute, given]) => {
  expect(numbers(valueOf(compute(given as never))).filter((number) => !Number.isFinite(number))).toEqual([]);
});

test.each(numeric.flatMap((one) => [NaN, Infinity, -Infinity, -1e12, 1e30].map((bad) => ({ ...one, bad, place: one.path.join('.') }))))(
  '$name refuses $bad for $place by name',
  ({ compute, given, path, bad }) => {
    const result = compute(spoilt(given, path, bad) as never);
    expect(result).toMatchObject({
      ok: false,
      fault: { code: Number.isFinite(bad) ? (bad < 0 ? 'too-small' : 'too-large') : 'not-a-number' },
    });
    if (!result.ok) expect(result.fault.field).toContain(fieldOf(path));
  },
);

test.each(numeric.filter(({ path }) => fieldOf(path) === 'humidityPct').flatMap((one) => [0, 101].map((bad) => ({ ...one, bad }))))(
  '$name refuses a humidity of $bad %',
  ({ compute, given, path, bad }) => {
    expect(compute(spoilt(given, path, bad) as never)).toMatchObject({ ok: false, fault: { code: bad === 0 ? 'too-small' : 'too-large' } });
  },
);

test('an empty list, one turned round in time, and one said twice are refused by name', () => {
  const fault = (name: string, change: object) => {
    const [compute, given] = GOOD[name]!;
    const result = compute({ ...given, ...change } as never);
    return result.ok ? null : [result.fault.code, result.fault.field];
  };
  const level = { mark: 'a', atMs: START, levelMm: 1, resolutionMm: 1 };
  expect(fault('equivalentAge', { stays: [] })).toEqual(['empty', 'stays']);
  expect(fault('netDrop', { levels: [] })).toEqual(['empty', 'levels']);
  expect(fault('netDrop', { levels: [level, { ...level, mark: 'b' }, level] })).toEqual(['twice', 'levels[2].atMs']);
  expect(fault('netDrop', { beside: { kind: 'pan', unlikeMm: 0, readings: [] } })).toEqual(['empty', 'beside.readings']);
  expect(fault('stopLevel', { levels: [level, { ...level, atMs: START + 1 }] })).toEqual(['empty', 'levels']);
  expect(fault('extendedWait', { readings: [{ fromMs: START, toMs: START - 1, coldestC: 5 }] })).toEqual([
    'out-of-order',
    'readings[0].toMs',
  ]);
  expect(fault('extendedWait', { readings: Array.from({ length: 10_081 }, () => ({ fromMs: START, toMs: START, coldestC: 5 })) })).toEqual([
    'too-many',
    'readings',
  ]);
  expect(fault('extendedWait', { referenceC: 5, maturity: { kind: 'nurse-saul', datumC: 5 } })).toEqual(['out-of-order', 'datumC']);
  expect(fault('extendedWait', { maturity: { kind: 'guess' } })).toEqual(['unknown-choice', 'maturity.kind']);
  expect(fault('smallestLoss', { evaporation: { kind: 'guess' } })).toEqual(['unknown-choice', 'evaporation.kind']);
  expect(fault('netDrop', { beside: { kind: 'guess' } })).toEqual(['unknown-choice', 'beside.kind']);
  expect(fault('floodLoad', { fall: 'both' })).toEqual(['unknown-choice', 'fall']);
  expect(fault('partBagWater', { waterMinL: 7 })).toEqual(['out-of-order', 'waterMaxL']);
  expect(fault('partBagWater', { powderKg: 21 })).toEqual(['too-large', 'powderKg']);
  expect(fault('expectedCoverage', { share: { low: 0.7, high: 0.6 } })).toEqual(['out-of-order', 'share.high']);
  expect(fault('bagsNeeded', { leastM2PerBag: 7 })).toEqual(['out-of-order', 'mostM2PerBag']);
});

test('whatever stands in a field, a fault is told and nothing thrown, and no result is NaN', () => {
  const anything = fc.oneof(
    fc.double(),
    fc.constantFrom<unknown>(0, -0, 1e-300, 1e300, '', '12', 'NaN', null, undefined, true, [], {}, [null], [{}], { kind: 'pan' }),
    fc.anything({ maxDepth: 1 }),
  );
  fc.assert(
    fc.property(fc.constantFrom(...CASES), anything, ({ compute, given, path }, bad) => {
      const result = compute(spoilt(given, path, bad) as never);
      if (result.ok) expect(numbers(result.value).filter((number) => !Number.isFinite(number))).toEqual([]);
      else expect(result.fault.field).not.toBe('');
    }),
    { ...runs, numRuns: tries(3000) },
  );
});

test('within their ranges all functions of the weather answer in finite numbers', () => {
  fc.assert(
    fc.property(
      between(0, 50),
      between(1, 100),
      between(0, 50),
      between(0, 100),
      between(1, 95),
      (airC, humidityPct, otherC, windKmh, sheetPct) => {
        const here = { airC, humidityPct };
        const all = [
          surfaceSpread({ ...here, surfaceC: otherC }),
          wetBulb(here),
          expectedEvaporation({ ...here, waterC: otherC, holdMs: HOUR }),
          mortarEvaporation({ ...here, surfaceC: otherC, windKmh }),
          dryingIndex({ air: here, surfaceC: otherC, reference: { airC: otherC, humidityPct: sheetPct } }),
        ].flatMap((result) => numbers(valueOf<object>(result)));
        expect(all.filter((number) => !Number.isFinite(number))).toEqual([]);
        const { dewPointC } = valueOf(dewPoint(here));
        const { wetBulbC } = valueOf(wetBulb(here));
        expect(wetBulbC).toBeLessThanOrEqual(airC + 1e-9);
        // Two vapour formulas: over water, and over ice below freezing.
        if (dewPointC > 0) expect(dewPointC).toBeLessThanOrEqual(wetBulbC + 0.06);
      },
    ),
    runs,
  );
});
