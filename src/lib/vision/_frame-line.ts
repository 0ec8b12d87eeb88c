import { area, fewerSides } from './polygon.ts';
import { distance, type Grey, LIGHT_OF, type Point } from './raster.ts';

/** Share of the places looked at where a frame must be darker than the paper on both of its sides: of all, and of each side. */
export const ALL_MIN = 0.75;
export const SIDE_MIN = 0.5;
/** The shortest whole side of a part of a frame, in pixels of the copy and in widths of its line: 30 to 47 seen straight on. */
const WHOLE_MIN_PX = 36;
const WIDTHS_IN_WHOLE = [12, 100] as const;
/** A side of a hull goes when its loss adds less than this share of the area. */
const ADDS_MAX = 0.015;
const PLACES = 32;

/** Whether it is darker at the middle of three points than at both of the others. */
export function isLine(copy: Grey, outside: Point, line: Point, inside: Point): boolean {
  return lightIn(copy, line) < 0.55 * Math.min(lightIn(copy, outside), lightIn(copy, inside));
}

/** Light at a point of the copy; none outside it. */
export function lightIn({ width, height, data }: Grey, [x, y]: Point): number {
  if (!(x >= 0 && y >= 0 && x < width && y < height)) return 0;
  return LIGHT_OF[data[Math.floor(y) * width + Math.floor(x)]!]!;
}

/**
 * Whether a dark patch that the border of the copy cuts can be what is left of a frame: along each of its three or four sides a line of
 * even width with paper on both sides, and one side whole. `hull` goes around clockwise; `pixels` are those of the patch.
 */
export function isPartOfFrame(copy: Grey, hull: readonly Point[], pixels: number): boolean {
  const within = ([x, y]: Point) => x > 1 && y > 1 && x < copy.width - 1 && y < copy.height - 1;
  const corners = fewerSides(hull, ADDS_MAX * area(hull));
  const sides = corners.flatMap((from, i) => {
    const to = corners[(i + 1) % corners.length]!;
    // From border to border goes the cut.
    if (!within(from) && !within(to)) return [];
    const places = Array.from({ length: PLACES }, (_, at): Point => {
      const t = 0.06 + (0.88 * at) / (PLACES - 1);
      return [from[0] + t * (to[0] - from[0]), from[1] + t * (to[1] - from[1])];
    }).filter(within);
    const length = distance(from, to);
    return [{ from, to, places, length, seen: (length * places.length) / PLACES }];
  });
  const width = pixels / sum(sides.map(({ seen }) => seen));
  const whole = Math.max(...sides.map(({ from, to, length }) => (within(from) && within(to) ? length : 0)));
  if (sides.length < 3 || sides.length > 4 || whole < WHOLE_MIN_PX) return false;
  if (whole < WIDTHS_IN_WHOLE[0] * width || whole > WIDTHS_IN_WHOLE[1] * width) return false;
  const checks = sides.map(({ from, to, places, length }) => {
    const inward = ([x, y]: Point, depth: number): Point => {
      const by = (depth * width) / length;
      return [x - by * (to[1] - from[1]), y + by * (to[0] - from[0])];
    };
    const across = places.map((place) => [inward(place, -0.8), inward(place, 0.5), inward(place, 1.8)] as const);
    const inPicture = across.filter((points) => points.every(within));
    return { places: inPicture.length, lines: inPicture.filter((points) => isLine(copy, ...points)).length };
  });
  const all = sum(checks.map(({ lines }) => lines)) / sum(checks.map(({ places }) => places));
  return all >= ALL_MIN && checks.every(({ lines, places }) => lines >= SIDE_MIN * places);
}

const sum = (values: readonly number[]) => values.reduce((total, value) => total + value, 0);
