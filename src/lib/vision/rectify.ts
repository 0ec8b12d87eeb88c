import { type Homography, project } from './homography.ts';
import { LIGHT_OF, type Raster } from './raster.ts';

/** A piece of a surface seen straight on: three planes of light (0 to 1), and 1 where a channel of the photo was at its limit. */
export interface Rectified {
  readonly width: number;
  readonly height: number;
  readonly pxPerMm: number;
  readonly red: Float32Array;
  readonly green: Float32Array;
  readonly blue: Float32Array;
  readonly clipped: Uint8Array;
}

/** A coded value from which on a channel says nothing about how bright it was. */
const CLIPPED_FROM = 250;

/** A part of the surface, in mm from the origin of `toPicture`. */
export interface Part {
  readonly xMm: number;
  readonly yMm: number;
  readonly widthMm: number;
  readonly heightMm: number;
}

/**
 * Resamples a part of a surface to `pxPerMm`, in light: the mean of `samples` x `samples` places in each pixel, each bilinear between
 * four pixels of the photo. What lies outside the photo is that of its nearest pixel. `toPicture` takes mm to pixels.
 */
export function rectify(picture: Raster, toPicture: Homography, part: Part, pxPerMm: number, samples: number): Rectified {
  const width = Math.max(1, Math.round(part.widthMm * pxPerMm));
  const height = Math.max(1, Math.round(part.heightMm * pxPerMm));
  const [red, green, blue] = [new Float32Array(width * height), new Float32Array(width * height), new Float32Array(width * height)];
  const clipped = new Uint8Array(width * height);
  const { rgba } = picture;
  const light = LIGHT_OF;
  const [m0, m1, m2, m3, m4, m5, m6, m7, m8] = toPicture;
  const [right, bottom, stride] = [picture.width - 1, picture.height - 1, 4 * picture.width];
  const step = 1 / (samples * pxPerMm);
  const share = 1 / (samples * samples);
  for (let row = 0, at = 0; row < height; row++) {
    for (let column = 0; column < width; column++, at++) {
      let r = 0;
      let g = 0;
      let b = 0;
      for (let i = 0; i < samples; i++) {
        const y = part.yMm + (row * samples + i + 0.5) * step;
        for (let j = 0; j < samples; j++) {
          const x = part.xMm + (column * samples + j + 0.5) * step;
          const w = 1 / (m6 * x + m7 * y + m8);
          let u = (m0 * x + m1 * y + m2) * w - 0.5;
          let v = (m3 * x + m4 * y + m5) * w - 0.5;
          // What is no number lies nowhere: the first pixel is read.
          u = u > 0 ? (u < right ? u : right) : 0;
          v = v > 0 ? (v < bottom ? v : bottom) : 0;
          const left = u < right ? u | 0 : right - 1;
          const top = v < bottom ? v | 0 : bottom - 1;
          const fx = u - left;
          const fy = v - top;
          const p = top * stride + 4 * left;
          const q = p + stride;
          const a1 = fx * (1 - fy);
          const a0 = 1 - fy - a1;
          const b1 = fx * fy;
          const b0 = fy - b1;
          const red0 = rgba[p]!;
          const green0 = rgba[p + 1]!;
          const blue0 = rgba[p + 2]!;
          r += light[red0]! * a0 + light[rgba[p + 4]!]! * a1 + light[rgba[q]!]! * b0 + light[rgba[q + 4]!]! * b1;
          g += light[green0]! * a0 + light[rgba[p + 5]!]! * a1 + light[rgba[q + 1]!]! * b0 + light[rgba[q + 5]!]! * b1;
          b += light[blue0]! * a0 + light[rgba[p + 6]!]! * a1 + light[rgba[q + 2]!]! * b0 + light[rgba[q + 6]!]! * b1;
          if (red0 >= CLIPPED_FROM || green0 >= CLIPPED_FROM || blue0 >= CLIPPED_FROM) clipped[at] = 1;
        }
      }
      red[at] = r * share;
      green[at] = g * share;
      blue[at] = b * share;
    }
  }
  return { width, height, pxPerMm, red, green, blue, clipped };
}

/** Pixels of the photo along a millimetre of the surface, at a place of it: the mean of both directions. */
export function pxPerMmAt(toPicture: Homography, [x, y]: readonly [number, number]): number {
  const [here, right, below] = [project(toPicture, [x, y]), project(toPicture, [x + 0.5, y]), project(toPicture, [x, y + 0.5])];
  const cross = (right[0] - here[0]) * (below[1] - here[1]) - (right[1] - here[1]) * (below[0] - here[0]);
  return 2 * Math.sqrt(Math.abs(cross));
}
