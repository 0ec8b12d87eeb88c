import type { Point } from '#lib/measure/plane.ts';
import { distanceTo, fromApron, SAME, type Ground, type Segment } from './ground.ts';
import { boxOf, isNear, type Convex } from './shapes.ts';

/** A grid of places, and which of them a disc can stand on while nothing is laid. Place i is in column i % columns. */
export interface Places {
  readonly xs: Float64Array;
  readonly ys: Float64Array;
  /** The largest distance between neighbouring lines. */
  readonly step: number;
  /** 1 where the disc keeps clear of all edges and its centre is in floor or apron. */
  readonly open: Uint8Array;
  /** Places in an apron and in front of its doorway, with the index of the doorway. */
  readonly exits: readonly { readonly place: number; readonly doorway: number }[];
}

/** A grid is at most twice as fine as asked for, up to about so many places. */
const PLACES_FINE = 60_000;
/** One finer than a phone has time for is made coarser: so many places at most, or about as many. */
const PLACES_MAX = 250_000;

/** Where sheets begin and end, across and up the drawing. */
export interface SheetEdges {
  readonly x: readonly number[];
  readonly y: readonly number[];
}

/**
 * A grid with at most `step` between lines, finer in small rooms and coarser in halls. Besides the even lines there are those on which the
 * centre of a disc can touch a wall or the edge of a sheet, so that a passage just wide enough is found.
 */
export function placesOn(ground: Ground, radius: number, step: number, edges: SheetEdges): Places {
  const { x1, y1, x2, y2 } = boxOf([...ground.floor, ...ground.edges.flatMap(({ a, b }) => [a, b])]);
  const stepFor = (count: number) => Math.sqrt(((x2 - x1) * (y2 - y1)) / count);
  const used = Math.max(step / 2, Math.min(step, stepFor(PLACES_FINE)), stepFor(PLACES_MAX));
  const corners = ground.edges.flatMap(({ a, b }) => [a, b]);
  const linesOf = (axis: 'x' | 'y', from: number, to: number) => {
    const walls = corners.map((corner) => corner[axis]);
    return linesBetween(from, to, used, walls, edges[axis], radius);
  };
  const [xs, ys] = [linesOf('x', x1, x2), linesOf('y', y1, y2)];
  const open = insideOf(ground, xs, ys);
  for (const edge of ground.edges) {
    forPlacesIn(xs, ys, grown([edge.a, edge.b], radius), (place, x, y) => {
      if (open[place] === 1 && distanceTo(edge, { x, y }) < radius - SAME) open[place] = 0;
    });
  }
  return { xs, ys, step: used, open, exits: exitsOf(ground, xs, ys, open, radius) };
}

export function placeAt({ xs, ys }: Pick<Places, 'xs' | 'ys'>, place: number): Point {
  return { x: xs[place % xs.length]!, y: ys[Math.floor(place / xs.length)]! };
}

/** Open places whose disc meets what lies under polygons. */
export function placesOver({ xs, ys, open }: Places, polygons: readonly Convex[], radius: number): Int32Array {
  const isMet = new Uint8Array(open.length);
  const met: number[] = [];
  const clear = radius - SAME;
  for (const polygon of polygons) {
    const box = boxOf(polygon);
    const isBox = polygon.every((a, i) => a.x === polygon.at(i - 1)!.x || a.y === polygon.at(i - 1)!.y);
    forPlacesIn(xs, ys, grown(polygon, radius), (place, x, y) => {
      if (open[place] !== 1 || isMet[place] === 1) return;
      const dx = Math.max(box.x1 - x, x - box.x2, 0);
      const dy = Math.max(box.y1 - y, y - box.y2, 0);
      if (dx * dx + dy * dy >= clear * clear || !(isBox || isNear(polygon, { x, y }, clear))) return;
      isMet[place] = 1;
      met.push(place);
    });
  }
  return Int32Array.from(met);
}

/** The nearest place marked in `exit` within a distance, as the crow flies; -1 when there is none. */
export function nearestPlace({ xs, ys }: Places, at: Point, within: number, exit: Uint16Array): number {
  let best = -1;
  let gap = within;
  const middle = indexFrom(ys, at.y);
  const look = (row: number) => {
    const dy = ys[row]! - at.y;
    if (Math.abs(dy) > gap) return false;
    const half = Math.sqrt(gap * gap - dy * dy);
    for (let column = indexFrom(xs, at.x - half); column < xs.length && xs[column]! <= at.x + half; column++) {
      if (exit[row * xs.length + column] === 0) continue;
      const far = Math.sqrt((xs[column]! - at.x) ** 2 + dy * dy);
      if (far > gap || (far === gap && best >= 0)) continue;
      gap = far;
      best = row * xs.length + column;
    }
    return true;
  };
  // Rows outwards from the place, until they are further off than what was found.
  for (let row = middle; row < ys.length && look(row); row++);
  for (let row = middle - 1; row >= 0 && look(row); row--);
  return best;
}

