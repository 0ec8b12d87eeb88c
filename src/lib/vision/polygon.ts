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
