import { fail, ok, type Result } from '../result.ts';
import { ALL_MIN, isLine, isPartOfFrame, lightIn, SIDE_MIN } from './_frame-line.ts';
import { CARD, cellCentre, isBlackCell, MARKER_CELLS } from './card.ts';
import { connectedRuns, type Mask } from './components.ts';
import { fitHomography, type Homography, project } from './homography.ts';
import { area, convexHull, fewerSides } from './polygon.ts';
import { type Grey, type Point, type Quad, type Raster, shrinkToGrey } from './raster.ts';

/** Long side of the smaller copy the card is looked for in first, in pixels. */
const COPY_PX = 1500;
/** A frame smaller than this in the copy cannot be told from other things. */
const FRAME_MIN_PX = 36;
/** Cells of 256 that may read wrong in the four markers together. */
const CELLS_WRONG_MAX = 40;

const { width: W, height: H, line: LINE } = CARD.frame;
const OUTER: Quad = [
  [0, 0],
  [W, 0],
  [W, H],
  [0, H],
];
const INNER: Quad = [
  [LINE, LINE],
  [W - LINE, LINE],
  [W - LINE, H - LINE],
  [LINE, H - LINE],
];

export interface FoundCard {
  /** Outer corners of the frame, to about a pixel or two: a start for the measuring fit, no measurement. */
  readonly corners: Quad;
  /** Whether the four markers were read too; without them top and bottom may be exchanged. */
  readonly marked: boolean;
}

/**
 * Finds the scale card by its frame: a dark ring with paper on both sides, of the card's own proportions; the markers confirm it. Looks
 * in a smaller copy and, when it finds nothing, in one of twice the size. Cut off is what shows two or three corners of such a frame.
 */
export function findCard(picture: Raster): Result<FoundCard, 'no-card' | 'card-cut-off'> {
  const coarse = Math.max(1, Math.ceil(Math.max(picture.width, picture.height) / COPY_PX));
  let cutOff = false;
  for (const by of new Set([coarse, Math.ceil(coarse / 2)])) {
    const copy = shrinkToGrey(picture, by);
    const outlines = outlinesOf(copy);
    const found = outlines.quads
      .flatMap((outline) => asCard(copy, outline) ?? [])
      .sort((a, b) => Number(b.marked) - Number(a.marked) || area(b.corners) - area(a.corners))[0];
    if (found !== undefined) {
      const full = ([x, y]: Point): Point => [x * by, y * by];
      const [a, b, c, d] = found.corners;
      return ok({ ...found, corners: [full(a), full(b), full(c), full(d)] });
    }
    cutOff ||= outlines.cutOff;
  }
  return fail(cutOff ? 'card-cut-off' : 'no-card');
}

interface Outline {
  readonly corners: Quad;
  /** Whether it is the frame's outer edge, or the edge of the paper inside it. */
  readonly edge: Quad;
}

/** Every dark or bright patch of the copy whose outline is nearly a quadrilateral. */
function outlinesOf(copy: Grey): { quads: Outline[]; cutOff: boolean } {
  const patches = patchesOf(darkMask(copy));
  const quads: Outline[] = [];
  let cutOff = false;
  for (const patch of patches) {
    if (patch.atBorder) {
      cutOff ||= patch.dark && isPartOfFrame(copy, patch.hull, patch.pixels);
      continue;
    }
    const corners = quadAround(patch.hull);
    if (corners !== null) quads.push({ corners, edge: patch.dark ? OUTER : INNER });
  }
  return { quads, cutOff };
}

/** Darker than most of what lies around it (the mean of a box), by a margin that noise does not reach. */
function darkMask({ width, height, data }: Grey): Mask {
  const reach = Math.round(Math.max(width, height) / 45);
  const mask = new Uint8Array(width * height);
  // Of each column the sum of the rows in reach.
  const columns = new Int32Array(width);
  for (let y = -reach; y < height; y++) {
    if (y + reach < height) addRow(columns, data, (y + reach) * width);
    if (y > reach) takeRow(columns, data, (y - reach - 1) * width);
    if (y >= 0) markRow(mask, data, y * width, columns, reach, Math.min(height, y + reach + 1) - Math.max(0, y - reach));
  }
  return { width, height, data: mask };
}

function addRow(columns: Int32Array, data: Uint8Array, start: number): void {
  for (let x = 0; x < columns.length; x++) columns[x]! += data[start + x]!;
}

function takeRow(columns: Int32Array, data: Uint8Array, start: number): void {
  for (let x = 0; x < columns.length; x++) columns[x]! -= data[start + x]!;
}

function markRow(mask: Uint8Array, data: Uint8Array, start: number, columns: Int32Array, reach: number, rows: number): void {
  const width = columns.length;
  let sum = 0;
  for (let x = -reach; x < width; x++) {
    if (x + reach < width) sum += columns[x + reach]!;
    if (x > reach) sum -= columns[x - reach - 1]!;
    if (x < 0) continue;
    const across = Math.min(width, x + reach + 1) - Math.max(0, x - reach);
    if (data[start + x]! < (0.82 * sum) / (rows * across) - 3) mask[start + x] = 1;
  }
}

interface Patch {
  readonly dark: boolean;
  readonly hull: readonly Point[];
  readonly pixels: number;
  readonly atBorder: boolean;
}

