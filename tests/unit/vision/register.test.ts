import { compareSpots, inRegister } from '#lib/vision/register.ts';
import type { Quad } from '#lib/vision/raster.ts';
import type { Spot } from '#lib/vision/spots.ts';
import { expect, test } from 'vitest';
import { cameraAt, see } from '../../camera/camera.ts';
import { inside, photograph, type Scene } from '../../camera/develop.ts';
import { random } from '../../sim/random.ts';

/** A surface with dark rings on pale ground, seen from any place. */
const SIZE = { widthMm: 240, heightMm: 160 };
const rings =
  (focalPx: number): Scene =>
  (from, ray, light) => {
    const t = -from[2]! / ray[2]!;
    const [x, y] = [from[0]! + t * ray[0]!, from[1]! + t * ray[1]!];
    const off = Math.abs((Math.hypot(x - 120, y - 80) % 20) - 10);
    light.fill(0.1 + 0.5 * inside(off - 5, t / focalPx));
  };

async function layer(tilt: number, azimuth: number, seed: number) {
  const camera = cameraAt(
    { width: 1000, height: 750, focalPx: 800, k1: 0 },
    { lookAt: [120, 80], distanceMm: 300, tilt, azimuth, roll: 0 },
  );
  const film = { blurPx: 0.8, electrons: 4000, vignette: 0, cast: [1, 1, 1] as const, exposure: 1, quality: 90 };
  const { raster } = await photograph(camera, rings(800), film, random(seed));
  const quad = [
    [0, 0],
    [SIZE.widthMm, 0],
    [SIZE.widthMm, SIZE.heightMm],
    [0, SIZE.heightMm],
  ].map(([x, y]) => see(camera, [x!, y!, 0])) as unknown as Quad;
  return inRegister(raster, { quad, ...SIZE })!;
}

test('two photos from different sides lie over each other', async () => {
  const [a, b] = [await layer(0.1, 0, 1), await layer(0.5, 2, 2)];
  expect([a.width, a.height]).toEqual([480, 320]);
  expect([b.width, b.height]).toEqual([480, 320]);
  let far = 0;
  for (let at = 0; at < a.rgba.length; at += 4) if (Math.abs(a.rgba[at]! - b.rgba[at]!) > 40) far++;
  // Shifted by two pixels, a millimetre, a sixth of all pixels differ so much.
  expect(far / (a.rgba.length / 4)).toBeLessThan(0.02);
});

test('corners that make no quadrilateral give none', () => {
  const picture = { width: 2, height: 2, rgba: new Uint8Array(16) };
  const line: Quad = [
    [0, 0],
    [1, 1],
    [2, 2],
    [3, 3],
  ];
  expect(inRegister(picture, { quad: line, ...SIZE })).toBeNull();
});

const spot = (xMm: number, yMm: number, diameterMm: number): Spot => ({
  xMm,
  yMm,
  diameterMm,
  areaMm2: (Math.PI * diameterMm ** 2) / 4,
  kind: 'bare',
});

test.each<[what: string, before: Spot[], after: Spot[], counts: [gone: number, still: number, fresh: number]]>([
  ['all repaired', [spot(10, 10, 5), spot(50, 50, 8)], [], [2, 0, 0]],
  ['one is left, tapped a little off', [spot(10, 10, 5), spot(50, 50, 8)], [spot(52, 51, 6)], [1, 1, 0]],
  ['a new one', [spot(10, 10, 5)], [spot(10, 11, 5), spot(90, 20, 4)], [0, 1, 1]],
  ['a large one that broke in two: the nearer half is still there', [spot(50, 50, 30)], [spot(45, 50, 9), spot(58, 50, 9)], [0, 1, 1]],
  ['small ones 4 mm apart are two', [spot(10, 10, 2)], [spot(14, 10, 2)], [1, 0, 1]],
  ['two before for one after: the nearer', [spot(10, 10, 5), spot(13, 10, 5)], [spot(12, 10, 5)], [1, 1, 0]],
])('compared after a repair: %s', (_, before, after, counts) => {
  const { gone, still, fresh } = compareSpots(before, after);
  expect([gone.length, still.length, fresh.length]).toEqual(counts);
});
