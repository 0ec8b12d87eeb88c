import { invert, solve, type Matrix } from './_linear.ts';
import { derivativesAt, fitHomography, type Homography, invertHomography, project } from './homography.ts';
import { type Point, type Quad } from './raster.ts';
import { middleOf } from './straight.ts';

/**
 * A camera's view of a plane: from a picture to millimetres on the plane.
 *
 * `values` are eight of the homography (from undistorted picture coordinates to millimetres), the lens term k1, the shift of every edge
 * toward its bright side in pixels, and the lens's centre as a shift from the picture's. Undistorted coordinates are in focal lengths,
 * taken as 0.75 of the long side, and a point at radius r from the centre is seen at r (1 + k1 r^2). What the homography takes is told
 * from the middle of the picture and not from the lens's centre: a centre that moves then moves nothing but the lens's curve.
 */
export interface View {
  readonly width: number;
  readonly height: number;
  readonly values: readonly number[];
  /** What the homography takes as its origin, in focal lengths from the picture's middle. */
  readonly origin: Point;
}

/** Focal length in long sides of the picture: that of most phones' main cameras, near enough for a lens term and an angle. */
const FOCAL = 0.75;
const [K1, SHIFT, CX, CY] = [8, 9, 10, 11];

/** A straight edge of known place on the plane: `axis` 0 for x = at, 1 for y = at. `away` is the sign of its bright side. */
export interface PlaneEdge {
  readonly axis: 0 | 1;
  readonly at: number;
  readonly away: 1 | -1;
}

/** A point in the picture that was seen on such an edge. */
export interface Seen {
  readonly edge: PlaneEdge;
  readonly point: Point;
}

/** A corner of known place on the plane, tapped in the picture to about `sdPx`. */
export interface Tapped {
  readonly point: Point;
  readonly onPlane: Point;
  readonly sdPx: number;
}

export interface PlaneFit {
  readonly view: View;
  /** Covariance of the view's values. */
  readonly covariance: Matrix;
  /** What is left of smooth deviation from straight edges, in pixels (root mean square of means over an eighth of a side). */
  readonly wavinessPx: number;
  /** Points kept on each edge, in the order of `edges`. */
  readonly kept: readonly number[];
}

export function focalPx({ width, height }: { readonly width: number; readonly height: number }): number {
  return FOCAL * Math.max(width, height);
}

/** The lens term k1 of a view. */
export function lensTermOf({ values }: View): number {
  return values[K1]!;
}

/** A first view from four corners, without lens. Null when they do not make a quadrilateral. */
export function viewOfCorners(size: { width: number; height: number }, corners: Quad, onPlane: Quad): View | null {
  const bare: View = { width: size.width, height: size.height, values: [0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0], origin: [0, 0] };
  const rays = corners.map((corner) => undistort(bare, corner));
  const mean = (axis: 0 | 1) => rays.reduce((sum, ray) => sum + ray[axis], 0) / 4;
  const origin: Point = [mean(0), mean(1)];
  const map = fitHomography(
    rays.map(([x, y]) => [x - origin[0], y - origin[1]]),
    onPlane,
  );
  return map === null ? null : { ...bare, values: [...map.slice(0, 8), 0, 0, 0, 0], origin };
}

export function toPlane(view: View, point: Point): Point {
  const [x, y] = undistort(view, point);
  const [ox, oy] = originOf(view);
  return project(homographyOf(view), [x - ox, y - oy]);
}

export function toPicture(view: View, point: Point): Point {
  const [x, y] = project(invertHomography(homographyOf(view)), point);
  const [ox, oy] = originOf(view);
  const [u, v] = [x + ox, y + oy];
  const stretch = focalPx(view) * (1 + view.values[K1]! * (u * u + v * v));
  const [cx, cy] = centreOf(view);
  return [cx + u * stretch, cy + v * stretch];
}

/** Millimetres a pixel covers at a point of the picture: the mean over directions, the worst, and the cosine of the angle of view. */
export function scaleAt(
  view: View,
  point: Point,
): { readonly mmPerPx: number; readonly worst: number; readonly best: number; readonly cosine: number } {
  const [x, y] = undistort(view, point);
  const [ox, oy] = originOf(view);
  const [a, b, c, d] = derivativesAt(homographyOf(view), [x - ox, y - oy]);
  const flat = singular(a, b, c, d);
  const f = focalPx(view);
  // As seen from the lens: a step away from the axis turns the ray by 1 / (1 + r^2), a step around it by 1 / root(1 + r^2).
  const r = Math.hypot(x, y);
  const [ux, uy] = r < 1e-9 ? [1, 0] : [x / r, y / r];
  const [far, round] = [1 + r * r, Math.sqrt(1 + r * r)];
  const sphere = singular((a * ux + b * uy) * far, (b * ux - a * uy) * round, (c * ux + d * uy) * far, (d * ux - c * uy) * round);
  return { mmPerPx: Math.sqrt(flat[0] * flat[1]) / f, worst: flat[0] / f, best: flat[1] / f, cosine: sphere[1] / sphere[0] };
}

