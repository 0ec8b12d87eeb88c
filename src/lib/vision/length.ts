import { gradient, focalPx, scaleAt, toPlane, type View } from './plane.ts';
import { COSINE_MIN, MM_PER_PX_MAX, type Plane, planeOf, type Reference, type ReferenceFault } from './reference.ts';
import { angleBetweenEdges } from './side-by-side.ts';
import { distance, type Point, type Raster } from './raster.ts';
import { lengthsIfTipped } from './tipped.ts';

export interface Segment {
  readonly from: Point;
  readonly to: Point;
}

/** Why a length is not given. Each has its remedy in words. */
export type LengthFault = ReferenceFault | 'not-in-plane' | 'far-from-card' | 'outside-picture' | 'too-uncertain';

export type Length =
  | {
      readonly lengthMm: number;
      /** Ends of the 95 % interval. */
      readonly lowMm: number;
      readonly highMm: number;
      /**
       * Whether two edges in the photo, parallel as the reference sees them, show that it lies in their plane. Without, the interval holds
       * only if it does, and nothing in the photo tells.
       */
      readonly planeShown: boolean;
      /** Ends that also hold where the reference is tipped by up to `UNNOTICED_DEG`; the same as above where its plane is shown. */
      readonly wideLowMm: number;
      readonly wideHighMm: number;
    }
  | { readonly refused: LengthFault };

export interface Lengths {
  /** Scale at the middle of the reference; null when there is none. */
  readonly mmPerPx: number | null;
  readonly plane: Plane | null;
  /** One for each segment asked for, in that order. */
  readonly segments: readonly Length[];
}

/** Standard deviation of an end tapped under a loupe, in pixels each way (assumed). */
const END_SD_PX = 1.5;
/**
 * Relative standard deviation of the reference's size: a bar of 100 mm read to half a millimetre (0.14 mm) on a tape of class II, whose
 * error may be 0.3 mm + 0.2 mm a metre (Directive 2014/32/EU, annex X; taken as uniform: 0.18 mm).
 */
const SIZE_SD = 0.0023;
/** How far the reference may stand off the surface: standard deviation in mm, for paper that does not lie quite flat. */
const LIFT_SD_MM = 1;
/** More for each pixel that its sides are not straight: a card bent by 6 mm was seen to leave 0.16 px beside a lens term. */
const LIFT_MM_PER_WAVY_PX = 30;
const WAVY_FROM_PX = 0.05;
/** An angle between a lap's edges that cutting and the fitted view leave, in radians: a millimetre a metre. */
const ANGLE_FREE = 0.001;
/** Edges that leave a tip of this much unseen, in radians, show nothing. */
const TIP_SHOWN = 0.05;
/** A reference that seems tipped by more than this, in radians, measures nothing. */
const TIP_MAX = 0.02;
/**
 * Edges show only the part of a tip that is across them. Of tips about lines in every direction, the whole is at most this many times the
 * part seen in 95 of 100: 1 / tan(90 degrees x 0.05).
 */
const TIP_UNSEEN = 12.7;
/** The interval is never narrower than this to either side. */
const HALF_MIN_MM = 0.5;
/** An interval wider than this part of the length, and than this in mm, is no measurement. */
const HALF_MAX_SHARE = 0.1;
const HALF_MAX_MM = 2.5;
/** Farther from the reference than this many of its long sides nothing is measured. */
const REACH_SIDES = 2;
/** Two-sided 95 % of the normal distribution. */
const Z95 = 1.96;

/**
 * Lengths in the plane of a reference, each with a 95 % interval by propagation of what is not known: ends, fitted view with its lens
 * term, size and flatness of the reference. A length outside that plane is wrong: the edges that segments run across show it, where there
 * are some, but not a tip about a line along them.
 */
export function measureLengths(picture: Raster, reference: Reference, segments: readonly Segment[]): Lengths {
  const plane = planeOf(picture, reference);
  if (!plane.ok) return { mmPerPx: null, plane: null, segments: segments.map(() => ({ refused: plane.fault })) };
  return measureOn(picture, plane.value, segments);
}

/** The same by a reference that was found in the picture before. */
export function measureOn(picture: Raster, plane: Plane, segments: readonly Segment[]): Lengths & { readonly mmPerPx: number } {
  const { view, corners } = plane;
  const middle = corners.reduce<Point>((sum, [x, y]) => [sum[0] + x / 4, sum[1] + y / 4], [0, 0]);
  const tips = segments.map((segment) => tipOf(picture, plane, segment));
  const shown = tips.filter((tip) => tip !== null).sort((a, b) => a - b);
  const usual = shown[shown.length >> 1] ?? 0;
  return {
    mmPerPx: scaleAt(view, middle).mmPerPx,
    plane,
    segments: segments.map((segment, i) => lengthOn(plane, segment, Math.max(usual, tips[i] ?? 0), shown.length > 0)),
  };
}

