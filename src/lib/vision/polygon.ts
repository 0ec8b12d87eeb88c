import type { Point, Quad } from './raster.ts';

/** Area inside corners given in order around. */
export function area(corners: readonly Point[]): number {
  return Math.abs(corners.reduce((sum, [x, y], i) => sum + x * corners.at(i - 1)![1] - corners.at(i - 1)![0] * y, 0)) / 2;
}

/** The convex hull, clockwise as seen on a screen (Andrew's monotone chain). */
export function convexHull(points: readonly Point[]): Point[] {
  const sorted = [...points].sort((a, b) => a[0] - b[0] || a[1] - b[1]);
  const half = (list: readonly Point[]) => {
    const chain: Point[] = [];
    for (const point of list) {
      while (chain.length > 1 && turn(chain.at(-2)!, chain.at(-1)!, point) <= 0) chain.pop();
      chain.push(point);
    }
    return chain.slice(0, -1);
  };
  return [...half(sorted), ...half(sorted.reverse())];
}

/** Whether four corners turn the same way at each, and enclose something. */
export function isConvex(corners: Quad): boolean {
  const turns = corners.map((corner, i) => turn(corner, corners[(i + 1) % 4]!, corners[(i + 2) % 4]!));
  return turns.every((each) => each > 0) || turns.every((each) => each < 0);
}

/** Twice the area of a triangle, positive when it runs clockwise on a screen. */
export function turn(a: Point, b: Point, c: Point): number {
  return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);
}

/**
 * A convex hull with fewer sides: the side whose loss (its two neighbours extended until they meet) adds least area goes, until four are
 * left or the next would add more than `most`.
 */
export function fewerSides(hull: readonly Point[], most: number): Point[] {
  const corners = [...hull];
  while (corners.length > 4) {
    let best = { at: -1, adds: Infinity, corner: corners[0]! };
    for (let at = 0; at < corners.length; at++) {
      const [before, a, b, after] = [-1, 0, 1, 2].map((step) => corners[(at + step + corners.length) % corners.length]!);
      const corner = crossing(before!, a!, after!, b!);
      const adds = corner === null ? Infinity : Math.abs(turn(a!, b!, corner)) / 2;
      if (corner !== null && adds < best.adds) best = { at, adds, corner };
    }
    if (best.at < 0 || best.adds > most) return corners;
    const next = (best.at + 1) % corners.length;
    corners[best.at] = best.corner;
    corners.splice(next, 1);
  }
  return corners;
}

/** Where the ray from `a` through `b` meets the ray from `c` through `d`, beyond `b` and `d`. */
function crossing(a: Point, b: Point, c: Point, d: Point): Point | null {
  const [ux, uy, vx, vy] = [b[0] - a[0], b[1] - a[1], d[0] - c[0], d[1] - c[1]];
  const cross = ux * vy - uy * vx;
  if (Math.abs(cross) < 1e-9) return null;
  const s = ((c[0] - a[0]) * vy - (c[1] - a[1]) * vx) / cross;
  const t = ((c[0] - a[0]) * uy - (c[1] - a[1]) * ux) / cross;
  return s >= 1 - 1e-9 && t >= 1 - 1e-9 ? [a[0] + s * ux, a[1] + s * uy] : null;
}
