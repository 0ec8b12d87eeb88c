import type { Point } from '../../measure/plane.ts';

/** Where a place of the drawing is on a screen or a page, in pixels or points. */
export type At = (point: Point) => Point;

/** A part of a drawing on a screen or a page: where its places lie in pixels or points, y downwards. */
export interface View {
  readonly width: number;
  readonly height: number;
  /** Pixels in a ten-thousandth. */
  readonly scale: number;
  at: At;
  /** The place of the drawing under a place of the screen. */
  from: (px: Point) => Point;
}

/** Room for the dimension lines around the drawing, in pixels. */
const MARGIN = 46;

/** A page that is being laid out or left has no width for a moment: what is drawn on it is never narrower than this, in pixels. */
export const NARROWEST = 200;

/** A drawing as large as it can be in so many pixels. */
export function viewOf(points: readonly Point[], width: number, highest: number, margin = MARGIN): View {
  const [xs, ys] = [points.map(({ x }) => x), points.map(({ y }) => y)];
  const [left, right, low, high] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
  const scale = Math.min((width - 2 * margin) / Math.max(1, right - left), (highest - 2 * margin) / Math.max(1, high - low));
  const height = (high - low) * scale + 2 * margin;
  const inset = (width - (right - left) * scale) / 2;
  return {
    width,
    height,
    scale,
    at: ({ x, y }) => ({ x: inset + (x - left) * scale, y: height - margin - (y - low) * scale }),
    from: ({ x, y }) => ({ x: left + (x - inset) / scale, y: low + (height - margin - y) / scale }),
  };
}

export function pathOf(points: readonly Point[], closed: boolean): string {
  return `${points.map(({ x, y }, i) => `${i === 0 ? 'M' : 'L'}${px(x)} ${px(y)}`).join('')}${closed ? 'Z' : ''}`;
}

export function px(value: number): number {
  return Math.round(value * 10) / 10;
}

/** A dimension line: extension lines with 4 px overshoot, slanted ticks, and the number in the middle, turned so that it is read from below or from the right. */
export interface Dimension {
  readonly lines: string;
  readonly ticks: string;
  readonly text: Point;
  readonly turn: number;
  /** Its line in pixels. */
  readonly length: number;
}

/** Of the way from a to b, so far to its left. */
export function dimensionOf(a: Point, b: Point, off: number): Dimension {
  const length = Math.max(1, Math.hypot(b.x - a.x, b.y - a.y));
  const [x, y] = [(b.x - a.x) / length, (b.y - a.y) / length];
  // On the screen y runs downwards: the left hand of x, y is y, -x.
  const move = (p: Point, by: number): Point => ({ x: p.x + y * by, y: p.y - x * by });
  const [from, to] = [move(a, off), move(b, off)];
  const tick = (p: Point) => `M${px(p.x - 3)} ${px(p.y + 5)}L${px(p.x + 3)} ${px(p.y - 5)}`;
  const angle = (Math.atan2(y, x) * 180) / Math.PI;
  const turn = angle > 90.5 ? angle - 180 : angle <= -89.5 ? angle + 180 : angle;
  return {
    lines: [pathOf([move(a, 6), move(a, off + 4)], false), pathOf([move(b, 6), move(b, off + 4)], false), pathOf([from, to], false)].join(
      '',
    ),
    ticks: tick(from) + tick(to),
    text: { x: px((from.x + to.x) / 2), y: px((from.y + to.y) / 2) },
    // A number along an upright line is read from the right.
    turn: Math.abs(Math.abs(turn) - 90) < 0.5 ? -90 : px(turn),
    length,
  };
}

/** A numbered circle below the drawing, and its leader with one bend to its place. */
export interface Leader {
  readonly n: number;
  readonly x: number;
  readonly y: number;
  readonly path: string;
  readonly dot: Point;
}

/** Circles in rows below the drawing, each as near below its place as its neighbours let it, so that leaders cross little. */
export function leadersOf(
  marks: readonly { readonly n: number; readonly at: Point }[],
  view: Pick<View, 'width' | 'height'>,
  radius = 13,
): { leaders: Leader[]; height: number } {
  const pitch = 2 * radius + 8;
  const inRow = Math.max(1, Math.floor((view.width - 8) / pitch));
  const rows = Math.ceil(marks.length / inRow);
  const sorted = marks.toSorted((a, b) => a.at.x - b.at.x || a.at.y - b.at.y);
  const columns = Array.from({ length: Math.ceil(sorted.length / Math.max(1, rows)) }, (_, i) => sorted[i * rows]!.at.x);
  const xs = apart(columns, pitch, pitch / 2, view.width - pitch / 2);
  const leaders = sorted.map(({ n, at }, i) => {
    const x = xs[Math.floor(i / rows)]!;
    const y = view.height + radius + 4 + (i % rows) * pitch;
    const bend = { x, y: Math.min(view.height - 8, at.y + Math.abs(at.x - x)) };
    return { n, x: px(x), y: px(y), path: pathOf([at, bend, { x, y: y - radius }], false), dot: at };
  });
  return { leaders, height: rows * pitch + (rows > 0 ? 8 : 0) };
}

/** Places in ascending order, moved as little as keeps each so far from the next and all within the two ends. */
function apart(places: readonly number[], gap: number, first: number, last: number): number[] {
  const xs = places.map((x) => Math.min(last, Math.max(first, x)));
  for (let i = 1; i < xs.length; i++) xs[i] = Math.max(xs[i]!, xs[i - 1]! + gap);
  for (let i = xs.length - 1; i >= 0; i--) xs[i] = Math.min(xs[i]!, last - (xs.length - 1 - i) * gap);
  return xs;
}
