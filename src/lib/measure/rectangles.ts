import { doubleArea, placeIn, turn, type Point } from './plane.ts';

/** Sides along the axes; low below high. */
export interface Rectangle {
  readonly x1: number;
  readonly y1: number;
  readonly x2: number;
  readonly y2: number;
}

/** A connected part of the plane: its outline runs against the clock, its holes with it. */
export interface Face {
  readonly outline: readonly Point[];
  readonly holes: readonly (readonly Point[])[];
}

/**
 * What is left of a rectangle when others are cut out of it, wherever they lie and however they overlap: parts that touch in a corner only
 * are two. Exact.
 */
export function withoutRectangles(from: Rectangle, cut: readonly Rectangle[]): Face[] {
  const xs = levels(
    from.x1,
    from.x2,
    cut.flatMap(({ x1, x2 }) => [x1, x2]),
  );
  const ys = levels(
    from.y1,
    from.y2,
    cut.flatMap(({ y1, y2 }) => [y1, y2]),
  );
  const isLeft = (i: number, k: number) =>
    i >= 0 &&
    k >= 0 &&
    i < xs.length - 1 &&
    k < ys.length - 1 &&
    !cut.some(({ x1, y1, x2, y2 }) => x1 <= xs[i]! && xs[i + 1]! <= x2 && y1 <= ys[k]! && ys[k + 1]! <= y2);
  const edges: [Point, Point][] = [];
  for (let i = 0; i < xs.length - 1; i++) {
    for (let k = 0; k < ys.length - 1; k++) {
      if (!isLeft(i, k)) continue;
      const [x1, x2, y1, y2] = [xs[i]!, xs[i + 1]!, ys[k]!, ys[k + 1]!];
      const [a, b, c, d] = [{ x: x1, y: y1 }, { x: x2, y: y1 }, { x: x2, y: y2 }, { x: x1, y: y2 }]; // prettier-ignore
      if (!isLeft(i, k - 1)) edges.push([a, b]);
      if (!isLeft(i + 1, k)) edges.push([b, c]);
      if (!isLeft(i, k + 1)) edges.push([c, d]);
      if (!isLeft(i - 1, k)) edges.push([d, a]);
    }
  }
  const rings = ringsOf(edges);
  const outlines = rings.filter((ring) => doubleArea(ring) > 0n);
  const holes = rings.filter((ring) => doubleArea(ring) < 0n);
  return outlines.map((outline) => ({ outline, holes: holes.filter((hole) => placeIn(outline, hole[0]!) > 0) }));
}

function levels(low: number, high: number, all: readonly number[]): number[] {
  return [...new Set([low, high, ...all.filter((at) => at > low && at < high)])].sort((a, b) => a - b);
}

/** Edges with what is left on their left hand, joined to rings. Where four meet the way goes left, so that it keeps to its part. */
function ringsOf(edges: readonly (readonly [Point, Point])[]): Point[][] {
  const rings: Point[][] = [];
  const open = new Set(edges);
  for (const first of edges) {
    if (!open.has(first)) continue;
    const ring: Point[] = [];
    let edge: readonly [Point, Point] = first;
    do {
      open.delete(edge);
      const [from, to] = edge;
      ring.push(from);
      const next = edges.filter((one) => one[0].x === to.x && one[0].y === to.y);
      edge = next.find((one) => turn(from, to, one[1]) > 0) ?? next[0]!;
    } while (edge !== first);
    rings.push(ring.filter((at, i) => turn(ring.at(i - 1)!, at, ring[(i + 1) % ring.length]!) !== 0));
  }
  return rings;
}
