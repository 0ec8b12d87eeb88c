import { labelComponents } from './components.ts';

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
  const { labels, count } = labelComponents({ width, height, data }, 8);
  const zeros = () => new Float64Array(count + 1);
  const [pixels, outlined, xs, ys, perimeter] = [zeros(), zeros(), zeros(), zeros(), zeros()];
  const deepest = new Float64Array(count + 1).fill(Infinity);
  for (let y = 0, at = 0; y < height; y++) {
    for (let x = 0; x < width; x++, at++) {
      const label = labels[at]!;
      if (label === 0) continue;
      if (score[at]! < mixed) outlined[label]!++;
      if (score[at]! < SPOT) {
        pixels[label]!++;
        xs[label]! += x + 0.5;
        ys[label]! += y + 0.5;
      }
      deepest[label] = Math.min(deepest[label]!, score[at]!);
      if (x > 0 && labels[at - 1] !== label) perimeter[label]!++;
      if (x < width - 1 && labels[at + 1] !== label) perimeter[label]!++;
      if (y > 0 && labels[at - width] !== label) perimeter[label]!++;
      if (y < height - 1 && labels[at + width] !== label) perimeter[label]!++;
    }
  }
  const smallestPx = (Math.PI / 8) * Math.max(SMALLEST_MM * pxPerMm, SMALLEST_PX) ** 2;
  const spots: Spot[] = [];
  let perimeterPx = 0;
  let dropped = 0;
  for (let label = 1; label <= count; label++) {
    if (pixels[label]! < smallestPx || deepest[label]! > DEEPEST_MAX) {
      dropped += pixels[label]!;
      continue;
    }
    perimeterPx += perimeter[label]!;
    const kind = deepest[label]! <= mixed ? 'bare' : 'thin';
    const areaMm2 = (kind === 'bare' ? outlined : pixels)[label]! / pxPerMm ** 2;
    spots.push({
      xMm: xs[label]! / pixels[label]! / pxPerMm,
      yMm: ys[label]! / pixels[label]! / pxPerMm,
      diameterMm: Math.sqrt((4 * areaMm2) / Math.PI),
      areaMm2,
      kind,
    });
  }
  return { spots: spots.sort((a, b) => b.areaMm2 - a.areaMm2), perimeterPx, droppedShare: dropped / (width * height) };
}
