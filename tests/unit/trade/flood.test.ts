import { evidenceOf } from '#lib/trade/flood-evidence.ts';
import { netDrop, type Beside, type Level, type MarkLevel } from '#lib/trade/flood-levels.ts';
import { floodLoad } from '#lib/trade/flood-load.ts';
import { againstProfile, contractProfile, MODEL_CODE_PROFILE, UPC_FAMILY_PROFILE } from '#lib/trade/flood-profile.ts';
import { stopLevel } from '#lib/trade/flood-stop.ts';
import { smallestLoss } from '#lib/trade/flood.ts';
import { expect, test } from 'vitest';
import { valueOf } from './computed.ts';

const HOUR = 3_600_000;
const DAY = 24 * HOUR;
const START = Date.UTC(2026, 2, 3, 7);

// The rules.

test('model code: 2 in at the threshold for 15 min; two inches are two inches, though the code prints 51 mm beside', () => {
  expect(MODEL_CODE_PROFILE).toMatchObject({ depthAt: 'threshold', minDepthMm: 50.8, minHoldMs: 900_000, source: 'IPC 312.9' });
  const done = (depthMm: number, heldMs: number) => valueOf(againstProfile({ profile: MODEL_CODE_PROFILE, depthMm, heldMs }));
  expect(done(50.8, 900_000)).toEqual({ depth: 'met', hold: 'met', shortMm: 0, shortMs: 0 });
  expect(done(50.7, 899_999)).toEqual({ depth: 'not-met', hold: 'not-met', shortMm: expect.closeTo(0.1, 9) as number, shortMs: 1 });
});

test('the UPC family names a place but, in what was read, neither depth nor time', () => {
  expect(UPC_FAMILY_PROFILE).toMatchObject({ depthAt: 'rough-threshold-top', minDepthMm: null, minHoldMs: null });
  expect(valueOf(againstProfile({ profile: UPC_FAMILY_PROFILE, depthMm: 0, heldMs: 0 }))).toEqual({
    depth: 'no-number',
    hold: 'no-number',
    shortMm: 0,
    shortMs: 0,
  });
});

test('a contract is taken as typed', () => {
  const typed = { depthAt: 'drain', minDepthMm: 75, minHoldMs: DAY, source: 'contract, section 4' } as const;
  expect(valueOf(contractProfile(typed))).toEqual({ key: 'contract', ...typed });
  expect(contractProfile({ ...typed, depthAt: 'middle' as 'drain' })).toEqual({
    ok: false,
    fault: { code: 'unknown-choice', field: 'depthAt', bound: null },
  });
});

// The load.

// calc: 3 by 5 ft, 2 in at the threshold, 1/4 in per foot over 3 ft.
test('2 in at the threshold are 2.75 in at the drain, which carries 14.3 psf', () => {
  const load = valueOf(
    floodLoad({ areaM2: 15 * 0.09290304, depthAtThresholdMm: 50.8, slopeMmPerM: 1000 / 48, runMm: 914.4, fall: 'line' }),
  );
  expect(load.depthAtDrainMm / 25.4).toBeCloseTo(2.75, 12);
  expect(load.meanDepthMm / 25.4).toBeCloseTo(2.375, 12);
  expect(load.loadAtDrainPa / 47.880259).toBeCloseTo(14.306, 3);
  expect(load.shareOfDwellingLiveLoad).toBeCloseTo(14.306 / 40, 4);
  expect([load.volumeL / 3.785411784, load.massKg / 0.45359237].map((one) => one.toFixed(1))).toEqual(['22.2', '185.3']);
});

test('a floor that falls to a point holds a third of the rise in the mean, and over 100 mm at the drain is over the standard head', () => {
  const at = (depthAtThresholdMm: number) =>
    valueOf(floodLoad({ areaM2: 2, depthAtThresholdMm, slopeMmPerM: 20, runMm: 1500, fall: 'point' }));
  expect(at(50)).toMatchObject({ depthAtDrainMm: 80, meanDepthMm: 60, volumeL: 120, massKg: 120, overStandardHead: false });
  expect(at(70).overStandardHead).toBe(false);
  expect(at(70.1).overStandardHead).toBe(true);
});

// What can be seen at all.

// calc: u of one reading to 1 mm is 0.2887, of a difference 0.4082, twice that 0.8165; to 1/16 in 1.296.
test.each([
  [1, 0.8165],
  [1.5875, 1.296],
])('a scale of %d mm steps tells no fall below %d mm from none', (resolutionMm, expandedMm) => {
  const covered = { resolutionMm, holdMs: DAY, areaM2: 1.5, evaporation: { kind: 'at-most', highMm: 0 } } as const;
  const loss = valueOf(smallestLoss(covered));
  expect(loss.expandedMm).toBeCloseTo(expandedMm, 3);
  expect(loss).toMatchObject({ thresholdMm: loss.expandedMm, detectableMm: 2 * loss.expandedMm, detectableL: 3 * loss.expandedMm });
  expect(loss.detectableMmPerDay).toBeCloseTo(loss.detectableMm, 9);
  expect(valueOf(smallestLoss({ ...covered, holdMs: DAY / 96 })).detectableMmPerDay).toBeCloseTo(96 * loss.detectableMm, 9);
});

