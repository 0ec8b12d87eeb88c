import type { CoveragePoints } from '#lib/vision/points.ts';
import { type Coverage, type CoverageFault, measureCoverage } from '#lib/vision/coverage.ts';
import { type LengthFault, type Length, measureOn, type Segment } from '#lib/vision/length.ts';
import { overlayOf } from '#lib/vision/overlay.ts';
import type { Quad, Raster } from '#lib/vision/raster.ts';
import { type Plane, planeOf, type Reference, type ReferenceFault } from '#lib/vision/reference.ts';
import type { Part } from '#lib/vision/rectify.ts';
import { inRegister, type PhotoOfPlane, straightPart } from '#lib/vision/register.ts';
import type { Marked } from '#lib/vision/surface.ts';
import { measureTransfer, type Transfer, type TransferFault, type TransferPoints } from '#lib/vision/transfer.ts';
import { fail, ok, type Result } from '../result.ts';
import { serve } from './bridge.ts';
import { decodeWhole } from './decode.ts';

/** What can be asked of the one photo that the worker holds. A photo is opened first; its pixels never leave the worker. */
export type PhotoQuestion =
  | { readonly do: 'open'; readonly photo: Blob }
  | { readonly do: 'look'; readonly x: number; readonly y: number; readonly width: number; readonly height: number }
  | { readonly do: 'reference'; readonly reference: Reference }
  | { readonly do: 'length'; readonly segment: Segment }
  | { readonly do: 'coverage'; readonly points: CoveragePoints }
  | { readonly do: 'transfer'; readonly points: TransferPoints }
  | { readonly do: 'register'; readonly marked: Marked }
  | { readonly do: 'part'; readonly of: PhotoOfPlane; readonly part: Part };

export interface OpenedPhoto {
  readonly width: number;
  readonly height: number;
  readonly copy: ImageBitmap;
}
/** The reference as found: its outer corners in the picture, and the scale at its middle. */
export interface FoundReference {
  readonly corners: Quad;
  readonly mmPerPx: number;
}
export type FoundCoverage = Omit<Coverage, 'map'> & { readonly overlay: ImageBitmap | null };

/** The answer to each question. */
export interface PhotoAnswers {
  open: OpenedPhoto | null;
  look: ImageBitmap;
  reference: Result<FoundReference, ReferenceFault>;
  length: Result<Extract<Length, { lengthMm: number }>, LengthFault>;
  coverage: Result<FoundCoverage, CoverageFault>;
  transfer: Result<Transfer, TransferFault>;
  register: ImageBitmap | null;
  part: ImageBitmap | null;
}

/** Long side of the copy on the screen, in pixels. */
const COPY_PX = 1200;

let raster: Raster | null = null;
let plane: Plane | null = null;

serve<PhotoQuestion, PhotoAnswers[PhotoQuestion['do']]>(async (question, step) => {
  if (question.do === 'open') {
    step('reading');
    [raster, plane] = [null, null];
    const decoded = await decodeWhole(question.photo, COPY_PX);
    raster = decoded?.raster ?? null;
    return decoded === null ? null : { width: decoded.raster.width, height: decoded.raster.height, copy: decoded.copy };
  }
  if (raster === null) throw new Error('no photo is open');
  step(question.do === 'reference' ? 'looking' : 'measuring');
  return answer(raster, question);
});

async function answer(picture: Raster, question: Exclude<PhotoQuestion, { do: 'open' }>): Promise<PhotoAnswers[PhotoQuestion['do']]> {
  switch (question.do) {
    case 'look':
      return bitmapOf(cut(picture, question));
    case 'reference': {
      const found = planeOf(picture, question.reference);
      plane = found.ok ? found.value : null;
      return found.ok ? ok({ corners: found.value.corners, mmPerPx: measureOn(picture, found.value, []).mmPerPx }) : found;
    }
    case 'length': {
      if (plane === null) throw new Error('no reference is found');
      const length = measureOn(picture, plane, [question.segment]).segments[0]!;
      return 'refused' in length ? fail(length.refused) : ok(length);
    }
    case 'coverage': {
      const found = measureCoverage(picture, question.points);
      if (!found.ok) return found;
      const { map, ...said } = found.value;
      const overlay = overlayOf({ map }, question.points, picture, Math.min(1, COPY_PX / Math.max(picture.width, picture.height)));
      return ok({ ...said, overlay: overlay === null ? null : await bitmapOf(overlay) });
    }
    case 'transfer':
      return measureTransfer(picture, question.points);
    case 'register': {
      const straight = inRegister(picture, question.marked);
      return straight === null ? null : bitmapOf(straight);
    }
    case 'part': {
      const straight = straightPart(picture, question.of, question.part);
      return straight === null ? null : bitmapOf(straight);
    }
  }
}

/** A part of the picture at its full size; grey where it reaches beyond. */
function cut({ width, height, rgba }: Raster, part: { x: number; y: number; width: number; height: number }): Raster {
  const piece = new Uint8ClampedArray(4 * part.width * part.height).fill(128);
  const left = Math.max(0, -part.x);
  const right = Math.min(part.width, width - part.x);
  for (let row = 0; row < part.height; row++) {
    const y = part.y + row;
    if (y < 0 || y >= height || right <= left) continue;
    const from = 4 * (y * width + part.x + left);
    piece.set(rgba.subarray(from, from + 4 * (right - left)), 4 * (row * part.width + left));
  }
  return { width: part.width, height: part.height, rgba: piece };
}

function bitmapOf({ width, height, rgba }: Raster): Promise<ImageBitmap> {
  return createImageBitmap(new ImageData(new Uint8ClampedArray(rgba), width, height));
}
