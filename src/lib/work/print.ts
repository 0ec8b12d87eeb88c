import { hasher } from '#lib/record/hash.ts';
import { shrink } from './shrink.ts';

/** A picture made for print: kept under its own hash, and named in the record with how it was made. */
export interface Derived {
  readonly of: string;
  readonly sha256: string;
  readonly bytes: number;
  readonly width: number;
  readonly height: number;
  readonly encoder: string;
}
export interface DerivedPicture {
  readonly made: Derived;
  readonly body: Blob;
}

/** Long side of a printed picture, about 150 kB; at most so many bytes that 300 of them still travel by mail. */
const PRINT_PX = 1200;
const QUALITIES = [0.75, 0.62, 0.5, 0.35] as const;
const MOST_BYTES = 185_000;

/** The picture of an original for print, or null when this browser cannot decode it. Worker scope, one at a time. */
export async function printed(of: string, original: Blob): Promise<DerivedPicture | null> {
  const small = await shrink(original, PRINT_PX, QUALITIES, MOST_BYTES);
  if (small === null) return null;
  const { jpeg, width, height, quality } = small;
  const hash = hasher();
  hash.take(new Uint8Array(await jpeg.arrayBuffer()));
  return { made: { of, sha256: hash.done(), bytes: jpeg.size, width, height, encoder: `canvas jpeg ${quality}` }, body: jpeg };
}