/** The patches of both kinds that are large enough for a frame. */
function patchesOf(mask: Mask): Patch[] {
  const { width, height, data } = mask;
  const { count, starts, firsts } = connectedRuns(mask, 8);
  const pixels = new Int32Array(count);
  const [left, right, bottom] = [new Int32Array(count).fill(width), new Int32Array(count), new Int32Array(count)];
  for (let run = 0, y = 0; run < count; run++) {
    const [from, to, patch] = [starts[run]!, starts[run + 1]!, firsts[run]!];
    if (from === (y + 1) * width) y++;
    pixels[patch]! += to - from;
    left[patch] = Math.min(left[patch]!, from - y * width);
    right[patch] = Math.max(right[patch]!, to - y * width);
    bottom[patch] = y + 1;
  }
  const large: { top: number; first: number; rows: Int32Array }[] = [];
  const place = new Int32Array(count).fill(-1);
  for (let run = 0; run < count; run++) {
    if (firsts[run] !== run) continue;
    const top = Math.floor(starts[run]! / width);
    if (right[run]! - left[run]! <= FRAME_MIN_PX || bottom[run]! - top <= FRAME_MIN_PX) continue;
    place[run] = large.length;
    large.push({ top, first: run, rows: new Int32Array(2 * (bottom[run]! - top)) });
  }
  // The first and last pixel of each row are enough for the hull.
  for (let run = 0, y = 0; run < count; run++) {
    const [from, to, at] = [starts[run]!, starts[run + 1]!, place[firsts[run]!]!];
    if (from === (y + 1) * width) y++;
    if (at < 0) continue;
    const { top, rows } = large[at]!;
    const row = 2 * (y - top);
    if (rows[row + 1] === 0) rows[row] = from - y * width;
    rows[row + 1] = to - y * width;
  }
  return large.map(({ top, first, rows }) => {
    const ends: Point[] = [];
    for (let row = 0; row < rows.length; row += 2) {
      const [y, from, to] = [top + row / 2, rows[row]!, rows[row + 1]!];
      ends.push([from, y], [to, y], [from, y + 1], [to, y + 1]);
    }
    const atBorder = left[first] === 0 || top === 0 || right[first] === width || bottom[first] === height;
    return { dark: data[starts[first]!] === 1, hull: convexHull(ends), pixels: pixels[first]!, atBorder };
  });
}

/** The quadrilateral around a convex hull; null when it does not follow the hull closely. */
function quadAround(hull: readonly Point[]): Quad | null {
  const corners = fewerSides(hull, Infinity);
  if (corners.length !== 4) return null;
  const [a, b, c, d] = corners as [Point, Point, Point, Point];
  return area(hull) >= 0.93 * area(corners) ? [a, b, c, d] : null;
}

/** Reads an outline as the card in each of its turns; the markers choose the turn, else the proportions of the frame do. */
function asCard(copy: Grey, { corners, edge }: Outline): FoundCard | null {
  const turns = [0, 1, 2, 3].flatMap((by) => {
    const map = fitHomography(
      edge,
      [0, 1, 2, 3].map((i) => corners[(i + by) % 4]!),
    );
    if (map === null || ringShare(copy, map) < ALL_MIN) return [];
    return [{ map, wrong: wrongCells(copy, map) }];
  });
  const best = turns.sort((a, b) => a.wrong - b.wrong)[0];
  if (best === undefined) return null;
  const [a, b, c, d] = OUTER.map((corner) => project(best.map, corner)) as [Point, Point, Point, Point];
  return { corners: [a, b, c, d], marked: best.wrong <= CELLS_WRONG_MAX };
}

/** Share of places along the frame where it is dark between two bright strips; 0 when one side alone fails. */
function ringShare(copy: Grey, map: Homography): number {
  const across = (t: number, depth: number): Point[] => [
    [t * W, depth],
    [W - depth, t * H],
    [(1 - t) * W, H - depth],
    [depth, (1 - t) * H],
  ];
  const dark = [0, 0, 0, 0];
  const places = 32;
  for (let place = 0; place < places; place++) {
    const t = 0.06 + (0.88 * place) / (places - 1);
    const [outside, line, inside] = [-0.8 * LINE, 0.5 * LINE, 1.8 * LINE].map((depth) => across(t, depth).map((p) => project(map, p)));
    for (let side = 0; side < 4; side++) if (isLine(copy, outside![side]!, line![side]!, inside![side]!)) dark[side]!++;
  }
  const shares = dark.map((count) => count / places);
  return Math.min(...shares) < SIDE_MIN ? 0 : shares.reduce((sum, share) => sum + share) / 4;
}

/** Cells of all four markers that do not read as they should, black being less than half the light of the paper beside the marker. */
function wrongCells(copy: Grey, map: Homography): number {
  let wrong = 0;
  for (const [marker, [x, y]] of CARD.markers.at.entries()) {
    const { side } = CARD.markers;
    const beside: Point[] = [
      [x - 2, y + side / 2],
      [x + side + 2, y + side / 2],
      [x + side / 2, y - 2],
      [x + side / 2, y + side + 2],
    ];
    const paper = beside.reduce((sum, point) => sum + lightIn(copy, project(map, point)), 0) / beside.length;
    for (let row = 0; row < MARKER_CELLS; row++) {
      for (let column = 0; column < MARKER_CELLS; column++) {
        if (lightIn(copy, project(map, cellCentre(marker, column, row))) < paper / 2 !== isBlackCell(marker, column, row)) wrong++;
      }
    }
  }
  return wrong;
}
