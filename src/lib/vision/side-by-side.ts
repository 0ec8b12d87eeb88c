import { stepsAcross } from './edges.ts';
import type { Segment } from './length.ts';
import { toPicture, toPlane, type View } from './plane.ts';
import { distance, lightAt, type Point, type Raster, type Tone, warmthAt } from './raster.ts';

/**
 * How far an edge is followed to each side of an end: the longer, the surer its direction; one that is not straight that far may still be
 * nearer by.
 */
const FOLLOW_MM = [80, 30] as const;
/** Distance of the places looked at, and how far the next point may lie off, in pixels: the first few, and once there is a line. */
const STEP_MM = 1.25;
const START_PX = 6;
const NEXT_PX = 3;
const LINE_FROM = 5;
/** After so many places without it an edge has ended. */
const MISSED_MAX = 4;
/** A weaker edge, one seen at fewer places, over a shorter way, or less straight, is none. */
const RISE_MIN = 0.015;
const SEEN_MIN = 0.75;
const WAY_MIN_MM = 25;
/** Edges this far from parallel, or from square to the segment, are not the two edges of one lap. */
const PARALLEL_RAD = 0.14;
const SQUARE_RAD = 0.6;

/** In what an edge is seen, and whether that rises or falls along the segment. */
interface EdgeKind {
  readonly toneAt: Tone;
  readonly sign: 1 | -1;
  /** How far its points may lie from a line, in pixels: a JPEG keeps colour at half the places. */
  readonly straightPx: number;
}
const KINDS: readonly EdgeKind[] = ([1, -1] as const).flatMap((sign) => [
  { toneAt: lightAt, sign, straightPx: 0.7 },
  { toneAt: warmthAt, sign, straightPx: 1.1 },
]);

/** The angle between two edges, in radians, and its standard deviation. */
export interface EdgeAngle {
  readonly angle: number;
  readonly sd: number;
}

/**
 * The angle between the two edges that a segment runs across, as they lie on the plane. The edges of a lap are parallel; seen by a card
 * that does not lie in their plane they are not (unless it is tipped about a line along them). An edge may begin at the segment's end, as
 * at the corner of a sheet. Null when the segment does not run between two straight edges.
 */
export function angleBetweenEdges(picture: Raster, view: View, { from, to }: Segment): EdgeAngle | null {
  const [a, b] = [toPlane(view, from), toPlane(view, to)];
  const length = distance(a, b);
  if (!(length > 0)) return null;
  const along: Point = [(b[0] - a[0]) / length, (b[1] - a[1]) / length];
  const first = straightEdge(picture, view, a, along);
  const second = first === null ? null : straightEdge(picture, view, b, along);
  if (first === null || second === null) return null;
  const [one, two] = [Math.atan(first.slope), Math.atan(second.slope)];
  const isLap = Math.abs(one - two) < PARALLEL_RAD && Math.max(Math.abs(one), Math.abs(two)) < SQUARE_RAD;
  return isLap ? { angle: one - two, sd: Math.hypot(first.sd, second.sd) } : null;
}

/** A point seen on an edge, in mm: along the edge's supposed direction and along the segment's, from the segment's end. */
interface OnEdge {
  readonly across: number;
  readonly ahead: number;
}

/** A straight line through points of an edge: its slope from square to the segment. */
interface Line {
  readonly slope: number;
  readonly ahead: number;
  /** Standard deviation of the slope, and of the points from the line in mm. */
  readonly sd: number;
  readonly rms: number;
  readonly wayMm: number;
}

/** The straight edge through an end of a segment whose direction is surest: seen to one side of it or to both. */
function straightEdge(picture: Raster, view: View, end: Point, along: Point): Line | null {
  const pxPerMm = distance(toPicture(view, end), toPicture(view, [end[0] + along[0], end[1] + along[1]]));
  for (const reachMm of FOLLOW_MM) {
    const lines = KINDS.flatMap((kind) => {
      const [left, right] = [-STEP_MM, STEP_MM].map((stepMm) => follow(picture, view, end, along, stepMm, reachMm, kind));
      const some = [[...left!, ...right!], left!, right!].filter((points) => points.length >= LINE_FROM).map(fitLine);
      return some.filter(({ wayMm, rms }) => wayMm >= WAY_MIN_MM && rms * pxPerMm < kind.straightPx);
    });
    if (lines.length > 0) return lines.reduce((best, line) => (line.sd < best.sd ? line : best));
  }
  return null;
}

/** Points of an edge of one kind, followed from an end to one side. Empty when it is not seen. */
function follow(picture: Raster, view: View, end: Point, along: Point, stepMm: number, reachMm: number, kind: EdgeKind): OnEdge[] {
  const found: OnEdge[] = [];
  let [missed, looked] = [0, 0];
  for (let across = 0; Math.abs(across) <= reachMm && missed < MISSED_MAX; across += stepMm) {
    const line = found.length < LINE_FROM ? null : fitLine(found);
    const expected = line === null ? (found.at(-1)?.ahead ?? 0) : line.ahead + line.slope * across;
    const ahead = edgeAt(picture, view, end, along, across, expected, line === null ? START_PX : NEXT_PX, kind);
    looked++;
    missed = ahead === null ? missed + 1 : 0;
    if (ahead !== null) found.push({ across, ahead });
  }
  return found.length < SEEN_MIN * (looked - missed) ? [] : found;
}

/** Where the edge is at one place across, near where it is expected; null where it is not seen. */
function edgeAt(
  picture: Raster,
  view: View,
  end: Point,
  along: Point,
  across: number,
  expected: number,
  reachPx: number,
  { toneAt, sign }: EdgeKind,
) {
  const place = (ahead: number): Point =>
    toPicture(view, [end[0] - across * along[1] + ahead * along[0], end[1] + across * along[0] + ahead * along[1]]);
  const middle = place(expected);
  if (!(middle[0] > 20 && middle[1] > 20 && middle[0] < picture.width - 20 && middle[1] < picture.height - 20)) return null;
  const next = place(expected + 1);
  const perMm = distance(middle, next);
  const steps = stepsAcross(picture, middle, [(next[0] - middle[0]) / perMm, (next[1] - middle[1]) / perMm], reachPx + 4, toneAt);
  const step = steps.find(({ offset, rise }) => Math.abs(offset) <= reachPx && rise * sign > RISE_MIN);
  return step === undefined ? null : expected + step.offset / perMm;
}

/** Least squares. */
function fitLine(points: readonly OnEdge[]): Line {
  const mean = (of: (point: OnEdge) => number) => points.reduce((sum, point) => sum + of(point), 0) / points.length;
  const [x, y] = [mean(({ across }) => across), mean(({ ahead }) => ahead)];
  const spread = mean(({ across }) => (across - x) ** 2);
  const slope = mean(({ across, ahead }) => (across - x) * (ahead - y)) / spread;
  const rms = Math.sqrt(mean(({ across, ahead }) => (ahead - y - slope * (across - x)) ** 2));
  const ways = points.map(({ across }) => across);
  return { slope, ahead: y - slope * x, sd: rms / Math.sqrt(spread * points.length), rms, wayMm: Math.max(...ways) - Math.min(...ways) };
}
