import type { Point } from '../../measure/plane.ts';

/** One wall of a walk: its length in ten-thousandths of the drawing's unit, and the turn at its end in degrees, to the right above zero. */
export interface WalkedWall {
  readonly length: number;
  readonly turn: number;
}

/** How the gap at the end is closed: `one-wall` lets one wall take all of it. */
export type Closing = { readonly how: 'exact' | 'spread' } | { readonly how: 'one-wall'; readonly wall: number };

/** What is left between the end of a walk and its beginning. */
export interface Gap {
  /** From the beginning to where the walk ended, in ten-thousandths. */
  readonly x: number;
  readonly y: number;
  readonly length: number;
  /** The gap as a share of the way walked. */
  readonly share: number;
}

/** Sine and cosine of whole right angles, which a computed one misses by a little. */
const SQUARE: readonly (readonly [number, number])[] = [
  [0, 1],
  [1, 0],
  [0, -1],
  [-1, 0],
];

/** The direction of each wall: x and y of a step of length 1. Wall 0 runs along y; turns add up as they were said. */
function directions(walls: readonly WalkedWall[]): Point[] {
  let heading = 0;
  return walls.map(({ turn }) => {
    const square = heading % 90 === 0 ? SQUARE[(((heading / 90) % 4) + 4) % 4]! : null;
    const angle = (heading * Math.PI) / 180;
    const [x, y] = square ?? [Math.sin(angle), Math.cos(angle)];
    heading += turn;
    return { x, y };
  });
}

/** The corners of a walk as it was walked, from 0, 0; one more than there are walls, the last where it ended. */
export function walked(walls: readonly WalkedWall[]): Point[] {
  const steps = directions(walls);
  const corners: Point[] = [{ x: 0, y: 0 }];
  walls.forEach(({ length }, i) => {
    const from = corners[i]!;
    corners.push({ x: from.x + steps[i]!.x * length, y: from.y + steps[i]!.y * length });
  });
  return corners;
}

export function gapOf(walls: readonly WalkedWall[]): Gap {
  const { x, y } = walked(walls).at(-1)!;
  const way = walls.reduce((sum, { length }) => sum + length, 0);
  const length = Math.hypot(x, y);
  return { x, y, length, share: way === 0 ? 0 : length / way };
}

/**
 * The corners of the closed room, in whole ten-thousandths.
 *
 * `spread`: where any corner is not square, by the compass (Bowditch) rule: each wall takes a share of the gap in proportion to its
 * length. Where all corners are square, by the transit rule: along each of the two directions the walls of that direction share its gap
 * in proportion, so that what was taken for square stays square. Both rules are common practice of surveyors, no source.
 * `one-wall`: the corners after that wall are moved by the gap.
 */
export function closed(walls: readonly WalkedWall[], closing: Closing): Point[] {
  const corners = walked(walls);
  const gap = corners.at(-1)!;
  const shares = closing.how === 'one-wall' ? oneWall(walls, closing.wall) : balanced(walls, corners);
  return corners.slice(0, -1).map(({ x, y }, i) => ({ x: whole(x - gap.x * shares[i]!.x), y: whole(y - gap.y * shares[i]!.y) }));
}

/** Of the gap, what lies before each corner. */
function balanced(walls: readonly WalkedWall[], corners: readonly Point[]): Point[] {
  // The turn at the end of the last wall is not walked.
  const isSquare = walls.slice(0, -1).every(({ turn }) => turn % 90 === 0);
  const weights = walls.map(({ length }, i) => {
    const [from, to] = [corners[i]!, corners[i + 1]!];
    return isSquare ? { x: Math.abs(to.x - from.x), y: Math.abs(to.y - from.y) } : { x: length, y: length };
  });
  const total = weights.reduce((sum, { x, y }) => ({ x: sum.x + x, y: sum.y + y }), { x: 0, y: 0 });
  let so = { x: 0, y: 0 };
  return weights.map(({ x, y }) => {
    const share = { x: total.x === 0 ? 0 : so.x / total.x, y: total.y === 0 ? 0 : so.y / total.y };
    so = { x: so.x + x, y: so.y + y };
    return share;
  });
}

function oneWall(walls: readonly WalkedWall[], wall: number): Point[] {
  return walls.map((_, i) => (i > wall ? { x: 1, y: 1 } : { x: 0, y: 0 }));
}

/** Never minus zero. */
function whole(value: number): number {
  return Math.round(value) + 0;
}
