import { evidenceOf, type Judged } from '#lib/trade/flood-evidence.ts';
import { expect, test } from 'vitest';

/** A net drop of 0.5 mm, known to 2 mm either way, with a pan, where 1 mm matters. */
const SMALL: Judged = { netMm: 0.5, expandedMm: 2, fixedMm: 0, highMm: 0, hasPan: true, maxLossMm: 1, stepMm: 2 };

test.each<[what: string, change: Partial<Judged>, finding: string, aboveLimit?: boolean | null]>([
  ['a fall by more than its uncertainty', { netMm: 2.1 }, 'loss', null],
  ['one by more than all that matters too', { netMm: 3.1 }, 'loss', true],
  ['one that may just be what matters', { netMm: 3 }, 'loss', null],
  ['one that nobody named a loss for', { netMm: 9, maxLossMm: null }, 'loss', null],
  ['one that is too small to matter', { netMm: 2.1, maxLossMm: 4.1 }, 'loss', false],
  ['one that evaporation leaves over', { netMm: 5.1, highMm: 3, hasPan: false, maxLossMm: 2 }, 'loss', null],
  ['as little as matters', { netMm: 0.5, expandedMm: 0.5 }, 'no-loss-above-limit'],
  ['a rise within what matters', { netMm: -0.5, expandedMm: 0.5 }, 'no-loss-above-limit'],
  [
    'a fall that evaporation alone explains, within what matters',
    { netMm: 2, highMm: 9, hasPan: false, maxLossMm: 4 },
    'no-loss-above-limit',
  ],
])('%s settles it: %j', (_, change, finding, aboveLimit) => {
  expect(evidenceOf({ ...SMALL, ...change })).toEqual({ conclusive: true, finding, ...(aboveLimit === undefined ? {} : { aboveLimit }) });
});

test.each<[what: string, change: Partial<Judged>, reason: string, settle: string]>([
  ['no mark read twice', { netMm: null }, 'read-once', 'read-again'],
  ['no uncertainty', { expandedMm: null }, 'read-once', 'read-again'],
  ['a pan read at other times', { highMm: Infinity }, 'pan-times-differ', 'pan-with-marks'],
  ['a fall that may be evaporation', { netMm: 2.1, highMm: 1, hasPan: false }, 'may-be-evaporation', 'control-pan'],
  ['a fall as large as its uncertainty', { netMm: 2, highMm: 1, hasPan: false, maxLossMm: null }, 'no-loss-named', 'name-a-loss'],
  ['nobody named a loss', { maxLossMm: null }, 'no-loss-named', 'name-a-loss'],
  ['a pan too unlike', { fixedMm: 0.5 }, 'too-coarse', 'better-pan'],
  ['no pan, and marks that differ', { fixedMm: 0.5, highMm: 1, hasPan: false }, 'too-coarse', 'control-pan'],
  ['a fall just its uncertainty', { netMm: 2 }, 'too-coarse', 'finer-scale'],
])('%s settles nothing: %j', (_, change, reason, settle) => {
  expect(evidenceOf({ ...SMALL, ...change })).toMatchObject({ conclusive: false, reason, settle: { code: settle } });
});

/** The scale that is said to be fine enough. */
function neededStep(change: Partial<Judged>): number {
  const found = evidenceOf({ ...SMALL, ...change });
  return !found.conclusive && found.settle.code === 'finer-scale' ? found.settle.resolutionMm : NaN;
}

test('the scale that would settle it: what is left of what matters, less what no scale takes away', () => {
  expect(neededStep({})).toBeCloseTo(0.5, 9);
  expect(neededStep({ fixedMm: 0.3 })).toBeCloseTo(2 * Math.sqrt((0.5 ** 2 - 0.3 ** 2) / (2 ** 2 - 0.3 ** 2)), 9);
  // With a pan a fall of 3 mm shows once the uncertainty is under it; without one evaporation would still explain it.
  const fall = { netMm: 3, expandedMm: 4, maxLossMm: 3.5 };
  expect(neededStep(fall)).toBeCloseTo(1.5, 8);
  expect(neededStep(fall)).toBeLessThan(1.5);
  expect(neededStep({ ...fall, hasPan: false, highMm: 9 })).toBeCloseTo(0.25, 9);
  expect(neededStep({ netMm: -0.5 })).toBeCloseTo(0.5, 9);
});

test('on that scale it is settled, and on a coarser one it is not', () => {
  for (const change of [{}, { netMm: 3, expandedMm: 4, maxLossMm: 3.5 }, { netMm: -0.2 }]) {
    const step = neededStep(change);
    const judged = { ...SMALL, ...change };
    const on = (stepMm: number) => evidenceOf({ ...judged, stepMm, expandedMm: (judged.expandedMm! * stepMm) / judged.stepMm });
    expect(on(step * 0.999_999_999).conclusive).toBe(true);
    expect(on(step * 1.000_001).conclusive).toBe(false);
  }
});
