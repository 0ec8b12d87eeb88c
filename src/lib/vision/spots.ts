import { connectedRuns } from './components.ts';

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

/**
 * Connected spots of a low score, largest first; what is too small or nowhere low enough is dropped and its share told. `mixed` is the
 * score of half film, half bare: a spot's outline lies there, so that blur makes it neither larger nor smaller.
 */
export function spotsOf(
  score: Float32Array,
  glare: Uint8Array,
  { width, height, pxPerMm }: { readonly width: number; readonly height: number; readonly pxPerMm: number },
  mixed: number,
): { spots: Spot[]; perimeterPx: number; droppedShare: number } {
  const data = new Uint8Array(width * height);
  const within = Math.max(SPOT, mixed);
  for (let at = 0; at < data.length; at++) data[at] = score[at]! < within && glare[at] === 0 ? 1 : 0;
  const { count, starts, firsts } = connectedRuns({ width, height, data }, 8);
  // Of each component at its first run.
  const zeros = () => new Float64Array(count);
  const [pixels, outlined, xs, ys, perimeter] = [zeros(), zeros(), zeros(), zeros(), zeros()];
  const deepest = new Float64Array(count).fill(Infinity);
  for (let run = 0; run < count; run++) {
    const [from, to, spot] = [starts[run]!, starts[run + 1]!, firsts[run]!];
    if (data[from] === 0) continue;
    const y = Math.floor(from / width);
    if (from > y * width) perimeter[spot]!++;
    if (to < (y + 1) * width) perimeter[spot]!++;
    for (let at = from; at < to; at++) {
      if (score[at]! < mixed) outlined[spot]!++;
      if (score[at]! < SPOT) {
        pixels[spot]!++;
        xs[spot]! += at - y * width + 0.5;
        ys[spot]! += y + 0.5;
      }
      deepest[spot] = Math.min(deepest[spot]!, score[at]!);
      if (y > 0 && data[at - width] === 0) perimeter[spot]!++;
      if (y < height - 1 && data[at + width] === 0) perimeter[spot]!++;
    }
  }
  const smallestPx = (Math.PI / 8) * Math.max(SMALLEST_MM * pxPerMm, SMALLEST_PX) ** 2;
  const spots: Spot[] = [];
  let perimeterPx = 0;
  let dropped = 0;
  for (let spot = 0; spot < count; spot++) {
    if (firsts[spot] !== spot || data[starts[spot]!] === 0) continue;
    if (pixels[spot]! < smallestPx || deepest[spot]! > DEEPEST_MAX) {
      dropped += pixels[spot]!;
      continue;
    }
    perimeterPx += perimeter[spot]!;
    const kind = deepest[spot]! <= mixed ? 'bare' : 'thin';
    const areaMm2 = (kind === 'bare' ? outlined : pixels)[spot]! / pxPerMm ** 2;
    spots.push({
      xMm: xs[spot]! / pixels[spot]! / pxPerMm,
      yMm: ys[spot]! / pixels[spot]! / pxPerMm,
      diameterMm: Math.sqrt((4 * areaMm2) / Math.PI),
      areaMm2,
      kind,
    });
  }
  return { spots: spots.sort((a, b) => b.areaMm2 - a.areaMm2), perimeterPx, droppedShare: dropped / (width * height) };
}
