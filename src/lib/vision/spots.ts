import { connectedRuns, type Runs } from './components.ts';

/** A place without film: its middle from the first corner of the marked area, x along the first side. */
export interface Spot {
  readonly xMm: number;
  readonly yMm: number;
  /** Of a disc of the same area. */
  readonly diameterMm: number;
  readonly areaMm2: number;
  /** `thin` where the substrate shows through but was not clearly seen. */
  readonly kind: 'bare' | 'thin';
}

/** Score below which a pixel belongs to a spot, and the score a spot must fall to somewhere. */
const SPOT = 0.5;
const DEEPEST_MAX = 0.35;
/** The smallest spot has half the area of a disc of this diameter, or of so many pixels. */
const SMALLEST_MM = 1.5;
const SMALLEST_PX = 4;
/** A spot of this diameter is ground where the coat ends, and takes in what only glare cuts off from it. */
const GROUND_MM = 40;

interface Size {
  readonly width: number;
  readonly height: number;
  readonly pxPerMm: number;
}

/** What is summed over the pixels of a spot. */
interface Sums {
  /** A pixel of it. */
  readonly first: number;
  pixels: number;
  /** Those below the score of half film, half bare. */
  outlined: number;
  x: number;
  y: number;
  perimeter: number;
  deepest: number;
}

/**
 * Connected spots of a low score, largest first; what is too small or nowhere low enough is dropped and its share told. `mixed` is the
 * score of half film, half bare: a spot's outline lies there, so that blur makes it neither larger nor smaller.
 */
export function spotsOf(
  score: Float32Array,
  glare: Uint8Array,
  size: Size,
  mixed: number,
): { spots: Spot[]; perimeterPx: number; droppedShare: number } {
  const { width, height, pxPerMm } = size;
  const smallestPx = (Math.PI / 8) * Math.max(SMALLEST_MM * pxPerMm, SMALLEST_PX) ** 2;
  let dropped = 0;
  const kept = sumsOf(score, glare, size, mixed).filter(({ pixels, deepest }) => {
    if (pixels >= smallestPx && deepest <= DEEPEST_MAX) return true;
    dropped += pixels;
    return false;
  });
  const groundPx = (Math.PI / 4) * (GROUND_MM * pxPerMm) ** 2;
  const whole =
    kept.some(({ pixels }) => pixels >= groundPx) && glare.includes(1) ? joinGround(kept, score, glare, size, mixed, groundPx) : kept;
  const spots = whole.map(({ pixels, outlined, x, y, deepest }): Spot => {
    const kind = deepest <= mixed ? 'bare' : 'thin';
    const areaMm2 = (kind === 'bare' ? outlined : pixels) / pxPerMm ** 2;
    return { xMm: x / pixels / pxPerMm, yMm: y / pixels / pxPerMm, diameterMm: Math.sqrt((4 * areaMm2) / Math.PI), areaMm2, kind };
  });
  return {
    spots: spots.sort((a, b) => b.areaMm2 - a.areaMm2),
    perimeterPx: kept.reduce((sum, { perimeter }) => sum + perimeter, 0),
    droppedShare: dropped / (width * height),
  };
}

function isSpot(score: Float32Array, glare: Uint8Array, at: number, within: number): boolean {
  return score[at]! < within && glare[at] === 0;
}

/** The sums of each connected spot, by its first pixel. */
function sumsOf(score: Float32Array, glare: Uint8Array, { width, height }: Size, mixed: number): Sums[] {
  const within = Math.max(SPOT, mixed);
  const data = new Uint8Array(width * height);
  for (let at = 0; at < data.length; at++) data[at] = isSpot(score, glare, at, within) ? 1 : 0;
  const { count, starts, firsts } = connectedRuns({ width, height, data }, 8);
  // Which of `all` a component is, at its first run.
  const index = new Int32Array(count);
  const all: Sums[] = [];
  for (let run = 0; run < count; run++) {
    const [from, to] = [starts[run]!, starts[run + 1]!];
    if (data[from] === 0) continue;
    if (firsts[run] === run) {
      index[run] = all.length;
      all.push({ first: from, pixels: 0, outlined: 0, x: 0, y: 0, perimeter: 0, deepest: Infinity });
    }
    const sums = all[index[firsts[run]!]!]!;
    const y = Math.floor(from / width);
    if (from > y * width) sums.perimeter++;
    if (to < (y + 1) * width) sums.perimeter++;
    for (let at = from; at < to; at++) {
      const value = score[at]!;
      if (value < mixed) sums.outlined++;
      if (value < SPOT) {
        sums.pixels++;
        sums.x += at - y * width + 0.5;
        sums.y += y + 0.5;
      }
      if (value < sums.deepest) sums.deepest = value;
      if (y > 0 && data[at - width] === 0) sums.perimeter++;
      if (y < height - 1 && data[at + width] === 0) sums.perimeter++;
    }
  }
  return all;
}

/** Spots that hang together by glare with one as large as ground are part of it. */
function joinGround(
  kept: readonly Sums[],
  score: Float32Array,
  glare: Uint8Array,
  { width, height }: Size,
  mixed: number,
  groundPx: number,
) {
  const within = Math.max(SPOT, mixed);
  const data = Uint8Array.from(glare, (shines, at) => (shines === 1 || isSpot(score, glare, at, within) ? 1 : 0));
  const runs = connectedRuns({ width, height, data }, 8);
  const ground = new Map<number, Sums>();
  const whole: Sums[] = [];
  for (const sums of kept.toSorted((a, b) => b.pixels - a.pixels)) {
    const place = componentOf(runs, sums.first);
    const large = ground.get(place);
    if (large === undefined) {
      const own = { ...sums };
      if (sums.pixels >= groundPx) ground.set(place, own);
      whole.push(own);
      continue;
    }
    large.pixels += sums.pixels;
    large.outlined += sums.outlined;
    large.x += sums.x;
    large.y += sums.y;
    large.deepest = Math.min(large.deepest, sums.deepest);
  }
  return whole;
}

/** The component that a pixel belongs to, as its first run. */
function componentOf({ count, starts, firsts }: Runs, pixel: number): number {
  let [low, high] = [0, count - 1];
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (starts[middle]! <= pixel) low = middle;
    else high = middle - 1;
  }
  return firsts[low]!;
}
