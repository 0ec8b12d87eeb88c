import { fitHomography, project } from './homography.ts';
import { isConvex } from './polygon.ts';
import { codeOf, type Point, type Quad, type Raster } from './raster.ts';
import { type Part, pxPerMmAt, type Rectified, rectify } from './rectify.ts';
import type { Spot } from './spots.ts';
import { type Marked, mapOf, photoPxPerMm, samplesFor } from './surface.ts';

/** Finest of a picture that is only looked at, in pixels a millimetre and in all. */
const PX_PER_MM_MAX = 2;
const PIXELS_MAX = 1e6;

/**
 * One photo of a spot as seen straight on, so that photos of the same four marks lie over each other layer by layer. They agree to about
 * the error of the taps. Null when the corners make no quadrilateral. Colours are the photo's own and are not to be compared.
 */
export function inRegister(picture: Raster, marked: Marked): Raster | null {
  const { widthMm, heightMm } = marked;
  const toPicture = mapOf(marked);
  if (toPicture === null) return null;
  // The size follows from the marks alone, so that all layers have the same.
  const pxPerMm = Math.min(PX_PER_MM_MAX, Math.sqrt(PIXELS_MAX / (widthMm * heightMm)));
  const part = { xMm: 0, yMm: 0, widthMm, heightMm };
  return coded(rectify(picture, toPicture, part, pxPerMm, samplesFor(photoPxPerMm(toPicture, marked), pxPerMm)));
}

/** A photo of a plane: four places of it in mm, y downwards, and the same four in the photo, in order around. */
export interface PhotoOfPlane {
  readonly onPlane: Quad;
  readonly inPhoto: Quad;
}

/**
 * A part of a plane as it would be seen straight on, cut from a photo whose corners are known. Its size follows from the part alone, so that
 * photos of all layers lie over each other and a place stays where it is. What lies outside the photo is clear. Null when either four make no
 * quadrilateral.
 */
export function straightPart(picture: Raster, { onPlane, inPhoto }: PhotoOfPlane, part: Part): Raster | null {
  if (!isConvex(onPlane) || !isConvex(inPhoto)) return null;
  const toPicture = fitHomography(onPlane, inPhoto);
  if (toPicture === null) return null;
  const pxPerMm = Math.min(PX_PER_MM_MAX, Math.sqrt(PIXELS_MAX / (part.widthMm * part.heightMm)));
  const middle: Point = [part.xMm + part.widthMm / 2, part.yMm + part.heightMm / 2];
  const straight = coded(rectify(picture, toPicture, part, pxPerMm, samplesFor(pxPerMmAt(toPicture, middle), pxPerMm)));
  for (let y = 0, at = 3; y < straight.height; y++) {
    for (let x = 0; x < straight.width; x++, at += 4) {
      const [u, v] = project(toPicture, [part.xMm + (x + 0.5) / pxPerMm, part.yMm + (y + 0.5) / pxPerMm]);
      if (!(u >= 0 && v >= 0 && u <= picture.width && v <= picture.height)) straight.rgba[at] = 0;
    }
  }
  return straight;
}

function coded({ width, height, red, green, blue }: Rectified): Raster {
  const rgba = new Uint8ClampedArray(4 * width * height).fill(255);
  for (const [channel, plane] of [red, green, blue].entries()) {
    for (let at = 0; at < plane.length; at++) rgba[4 * at + channel] = codeOf(plane[at]!);
  }
  return { width, height, rgba };
}

/** How two lists of spots on one surface relate: what is gone, what is still there, what is new. */
export interface SpotsCompared {
  readonly gone: readonly Spot[];
  readonly still: readonly { readonly before: Spot; readonly after: Spot }[];
  readonly fresh: readonly Spot[];
}

/** Two spots are one when their middles lie within this, or within this part of the larger one's diameter. */
const SAME_MM = 3;
const SAME_DIAMETERS = 0.8;

/** Compares spots before a repair and after it, nearest pairs first; each spot is in one pair at most. */
export function compareSpots(before: readonly Spot[], after: readonly Spot[]): SpotsCompared {
  const pairs = before.flatMap((a) =>
    after.map((b) => ({
      before: a,
      after: b,
      off: Math.hypot(a.xMm - b.xMm, a.yMm - b.yMm),
      near: Math.max(SAME_MM, SAME_DIAMETERS * Math.max(a.diameterMm, b.diameterMm)),
    })),
  );
  const still: { before: Spot; after: Spot }[] = [];
  for (const pair of pairs.filter(({ off, near }) => off <= near).sort((a, b) => a.off - b.off)) {
    if (still.some((other) => other.before === pair.before || other.after === pair.after)) continue;
    still.push({ before: pair.before, after: pair.after });
  }
  return {
    gone: before.filter((spot) => !still.some((pair) => pair.before === spot)),
    still,
    fresh: after.filter((spot) => !still.some((pair) => pair.after === spot)),
  };
}
