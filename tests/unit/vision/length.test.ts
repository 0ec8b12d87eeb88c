import { fitHomography, project } from '#lib/vision/homography.ts';
import { findCard } from '#lib/vision/find-card.ts';
import { type LengthFault, type Lengths, measureLengths, type Segment } from '#lib/vision/length.ts';
import { lensTermOf } from '#lib/vision/plane.ts';
import type { Quad } from '#lib/vision/raster.ts';
import type { Reference } from '#lib/vision/reference.ts';
import { readFile } from 'node:fs/promises';
import { describe, expect, test } from 'vitest';
import { lapTruth } from '../../example/measured.mjs';
import { decode, photograph } from '../../camera/develop.ts';
import { type LapPhoto, lapPhoto, type LapWishes, tap } from '../../camera/lap.ts';
import { random } from '../../sim/random.ts';

/** Standard deviation of a tap under the loupe, which the interval assumes, and of one by bare finger. */
const LOUPE_PX = 1.5;
const FINGER_PX = 3;

/** Photos small enough for every run; the full-size ones are in tests/deep. */
const GOOD: LapWishes = { width: 2016, mmPerPx: [0.2, 0.27], tiltDeg: [0, 40] };
/** What is refused is drawn smaller, with as much of the surface in it: a quarter of the time. */
const SMALL: LapWishes = { ...GOOD, width: 1008, mmPerPx: [0.47, 0.49] };

async function measured(wishes: LapWishes, seed: number, reference: (photo: LapPhoto, chance: () => number) => Reference) {
  const chance = random(seed);
  const photo = lapPhoto(wishes, chance);
  const { raster } = await photograph(photo.camera, photo.scene, photo.film, chance);
  const segments = photo.segments.map(({ from, to }) => ({ from: tap(from, LOUPE_PX, chance), to: tap(to, LOUPE_PX, chance) }));
  return { photo, raster, result: measureLengths(raster, reference(photo, chance), segments) };
}

function errors({ photo, result }: { photo: LapPhoto; result: Lengths }) {
  return result.segments.map((segment, i) => {
    if ('refused' in segment) throw new Error(`refused: ${segment.refused}`);
    return { off: Math.abs(segment.lengthMm - photo.segments[i]!.lengthMm), half: segment.highMm - segment.lengthMm };
  });
}

function cornersOff(result: Lengths, photo: LapPhoto): number {
  const fitted = result.plane!.corners;
  const turns = [0, 2].map((turn) => Math.max(...fitted.map((corner, i) => Math.hypot(...minus(corner, photo.corners[(i + turn) % 4]!)))));
  return Math.min(...turns);
}

const minus = (a: readonly [number, number], b: readonly [number, number]) => [a[0] - b[0], a[1] - b[1]];
const tapped = (corners: Quad, sdPx: number, chance: () => number) => corners.map((corner) => tap(corner, sdPx, chance)) as unknown as Quad;

const good = [1, 2, 3, 4].map((seed) => measured(GOOD, seed, () => ({ kind: 'card' })));
const first = good[0]!;

describe('a lap beside the card', () => {
  const all: { off: number; half: number }[] = [];

  test.each([1, 2, 3, 4])('photo %i: card found and read, frame fitted to a tenth of a pixel, lens term to 0.02', async (seed) => {
    const { photo, raster, result } = await good[seed - 1]!;
    const found = findCard(raster);
    expect(found.ok && found.value.marked).toBe(true);
    expect(cornersOff(result, photo)).toBeLessThan(0.1);
    expect(Math.abs(lensTermOf(result.plane!.view) - photo.camera.k1)).toBeLessThan(0.02);
    all.push(...errors({ photo, result }));
  });

  test('a card without markers is found by its frame, and by corners tapped to 7 px', async () => {
    const bare = { ...GOOD, bare: true };
    const found = await measured(bare, 5, () => ({ kind: 'card' }));
    expect(cornersOff(found.result, found.photo)).toBeLessThan(0.1);
    const hinted = measureLengths(found.raster, { kind: 'card', corners: tapped(found.photo.corners, 7, random(5)) }, []);
    expect(cornersOff(hinted, found.photo)).toBeLessThan(0.1);
    all.push(...errors(found));
  });

  test('every length is within its interval but one in twenty, and half the intervals are under 1.3 mm', () => {
    expect(all.length).toBeGreaterThan(20);
    expect(all.filter(({ off, half }) => off > half).length).toBeLessThanOrEqual(Math.ceil(all.length / 20));
    expect(all.map(({ half }) => half).sort((a, b) => a - b)[all.length >> 1]).toBeLessThan(1.3);
  });

  test('a bar that the printer shrank makes every length shorter in proportion', async () => {
    const { raster, photo } = await first;
    const [plain, shrunk] = [100, 97].map((barMm) => measureLengths(raster, { kind: 'card', barMm }, photo.segments.slice(0, 1)));
    const lengths = [plain!, shrunk!].map(({ segments: [first] }) => ('lengthMm' in first! ? first.lengthMm : NaN));
    expect(lengths[1]! / lengths[0]!).toBeCloseTo(0.97, 3);
  });
});

