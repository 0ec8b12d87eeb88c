import type { Point } from '#lib/measure/plane.ts';
import type { Direction } from '../sheets/plan.ts';

/** A convex polygon, corners in turn in either sense; lengths in ten-thousandths, as near as a double says. */
export type Convex = readonly Point[];

/** The part of a convex polygon whose coordinate on an axis lies between two values; null when it has no area to speak of. */
export function clip(polygon: Convex, axis: 'x' | 'y', from: number, to: number): Convex | null {
  const low = keep(polygon, axis, from, 1);
  const both = keep(low, axis, to, -1);
  return both.length < 3 || doubleAreaOf(both) < 1 ? null : both;
}

function doubleAreaOf(polygon: Convex): number {
  return Math.abs(polygon.reduce((sum, b, i) => sum + polygon.at(i - 1)!.x * b.y - polygon.at(i - 1)!.y * b.x, 0));
}

function keep(polygon: Convex, axis: 'x' | 'y', limit: number, sense: 1 | -1): Point[] {
  const other = axis === 'x' ? 'y' : 'x';
  return polygon.flatMap((b, i) => {
    const a = polygon.at(i - 1)!;
    const [before, after] = [(a[axis] - limit) * sense, (b[axis] - limit) * sense];
    const kept = after >= 0 ? [b] : [];
    if (before * after >= 0) return kept;
    const share = before / (before - after);
    return [{ [axis]: limit, [other]: a[other] + share * (b[other] - a[other]) } as unknown as Point, ...kept];
  });
}

/** The axis along strips of a direction. */
export function axisOf(direction: Direction): 'x' | 'y' {
  return direction === 0 ? 'x' : 'y';
}

/** What of convex polygons lies between two places along an axis. */
export function stretchOf(parts: readonly Convex[], axis: 'x' | 'y', from: number, to: number): Convex[] {
  return parts.map((part) => clip(part, axis, from, to)).filter((part) => part !== null);
}

/** The corners of a convex polygon, each a ten-thousandth nearer to the middle: on the side of its wall on which the polygon is. */
export function cornersWithin(polygon: Convex): Point[] {
  const middle = {
    x: polygon.reduce((sum, { x }) => sum + x, 0) / polygon.length,
    y: polygon.reduce((sum, { y }) => sum + y, 0) / polygon.length,
  };
  return polygon.map(({ x, y }) => {
    const gap = Math.max(2, Math.hypot(middle.x - x, middle.y - y));
    return { x: x + (middle.x - x) / gap, y: y + (middle.y - y) / gap };
  });
}

export interface Box {
  readonly x1: number;
  readonly y1: number;
  readonly x2: number;
  readonly y2: number;
}

export function boxOf(points: readonly Point[]): Box {
  const [xs, ys] = [points.map(({ x }) => x), points.map(({ y }) => y)];
  return { x1: Math.min(...xs), y1: Math.min(...ys), x2: Math.max(...xs), y2: Math.max(...ys) };
}

/** Whether a place lies nearer to a convex polygon than a distance, or inside it. */
export function isNear(polygon: Convex, { x, y }: Point, within: number): boolean {
  let [isLeft, isRight] = [false, false];
  let a = polygon.at(-1)!;
  for (const b of polygon) {
    const [dx, dy, ex, ey] = [b.x - a.x, b.y - a.y, x - a.x, y - a.y];
    const square = dx * dx + dy * dy;
    const share = square === 0 ? 0 : Math.min(1, Math.max(0, (ex * dx + ey * dy) / square));
    const [fx, fy] = [ex - share * dx, ey - share * dy];
    if (fx * fx + fy * fy < within * within) return true;
    const cross = dx * ey - dy * ex;
    isLeft ||= cross > 0;
    isRight ||= cross < 0;
    a = b;
  }
  return !(isLeft && isRight);
}