/**
 * How far the reference seems tipped out of the plane of a lap's two edges, in radians, because they are not parallel as it sees them:
 * two lines a length L apart, at distance D from the camera, turn by L / D for each radian. Null when there are no such edges.
 */
function tipOf(picture: Raster, { view }: Plane, segment: Segment): number | null {
  if (!(isInside(view, segment.from) && isInside(view, segment.to))) return null;
  const seen = angleBetweenEdges(picture, view, segment);
  if (seen === null) return null;
  const lengthMm = distance(toPlane(view, segment.from), toPlane(view, segment.to));
  const tipOfAngle = standMm(view, [segment.from, segment.to]) / lengthMm;
  const unsure = 2 * seen.sd;
  return unsure * tipOfAngle > TIP_SHOWN ? null : Math.max(0, Math.abs(seen.angle) - Math.max(ANGLE_FREE, unsure)) * tipOfAngle;
}

/** Distance from the camera, in mm. */
function standMm(view: View, ends: readonly Point[]): number {
  return focalPx(view) * Math.min(...ends.map((end) => scaleAt(view, end).best));
}

function isInside({ width, height }: View, [x, y]: Point): boolean {
  return x >= 0 && y >= 0 && x <= width && y <= height;
}

function lengthOn(plane: Plane, { from, to }: Segment, tip: number, planeShown: boolean): Length {
  const { view, covariance, size } = plane;
  const ends = [from, to];
  if (!ends.every((end) => isInside(view, end))) return { refused: 'outside-picture' };
  const longSide = Math.max(size.width, size.height);
  if (ends.some((end) => beyond(toPlane(view, end), size) > REACH_SIDES * longSide)) return { refused: 'far-from-card' };
  const length = (at: View, a: Point, b: Point) => distance(toPlane(at, a), toPlane(at, b));
  const lengthMm = length(view, from, to);

  const scales = ends.map((end) => scaleAt(view, end));
  if (!Number.isFinite(lengthMm) || scales.some(({ cosine }) => cosine < COSINE_MIN)) return { refused: 'too-steep' };
  if (scales.some(({ mmPerPx }) => mmPerPx > MM_PER_PX_MAX)) return { refused: 'too-far' };
  const slopes = gradient(view, (at) => length(at, from, to));
  const fitted = slopes.reduce((sum, a, i) => sum + slopes.reduce((row, b, j) => row + a * b * covariance[i]![j]!, 0), 0);
  const endSd = Math.hypot(END_SD_PX, Math.max(0, plane.blurPx - 1));
  const tapped = [0, 1].reduce((sum, axis) => {
    const moved = ([x, y]: Point, by: number): Point => (axis === 0 ? [x + by, y] : [x, y + by]);
    const first = (length(view, moved(from, 0.05), to) - length(view, moved(from, -0.05), to)) / 0.1;
    const second = (length(view, from, moved(to, 0.05)) - length(view, from, moved(to, -0.05))) / 0.1;
    return sum + (first * first + second * second) * endSd * endSd;
  }, 0);
  const stand = standMm(view, ends);
  const liftMm = LIFT_SD_MM + LIFT_MM_PER_WAVY_PX * Math.max(0, plane.wavinessPx - WAVY_FROM_PX);
  const variance = fitted + tapped + (SIZE_SD * lengthMm) ** 2 + ((liftMm * lengthMm) / stand) ** 2;
  // What such a tip does: foreshortening, and a surface nearer or farther beyond the reference.
  const cosine = Math.min(...scales.map((scale) => scale.cosine));
  const away = distance(toPlane(view, from), [size.width / 2, size.height / 2]) / stand;
  const tipped = TIP_UNSEEN * lengthMm * tip * (Math.sqrt(1 - cosine * cosine) / cosine + away + tip);
  const half = Math.max(HALF_MIN_MM, Z95 * Math.sqrt(variance));
  const most = Math.max(HALF_MAX_MM, HALF_MAX_SHARE * lengthMm);
  if (!(half <= most)) return { refused: 'too-uncertain' };
  if (tip > TIP_MAX || half + tipped > most) return { refused: 'not-in-plane' };
  const off = half + tipped;
  const { leastMm, mostMm } = planeShown ? { leastMm: lengthMm, mostMm: lengthMm } : lengthsIfTipped(view, size, { from, to });
  return {
    lengthMm,
    lowMm: Math.max(0, lengthMm - off),
    highMm: lengthMm + off,
    planeShown,
    wideLowMm: Math.max(0, leastMm - off),
    wideHighMm: mostMm + off,
  };
}

/** Distance of a point of the plane from the reference, in mm. */
function beyond([x, y]: Point, { width, height }: { width: number; height: number }): number {
  return Math.hypot(Math.max(0, -x, x - width), Math.max(0, -y, y - height));
}
