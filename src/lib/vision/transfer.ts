import { fail, ok, type Result } from '../result.ts';
import { boxMean } from './box.ts';
import { featureOf, type Features, featuresOf } from './features.ts';
import { invertHomography, project } from './homography.ts';
import { otsu } from './otsu.ts';
import type { Point, Raster } from './raster.ts';
import { type Rectified, rectify } from './rectify.ts';
import { type Marked, mapOf, photoPxPerMm, samplesFor } from './surface.ts';

export interface TransferPoints extends Marked {
  /** A place with mortar on it, and one of bare sheet. */
  readonly mortar: Point;
  readonly sheet: Point;
}

export interface Transfer {
  /** Share of the sheet with mortar on it, 0 to 1, and the ends of its interval. It tells contact when the sheet was lifted, no more. */
  readonly share: number;
  readonly low: number;
  readonly high: number;
  /** The square of 100 mm with least mortar: its share, and its first corner on the sheet. Null on a part smaller than one. */
  readonly worst: { readonly share: number; readonly xMm: number; readonly yMm: number } | null;
  /** How clearly mortar and sheet part (Otsu), 0 to 1. */
  readonly effectiveness: number;
  readonly mmPerPx: number;
}

export type TransferFault = 'not-a-rectangle' | 'area-too-small' | 'no-pattern';

const PX_PER_MM = 2;
const PIXELS_MAX = 2e6;
const PX_PER_MM_MIN = 1.2;
/** How far around the light is followed, and the weight of brightness, which shadows move, beside the two colours. */
const FLATTEN_MM = 40;
const BRIGHTNESS_WEIGHT = 0.5;
/** Below this mortar and sheet make no two groups; a single bell gives 0.64. */
const EFFECTIVENESS_MIN = 0.72;
/** The interval: shares at thresholds this far to each side, as a part of the range without its two thousandths at either end. */
const THRESHOLD_OFF = 0.07;
/** How far the outline between mortar and sheet may lie off, in pixels. */
const OUTLINE_PX = 0.3;
/** The interval is never narrower than this to either side. */
const HALF_MIN = 0.01;
const BINS = 256;
const CELL_MM = 100;

/** Share of a lifted sheet's face that mortar covers: two groups along the main axis of colour once slow changes of light are taken out. */
export function measureTransfer(picture: Raster, points: TransferPoints): Result<Transfer, TransferFault> {
  const { widthMm, heightMm } = points;
  const toPicture = mapOf(points);
  if (toPicture === null) return fail('not-a-rectangle');
  const finest = photoPxPerMm(toPicture, points);
  const pxPerMm = Math.min(PX_PER_MM, Math.sqrt(PIXELS_MAX / (widthMm * heightMm)));
  if (finest < PX_PER_MM_MIN || Math.min(widthMm, heightMm) < 20) return fail('area-too-small');
  const surface = rectify(picture, toPicture, { xMm: 0, yMm: 0, widthMm, heightMm }, pxPerMm, samplesFor(finest, pxPerMm));
  const axis = mainAxis(flattened(featuresOf(surface, 1), pxPerMm));

  const sorted = Float32Array.from(axis).sort();
  const quantile = (share: number) => sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))]!;
  const [least, most] = [quantile(0.002), quantile(0.998)];
  const counts = new Uint32Array(BINS);
  const range = Math.max(most - least, 1e-9);
  for (const value of axis) counts[Math.min(BINS - 1, Math.max(0, Math.floor(((value - least) / range) * BINS)))]!++;
  const { threshold, effectiveness } = otsu(counts);
  if (effectiveness < EFFECTIVENESS_MIN) return fail('no-pattern');
  const level = mixedLevel(axis, surface, least + ((threshold + 1) / BINS) * range);
  const toSheet = invertHomography(toPicture);
  const around = (tap: Point) => {
    const [x, y] = project(toSheet, tap).map((mm) => Math.round(mm * pxPerMm)) as [number, number];
    return meanAround(axis, surface, x, y, Math.round(pxPerMm));
  };
  const above = around(points.mortar) > around(points.sheet);
  const shareAt = (at: number) => {
    let count = 0;
    for (const value of axis) if (value > at === above) count++;
    return count / axis.length;
  };
  const isMortar = Float32Array.from(axis, (value) => (value > level === above ? 1 : 0));
  const share = shareAt(level);
  const ends = [shareAt(level - THRESHOLD_OFF * range), shareAt(level + THRESHOLD_OFF * range)];
  const outline = Math.max(HALF_MIN, OUTLINE_PX * outlineShare(isMortar, surface));
  return ok({
    share,
    low: Math.max(0, Math.min(...ends, share - outline)),
    high: Math.min(1, Math.max(...ends, share + outline)),
    worst: worstCell(isMortar, surface, pxPerMm),
    effectiveness,
    mmPerPx: 1 / finest,
  });
}

/**
 * Where along the axis a pixel lies that is half mortar, half sheet. Light mixes, the axis is made of logarithms, so that this is not
 * the middle. From the mean light of the two groups that `split` makes.
 */
