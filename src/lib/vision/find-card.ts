import { fail, ok, type Result } from '../result.ts';
import { CARD, cellCentre, isBlackCell, MARKER_CELLS } from './card.ts';
import { labelComponents, type Mask } from './components.ts';
import { fitHomography, type Homography, project } from './homography.ts';
import { area, convexHull, turn } from './polygon.ts';
import { type Grey, LIGHT_OF, type Point, type Quad, type Raster, shrinkToGrey } from './raster.ts';

/** Long side of the smaller copy the card is looked for in first, in pixels. */
const COPY_PX = 1500;
/** A frame smaller than this in the copy cannot be told from other things. */
const FRAME_MIN_PX = 36;
/** Share of the places looked at where the frame must be darker than the paper on both of its sides. */
const RING_MIN = 0.75;
const RING_SIDE_MIN = 0.5;
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
 * in a smaller copy and, when it finds nothing, in one of twice the size.
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
  const dark = darkMask(copy);
  const bright = { ...dark, data: new Uint8Array(dark.data.length) };
  for (let at = 0; at < dark.data.length; at++) bright.data[at] = 1 - dark.data[at]!;
  const quads: Outline[] = [];
  let cutOff = false;
  for (const [mask, neighbours, edge] of [[dark, 8, OUTER] as const, [bright, 4, INNER] as const]) {
    for (const patch of patchesOf(mask, neighbours)) {
      const corners = quadAround(patch.hull);
      if (corners === null) continue;
      if (patch.atBorder) cutOff ||= edge === OUTER && isThin(patch, corners);
      else quads.push({ corners, edge });
    }
  }
  return { quads, cutOff };
}

/** Darker than most of what lies around it (the mean of a box), by a margin that noise does not reach. */
function darkMask({ width, height, data }: Grey): Mask {
  const reach = Math.round(Math.max(width, height) / 45);
  // Sums of everything above and left; they may run over, as their differences do not.
  const stride = width + 1;
  const sums = new Uint32Array(stride * (height + 1));
  for (let y = 0, at = 0; y < height; y++) {
    let row = 0;
    for (let x = 0, to = (y + 1) * stride + 1; x < width; x++, at++, to++) {
      row += data[at]!;
      sums[to] = sums[to - stride]! + row;
    }
  }
  const mask = new Uint8Array(width * height);
  for (let y = 0, at = 0; y < height; y++) {
    const top = Math.max(0, y - reach);
    const bottom = Math.min(height, y + reach + 1);
    const [above, below] = [top * stride, bottom * stride];
    for (let x = 0; x < width; x++, at++) {
      const left = x > reach ? x - reach : 0;
      const right = x + reach < width ? x + reach + 1 : width;
      const sum = (sums[below + right]! - sums[above + right]! - sums[below + left]! + sums[above + left]!) >>> 0;
      if (data[at]! < (0.82 * sum) / ((bottom - top) * (right - left)) - 3) mask[at] = 1;
    }
  }
  return { width, height, data: mask };
}

interface Patch {
  readonly hull: readonly Point[];
  readonly pixels: number;
  readonly atBorder: boolean;
}

function patchesOf(mask: Mask, neighbours: 4 | 8): Patch[] {
  const { labels, count } = labelComponents(mask, neighbours);
  const { width, height } = mask;
  const pixels = new Int32Array(count + 1);
  const [left, right] = [new Int32Array(count + 1).fill(width), new Int32Array(count + 1)];
  const [top, bottom] = [new Int32Array(count + 1).fill(height), new Int32Array(count + 1)];
  for (let y = 0, at = 0; y < height; y++) {
    for (let x = 0; x < width; x++, at++) {
      const label = labels[at]!;
      if (label === 0) continue;
      pixels[label]!++;
      if (x < left[label]!) left[label] = x;
      if (x > right[label]!) right[label] = x;
      if (y < top[label]!) top[label] = y;
      if (y > bottom[label]!) bottom[label] = y;
    }
  }
  const patches: Patch[] = [];
  for (let label = 1; label <= count; label++) {
    const [x0, x1, y0, y1] = [left[label]!, right[label]!, top[label]!, bottom[label]!];
    if (x1 - x0 < FRAME_MIN_PX || y1 - y0 < FRAME_MIN_PX) continue;
    // The first and last pixel of each row are enough for the hull.
    const ends: Point[] = [];
    for (let y = y0; y <= y1; y++) {
      let [first, last] = [x0, x1];
      while (first <= x1 && labels[y * width + first] !== label) first++;
      if (first > x1) continue;
      while (labels[y * width + last] !== label) last--;
      ends.push([first, y], [last + 1, y], [first, y + 1], [last + 1, y + 1]);
    }
    const atBorder = x0 === 0 || y0 === 0 || x1 === width - 1 || y1 === height - 1;
    patches.push({ hull: convexHull(ends), pixels: pixels[label]!, atBorder });
  }
  return patches;
}