test.each([2, 3])('a rectangle of known sides tapped by finger, photo %i: every length within its interval', async (seed) => {
  const { photo, raster } = await good[seed - 1]!;
  const chance = random(20 + seed);
  const segments = photo.segments.map(({ from, to }) => ({ from: tap(from, LOUPE_PX, chance), to: tap(to, LOUPE_PX, chance) }));
  const corners = tapped(photo.corners, FINGER_PX, chance);
  const result = measureLengths(raster, { kind: 'rectangle', widthMm: 140, heightMm: 90, corners }, segments);
  for (const { off, half } of errors({ photo, result })) expect(off).toBeLessThan(half);
});

test('agrees with a homography of the true corners, point by point', async () => {
  const { photo, raster } = await measured({ ...GOOD, k1: [0, 0] }, 30, () => ({ kind: 'card' }));
  const { segments } = measureLengths(raster, { kind: 'card' }, photo.segments);
  const frame: Quad = [
    [0, 0],
    [140, 0],
    [140, 90],
    [0, 90],
  ];
  const exact = fitHomography(photo.corners, frame)!;
  for (const [i, { from, to }] of photo.segments.entries()) {
    const [a, b] = [project(exact, from), project(exact, to)];
    const segment = segments[i]!;
    expect('lengthMm' in segment ? Math.abs(segment.lengthMm - Math.hypot(a[0] - b[0], a[1] - b[1])) : NaN).toBeLessThan(0.25);
  }
});

describe('is refused with its reason', () => {
  const cases: [what: string, wishes: Partial<LapWishes>, reason: LengthFault][] = [
    ['a photo from far too far', { mmPerPx: [0.6, 0.75] }, 'too-far'],
    ['a photo from the side', { tiltDeg: [66, 72] }, 'too-steep'],
    ['a card bent to 12 mm', { ...GOOD, bendMm: 12 }, 'not-flat'],
  ];
  test.each(cases)('%s', async (_, wishes, reason) => {
    const { result } = await measured({ ...SMALL, ...wishes }, 41, ({ corners }) => ({ kind: 'card', corners }));
    expect(result.segments.map((segment) => ('refused' in segment ? segment.refused : segment.lengthMm))).toEqual(
      result.segments.map(() => reason),
    );
    expect(result.segments.length).toBeGreaterThan(0);
  });

  test('a lap of two sheets as bright as the board, one edge from the corner of a sheet on: the plane is shown, the length holds', async () => {
    const raster = await decode(await readFile('static/example/45-lap-north-card.jpg'));
    const { from, to, lengthMm } = lapTruth();
    const [lap] = measureLengths(raster, { kind: 'card' }, [{ from, to }]).segments;
    expect(lap).toMatchObject({ planeShown: true });
    if (lap === undefined || 'refused' in lap) throw new Error('refused');
    expect(lap.lowMm).toBeLessThan(lengthMm);
    expect(lap.highMm).toBeGreaterThan(lengthMm);
  });

  test('a card tipped where nothing straight shows it gives lengths that say so, the wide interval holds; flat beside a lap they say that it is shown', async () => {
    const card = (): Reference => ({ kind: 'card' });
    const { photo, result } = await measured({ ...GOOD, blank: true, propDeg: 15, tiltDeg: [5, 15] }, 61, card);
    const shown = ({ segments }: Lengths) => [...new Set(segments.map((segment) => 'planeShown' in segment && segment.planeShown))];
    expect(shown(result)).toEqual([false]);
    for (const [i, segment] of result.segments.entries()) {
      if ('refused' in segment) continue;
      expect(segment.wideLowMm).toBeLessThan(photo.segments[i]!.lengthMm);
      expect(segment.wideHighMm).toBeGreaterThan(photo.segments[i]!.lengthMm);
    }
    for (const photo of good) expect(shown((await photo).result)).toEqual([true]);
  });

  test('a card tipped out of the plane of the lap about a line across its edges', async () => {
    const { result } = await measured({ ...GOOD, propDeg: 15, tiltDeg: [5, 15] }, 61, () => ({ kind: 'card' }));
    expect(result.segments.map((segment) => ('refused' in segment ? segment.refused : segment.lengthMm))).toEqual(
      result.segments.map(() => 'not-in-plane'),
    );
  });

  test('a blurred photo, a cut frame, an empty picture, corners that cross, sides exchanged, ends outside', async () => {
    const { raster, photo } = await first;
    const why = (reference: Reference, picture = raster, segment: Segment = photo.segments[0]!) => {
      const [first] = measureLengths(picture, reference, [segment]).segments;
      return first !== undefined && 'refused' in first ? first.refused : first;
    };
    const [a, b, c, d] = photo.corners;
    expect(why({ kind: 'card', corners: [a, c, b, d] })).toBe('not-a-rectangle');
    expect(why({ kind: 'rectangle', widthMm: 90, heightMm: 140, corners: photo.corners })).toBe('not-a-rectangle');
    expect(why({ kind: 'card', corners: [[a[0] - 5000, a[1]], b, c, [d[0] - 5000, d[1]]] })).toBe('card-cut-off');
    expect(why({ kind: 'card' }, raster, { from: [10, 10], to: [-3, 10] })).toBe('outside-picture');
    const empty = { width: 600, height: 450, rgba: new Uint8Array(4 * 600 * 450).fill(180) };
    expect(why({ kind: 'card' }, empty)).toBe('no-card');
    const soft = await measured({ ...GOOD, blurPx: [4.5, 4.8] }, 50, ({ corners }) => ({ kind: 'card', corners }));
    expect(soft.result.segments.map((segment) => ('refused' in segment ? segment.refused : null))).toContain('blurred');
  });
});
