import { viewOfCorners } from '#lib/vision/plane.ts';
import type { Point, Quad } from '#lib/vision/raster.ts';
import { lengthsIfTipped, UNNOTICED_DEG } from '#lib/vision/tipped.ts';
import { expect, test } from 'vitest';
import { add, cameraAt, cross, see, type Vec } from '../../camera/camera.ts';

const FRAME = { width: 140, height: 90 };
const ON_FRAME: Quad = [
  [0, 0],
  [140, 0],
  [140, 90],
  [0, 90],
];
const SIZE = { width: 2016, height: 1512 };

/** The photo of a frame tipped about the line at `angle` until it touches the surface with one corner, and of a length of 50 mm on that surface. */
function photo({ tipDeg, angle, tiltDeg, azimuth, focal = 0.75 }: Case) {
  const line: Vec = [Math.cos(angle), Math.sin(angle), 0];
  const [sin, cos] = [Math.sin((tipDeg * Math.PI) / 180), Math.cos((tipDeg * Math.PI) / 180)];
  // Rodrigues' rotation about a line in the surface.
  const turned = (v: Vec): Vec => {
    const along = v[0] * line[0] + v[1] * line[1];
    const [x, y, z] = cross(line, v);
    return [v[0] * cos + x * sin + line[0] * along * (1 - cos), v[1] * cos + y * sin + line[1] * along * (1 - cos), z * sin];
  };
  const raised = ON_FRAME.map(([x, y]) => turned([x - 70, y - 45, 0]));
  // The camera is on the side of negative z: what is highest lies at the least z.
  const down = Math.max(...raised.map(([, , z]) => z));
  const camera = cameraAt(
    { ...SIZE, focalPx: focal * SIZE.width, k1: 0 },
    { lookAt: [0, 60], distanceMm: 420, tilt: (tiltDeg * Math.PI) / 180, azimuth, roll: 0.4 },
  );
  const corners = raised.map((corner) => see(camera, add(corner, [0, 0, -down]))) as unknown as Quad;
  const view = viewOfCorners(SIZE, corners, ON_FRAME)!;
  const way: Vec = [0.6, 0.8, 0];
  const ends = [-25, 25].map((by): Point => see(camera, add([10, 80, 0], way, by)));
  return { view, segment: { from: ends[0]!, to: ends[1]! } };
}

interface Case {
  readonly tipDeg: number;
  readonly angle: number;
  readonly tiltDeg: number;
  readonly azimuth: number;
  readonly focal?: number;
}

const angles = (count: number) => Array.from({ length: count }, (_, i) => (2 * Math.PI * i) / count);

test.each([0, 15, 30, 45])('seen from %i degrees off, a length of 50 mm lies between the ends for every tip up to the limit', (tiltDeg) => {
  // Phones' main cameras have 0.7 to 0.85 of the long side as focal length.
  for (const focal of [0.7, 0.75, 0.85])
    for (const tipDeg of [0, 8, 15, UNNOTICED_DEG])
      for (const angle of angles(16)) {
        const { view, segment } = photo({ tipDeg, angle, tiltDeg, azimuth: 3 * angle, focal });
        const { leastMm, mostMm } = lengthsIfTipped(view, FRAME, segment);
        // No interval is narrower than half a millimetre to a side.
        expect(leastMm).toBeLessThan(50.5);
        expect(mostMm).toBeGreaterThan(49.5);
      }
});

test('the ends are those that tips of the limit do reach, and not farther', () => {
  for (const [tiltDeg, azimuth] of [
    [10, 1],
    [35, 5],
  ] as const) {
    const reached = angles(96).map((angle) => {
      const { view, segment } = photo({ tipDeg: UNNOTICED_DEG, angle, tiltDeg, azimuth });
      const { leastMm, mostMm } = lengthsIfTipped(view, FRAME, segment);
      return { under: (50 - leastMm) / 50, over: (mostMm - 50) / 50 };
    });
    expect(Math.min(...reached.map(({ under }) => under))).toBeLessThan(0.06);
    expect(Math.min(...reached.map(({ over }) => over))).toBeLessThan(0.06);
  }
});