/** Fills a small part of its outline only, as a ring does. */
function isThin({ pixels }: Patch, corners: Quad): boolean {
  return pixels < 0.25 * area(corners) && area(corners) > 4 * FRAME_MIN_PX ** 2;
}

/**
 * The quadrilateral around a convex hull: the side whose loss (its two neighbours extended until they meet) adds least area goes, until
 * four are left. Null when four do not follow the hull closely.
 */
function quadAround(hull: readonly Point[]): Quad | null {
  const corners = [...hull];
  while (corners.length > 4) {
    let best = { at: -1, adds: Infinity, corner: corners[0]! };
    for (let at = 0; at < corners.length; at++) {
      const [before, a, b, after] = [-1, 0, 1, 2].map((step) => corners[(at + step + corners.length) % corners.length]!);
      const corner = crossing(before!, a!, after!, b!);
      const adds = corner === null ? Infinity : Math.abs(turn(a!, b!, corner)) / 2;
      if (corner !== null && adds < best.adds) best = { at, adds, corner };
    }
    if (best.at < 0) return null;
    const next = (best.at + 1) % corners.length;
    corners[best.at] = best.corner;
    corners.splice(next, 1);
  }
  if (corners.length < 4) return null;
  const [a, b, c, d] = corners as [Point, Point, Point, Point];
  return area(hull) >= 0.93 * area(corners) ? [a, b, c, d] : null;
}

/** Where the ray from `a` through `b` meets the ray from `c` through `d`, beyond `b` and `d`. */
function crossing(a: Point, b: Point, c: Point, d: Point): Point | null {
  const [ux, uy, vx, vy] = [b[0] - a[0], b[1] - a[1], d[0] - c[0], d[1] - c[1]];
  const cross = ux * vy - uy * vx;
  if (Math.abs(cross) < 1e-9) return null;
  const s = ((c[0] - a[0]) * vy - (c[1] - a[1]) * vx) / cross;
  const t = ((c[0] - a[0]) * uy - (c[1] - a[1]) * ux) / cross;
  return s >= 1 - 1e-9 && t >= 1 - 1e-9 ? [a[0] + s * ux, a[1] + s * uy] : null;
}

/** Reads an outline as the card in each of its turns; the markers choose the turn, else the proportions of the frame do. */
function asCard(copy: Grey, { corners, edge }: Outline): FoundCard | null {
  const turns = [0, 1, 2, 3].flatMap((by) => {
    const map = fitHomography(
      edge,
      [0, 1, 2, 3].map((i) => corners[(i + by) % 4]!),
    );
    if (map === null || ringShare(copy, map) < RING_MIN) return [];
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
    const [outside, line, inside] = [-0.8 * LINE, 0.5 * LINE, 1.8 * LINE].map((depth) => across(t, depth).map((p) => read(copy, map, p)));
    for (let side = 0; side < 4; side++) if (line![side]! < 0.55 * Math.min(outside![side]!, inside![side]!)) dark[side]!++;
  }
  const shares = dark.map((count) => count / places);
  return Math.min(...shares) < RING_SIDE_MIN ? 0 : shares.reduce((sum, share) => sum + share) / 4;
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
    const paper = beside.reduce((sum, point) => sum + read(copy, map, point), 0) / beside.length;
    for (let row = 0; row < MARKER_CELLS; row++) {
      for (let column = 0; column < MARKER_CELLS; column++) {
        if (read(copy, map, cellCentre(marker, column, row)) < paper / 2 !== isBlackCell(marker, column, row)) wrong++;
      }
    }
  }
  return wrong;
}

/** Light at a point of the card in the copy; none outside it. */
function read({ width, height, data }: Grey, map: Homography, point: Point): number {
  const [x, y] = project(map, point);
  if (!(x >= 0 && y >= 0 && x < width && y < height)) return 0;
  return LIGHT_OF[data[Math.floor(y) * width + Math.floor(x)]!]!;
}
