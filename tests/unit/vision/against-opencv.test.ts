import { connectedRuns } from '#lib/vision/components.ts';
import { labOf } from '#lib/vision/colour.ts';
import { derivativesAt, fitHomography, invertHomography, project } from '#lib/vision/homography.ts';
import { otsu } from '#lib/vision/otsu.ts';
import { codeOf, LIGHT_OF, type Point } from '#lib/vision/raster.ts';
import { rectify } from '#lib/vision/rectify.ts';
import { describe, expect, test } from 'vitest';
import { random } from '../../sim/random.ts';
import { cv } from './opencv.ts';

const chance = random(7);
const around = (centre: number, spread: number) => centre + spread * (2 * chance() - 1);
const quad = (size: number, spread: number): Point[] =>
  [
    [0, 0],
    [size, 0],
    [size, size],
    [0, size],
  ].map(([x, y]) => [around(x!, spread), around(y!, spread)]);
const matOf = (points: readonly Point[]) => cv.matFromArray(points.length, 1, cv.CV_32FC2, points.flat());

describe('homography', () => {
  test.each(Array.from({ length: 20 }, (_, i) => i))('of four points, set %i: where it takes ten others', () => {
    const [from, to] = [quad(100, 30), quad(800, 200)];
    const theirs = cv.getPerspectiveTransform(matOf(from), matOf(to)).data64F;
    const ours = fitHomography(from, to)!;
    for (let i = 0; i < 10; i++) {
      const point: Point = [around(50, 50), around(50, 50)];
      const w = theirs[6]! * point[0] + theirs[7]! * point[1] + theirs[8]!;
      const expected = [
        (theirs[0]! * point[0] + theirs[1]! * point[1] + theirs[2]!) / w,
        (theirs[3]! * point[0] + theirs[4]! * point[1] + theirs[5]!) / w,
      ];
      const got = project(ours, point);
      expect(Math.hypot(got[0] - expected[0]!, got[1] - expected[1]!)).toBeLessThan(0.02);
      const back = project(invertHomography(ours), got);
      expect(Math.hypot(back[0] - point[0], back[1] - point[1])).toBeLessThan(1e-6);
    }
  });

  test('of sixty noisy points: within the noise of where OpenCV takes them', () => {
    const exact = fitHomography(quad(100, 10), quad(800, 100))!;
    const from = Array.from({ length: 60 }, (): Point => [100 * chance(), 100 * chance()]);
    const to = from.map((point): Point => {
      const [x, y] = project(exact, point);
      return [around(x, 0.5), around(y, 0.5)];
    });
    const theirs = cv.findHomography(matOf(from), matOf(to)).data64F;
    const ours = fitHomography(from, to)!;
    for (const point of from) {
      const [a, b] = [project(ours, point), project([...theirs] as unknown as typeof ours, point)];
      expect(Math.hypot(a[0] - b[0], a[1] - b[1])).toBeLessThan(0.1);
    }
  });

  test('three points on a line make none', () => {
    const flat: Point[] = [
      [0, 0],
      [1, 1],
      [2, 2],
      [0, 5],
    ];
    expect(fitHomography(flat, quad(10, 0))).toBeNull();
    expect(fitHomography(flat.slice(1), quad(10, 0).slice(1))).toBeNull();
  });

  test('its derivatives are those of small steps', () => {
    const map = fitHomography(quad(100, 30), quad(800, 200))!;
    const step = 1e-4;
    const [here, right, below] = [project(map, [40, 60]), project(map, [40 + step, 60]), project(map, [40, 60 + step])];
    const numeric = [right[0] - here[0], below[0] - here[0], right[1] - here[1], below[1] - here[1]].map((value) => value / step);
    derivativesAt(map, [40, 60]).forEach((value, i) => expect(value).toBeCloseTo(numeric[i]!, 3));
  });
});

/** Smooth colours with edges, as a photo has. */
function scene(width: number, height: number): Uint8Array {
  const rgba = new Uint8Array(4 * width * height);
  for (let y = 0, at = 0; y < height; y++) {
    for (let x = 0; x < width; x++, at += 4) {
      const disc = Math.hypot(x - width / 2, y - height / 2) < height / 4;
      rgba[at] = 120 + 80 * Math.sin(x / 17);
      rgba[at + 1] = disc ? 220 : 60 + 50 * Math.cos(y / 11);
      rgba[at + 2] = 128 + 60 * Math.sin((x + y) / 23);
      rgba[at + 3] = 255;
    }
  }
  return rgba;
}

