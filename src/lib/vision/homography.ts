import { solve } from './_linear.ts';
import type { Point } from './raster.ts';

/** A projective map of the plane, row by row: (x, y) goes to ((m0 x + m1 y + m2) / w, (m3 x + m4 y + m5) / w), w = m6 x + m7 y + m8. */
export type Homography = readonly [number, number, number, number, number, number, number, number, number];

/**
 * The homography that takes each `from` to its `to`: exact for four points, least squares of the linear equations for more. Both
 * sets are normalised first (Hartley, "In defense of the eight-point algorithm", 1997). Null when three of four lie on one line, or
 * fewer than four are given.
 */
export function fitHomography(from: readonly Point[], to: readonly Point[]): Homography | null {
  if (from.length < 4 || from.length !== to.length) return null;
  const a = normaliser(from);
  const b = normaliser(to);
  const squares = Array.from({ length: 8 }, () => new Array<number>(8).fill(0));
  const right = new Array<number>(8).fill(0);
  for (const [i, point] of from.entries()) {
    const [x, y] = a.apply(point);
    const [u, v] = b.apply(to[i]!);
    const rows = [
      [x, y, 1, 0, 0, 0, -u * x, -u * y, u],
      [0, 0, 0, x, y, 1, -v * x, -v * y, v],
    ];
    for (const row of rows) {
      for (let j = 0; j < 8; j++) {
        for (let k = 0; k < 8; k++) squares[j]![k]! += row[j]! * row[k]!;
        right[j]! += row[j]! * row[8]!;
      }
    }
  }
  const solved = solve(squares, right);
  if (solved === null) return null;
  const middle = [...solved, 1] as unknown as Homography;
  // Three of four on one line: the whole plane goes to a line.
  if (!(Math.abs(determinant(middle)) > 1e-9)) return null;
  return scaled(multiply(b.inverse, multiply(middle, a.matrix)));
}

export function project([m0, m1, m2, m3, m4, m5, m6, m7, m8]: Homography, [x, y]: Point): Point {
  const w = m6 * x + m7 * y + m8;
  return [(m0 * x + m1 * y + m2) / w, (m3 * x + m4 * y + m5) / w];
}

export function invertHomography([a, b, c, d, e, f, g, h, i]: Homography): Homography {
  return scaled([
    e * i - f * h,
    c * h - b * i,
    b * f - c * e,
    f * g - d * i,
    a * i - c * g,
    c * d - a * f,
    d * h - e * g,
    b * g - a * h,
    a * e - b * d,
  ]);
}

/** Derivatives of the mapped point at a point: [dX/dx, dX/dy, dY/dx, dY/dy]. */
export function derivativesAt(map: Homography, point: Point): readonly [number, number, number, number] {
  const [m0, m1, , m3, m4, , m6, m7, m8] = map;
  const [x, y] = project(map, point);
  const w = m6 * point[0] + m7 * point[1] + m8;
  return [(m0 - m6 * x) / w, (m1 - m7 * x) / w, (m3 - m6 * y) / w, (m4 - m7 * y) / w];
}

function multiply(a: Homography, b: Homography): Homography {
  return Array.from({ length: 9 }, (_, at) => {
    const row = 3 * Math.floor(at / 3);
    const column = at % 3;
    return a[row]! * b[column]! + a[row + 1]! * b[column + 3]! + a[row + 2]! * b[column + 6]!;
  }) as unknown as Homography;
}

function determinant([a, b, c, d, e, f, g, h, i]: Homography): number {
  return a * (e * i - f * h) - b * (d * i - f * g) + c * (d * h - e * g);
}

function scaled(map: Homography): Homography {
  const by = map[8] === 0 ? 1 : map[8];
  return map.map((value) => value / by) as unknown as Homography;
}

/** Moves the middle of the points to the origin and their mean distance from it to the root of 2. */
function normaliser(points: readonly Point[]) {
  const mean = (axis: 0 | 1) => points.reduce((sum, point) => sum + point[axis], 0) / points.length;
  const [cx, cy] = [mean(0), mean(1)];
  const spread = points.reduce((sum, [x, y]) => sum + Math.hypot(x - cx, y - cy), 0) / points.length || 1;
  const by = Math.SQRT2 / spread;
  return {
    apply: ([x, y]: Point): Point => [(x - cx) * by, (y - cy) * by],
    matrix: [by, 0, -cx * by, 0, by, -cy * by, 0, 0, 1] as Homography,
    inverse: [1 / by, 0, cx, 0, 1 / by, cy, 0, 0, 1] as Homography,
  };
}
