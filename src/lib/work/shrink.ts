import { decode } from './decode.ts';

/** A picture made smaller, upright and without tags. */
export interface Shrunk {
  readonly jpeg: Blob;
  readonly width: number;
  readonly height: number;
  readonly quality: number;
}

/**
 * Decodes a picture (orientation tag applied) and encodes it as JPEG with its long side at most `longSidePx`, at the first of `qualities`
 * (0 to 1, falling) that gives at most `mostBytes`, else at the last; null when this browser cannot decode it, or should not.
 * Worker scope only: one picture at a time, and the bitmap and canvas are given back at once, since phones count them.
 */
export async function shrink(
  picture: Blob,
  longSidePx: number,
  qualities: readonly [number, ...number[]],
  mostBytes = Infinity,
): Promise<Shrunk | null> {
  const bitmap = await decode(picture);
  if (bitmap === null) return null;
  const scale = Math.min(1, longSidePx / Math.max(bitmap.width, bitmap.height));
  const width = Math.max(1, Math.round(bitmap.width * scale));
  const height = Math.max(1, Math.round(bitmap.height * scale));
  const canvas = new OffscreenCanvas(width, height);
  const context = canvas.getContext('2d');
  if (context === null) return null;
  context.imageSmoothingQuality = 'high';
  context.drawImage(bitmap, 0, 0, width, height);
  bitmap.close();
  const [first, ...lower] = qualities;
  let quality = first;
  let jpeg = await canvas.convertToBlob({ type: 'image/jpeg', quality });
  for (quality of jpeg.size > mostBytes ? lower : []) {
    jpeg = await canvas.convertToBlob({ type: 'image/jpeg', quality });
    if (jpeg.size <= mostBytes) break;
  }
  canvas.width = 0;
  canvas.height = 0;
  return { jpeg, width, height, quality };
}
