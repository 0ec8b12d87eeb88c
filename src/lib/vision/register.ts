import { codeOf, type Raster } from './raster.ts';
import { type Rectified, rectify } from './rectify.ts';
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