/** Singular values of a 2 x 2 matrix, the larger first. */
function singular(a: number, b: number, c: number, d: number): readonly [number, number] {
  const sum = Math.hypot(a + d, b - c);
  const difference = Math.hypot(a - d, b + c);
  return [(sum + difference) / 2, Math.abs(sum - difference) / 2];
}

function centreOf({ width, height, values }: View): Point {
  const f = FOCAL * Math.max(width, height);
  return [width / 2 + values[CX]! * f, height / 2 + values[CY]! * f];
}

/** The homography's origin as seen from the lens's centre, in focal lengths. */
export function originOf({ origin, values }: View): Point {
  return [origin[0] - values[CX]!, origin[1] - values[CY]!];
}

/** From undistorted coordinates, from the view's origin, to millimetres. */
export function homographyOf({ values }: View): Homography {
  const [a, b, c, d, e, f, g, h] = values as [number, number, number, number, number, number, number, number];
  return [a, b, c, d, e, f, g, h, 1];
}

function undistort(view: View, [x, y]: Point): Point {
  const f = focalPx(view);
  const [cx, cy] = centreOf(view);
  const [u, v] = [(x - cx) / f, (y - cy) / f];
  const seen = Math.hypot(u, v);
  const k1 = view.values[K1]!;
  if (k1 === 0 || seen === 0) return [u, v];
  let r = seen;
  for (let step = 0; step < 8; step++) r -= (r * (1 + k1 * r * r) - seen) / (1 + 3 * k1 * r * r);
  return [(u * r) / seen, (v * r) / seen];
}

/**
 * What is held of the lens before a picture is looked at, as standard deviations: k1 of a phone's camera after its own correction is
 * mostly below 0.03, of an old one up to 0.1; edges are shifted by tone curve, clipping and ink by a fraction of a pixel to a pixel.
 */
export interface Prior {
  readonly k1: number;
  readonly shiftPx: number;
  readonly centre: number;
}

/** Standard deviation of one edge point that is assumed at least, in pixels, and how many points of a side err independently. */
const POINT_SD_PX = 0.12;
const INDEPENDENT = 4;
/** A point that lies farther from the fit than this many standard deviations has no weight (Tukey's biweight). */
const TUKEY = 4.685;

/**
 * The view that best fits the points seen on straight edges and the corners tapped: robust least squares (Gauss-Newton with Tukey's
 * biweight) of homography, lens term, edge shift and lens centre together. The covariance takes the errors of neighbouring edge points
 * as dependent. Null when the points do not fix it.
 */
export function fitView(
  start: View,
  edges: readonly PlaneEdge[],
  seen: readonly Seen[],
  tapped: readonly Tapped[],
  prior: Prior,
): PlaneFit | null {
  let view = start;
  let spread = 3;
  let weights = seen.map(() => 1);
  for (let step = 0; step < 14; step++) {
    const system = normalEquations(view, seen, tapped, prior, weights, spread);
    const change = solveScaled(system.squares, system.right);
    if (change === null || !change.every(Number.isFinite)) return null;
    view = { ...view, values: view.values.map((value, i) => value - change[i]!) };
    const left = residuals(view, seen);
    if (!left.every(Number.isFinite)) return null;
    spread = Math.max(POINT_SD_PX, 1.4826 * middleOf(left.map(Math.abs)));
    // The first steps still move the whole frame: they may lose no side for that.
    const cut = TUKEY * spread * (step < 4 ? 3 : 1);
    weights = left.map((value) => (Math.abs(value) < cut ? (1 - (value / cut) ** 2) ** 2 : 0));
  }
  const left = residuals(view, seen);
  const blocks = edges.flatMap((edge) => blockMeans(seen, left, weights, edge));
  const wavinessPx = Math.sqrt(blocks.reduce((sum, value) => sum + value * value, 0) / Math.max(1, blocks.length));
  const kept = edges.map((edge) => seen.filter((each, i) => each.edge === edge && weights[i]! > 0.05).length);
  const perEdge = Math.max(1, kept.reduce((sum, count) => sum + count, 0) / Math.max(1, edges.length));
  const dependent = Math.max(POINT_SD_PX, 1.5 * wavinessPx) * Math.sqrt(Math.max(1, perEdge / INDEPENDENT));
  const covariance = invertScaled(normalEquations(view, seen, tapped, prior, weights, Math.max(dependent, spread)).squares);
  return covariance === null ? null : { view, covariance, wavinessPx, kept };
}

