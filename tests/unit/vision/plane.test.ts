import { fitView, type PlaneEdge, type Seen, toPicture, viewOfCorners } from '#lib/vision/plane.ts';
import { offProportion } from '#lib/vision/proportions.ts';
import type { Point, Quad } from '#lib/vision/raster.ts';
import { describe, expect, test } from 'vitest';
import { cameraAt, see } from '../../camera/camera.ts';
import { normal } from '../../camera/develop.ts';
import { random } from '../../sim/random.ts';

const SIZE = { width: 2016, height: 1512 };
const FRAME: Quad = [
  [0, 0],
  [140, 0],
  [140, 90],
  [0, 90],
];
const EDGES: readonly PlaneEdge[] = [
  { axis: 1, at: 0, away: -1 },
  { axis: 0, at: 140, away: 1 },
  { axis: 1, at: 90, away: 1 },
  { axis: 0, at: 0, away: -1 },
  { axis: 1, at: 3, away: 1 },
  { axis: 0, at: 137, away: -1 },
  { axis: 1, at: 87, away: -1 },
  { axis: 0, at: 3, away: 1 },
];

/** A frame away from the middle of the picture, where the lens's centre and its term say nearly the same. */
function cameraOf(seed: number) {
  const chance = random(seed);
  const range = (low: number, high: number) => low + (high - low) * chance();
  const focalPx = SIZE.width * range(0.68, 0.95);
  const camera = cameraAt(
    { ...SIZE, focalPx, k1: range(-0.1, 0.1) },
    {
      lookAt: [range(20, 120), range(-80, 20)],
      distanceMm: range(0.18, 0.26) * focalPx,
      tilt: range(0, 0.75),
      azimuth: range(0, 6.28),
      roll: range(0, 6.28),
    },
  );
  return { camera, chance };
}

describe('a frame seen by 40 cameras', () => {
  test.each(Array.from({ length: 40 }, (_, i) => i + 1))('camera %i: the fit comes to rest on its edges', (seed) => {
    const { camera, chance } = cameraOf(seed);
    const seen = EDGES.flatMap((edge) =>
      Array.from({ length: 48 }, (_, i): Seen => {
        const along = (edge.axis === 1 ? 140 : 90) * (0.06 + (0.88 * i) / 47);
        const [x, y] = see(camera, edge.axis === 1 ? [along, edge.at, 0] : [edge.at, along, 0]);
        return { edge, point: [x + 0.1 * normal(chance), y + 0.1 * normal(chance)] };
      }),
    );
    const corners = FRAME.map(([x, y]) => see(camera, [x, y, 0])) as unknown as Quad;
    const off = corners.map(([x, y]): Point => [x + 2 * normal(chance), y + 2 * normal(chance)]) as unknown as Quad;
    const fit = fitView(viewOfCorners(SIZE, off, FRAME)!, EDGES, seen, [], { k1: 0.06, shiftPx: 1, centre: 0.02 })!;
    for (const [i, corner] of FRAME.entries()) {
      const [x, y] = toPicture(fit.view, corner);
      expect(Math.hypot(x - corners[i]![0], y - corners[i]![1])).toBeLessThan(0.15);
    }
    expect(fit.wavinessPx).toBeLessThan(0.1);
    expect(offProportion(fit.view)).toBeLessThan(0.03);
  });
});

test('exchanged sides do not go with what a camera can see', () => {
  for (let seed = 1; seed <= 10; seed++) {
    const { camera } = cameraOf(seed);
    const corners = FRAME.map(([x, y]) => see({ ...camera, k1: 0 }, [x, y, 0])) as unknown as Quad;
    expect(offProportion(viewOfCorners(SIZE, corners, FRAME)!)).toBeLessThan(0.03);
    const exchanged: Quad = [
      [0, 0],
      [90, 0],
      [90, 140],
      [0, 140],
    ];
    expect(offProportion(viewOfCorners(SIZE, corners, exchanged)!)).toBeGreaterThan(0.08);
  }
});