test('a pan has its own uncertainty; without one all that may evaporate comes on top', () => {
  const planned = { resolutionMm: 1, holdMs: DAY, areaM2: 1 };
  const pan = (unlikeMm: number) => valueOf(smallestLoss({ ...planned, evaporation: { kind: 'pan', resolutionMm: 1, unlikeMm } }));
  expect(pan(0).expandedMm).toBeCloseTo(2 / Math.sqrt(3), 12);
  expect(pan(0.5).expandedMm).toBeCloseTo(2 * Math.sqrt(1 / 3 + 0.25 / 3), 12);
  const none = valueOf(smallestLoss({ ...planned, evaporation: { kind: 'at-most', highMm: 4.3 } }));
  expect(none.thresholdMm).toBeCloseTo(4.3 + none.expandedMm, 12);
  expect(none.detectableMm).toBeCloseTo(4.3 + 2 * none.expandedMm, 12);
});

// What the levels show.

const level = (hours: number, levelMm: number, resolutionMm = 1): Level => ({ atMs: START + hours * HOUR, levelMm, resolutionMm });
const mark = (name: string, hours: number, levelMm: number): MarkLevel => ({ mark: name, ...level(hours, levelMm) });
const covered: Beside = { kind: 'at-most', highMm: 0 };
const pan = (dropMm: number, unlikeMm = 0): Beside => ({ kind: 'pan', readings: [level(0, 100), level(24, 100 - dropMm)], unlikeMm });
const shown = (levels: readonly MarkLevel[], beside: Beside = covered, maxLossMm: number | null = 3, disturbed = false) =>
  valueOf(netDrop({ levels, beside, maxLossMm, disturbed }));
const fell = (dropMm: number) => [mark('a', 0, 60), mark('a', 24, 60 - dropMm)];

test('marks are read first to last, averaged without averaging the scale away, and their spread widens the doubt', () => {
  const four = [mark('b', 0, 50), mark('a', 0, 60), mark('a', 12, 40), mark('a', 24, 58), mark('b', 24, 49)];
  const drop = shown(four, pan(1));
  expect(drop).toMatchObject({ elapsedMs: DAY, dropMm: 1.5, spreadMm: 1, panDropMm: 1, netMm: 0.5 });
  expect(drop.marks.map(({ mark: name, dropMm, counted }) => [name, dropMm, counted])).toEqual([
    ['a', 2, true],
    ['b', 1, true],
  ]);
  expect(drop.marks[0]!.expandedMm).toBeCloseTo(0.8165, 4);
  expect(drop.expandedMm).toBeCloseTo(2 * Math.sqrt(1 / 6 + 1 / 6 + 0.25 / 3), 12);
  expect(drop.hiddenUpToMm).toBeCloseTo(0.5 + drop.expandedMm!, 12);
});

test('a mark that lacks one end of the test is shown and does not count', () => {
  const late = shown([...fell(1), mark('b', 0, 50), mark('b', 20, 45), mark('c', 24, 30)]);
  expect(late).toMatchObject({
    dropMm: 1,
    marks: [{ counted: true }, { mark: 'b', dropMm: 5, counted: false }, { mark: 'c', dropMm: 0, counted: false }],
  });
});

