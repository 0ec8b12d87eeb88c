import sharp from 'sharp';
import { fail, ok, type Result } from '#lib/result.ts';
import type { Raster } from '#lib/vision/raster.ts';

/** A header may claim more pixels than there is memory for; four bytes each are held at once. */
export const MEGAPIXELS_MAX = 120;

/** Upright, in sRGB, four bytes a pixel. A photo that ends too early is not measured: what is missing would read as grey. */
export async function decode(photo: Blob): Promise<Result<Raster, 'not-an-image' | 'too-many-pixels'>> {
  const bytes = new Uint8Array(await photo.arrayBuffer());
  try {
    const { width, height } = await sharp(bytes, { limitInputPixels: false }).metadata();
    if (width * height > MEGAPIXELS_MAX * 1e6) return fail('too-many-pixels');
    if (width < 2 || height < 2) return fail('not-an-image');
    const { data, info } = await sharp(bytes, { failOn: 'truncated' })
      .autoOrient()
      .toColourspace('srgb')
      .ensureAlpha()
      .raw()
      .toBuffer({ resolveWithObject: true });
    return ok({ width: info.width, height: info.height, rgba: data });
  } catch {
    return fail('not-an-image');
  }
}
