import { membraneContact, tileContact } from '#lib/trade/contact.ts';
import type { Computed } from '#lib/trade/input.ts';
import { slopeOfHeights, slopeOfLevel, type SlopeRule, type SlopeUnit } from '#lib/trade/slope.ts';
import { flatness, FLATNESS_LARGE_TILE, heightOver, moisture, type MoistureScale } from '#lib/trade/substrate.ts';
import { expect, test } from 'vitest';
import { valueOf } from './computed.ts';

const FT = 304.8;
const IN = 25.4;
const faultOf = (result: Computed<object>) => (result.ok ? null : result.fault);

test('a quarter inch in a foot, in every unit', () => {
  const done = valueOf(slopeOfHeights({ highMm: 0.75 * IN, lowMm: 0, runMm: 3 * FT, stepMm: 0, rule: null }));
  expect(done.mmPerM).toBeCloseTo(20.8333, 4);
  expect(done.percent).toBeCloseTo(2.08333, 5);
  expect(done.inPerFt).toBeCloseTo(0.25, 12);
  expect(done.degrees).toBeCloseTo(1.19349, 5);
  expect(done.runPerRise).toBeCloseTo(48, 9);
  expect(done).toMatchObject({ falls: 'yes', verdict: 'no-limit' });
  expect([done.lowMmPerM, done.highMmPerM]).toEqual([done.mmPerM, done.mmPerM]);
});

// IRC P2709.1, 1/4 to 1/2 in a foot; NCC 10.2.12, 1:80 to 1:50; a code's 2 % is less than 1/4 in a foot.
const IRC: SlopeRule = { min: 0.25, max: 0.5, unit: 'in/ft' };
const NCC: SlopeRule = { min: 80, max: 50, unit: '1:n' };
test.each<[rise: number, run: number, step: number, rule: SlopeRule, verdict: string]>([
  [0.75 * IN, 3 * FT, 0, IRC, 'within'],
  [1.5 * IN, 3 * FT, 0, IRC, 'within'],
  [1.51 * IN, 3 * FT, 0, IRC, 'outside'],
  [0.74 * IN, 3 * FT, 0, IRC, 'outside'],
  [0.74 * IN, 3 * FT, 1, IRC, 'not-proven'],
  [0.75 * IN, 3 * FT, 1, IRC, 'not-proven'],
  [1 * IN, 3 * FT, 1, IRC, 'within'],
  [20, 1000, 0, IRC, 'outside'],
  [20, 1000, 0, { min: 2, max: null, unit: '%' }, 'within'],
  [20, 1000, 0, { min: 20, max: 20, unit: 'mm/m' }, 'within'],
  [20.8, 1000, 0, { min: 20.8, max: null, unit: 'mm/m' }, 'within'],
  [12.5, 1000, 0, NCC, 'within'],
  [20, 1000, 0, NCC, 'within'],
  [12.4, 1000, 0, NCC, 'outside'],
  [20.1, 1000, 0, NCC, 'outside'],
  [12.4, 1000, 0, { min: null, max: 50, unit: '1:n' }, 'within'],
  [20.1, 1000, 0, { min: 80, max: null, unit: '1:n' }, 'within'],
  [20, 1000, 0, { min: 1.1, max: 1.2, unit: 'deg' }, 'within'],
  [20, 1000, 0, { min: 1.2, max: null, unit: 'deg' }, 'outside'],
  [20, 1000, 0, { min: null, max: null, unit: '%' }, 'no-limit'],
])('%d mm in %d, read to %d, against %j: %s', (highMm, runMm, stepMm, rule, verdict) => {
  expect(valueOf(slopeOfHeights({ highMm, lowMm: 0, runMm, stepMm, rule })).verdict).toBe(verdict);
});

test.each([
  [5, 0, 1, 'yes'],
  [1, 0, 1, 'not-proven'],
  [0, 0, 1, 'not-proven'],
  [0, 0, 0, 'no'],
  [-1, 0, 1, 'no'],
  [-5, 0, 1, 'no'],
  [3, 5, 0, 'no'],
] as const)('a sill %d mm high outside and %d inside, read to %d, falls inward: %s', (highMm, lowMm, stepMm, falls) => {
  const done = valueOf(slopeOfHeights({ highMm, lowMm, runMm: 100, stepMm, rule: null }));
  expect(done.falls).toBe(falls);
  expect(done.mmPerM).toBe((highMm - lowMm) * 10);
  expect([done.lowMmPerM, done.highMmPerM]).toEqual([(highMm - lowMm - stepMm) * 10, (highMm - lowMm + stepMm) * 10]);
});