test('a rectified picture is that of warpPerspective, which mixes coded values where we mix light', () => {
  const [width, height] = [160, 120];
  const rgba = scene(width, height);
  const from: Point[] = [
    [20, 10],
    [140, 25],
    [130, 110],
    [15, 100],
  ];
  const size = 80;
  const onSurface: Point[] = [
    [0, 0],
    [size, 0],
    [size, size],
    [0, size],
  ];
  const map = fitHomography(onSurface, from)!;
  const ours = rectify({ width, height, rgba }, map, { xMm: 0, yMm: 0, widthMm: size, heightMm: size }, 1, 1);
  // OpenCV's pixel centres are whole numbers, ours lie half a pixel further.
  const shifted = (points: Point[]) => matOf(points.map(([x, y]): Point => [x - 0.5, y - 0.5]));
  const [src, dst] = [cv.matFromArray(height, width, cv.CV_8UC4, rgba), new cv.Mat()];
  const turn = cv.getPerspectiveTransform(shifted(from), shifted(onSurface));
  cv.warpPerspective(src, dst, turn, new cv.Size(size, size), cv.INTER_LINEAR, cv.BORDER_REPLICATE, new cv.Scalar());
  const theirs = dst.data;
  let [sum, most] = [0, 0];
  for (let at = 0; at < size * size; at++) {
    for (const [channel, plane] of [ours.red, ours.green, ours.blue].entries()) {
      const off = Math.abs(codeOf(plane[at]!) - theirs[4 * at + channel]!);
      sum += off;
      most = Math.max(most, off);
    }
  }
  expect(sum / (3 * size * size)).toBeLessThan(0.6);
  // On a hard edge half light is coded 188 and half code 140.
  expect(most).toBeLessThan(60);
});

test.each([
  ['two bells', () => (chance() < 0.3 ? around(70, 20) : around(170, 30))],
  ['one bell', () => around(128, 60) / 2 + around(128, 60) / 2],
  ['three bells', () => around([40, 120, 220][Math.floor(3 * chance())]!, 15)],
])("Otsu's threshold of %s is OpenCV's", (_, value) => {
  const data = Uint8Array.from({ length: 20_000 }, () => value());
  const counts = new Uint32Array(256);
  for (const each of data) counts[each]!++;
  const mat = cv.matFromArray(100, 200, cv.CV_8UC1, data);
  const { threshold, effectiveness } = otsu(counts);
  expect(threshold).toBe(cv.threshold(mat, new cv.Mat(), 0, 255, cv.THRESH_BINARY + cv.THRESH_OTSU));
  expect(effectiveness).toBeGreaterThan(0.5);
  expect(effectiveness).toBeLessThan(1);
});

test.each([
  { neighbours: 4, of: 1, theirs: 4 },
  { neighbours: 8, of: 1, theirs: 8 },
  { neighbours: 4, of: 0, theirs: 8 },
  { neighbours: 8, of: 0, theirs: 4 },
] as const)(
  'components of $of where yes has $neighbours neighbours: the areas and middles that OpenCV finds',
  ({ neighbours, of, theirs }) => {
    const [width, height] = [211, 97];
    const data = Uint8Array.from({ length: width * height }, () => (chance() < 0.55 ? 1 : 0));
    const { count, starts, firsts } = connectedRuns({ width, height, data }, neighbours);
    const [labels, stats, centroids] = [new cv.Mat(), new cv.Mat(), new cv.Mat()];
    const mat = cv.matFromArray(
      height,
      width,
      cv.CV_8UC1,
      data.map((value) => (value === of ? 1 : 0)),
    );
    const found = cv.connectedComponentsWithStats(mat, labels, stats, centroids, theirs, cv.CV_32S);
    const ours = new Map<number, { area: number; x: number; y: number }>();
    for (let run = 0; run < count; run++) {
      if (data[starts[run]!] !== of) continue;
      const sums = ours.get(firsts[run]!) ?? { area: 0, x: 0, y: 0 };
      for (let at = starts[run]!; at < starts[run + 1]!; at++) {
        sums.area++;
        sums.x += at % width;
        sums.y += Math.floor(at / width);
      }
      ours.set(firsts[run]!, sums);
    }
    const listed = (list: { area: number; x: number; y: number }[]) =>
      list.map(({ area, x, y }) => `${area} ${x.toFixed(3)} ${y.toFixed(3)}`).sort();
    const expected = Array.from({ length: found - 1 }, (_, i) => ({
      area: stats.intAt(i + 1, cv.CC_STAT_AREA),
      x: centroids.doubleAt(i + 1, 0),
      y: centroids.doubleAt(i + 1, 1),
    }));
    expect(listed([...ours.values()].map(({ area, x, y }) => ({ area, x: x / area, y: y / area })))).toEqual(listed(expected));
    // The first run of each comes first.
    expect([...ours.keys()]).toEqual([...ours.keys()].sort((a, b) => a - b));
  },
);

test("Lab is OpenCV's to half a unit: it interpolates in tables", () => {
  const colours = Array.from({ length: 300 }, () => [0, 1, 2].map(() => Math.floor(256 * chance())));
  const flat = colours.flat().map((value) => value / 255);
  const lab = new cv.Mat();
  cv.cvtColor(cv.matFromArray(300, 1, cv.CV_32FC3, flat), lab, cv.COLOR_RGB2Lab);
  const theirs = lab.data32F;
  for (const [i, [r, g, b]] of colours.entries()) {
    const ours = labOf(LIGHT_OF[r!]!, LIGHT_OF[g!]!, LIGHT_OF[b!]!);
    ours.forEach((value, axis) => expect(Math.abs(value - theirs[3 * i + axis]!)).toBeLessThan(0.5));
  }
});
