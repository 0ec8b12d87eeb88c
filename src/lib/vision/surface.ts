import { fitHomography, type Homography } from './homography.ts';
import { isConvex } from './polygon.ts';
import type { Quad } from './raster.ts';
import { pxPerMmAt } from './rectify.ts';

/** A rectangle on a surface, marked by its corners in a photo, in order around; `widthMm` is its first side. */
export interface Marked {
  readonly quad: Quad;
  readonly widthMm: number;
  readonly heightMm: number;
}

/** From millimetres on the rectangle, from its first corner, to pixels. Null when the corners make no quadrilateral. */
export function mapOf({ quad, widthMm, heightMm }: Marked): Homography | null {
  if (!isConvex(quad)) return null;
  const corners: Quad = [
    [0, 0],
    [widthMm, 0],
    [widthMm, heightMm],
    [0, heightMm],
  ];
  return fitHomography(corners, quad);
}

/** Resolution of the photo in the middle of the rectangle. */
export function photoPxPerMm(map: Homography, { widthMm, heightMm }: Marked): number {
  return pxPerMmAt(map, [widthMm / 2, heightMm / 2]);
}

/** Places to read in each direction of a resampled pixel, so that a finer photo is averaged and not skipped. */
export function samplesFor(photo: number, resampled: number): number {
  return Math.min(4, Math.max(1, Math.ceil(photo / resampled - 0.2)));
}