test('on the level there is no run over rise', () => {
  expect(valueOf(slopeOfHeights({ highMm: 7, lowMm: 7, runMm: 100, stepMm: 0, rule: null }))).toMatchObject({
    runPerRise: null,
    degrees: 0,
  });
});

test.each<[reading: number, unit: SlopeUnit, percent: number]>([
  [1, '%', 1],
  [-1, '%', -1],
  [20.8, 'mm/m', 2.08],
  [0.25, 'in/ft', 2.08333],
  [1.19, 'deg', 2.07724],
  [45, 'deg', 100],
  [48, '1:n', 2.08333],
])('a level that shows %d %s stands at %d %%', (reading, unit, percent) => {
  expect(valueOf(slopeOfLevel({ reading, unit, step: 0, rule: null })).percent).toBeCloseTo(percent, 5);
});

test('the last digit of a display is its doubt, in the unit it is shown in', () => {
  const done = valueOf(slopeOfLevel({ reading: 2, unit: '%', step: 0.1, rule: { min: 2, max: null, unit: '%' } }));
  expect([done.lowMmPerM, done.highMmPerM].map((one) => Math.round(one * 1e6) / 1e6)).toEqual([19.5, 20.5]);
  expect(done.verdict).toBe('not-proven');
  expect(valueOf(slopeOfLevel({ reading: 1.2, unit: 'deg', step: 0.1, rule: { min: 1.15, max: 1.3, unit: 'deg' } })).verdict).toBe(
    'within',
  );
  const ratio = valueOf(slopeOfLevel({ reading: 40, unit: '1:n', step: 10, rule: null }));
  expect([ratio.lowMmPerM, ratio.highMmPerM]).toEqual([(1 / 45) * 1000, (1 / 35) * 1000]);
});

test.each([
  [() => slopeOfHeights({ highMm: 1, lowMm: 0, runMm: 9, stepMm: 0, rule: null }), 'too-small', 'runMm'],
  [() => slopeOfHeights({ highMm: 10_001, lowMm: 0, runMm: 100, stepMm: 0, rule: null }), 'too-large', 'highMm'],
  [() => slopeOfHeights({ highMm: 1, lowMm: -10_001, runMm: 100, stepMm: 0, rule: null }), 'too-small', 'lowMm'],
  [() => slopeOfHeights({ highMm: 1, lowMm: 0, runMm: 100, stepMm: -1, rule: null }), 'too-small', 'stepMm'],
  [() => slopeOfHeights({ highMm: 1, lowMm: 0, runMm: 100, stepMm: 0, rule: {} as SlopeRule }), 'unknown-choice', 'rule.unit'],
  [() => slopeOfHeights({ highMm: 1, lowMm: 0, runMm: 100, stepMm: 0, rule: 'steep' as unknown as SlopeRule }), 'missing', 'rule'],
  [() => slopeOfHeights({ highMm: 1, lowMm: 0, runMm: 100, stepMm: 0, rule: { min: 3, max: 2, unit: '%' } }), 'out-of-order', 'rule.max'],
  [
    () => slopeOfHeights({ highMm: 1, lowMm: 0, runMm: 100, stepMm: 0, rule: { min: 50, max: 80, unit: '1:n' } }),
    'out-of-order',
    'rule.max',
  ],
  [
    () => slopeOfHeights({ highMm: 1, lowMm: 0, runMm: 100, stepMm: 0, rule: { min: NaN, max: null, unit: '%' } }),
    'not-a-number',
    'rule.min',
  ],
  [() => slopeOfHeights({ highMm: 1, lowMm: 0, runMm: 100, stepMm: 0, rule: { min: null, max: 101, unit: '%' } }), 'too-large', 'rule.max'],
  [() => slopeOfHeights({ highMm: 1, lowMm: 0, runMm: 100, stepMm: 0, rule: { min: 0, max: null, unit: '1:n' } }), 'too-small', 'rule.min'],
  [() => slopeOfLevel({ reading: 1, unit: 'grad' as 'deg', step: 0, rule: null }), 'unknown-choice', 'unit'],
  [() => slopeOfLevel({ reading: 46, unit: 'deg', step: 0, rule: null }), 'too-large', 'reading'],
  [() => slopeOfLevel({ reading: 1001, unit: 'mm/m', step: 0, rule: null }), 'too-large', 'reading'],
  [() => slopeOfLevel({ reading: -12.1, unit: 'in/ft', step: 0, rule: null }), 'too-small', 'reading'],
  [() => slopeOfLevel({ reading: 0.9, unit: '1:n', step: 0, rule: null }), 'too-small', 'reading'],
  [() => slopeOfLevel({ reading: 5, unit: '1:n', step: 5, rule: null }), 'too-large', 'step'],
  [() => slopeOfLevel({ reading: 5, unit: '%', step: 11, rule: null }), 'too-large', 'step'],
  [() => slopeOfLevel({ reading: 5, unit: '%', step: 0, rule: { min: 3, max: 2, unit: '%' } }), 'out-of-order', 'rule.max'],
])('%#: a fall that cannot be is refused', (compute, code, field) => {
  expect(faultOf(compute())).toMatchObject({ code, field });
});

