import { isTooLargeToShow, sniff } from '#lib/record/media.ts';
import type { Raster } from '#lib/vision/raster.ts';

/** The frame header stands within this, after tags, a colour profile and an embedded preview. */
const HEADER_BYTES = 1_000_000;
/** Rows copied at a time, so that beside bitmap and pixels no third copy of the picture is held. */
const STRIP_ROWS = 256;

/** A picture upright, at its full size; null when this browser cannot decode it, or should not. The caller closes it. */
export async function decode(picture: Blob): Promise<ImageBitmap | null> {
  const media = sniff(new Uint8Array(await picture.slice(0, HEADER_BYTES).arrayBuffer()));
  if (media === null || isTooLargeToShow(media)) return null;
  return createImageBitmap(picture, { imageOrientation: 'from-image' }).catch(() => null);
}

/** A picture decoded whole, upright and in sRGB, and a smaller copy to look at. */
export interface Decoded {
  readonly raster: Raster;
  readonly copy: ImageBitmap;
}

/**
 * Decodes a picture at its full size, and a copy with its long side at most `copyPx`; null when this browser cannot decode it, or should not.
 * Worker scope only.
 */
export async function decodeWhole(picture: Blob, copyPx: number): Promise<Decoded | null> {
  const bitmap = await decode(picture);
  if (bitmap === null) return null;
  const { width, height } = bitmap;
  try {
    const scale = Math.min(1, copyPx / Math.max(width, height));
    const size = { resizeWidth: Math.max(1, Math.round(width * scale)), resizeHeight: Math.max(1, Math.round(height * scale)) };
    const copy = await createImageBitmap(bitmap, { ...size, resizeQuality: 'high' });
    return { raster: { width, height, rgba: pixelsOf(bitmap) }, copy };
  } finally {
    bitmap.close();
  }
}

function pixelsOf(bitmap: ImageBitmap): Uint8ClampedArray {
  const { width, height } = bitmap;
  const rgba = new Uint8ClampedArray(4 * width * height);
  const canvas = new OffscreenCanvas(width, Math.min(STRIP_ROWS, height));
  const context = canvas.getContext('2d', { willReadFrequently: true })!;
  for (let top = 0; top < height; top += STRIP_ROWS) {
    const rows = Math.min(STRIP_ROWS, height - top);
    context.drawImage(bitmap, 0, top, width, rows, 0, 0, width, rows);
    rgba.set(context.getImageData(0, 0, width, rows).data, 4 * top * width);
  }
  canvas.width = 0;
  canvas.height = 0;
  return rgba;
}
