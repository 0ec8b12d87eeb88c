import {
  coverageDraft,
  lengthDraft,
  lengthSaid,
  measuresInPhoto,
  missOf,
  sideMm,
  tapAt,
  transferDraft,
  type PhotoOf,
} from '#lib/job/in-photo.ts';
import { knownData } from '#lib/record/kinds.ts';
import { expect, test } from 'vitest';

test.each<[mm: [number, number, number], units: 'in' | 'mm', value: string, low: string, high: string]>([
  [[51.24, 50.31, 52.17], 'mm', '51.2', '50.3', '52.2'],
  [[51.25, 50.39, 52.11], 'mm', '51.3', '50.3', '52.2'],
  [[50, 49.5, 50.5], 'mm', '50.0', '49.5', '50.5'],
  // 1 in = 25.4 mm.
  [[50.8, 50.3, 51.3], 'in', '2.00', '1.98', '2.02'],
  [[51.05, 50.546, 51.562], 'in', '2.01', '1.99', '2.03'],
])(
  '%j mm in %s are said as %s, between %s and %s: the interval is never rounded inward',
  ([lengthMm, wideLowMm, wideHighMm], units, value, low, high) => {
    const said = lengthSaid({ lengthMm, wideLowMm, wideHighMm }, units);
    expect(said).toEqual({ said: { text: value, value, unit: units, resolution: units === 'in' ? '0.01' : '0.1' }, low, high });
  },
);

test.each([
  ['11', 'in', '279.4'],
  ['11 1/2', 'in', '292.1'],
  ['11-1/2"', 'in', '292.1'],
  ['11½', 'in', '292.1'],
  ['11,5', 'in', '292.1'],
  ['292,1', 'mm', '292.1'],
  ['0', 'in', null],
  ['11 1/', 'in', null],
  ['eleven', 'in', null],
  ['11 1/2', 'mm', null],
  // Over 20 m.
  ['800', 'in', null],
] as const)('a side typed as %s in %s is %s mm', (typed, units, mm) => {
  expect(sideMm(typed, units)).toBe(mm);
});

const OF: PhotoOf = {
  shot: 's-1',
  run: 'r-1',
  surface: 'floor',
  sha256: 'a'.repeat(64),
  width: 4032,
  height: 3024,
  method: 'm',
  confirmed: 'ana',
};
const QUAD = [
  [1, 1],
  [900.25, 1],
  [900, 700],
  [1, 700],
] as const;
const AREA = { corners: QUAD, widthMm: '400', heightMm: '300', mmPerPx: 0.15234 };

test('a length is kept as an entry of this version: points as decimal strings, who confirmed, its photo in refs', () => {
  const reference = { kind: 'card', barMm: '99.5', tapped: null } as const;
  const length = { lengthMm: 51.24, lowMm: 50.31, highMm: 52.17, planeShown: true, wideLowMm: 50.31, wideHighMm: 52.17 };
  const lap = {
    what: 'overlap',
    lap: 'both-edges',
    from: [812.5, 1033],
    to: [1103, 1040.5],
    reference,
    found: QUAD,
    mmPerPx: 0.1523,
  } as const;
  const draft = lengthDraft(OF, { ...lap, length }, 'mm');
  expect(knownData('reading', draft.data).kind).toBe('reading');
  expect(draft).toMatchObject({ kind: 'reading', run: 'r-1', refs: ['s-1'] });
  expect(draft.data).toMatchObject({ said: { value: '51.2' }, how: 'photo', lap: 'both-edges', confirmed: 'ana', surface: 'floor' });
  expect(draft.data.photo).toMatchObject({
    plane: 'edges',
    from: ['812.5', '1033'],
    mmPerPx: '0.1523',
    reference: { kind: 'card', barMm: '99.5', found: [['1', '1'], ['900.25', '1'], ['900', '700'], ['1', '700']] }, // prettier-ignore
  });
  const maybeTipped = { ...length, planeShown: false, wideLowMm: 41.27, wideHighMm: 64.01 };
  const { photo } = lengthDraft(OF, { ...lap, length: maybeTipped }, 'mm').data;
  expect(photo).not.toHaveProperty('plane');
  expect(photo).toMatchObject({ low: '41.2', high: '64.1' });
});

test('a coverage and a transfer too: shares in per cent, ends of the interval outward, what was struck out beside what stands', () => {
  const spot = missOf({ xMm: 40.04, yMm: 12, diameterMm: 6.16, kind: 'bare' });
  const found = {
    film: [[1, 2]],
    bare: [[3, 4]],
    coveredShare: 0.98765,
    low: 0.98123,
    high: 1.0004,
    unknownShare: 0,
    smallestFoundMm: 1.5,
  } as const;
  const draft = coverageDraft(OF, AREA, { ...found, misses: [spot, { ...spot, struck: true }] }, 1, 'before-1');
  expect(knownData('coverage', draft.data).kind).toBe('coverage');
  expect(draft.data).toMatchObject({ covered: '98.8', low: '98.1', high: '100.0', unknown: '0.0', coat: 1, before: 'before-1' });
  expect(draft.data).toMatchObject({ misses: [{ x: '40.0', y: '12.0', diameter: '6.2', kind: 'bare' }, { struck: true }] });
  expect(draft.refs).toEqual(['s-1', 'before-1']);
  const worst = { share: 0.7, xMm: 100, yMm: 0 };
  const transfer = transferDraft(OF, AREA, { mortar: [1, 2], sheet: [3, 4], share: 0.881, low: 0.8501, high: 0.9, worst });
  expect(knownData('transfer', transfer.data).kind).toBe('transfer');
  expect(transfer.data).toMatchObject({ share: '88.1', low: '85.0', high: '90.0', worst: { share: '70.0', x: '100', y: '0' } });
});

test('a tap is kept to a tenth of a pixel; a step offers its own measures, and a distance that proves no lap', () => {
  expect(tapAt([10.04, 10.06])).toEqual([10, 10.1]);
  expect(measuresInPhoto('pre-cut')).toEqual(['overlap', 'distance']);
  expect(measuresInPhoto('liquid-coat')).toEqual(['onto-band', 'distance']);
  expect(measuresInPhoto(null)).toEqual(['overlap', 'band-lap', 'onto-band', 'distance']);
});