test('the bound that a turned rule passes is its other one', () => {
  const line = { highMm: 1, lowMm: 0, runMm: 100, stepMm: 0 };
  expect(faultOf(slopeOfHeights({ ...line, rule: { min: 50, max: 80, unit: '1:n' } }))).toMatchObject({ bound: 50 });
  expect(valueOf(slopeOfHeights({ ...line, rule: { min: 2, max: 2, unit: '%' } })).verdict).toBe('outside');
});

// ANSI A108.02, large tile: 1/8 in in 10 ft, 1/16 in in 2 ft; 3 m and 0.6 m as the standard rounds them.
test.each([
  [3.175, 0, 3048, 'within', 3.175],
  [3.18, 0, 3048, 'outside', 3.175],
  [3, 1, 3048, 'not-proven', 3.175],
  [2.6, 1, 3048, 'within', 3.175],
  [3, 0, 3000, 'within', 3.175],
  [1.6, 0, 600, 'outside', 1.5875],
  [1.5, 0, 609.6, 'within', 1.5875],
  [1, 0, 1200, 'no-limit', null],
  [9, 0, 1829, 'no-limit', null],
  [1, 0, 2980, 'no-limit', null],
] as const)('a gap of %d mm, read to %d, under an edge of %d mm: %s', (gapMm, stepMm, edgeMm, verdict, allowedMm) => {
  expect(valueOf(flatness({ gapMm, stepMm, edgeMm, allowed: FLATNESS_LARGE_TILE }))).toEqual({ verdict, allowedMm });
});

// IRC P2709.1: 2 to 9 in from the top of the curb to the top of the drain.
test.each([
  [100, 30, 0, 1, 70, 'within'],
  [100, 30, 20, 1, 50, 'not-proven'],
  [100, 30, 25, 1, 45, 'outside'],
  [260, 30, 0, 1, 230, 'outside'],
  [259, 30, 0, 1, 229, 'not-proven'],
  [50.8, 0, 0, 0, 50.8, 'within'],
  [228.6, 0, 0, 0, 228.6, 'within'],
])('a top at %d over a base at %d with %d to come, read to %d: %d mm, %s', (topMm, baseMm, buildUpMm, stepMm, heightMm, verdict) => {
  const done = valueOf(heightOver({ topMm, baseMm, buildUpMm, stepMm, minMm: 50.8, maxMm: 228.6 }));
  expect(done).toEqual({ heightMm, lowMm: heightMm - stepMm, highMm: heightMm + stepMm, verdict });
});

test('a height without bounds is a height', () => {
  expect(valueOf(heightOver({ topMm: 5, baseMm: 1, buildUpMm: 0, stepMm: 0, minMm: null, maxMm: null })).verdict).toBe('no-limit');
  expect(valueOf(heightOver({ topMm: 5, baseMm: 1, buildUpMm: 0, stepMm: 0, minMm: 5, maxMm: null })).verdict).toBe('outside');
  expect(valueOf(heightOver({ topMm: 5, baseMm: 1, buildUpMm: 0, stepMm: 0, minMm: null, maxMm: 3 })).verdict).toBe('outside');
});

