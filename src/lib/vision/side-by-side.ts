import { stepsAcross, type Step } from './edges.ts';
import type { Segment } from './length.ts';
import { toPicture, toPlane, type View } from './plane.ts';
import { distance, type Point, type Raster } from './raster.ts';

/**
 * How far an edge is followed to each side of an end: the longer, the surer its direction; one that is not straight that far may still be
 * nearer by.
 */
const FOLLOW_MM = [80, 30] as const;
/** Distance of the places looked at, and how far the next point may lie off, in pixels. */
const STEP_MM = 1.25;
const START_PX = 6;
const NEXT_PX = 3;
/** A weaker edge, one seen at fewer places, over a shorter way, or less straight, is none. */
const RISE_MIN = 0.015;
const SEEN_MIN = 0.75;
const WAY_MIN_MM = 25;
const STRAIGHT_PX = 0.7;
/** Edges this far from parallel, or from square to the segment, are not the two edges of one lap. */
const PARALLEL_RAD = 0.14;
const SQUARE_RAD = 0.6;

/**
 * The angle, in radians, between the two edges that a segment runs across, as they lie on the plane. The edges of a lap are parallel;
 * seen by a card that does not lie in their plane they are not (unless it is tipped about a line along them). Null when the segment
 * does not run between two straight edges.
 */
export function angleBetweenEdges(picture: Raster, view: View, { from, to }: Segment): number | null {
  const [a, b] = [toPlane(view, from), toPlane(view, to)];
  const length = distance(a, b);
  if (!(length > 0)) return null;
  const along: Point = [(b[0] - a[0]) / length, (b[1] - a[1]) / length];
  const direction = (end: Point) => {
    for (const reachMm of FOLLOW_MM) {
      const found = directionOfEdge(picture, view, end, along, reachMm);
      if (found !== null) return found;
    }
    return null;
  };
  const first = direction(a);
  const second = first === null ? null : direction(b);
  if (first === null || second === null) return null;
  const angle = first - second;
  return Math.abs(angle) < PARALLEL_RAD && Math.max(Math.abs(first), Math.abs(second)) < SQUARE_RAD ? angle : null;
}

/** Angle of the edge through an end, from square to the segment. */
function directionOfEdge(picture: Raster, view: View, end: Point, along: Point, reachMm: number): number | null {
  const square: Point = [-along[1], along[0]];
  const place = (across: number, ahead: number): Point => [
    end[0] + across * square[0] + ahead * along[0],
    end[1] + across * square[1] + ahead * along[1],
  ];
  const found: { across: number; ahead: number }[] = [];
  let sign = 0;
  const look = (across: number, ahead: number, reachPx: number): number | null => {
    const middle = toPicture(view, place(across, ahead));
    if (!(middle[0] > 20 && middle[1] > 20 && middle[0] < picture.width - 20 && middle[1] < picture.height - 20)) return null;
    const next = toPicture(view, place(across, ahead + 1));
    const perMm = distance(middle, next);
    const steps = stepsAcross(picture, middle, [(next[0] - middle[0]) / perMm, (next[1] - middle[1]) / perMm], reachPx + 4);
    const step: Step | undefined = steps.find(
      ({ offset, rise }) => Math.abs(offset) <= reachPx && Math.abs(rise) > RISE_MIN && (sign === 0 || rise * sign > 0),
    );
    if (step === undefined) return null;
    sign = Math.sign(step.rise);
    found.push({ across, ahead: ahead + step.offset / perMm });
    return ahead + step.offset / perMm;
  };
  const start = look(0, 0, START_PX);
  if (start === null) return null;
  let looked = 1;
  for (const side of [1, -1]) {
    let [ahead, slope, missed] = [start, 0, 0];
    for (let step = 1; step * STEP_MM <= reachMm && missed < 4; step++, looked++) {
      const across = side * step * STEP_MM;
      const seen = look(across, ahead + slope, step < 4 ? START_PX : NEXT_PX);
      missed = seen === null ? missed + 1 : 0;
      slope = seen === null ? slope : slope + 0.4 * (seen - ahead - slope);
      ahead = seen ?? ahead + slope;
    }
  }
  const ways = found.map(({ across }) => across);
  if (found.length < SEEN_MIN * looked || Math.max(...ways) - Math.min(...ways) < WAY_MIN_MM) return null;
  const line = fitLine(found);
  const middle = toPicture(view, place(0, 0));
  const pxPerMm = distance(middle, toPicture(view, place(0, 1)));
  return line.rms * pxPerMm < STRAIGHT_PX ? Math.atan(line.slope) : null;
}

function fitLine(points: readonly { across: number; ahead: number }[]): { slope: number; rms: number } {
  const mean = (of: (point: (typeof points)[number]) => number) => points.reduce((sum, point) => sum + of(point), 0) / points.length;
  const [x, y] = [mean(({ across }) => across), mean(({ ahead }) => ahead)];
  const slope = mean(({ across, ahead }) => (across - x) * (ahead - y)) / mean(({ across }) => (across - x) ** 2);
  const rms = Math.sqrt(mean(({ across, ahead }) => (ahead - y - slope * (across - x)) ** 2));
  return { slope, rms };
}