/** Signed distance of each point from its edge, in pixels, toward the edge's bright side and less the common shift. */
function residuals(view: View, seen: readonly Seen[]): number[] {
  return seen.map(
    ({ edge, point }) => (edge.away * (toPlane(view, point)[edge.axis] - edge.at)) / mmPerPxAcross(view, edge, point) - view.values[SHIFT]!,
  );
}

/** How fast an edge's coordinate changes in the picture, in millimetres a pixel. */
function mmPerPxAcross(view: View, edge: PlaneEdge, [x, y]: Point): number {
  const at = (dx: number, dy: number) => toPlane(view, [x + dx, y + dy])[edge.axis];
  return Math.hypot(at(0.5, 0) - at(-0.5, 0), at(0, 0.5) - at(0, -0.5));
}

function blockMeans(seen: readonly Seen[], left: readonly number[], weights: readonly number[], edge: PlaneEdge): number[] {
  const own = seen.flatMap((each, i) => (each.edge === edge ? [{ value: left[i]!, weight: weights[i]! }] : []));
  const size = Math.max(1, Math.ceil(own.length / 8));
  const blocks = Array.from({ length: Math.ceil(own.length / size) }, (_, block) => own.slice(block * size, (block + 1) * size));
  return blocks.flatMap((block) => {
    const weight = block.reduce((sum, each) => sum + each.weight, 0);
    return weight < 0.5 * block.length ? [] : [block.reduce((sum, each) => sum + each.weight * each.value, 0) / weight];
  });
}

/** Steps for the numeric derivatives of each value. */
function stepsFor({ values }: View): number[] {
  return values.map((value, i) => (i === SHIFT ? 0.01 : i >= K1 ? 1e-5 : 1e-6 * Math.max(Math.abs(value), 1)));
}

function normalEquations(
  view: View,
  seen: readonly Seen[],
  tapped: readonly Tapped[],
  prior: Prior,
  weights: readonly number[],
  sdPx: number,
) {
  const scales = seen.map(({ edge, point }) => mmPerPxAcross(view, edge, point));
  const all = (at: View): number[] => {
    const lines = seen.map(
      ({ edge, point }, i) => (edge.away * (toPlane(at, point)[edge.axis] - edge.at)) / scales[i]! - at.values[SHIFT]!,
    );
    const corners = tapped.flatMap(({ point, onPlane }) => {
      const [x, y] = toPicture(at, onPlane);
      return [x - point[0], y - point[1]];
    });
    return [...lines, ...corners];
  };
  const now = all(view);
  const steps = stepsFor(view);
  const slopes = steps.map((step, i) => {
    const moved = all({ ...view, values: view.values.map((value, j) => (i === j ? value + step : value)) });
    return moved.map((value, row) => (value - now[row]!) / step);
  });
  const weightOf = (row: number) => (row < seen.length ? weights[row]! / sdPx ** 2 : 1 / tapped[(row - seen.length) >> 1]!.sdPx ** 2);
  const rowWeights = now.map((_, row) => weightOf(row));
  const sum = (a: readonly number[], b: readonly number[]) =>
    a.reduce((total, value, row) => total + value * b[row]! * rowWeights[row]!, 0);
  const squares = slopes.map((a) => slopes.map((b) => sum(a, b)));
  const right = slopes.map((slope) => sum(slope, now));
  const held = [
    [K1, prior.k1],
    [SHIFT, prior.shiftPx],
    [CX, prior.centre],
    [CY, prior.centre],
  ] as const;
  for (const [at, sd] of held) {
    squares[at]![at]! += 1 / sd ** 2;
    right[at]! += view.values[at]! / sd ** 2;
  }
  return { squares, right };
}

/** The values differ by orders of magnitude: each is scaled by its own diagonal first. */
function solveScaled(squares: Matrix, right: readonly number[]): number[] | null {
  const by = squares.map((row, i) => 1 / Math.sqrt(row[i]!));
  const solved = solve(
    squares.map((row, i) => row.map((value, j) => value * by[i]! * by[j]!)),
    right.map((value, i) => value * by[i]!),
  );
  return solved?.map((value, i) => value * by[i]!) ?? null;
}

function invertScaled(squares: Matrix): Matrix | null {
  const by = squares.map((row, i) => 1 / Math.sqrt(row[i]!));
  const inverse = invert(squares.map((row, i) => row.map((value, j) => value * by[i]! * by[j]!)));
  return inverse?.map((row, i) => row.map((value, j) => value * by[i]! * by[j]!)) ?? null;
}

/** Derivatives of a figure by each of the view's values. */
export function gradient(view: View, figure: (view: View) => number): number[] {
  return stepsFor(view).map((step, i) => {
    const moved = (by: number): View => ({ ...view, values: view.values.map((value, j) => (i === j ? value + by : value)) });
    return (figure(moved(step)) - figure(moved(-step))) / (2 * step);
  });
}