interface Box {
  readonly x1: number;
  readonly y1: number;
  readonly x2: number;
  readonly y2: number;
}

function grown(points: readonly Point[], by: number): Box {
  const { x1, y1, x2, y2 } = boxOf(points);
  return { x1: x1 - by, y1: y1 - by, x2: x2 + by, y2: y2 + by };
}

/** Calls for every place in a box. */
export function forPlacesIn(
  xs: Float64Array,
  ys: Float64Array,
  { x1, y1, x2, y2 }: Box,
  call: (place: number, x: number, y: number) => void,
): void {
  const [first, last] = [indexFrom(xs, x1), indexFrom(xs, x2)];
  for (let row = indexFrom(ys, y1); row < ys.length && ys[row]! <= y2; row++) {
    for (let column = first; column < last || (column === last && xs[column]! <= x2); column++)
      call(row * xs.length + column, xs[column]!, ys[row]!);
  }
}

/** Index of the first line that is not below a value. */
function indexFrom(lines: Float64Array, value: number): number {
  let [low, high] = [0, lines.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (lines[middle]! < value) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** Even lines, and those a radius from walls and sheets; of very many sheets none, as those lie close to the even ones anyway. */
function linesBetween(
  from: number,
  to: number,
  step: number,
  walls: readonly number[],
  sheets: readonly number[],
  radius: number,
): Float64Array {
  const count = Math.ceil((to - from) / step);
  const even = Array.from({ length: count + 1 }, (_, i) => Math.round(from + ((to - from) * i) / count));
  const beside = (edges: readonly number[]) =>
    edges.flatMap((edge) =>
      [edge - radius, edge + radius].filter((line) => line >= from && line <= to).map((line) => Math.round(line * 4) / 4),
    );
  const touching = new Set(beside(sheets));
  return Float64Array.from(new Set([...even, ...beside(walls), ...(touching.size > 2 * count ? [] : touching)])).sort();
}

/** Places in floor or apron, row by row between the crossings of the outline. */
function insideOf({ floor, aprons }: Ground, xs: Float64Array, ys: Float64Array): Uint8Array {
  const inside = new Uint8Array(xs.length * ys.length);
  ys.forEach((y, row) => {
    const crossings = floor
      .flatMap((a, i) => {
        const b = floor[(i + 1) % floor.length]!;
        return a.y > y === b.y > y ? [] : [a.x + ((y - a.y) / (b.y - a.y)) * (b.x - a.x)];
      })
      .sort((a, b) => a - b);
    for (let i = 0; i + 1 < crossings.length; i += 2) {
      for (let column = indexFrom(xs, crossings[i]!); column < xs.length && xs[column]! <= crossings[i + 1]!; column++)
        inside[row * xs.length + column] = 1;
    }
  });
  for (const apron of aprons) {
    forPlacesIn(xs, ys, apronBox(apron, 0), (place, x, y) => {
      const { far, out } = fromApron(apron, { x, y });
      if (far >= -SAME && far <= apron.width + SAME && out >= -SAME && out <= apron.depth + SAME) inside[place] = 1;
    });
  }
  return inside;
}

function apronBox({ at, along, away, width, depth }: Ground['aprons'][number], by: number): Box {
  const corner = (far: number, out: number) => ({ x: at.x + far * along.x + out * away.x, y: at.y + far * along.y + out * away.y });
  return grown([corner(0, 0), corner(width, 0), corner(0, depth), corner(width, depth)], by);
}

function exitsOf({ aprons, edges }: Ground, xs: Float64Array, ys: Float64Array, open: Uint8Array, radius: number): Places['exits'] {
  return aprons.flatMap((apron, doorway) => {
    const exits: { place: number; doorway: number }[] = [];
    const { along, away } = apron;
    forPlacesIn(xs, ys, apronBox(apron, 0), (place, x, y) => {
      const { far, out } = fromApron(apron, { x, y });
      if (open[place] !== 1 || far < radius - SAME || far > apron.width - radius + SAME || out < -SAME) return;
      const sill = { x: apron.at.x + far * along.x + SAME * away.x, y: apron.at.y + far * along.y + SAME * away.y };
      if (edges.every((edge) => !cross(edge, sill, { x, y }))) exits.push({ place, doorway });
    });
    return exits;
  });
}

function cross({ a, b }: Segment, from: Point, to: Point): boolean {
  const side = (p: Point, q: Point, r: Point) => (q.x - p.x) * (r.y - p.y) - (q.y - p.y) * (r.x - p.x);
  return side(from, to, a) * side(from, to, b) < 0 && side(a, b, from) * side(a, b, to) < 0;
}