function mixedLevel(axis: Float32Array, { red, green, blue }: Rectified, split: number): number {
  const groups = [0, 1].map(() => ({ count: 0, value: 0, light: [0, 0, 0] as [number, number, number] }));
  for (let at = 0; at < axis.length; at++) {
    const group = groups[axis[at]! > split ? 1 : 0]!;
    group.count++;
    group.value += axis[at]!;
    group.light[0] += red[at]!;
    group.light[1] += green[at]!;
    group.light[2] += blue[at]!;
  }
  const [lower, upper] = groups.map(({ count, value, light }) => ({
    value: value / count,
    light: light.map((sum) => sum / count) as [number, number, number],
  })) as [{ value: number; light: [number, number, number] }, { value: number; light: [number, number, number] }];
  const weighted = (light: readonly [number, number, number]) =>
    featureOf(...light).map((value, i) => (i === 0 ? BRIGHTNESS_WEIGHT : 1) * value);
  const [a, b] = [weighted(lower.light), weighted(upper.light)];
  const mixed = weighted([0, 1, 2].map((i) => (lower.light[i]! + upper.light[i]!) / 2) as [number, number, number]);
  const way = b.map((value, i) => value - a[i]!);
  const length2 = way.reduce((sum, value) => sum + value * value, 0);
  const share = length2 > 0 ? mixed.reduce((sum, value, i) => sum + (value - a[i]!) * way[i]!, 0) / length2 : 0.5;
  return lower.value + Math.min(0.75, Math.max(0.25, share)) * (upper.value - lower.value);
}

/** Sides of pixels between mortar and sheet, as a share of all pixels. */
function outlineShare(mask: Float32Array, { width, height }: Rectified): number {
  let sides = 0;
  for (let y = 0, at = 0; y < height; y++) {
    for (let x = 0; x < width; x++, at++) {
      if (x > 0 && mask[at] !== mask[at - 1]) sides++;
      if (y > 0 && mask[at] !== mask[at - width]) sides++;
    }
  }
  return sides / mask.length;
}

/** Features less their own mean far around, the brightness counting half. */
function flattened({ width, height, planes }: Features, pxPerMm: number): Float32Array[] {
  const reach = Math.round(FLATTEN_MM * pxPerMm);
  return planes.map((plane, feature) => {
    const mean = boxMean(boxMean(plane, width, height, reach), width, height, reach);
    const weight = feature === 0 ? BRIGHTNESS_WEIGHT : 1;
    return plane.map((value, at) => weight * (value - mean[at]!));
  });
}

/** Each pixel along the direction in which the three planes differ most (first principal component, by power iteration). */
function mainAxis(planes: readonly Float32Array[]): Float32Array {
  const size = planes[0]!.length;
  const mean = planes.map((plane) => plane.reduce((sum, value) => sum + value, 0) / size);
  const covariance = planes.map((a, i) =>
    planes.map((b, j) => {
      let sum = 0;
      for (let at = 0; at < size; at++) sum += (a[at]! - mean[i]!) * (b[at]! - mean[j]!);
      return sum / size;
    }),
  );
  let axis = [1, 0.9, 0.8];
  for (let step = 0; step < 60; step++) {
    const next = covariance.map((row) => row.reduce((sum, value, j) => sum + value * axis[j]!, 0));
    const length = Math.hypot(...next) || 1;
    axis = next.map((value) => value / length);
  }
  return planes[0]!.map((_, at) => planes.reduce((sum, plane, i) => sum + axis[i]! * (plane[at]! - mean[i]!), 0));
}

function meanAround(
  plane: Float32Array,
  { width, height }: { width: number; height: number },
  x: number,
  y: number,
  reach: number,
): number {
  let [sum, count] = [0, 0];
  for (let row = Math.max(0, y - reach); row <= Math.min(height - 1, y + reach); row++) {
    for (let column = Math.max(0, x - reach); column <= Math.min(width - 1, x + reach); column++) {
      sum += plane[row * width + column]!;
      count++;
    }
  }
  return sum / count;
}

/** The square of a tenth of a metre with least in it, of all that lie within the part. */
function worstCell(isMortar: Float32Array, { width, height }: { width: number; height: number }, pxPerMm: number): Transfer['worst'] {
  const side = Math.round(CELL_MM * pxPerMm);
  if (side > width || side > height) return null;
  const reach = Math.floor((side - 1) / 2);
  const means = boxMean(isMortar, width, height, reach);
  let worst = { share: Infinity, x: 0, y: 0 };
  for (let y = reach; y < height - reach; y++) {
    for (let x = reach; x < width - reach; x++) {
      const share = means[y * width + x]!;
      if (share < worst.share) worst = { share, x: x - reach, y: y - reach };
    }
  }
  return { share: Math.max(0, worst.share), xMm: worst.x / pxPerMm, yMm: worst.y / pxPerMm };
}