const WOOD = {
  scale: 'wood' as const,
  reading: 14,
  step: 0.2,
  throughTile: false,
  dryReference: null,
  limit: { scale: 'wood' as const, max: 16 },
};
test.each([
  ['under its limit', {}, 'within', null, null],
  ['at it, which may be over', { reading: 16 }, 'not-proven', null, null],
  ['at it, told without a step', { reading: 16, step: 0 }, 'within', null, null],
  ['over it', { reading: 17 }, 'outside', null, null],
  ['beside a dry place', { dryReference: 10 }, 'within', 4, null],
  ['without a limit', { limit: null }, 'no-limit', null, 'no-limit'],
  ['against another scale', { limit: { scale: 'relative' as const, max: 16 } }, 'no-limit', null, 'other-scale'],
  ['through tile, with a dry place', { throughTile: true, dryReference: 11 }, 'no-limit', 3, 'through-tile'],
  ['through tile, without one', { throughTile: true }, 'no-limit', null, 'no-reference'],
  ['through tile, without a limit', { throughTile: true, limit: null }, 'no-limit', null, 'no-reference'],
])('moisture %s', (_, change, verdict, aboveReference, unjudged) => {
  expect(valueOf(moisture({ ...WOOD, ...change }))).toEqual({ verdict, aboveReference, unjudged });
});

test.each([
  [() => flatness({ gapMm: -1, stepMm: 0, edgeMm: 3000, allowed: FLATNESS_LARGE_TILE }), 'too-small', 'gapMm'],
  [() => flatness({ gapMm: 1, stepMm: 51, edgeMm: 3000, allowed: FLATNESS_LARGE_TILE }), 'too-large', 'stepMm'],
  [() => flatness({ gapMm: 1, stepMm: 0, edgeMm: 49, allowed: FLATNESS_LARGE_TILE }), 'too-small', 'edgeMm'],
  [() => flatness({ gapMm: 1, stepMm: 0, edgeMm: 3000, allowed: [] }), 'empty', 'allowed'],
  [() => flatness({ gapMm: 1, stepMm: 0, edgeMm: 3000, allowed: [{ gapMm: -1, overMm: 600 }] }), 'too-small', 'allowed[0].gapMm'],
  [() => flatness({ gapMm: 1, stepMm: 0, edgeMm: 3000, allowed: [{ gapMm: 1, overMm: 1 }] }), 'too-small', 'allowed[0].overMm'],
  [
    () => flatness({ gapMm: 1, stepMm: 0, edgeMm: 3000, allowed: [3000, 3048].map((overMm) => ({ gapMm: 1, overMm })) }),
    'twice',
    'allowed[1].overMm',
  ],
  [() => heightOver({ topMm: 10_001, baseMm: 1, buildUpMm: 0, stepMm: 0, minMm: null, maxMm: null }), 'too-large', 'topMm'],
  [() => heightOver({ topMm: 1, baseMm: -10_001, buildUpMm: 0, stepMm: 0, minMm: null, maxMm: null }), 'too-small', 'baseMm'],
  [() => heightOver({ topMm: 1, baseMm: 1, buildUpMm: -1, stepMm: 0, minMm: null, maxMm: null }), 'too-small', 'buildUpMm'],
  [() => heightOver({ topMm: 1, baseMm: 1, buildUpMm: 501, stepMm: 0, minMm: null, maxMm: null }), 'too-large', 'buildUpMm'],
  [() => heightOver({ topMm: 1, baseMm: 1, buildUpMm: 0, stepMm: -1, minMm: null, maxMm: null }), 'too-small', 'stepMm'],
  [() => heightOver({ topMm: 1, baseMm: 1, buildUpMm: 0, stepMm: 0, minMm: 20_000, maxMm: null }), 'too-large', 'minMm'],
  [() => heightOver({ topMm: 1, baseMm: 1, buildUpMm: 0, stepMm: 0, minMm: null, maxMm: 20_000 }), 'too-large', 'maxMm'],
  [() => heightOver({ topMm: 1, baseMm: 1, buildUpMm: 0, stepMm: 0, minMm: 2, maxMm: 1 }), 'out-of-order', 'maxMm'],
  [() => moisture({ ...WOOD, scale: 'guess' as MoistureScale }), 'unknown-choice', 'scale'],
  [() => moisture({ ...WOOD, reading: 3 }), 'too-small', 'reading'],
  [() => moisture({ ...WOOD, scale: 'carbide', reading: 21 }), 'too-large', 'reading'],
  [() => moisture({ ...WOOD, scale: 'relative', reading: 1001 }), 'too-large', 'reading'],
  [() => moisture({ ...WOOD, scale: 'rh-in-hole', reading: 0 }), 'too-small', 'reading'],
  [() => moisture({ ...WOOD, step: -1 }), 'too-small', 'step'],
  [() => moisture({ ...WOOD, throughTile: 'yes' as unknown as boolean }), 'unknown-choice', 'throughTile'],
  [() => moisture({ ...WOOD, dryReference: 3 }), 'too-small', 'dryReference'],
  [() => moisture({ ...WOOD, limit: 16 as unknown as null }), 'missing', 'limit'],
  [() => moisture({ ...WOOD, limit: { scale: 'wood', max: 101 } }), 'too-large', 'limit.max'],
  [() => moisture({ ...WOOD, limit: { scale: 'guess' as 'wood', max: 16 } }), 'unknown-choice', 'limit.scale'],
])('%#: what cannot be measured is refused', (compute, code, field) => {
  expect(faultOf(compute())).toMatchObject({ code, field });
});

