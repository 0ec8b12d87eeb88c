import { takeoff } from '#lib/job/drawing/areas.ts';
import { jointsOf } from '#lib/job/drawing/joints.ts';
import { areaM2, band, bandMm, liquid, mixing } from '#lib/job/drawing/quantities.ts';
import { shapeOf } from '#lib/job/drawing/shape.ts';
import type { Found } from '#lib/job/work-out/ask.ts';
import { expect, test } from 'vitest';
import { ALCOVE, drawn } from '../../../fixtures/drawn.ts';

const shape = (() => {
  const read = shapeOf(drawn(ALCOVE));
  if (!read.ok) throw new Error(read.fault.code);
  return read.value;
})();
const found = (lines: { ok: boolean; value?: readonly Found[] }) =>
  Object.fromEntries((lines.value ?? []).map((line) => [line.what, line.kind === 'number' ? line.value : line.kind === 'amount' ? [line.low, line.high] : line])); // prettier-ignore
const near = (value: number) => expect.closeTo(value, 6) as number;
const FT2 = 0.09290304;
const LB = 0.45359237;
const QT = 0.946352946;

test('areas by hand: 60 by 32 in of floor, 82.6667 sq ft of wall less nothing, and 13 in around the curb', () => {
  expect(areaM2(['floor'], takeoff(shape), 'in')).toBeCloseTo((60 * 32 * FT2) / 144, 9);
  expect(areaM2(['walls'], takeoff(shape), 'in')).toBeCloseTo((124 * 96 * FT2) / 144, 9);
  expect(areaM2(['curbs', 'benches'], takeoff(shape), 'in')).toBeCloseTo((60 * 13 * FT2) / 144, 9);
});

// 100 sq ft bonded with bags of 50 lb that cover 80, 10 % lost: 110 / 80 bags are 68.75 lb. At 60 sq ft an hour and 30 min of open time a batch
// is 30 sq ft: 100 / 30 makes 4 batches of 25 sq ft in 25 min, 17.1875 lb each, and of 5 to 6 qt a bag 1.71875 to 2.0625 qt of water.
const MORTAR = {
  bagKg: 50 * LB,
  bagM2: 80 * FT2,
  waterMinL: 5 * QT,
  waterMaxL: 6 * QT,
  paceM2: 60 * FT2,
  openTime: 30,
  potLife: 120,
  lossPct: 10,
};

test('mortar by the batch, worked by hand', () => {
  expect(found(mixing(100 * FT2, MORTAR))).toEqual({
    'bond-area': [near(100 * FT2), near(100 * FT2)],
    'bags-least': 2,
    batches: 4,
    'batch-powder': [near(17.1875 * LB), near(17.1875 * LB)],
    'batch-water': [near(1.71875 * QT), near(2.0625 * QT)],
    'batch-area': [near(25 * FT2), near(25 * FT2)],
    'batch-time': [near(25), near(25)],
  });
});

test('pot life shorter than open time makes the batch, and no batch is more than a bag', () => {
  expect(found(mixing(100 * FT2, { ...MORTAR, potLife: 20 }))).toMatchObject({ batches: 5, 'batch-time': [20, 20] });
  // 100 sq ft in one go would take 68.75 lb: two batches of 34.375 lb.
  expect(found(mixing(100 * FT2, { ...MORTAR, openTime: 600, potLife: 600 }))).toMatchObject({ batches: 2, 'batch-powder': [near(34.375 * LB), near(34.375 * LB)] });
}); // prettier-ignore

// Published coverages of a 50 lb bag with a 1/4 in square notch, 80 to 100 sq ft (tile contractors' guides): a floor of 160 sq ft takes two.
test.each<[ft2: number, covers: number, loss: number, bags: number]>([
  [160, 80, 0, 2],
  [160, 100, 0, 2],
  [160, 80, 10, 3],
  [80, 80, 0, 1],
])('%d sq ft at %d sq ft a bag and %d %% lost: %d bags', (ft2, covers, lossPct, bags) => {
  expect(found(mixing(ft2 * FT2, { ...MORTAR, bagM2: covers * FT2, lossPct }))).toMatchObject({ 'bags-least': bags });
});

test('liquid: 2 coats of 500 µm on 10 m² with nothing lost are 5 L a coat and 10 L in all; a tenth lost takes a tenth more of what is left', () => {
  expect(found(liquid(10, { wetUm: 500, coats: 2, lossPct: 0, pailL: 4 }))).toEqual({
    'coat-area': [10, 10], 'liquid-coat': [near(5), near(5)], 'liquid-all': [near(10), near(10)], pails: 3,
  }); // prettier-ignore
  expect(found(liquid(10, { wetUm: 500, coats: 1, lossPct: 10, pailL: 4 }))).toMatchObject({
    'liquid-coat': [near(5 / 0.9), near(5 / 0.9)],
    pails: 2,
  });
});

test('band: every joint in one strip with one lap, seams too', () => {
  const joints = jointsOf(shape);
  // Three at the floor, two upright, and of the curb: foot, two edges, two ends. By hand 124 + 192 + 206 in.
  expect(joints).toHaveLength(3 + 2 + 5);
  expect(bandMm(joints, 0, 0, 0, 'in')).toBeCloseTo((124 + 192 + 206) * 25.4, 6);
  expect(found(band(joints, { mm: 60 * 25.4, count: 1 }, { lapMm: 50.8, rollMm: 15_000, lossPct: null }, 'in'))).toEqual({
    'band-length': [near((522 + 10 * 2 + 60 + 2) * 25.4), near((522 + 10 * 2 + 60 + 2) * 25.4)],
    'band-rolls': 2,
  });
});

test.each<[what: string, answer: object, field: string]>([
  ['a pace of nothing', mixing(10, { ...MORTAR, paceM2: 0 }), 'paceM2'],
  ['no open time', mixing(10, { ...MORTAR, openTime: 0 }), 'openTime'],
  ['water turned round', mixing(10, { ...MORTAR, waterMinL: 9 }), 'waterMaxL'],
  ['nothing to bond', mixing(0, MORTAR), 'areaM2'],
  ['not a coat', liquid(10, { wetUm: 500, coats: 0, lossPct: 0, pailL: 4 }), 'coats'],
  ['a pail of nothing', liquid(10, { wetUm: 500, coats: 1, lossPct: 0, pailL: 0 }), 'pailL'],
  ['a roll of nothing', band([], { mm: 0, count: 0 }, { lapMm: 50, rollMm: 0, lossPct: null }, 'mm'), 'rollMm'],
])('%s: said at its field', (_, answer, field) => {
  expect(answer).toMatchObject({ ok: false, fault: { field } });
});
