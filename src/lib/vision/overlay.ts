import { invertHomography, project } from './homography.ts';
import type { Coverage } from './coverage.ts';
import type { Raster } from './raster.ts';
import { type Marked, mapOf } from './surface.ts';

/** Colours of what is not covered, and of what cannot be judged, with their opacity; the latter in stripes of this many pixels. */
const BARE = [124, 29, 51, 200] as const;
const UNKNOWN = [47, 69, 96, 220] as const;
const STRIPE_PX = 4;

/**
 * What a coverage found, to be laid over a copy of the photo that is `scale` times its size: transparent where the film covers, hatched where it
 * shines too much. Null when the corners make no quadrilateral.
 */
export function overlayOf(
  { map }: Pick<Coverage, 'map'>,
  marked: Marked,
  picture: { readonly width: number; readonly height: number },
  scale: number,
): Raster | null {
  const toPicture = mapOf(marked);
  if (toPicture === null) return null;
  const toArea = invertHomography(toPicture);
  const [width, height] = [Math.round(picture.width * scale), Math.round(picture.height * scale)];
  const rgba = new Uint8ClampedArray(4 * width * height);
  const [left, right] = range(
    marked.quad.map(([x]) => x * scale),
    width,
  );
  const [top, bottom] = range(
    marked.quad.map(([, y]) => y * scale),
    height,
  );
  for (let y = top; y < bottom; y++) {
    for (let x = left; x < right; x++) {
      const [xMm, yMm] = project(toArea, [(x + 0.5) / scale, (y + 0.5) / scale]);
      const [column, row] = [Math.floor(xMm * map.pxPerMm), Math.floor(yMm * map.pxPerMm)];
      if (column < 0 || row < 0 || column >= map.width || row >= map.height) continue;
      const what = map.data[row * map.width + column];
      if (what === 1) rgba.set(BARE, 4 * (y * width + x));
      else if (what === 2 && (x + y) % (2 * STRIPE_PX) < STRIPE_PX) rgba.set(UNKNOWN, 4 * (y * width + x));
    }
  }
  return { width, height, rgba };
}

function range(values: readonly number[], most: number): [number, number] {
  return [Math.max(0, Math.floor(Math.min(...values))), Math.min(most, Math.ceil(Math.max(...values)))];
}