test.each([
  [[100, 100], 0, 0, 'within', 100],
  [[100, 99], 0, 0, 'outside', 99],
  [[100], 5, 0, 'not-proven', 100],
  [[98], 5, 0, 'not-proven', 98],
  [[97], 5, 0, 'outside', 97],
  [[100], 0, 1, 'outside', 100],
  [[95], 0, 0, 'outside', 95],
] as const)('a sheet covered %j %%, told to %d, with %d blisters: %s', (coveredPct, stepPct, blisters, verdict, leastPct) => {
  expect(valueOf(membraneContact({ coveredPct, stepPct, blisters }))).toEqual({ verdict, leastPct });
});

// ANSI A108.5: 80 % dry, 95 % wet, in the mean of three tiles or more.
test.each([
  [[80, 80, 80], 'dry', 'within', 80, 80],
  [[79, 80, 80], 'dry', 'outside', 239 / 3, 80],
  [[95, 90, 100], 'wet', 'within', 95, 95],
  [[94, 95, 95], 'wet', 'outside', 284 / 3, 95],
  [[60, 100, 100, 100], 'dry', 'within', 90, 80],
] as const)('tiles covered %j %% in a %s room: %s', (coveredPct, place, verdict, meanPct, neededPct) => {
  expect(valueOf(tileContact({ coveredPct, place }))).toEqual({ verdict, meanPct, neededPct });
});

test.each([
  [() => membraneContact({ coveredPct: [], stepPct: 0, blisters: 0 }), 'empty', 'coveredPct'],
  [() => membraneContact({ coveredPct: [101], stepPct: 0, blisters: 0 }), 'too-large', 'coveredPct[0]'],
  [() => membraneContact({ coveredPct: [100], stepPct: -1, blisters: 0 }), 'too-small', 'stepPct'],
  [() => membraneContact({ coveredPct: [100], stepPct: 51, blisters: 0 }), 'too-large', 'stepPct'],
  [() => membraneContact({ coveredPct: [100], stepPct: 0, blisters: -1 }), 'too-small', 'blisters'],
  [() => tileContact({ coveredPct: [90, 90], place: 'dry' }), 'empty', 'coveredPct'],
  [() => tileContact({ coveredPct: [90, -1, 90], place: 'dry' }), 'too-small', 'coveredPct[1]'],
  [() => tileContact({ coveredPct: [90, 90, 90], place: 'damp' as 'dry' }), 'unknown-choice', 'place'],
])('%#: contact that cannot be is refused', (compute, code, field) => {
  expect(faultOf(compute())).toMatchObject({ code, field });
});