test.each<[what: string, levels: MarkLevel[], beside: Beside, maxLossMm: number | null, evidence: object]>([
  ['3 mm beside 1 mm in the pan is a loss', fell(3), pan(1), null, { conclusive: true, finding: 'loss', aboveLimit: null }],
  ['of more than matters', fell(9), pan(1), 3, { conclusive: true, finding: 'loss', aboveLimit: true }],
  ['of less than matters', fell(3), pan(1), 4, { conclusive: true, finding: 'loss', aboveLimit: false }],
  ['or open whether it matters', fell(3), pan(1), 2.5, { conclusive: true, finding: 'loss', aboveLimit: null }],
  ['as much as the pan: no loss above 3 mm', fell(2), pan(2), 3, { conclusive: true, finding: 'no-loss-above-limit' }],
  ['a scale too coarse for 1 mm', fell(2), pan(2), 1, { conclusive: false, reason: 'too-coarse', settle: { code: 'finer-scale' } }],
  ['a pan too unlike for 1 mm', fell(2), pan(2, 3), 1, { conclusive: false, reason: 'too-coarse', settle: { code: 'better-pan' } }],
  ['nobody named a loss', fell(2), pan(2), null, { conclusive: false, reason: 'no-loss-named', settle: { code: 'name-a-loss' } }],
  ['less than the pan by 2 mm hides as much', fell(1), pan(3), 3, { conclusive: false, reason: 'too-coarse' }],
  [
    'no pan, and more than may evaporate',
    fell(6),
    { kind: 'at-most', highMm: 4 },
    3,
    { conclusive: true, finding: 'loss', aboveLimit: null },
  ],
  [
    'no pan, and it may be evaporation',
    fell(3),
    { kind: 'at-most', highMm: 4 },
    3,
    { conclusive: false, reason: 'may-be-evaporation', settle: { code: 'control-pan' } },
  ],
  [
    'no pan, and all of it is less than matters',
    fell(2),
    { kind: 'at-most', highMm: 4 },
    3,
    { conclusive: true, finding: 'no-loss-above-limit' },
  ],
  [
    'a pan of another time',
    fell(3),
    { kind: 'pan', readings: [level(0, 9), level(12, 8)], unlikeMm: 0 },
    3,
    { conclusive: false, reason: 'pan-times-differ', settle: { code: 'pan-with-marks' } },
  ],
  [
    'a pan of another time, and still less than matters',
    fell(1),
    { kind: 'pan', readings: [level(0, 9)], unlikeMm: 0 },
    3,
    { conclusive: true, finding: 'no-loss-above-limit' },
  ],
  ['read once', [mark('a', 0, 60)], covered, 3, { conclusive: false, reason: 'read-once', settle: { code: 'read-again' } }],
])('%s', (_, levels, beside, maxLossMm, evidence) => {
  expect(shown(levels, beside, maxLossMm).evidence).toMatchObject(evidence);
});

test('water let in or out settles nothing', () => {
  expect(shown(fell(9), covered, 3, true).evidence).toEqual({ conclusive: false, reason: 'disturbed', settle: { code: 'start-anew' } });
});

test('the scale said to be fine enough is fine enough, and a little coarser is not', () => {
  const judged = { netMm: 0.1, fixedMm: 0.2, expandedMm: 1.5, highMm: 0, hasPan: true, maxLossMm: 1, stepMm: 1 };
  const first = evidenceOf(judged);
  if (first.conclusive || first.settle.code !== 'finer-scale') throw new Error('expected to be told of a finer scale');
  const { resolutionMm } = first.settle;
  const withScale = (stepMm: number) => evidenceOf({ ...judged, expandedMm: Math.hypot(0.2, Math.sqrt(1.5 ** 2 - 0.2 ** 2) * stepMm) });
  expect(withScale(resolutionMm * 0.999)).toEqual({ conclusive: true, finding: 'no-loss-above-limit' });
  expect(withScale(resolutionMm * 1.001).conclusive).toBe(false);
});

// Where a failing test comes to rest.

/** A seep: its pace goes with the head over the hole, and the basin loses `evaporationMmPerH` besides; read to `step` mm. */
const seep = (holeMm: number, perHour: number, evaporationMmPerH: number, step: number, hours: number) =>
  Array.from({ length: hours + 1 }, (_, at) => {
    const stoppedAt = Math.max(holeMm + (60 - holeMm) * Math.exp(-perHour * at), 0) - evaporationMmPerH * at;
    return level(at, Math.round(stoppedAt / step) * step, step);
  });

test.each([
  [35, 0.6, 0, 1, 24],
  [42, 1, 0.05, 0.5, 24],
  [20, 0.4, 0.02, 1, 40],
])('a hole at %d mm is found in a seep of %d per hour', (holeMm, perHour, evaporationMmPerH, step, hours) => {
  const stop = valueOf(stopLevel({ levels: seep(holeMm, perHour, evaporationMmPerH, step, hours), evaporationMmPerH }));
  if (stop.state !== 'stopped') throw new Error(stop.state);
  expect(stop.lowMm).toBeLessThanOrEqual(holeMm);
  expect(stop.highMm).toBeGreaterThanOrEqual(holeMm);
  expect(stop.highMm - stop.lowMm).toBeLessThan(8);
  expect(stop.fromMs).toBeLessThan(stop.toMs);
});

test('still falling: the hole is somewhere below', () => {
  expect(valueOf(stopLevel({ levels: [60, 57, 54, 51].map((mm, at) => level(at, mm)), evaporationMmPerH: 0.1 }))).toEqual({
    state: 'falling',
    belowMm: expect.closeTo(51.577, 3) as number,
  });
  expect(valueOf(stopLevel({ levels: seep(10, 0.05, 0, 1, 30), evaporationMmPerH: 0 })).state).toBe('falling');
});

test('it never fell, or rose', () => {
  expect(valueOf(stopLevel({ levels: [60, 60, 59].map((mm, at) => level(at, mm)), evaporationMmPerH: 0.1 }))).toEqual({ state: 'no-fall' });
  expect(valueOf(stopLevel({ levels: [60, 62, 65, 65].map((mm, at) => level(at, mm)), evaporationMmPerH: 0.1 }))).toEqual({
    state: 'no-fall',
  });
});
