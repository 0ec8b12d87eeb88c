/**
 * A decoded picture: 4 bytes a pixel (red, green, blue, alpha), row by row, upright. Values are coded by the curve of sRGB.
 *
 * Points in a picture are `[x, y]` in pixels; the centre of the first pixel is (0.5, 0.5).
 */
export interface Raster {
  readonly width: number;
  readonly height: number;
  readonly rgba: Uint8Array | Uint8ClampedArray;
}

export type Point = readonly [x: number, y: number];
/** Four corners in order around: top left, top right, bottom right, bottom left. */
export type Quad = readonly [Point, Point, Point, Point];

/** Light (0 to 1) of each coded value 0 to 255: the transfer curve of sRGB (IEC 61966-2-1). */
export const LIGHT_OF: Float32Array = Float32Array.from({ length: 256 }, (_, code) => {
  const v = code / 255;
  return v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4;
});

/** Coded value, 0 to 255, of light: the inverse of the same curve. */
export function codeOf(light: number): number {
  return 255 * (light <= 0.0031308 ? 12.92 * light : 1.055 * light ** (1 / 2.4) - 0.055);
}

/** Coded luma of a pixel, 0 to 255 (weights of ITU-R BT.601 in 256ths). */
function luma(rgba: Raster['rgba'], at: number): number {
  return (77 * rgba[at]! + 150 * rgba[at + 1]! + 29 * rgba[at + 2]!) >> 8;
}

/**
 * Light of the luma at a point, bilinear between the four pixels around it; outside the picture that of the nearest pixel. An edge
 * is looked for in light and not in coded values: coding moves the middle of a blurred edge toward its dark side.
 */
export function lightAt(picture: Raster, x: number, y: number): number {
  return between(picture, x, y, lightOf);
}

/** Light of the red less that of the blue at a point, as above: where one colour meets another as bright. */
export function warmthAt(picture: Raster, x: number, y: number): number {
  return between(picture, x, y, warmthOf);
}

/** One of these two. */
export type Tone = typeof lightAt;

function lightOf(rgba: Raster['rgba'], at: number): number {
  return LIGHT_OF[luma(rgba, at)]!;
}

function warmthOf(rgba: Raster['rgba'], at: number): number {
  return LIGHT_OF[rgba[at]!]! - LIGHT_OF[rgba[at + 2]!]!;
}

function between({ width, height, rgba }: Raster, x: number, y: number, of: typeof lightOf): number {
  const u = Math.min(Math.max(x - 0.5, 0), width - 1);
  const v = Math.min(Math.max(y - 0.5, 0), height - 1);
  const left = Math.min(Math.floor(u), width - 2);
  const top = Math.min(Math.floor(v), height - 2);
  const fx = u - left;
  const fy = v - top;
  const at = 4 * (top * width + left);
  const below = at + 4 * width;
  const upper = of(rgba, at) * (1 - fx) + of(rgba, at + 4) * fx;
  const lower = of(rgba, below) * (1 - fx) + of(rgba, below + 4) * fx;
  return upper * (1 - fy) + lower * fy;
}

/** One byte a pixel. */
export interface Grey {
  readonly width: number;
  readonly height: number;
  readonly data: Uint8Array;
}

/** A smaller grey copy: each pixel is the mean luma of a block of `by` x `by` pixels; what is left over at the edges is dropped. */
export function shrinkToGrey({ width, height, rgba }: Raster, by: number): Grey {
  const small = { width: Math.floor(width / by), height: Math.floor(height / by) };
  const data = new Uint8Array(small.width * small.height);
  const pixels = pixelsOf(rgba);
  for (let row = 0; row < small.height; row++) shrinkRow(pixels, width, by, data, row, small.width);
  return { ...small, data };
}

/** One row of the copy. Of each pixel red and blue go into one sum: every machine that runs this stores the red byte lowest. */
function shrinkRow(pixels: Uint32Array, width: number, by: number, data: Uint8Array, row: number, columns: number): void {
  const all = 256 * by * by;
  for (let column = 0; column < columns; column++) {
    let red = 0;
    let green = 0;
    let blue = 0;
    for (let dy = 0, start = row * by * width + column * by; dy < by; dy++, start += width) {
      let redAndBlue = 0;
      for (let at = start; at < start + by; at++) {
        const pixel = pixels[at]!;
        redAndBlue += pixel & 0xff00ff;
        green += (pixel >>> 8) & 0xff;
      }
      red += redAndBlue & 0xffff;
      blue += redAndBlue >>> 16;
    }
    data[row * columns + column] = (77 * red + 150 * green + 29 * blue) / all;
  }
}

function pixelsOf(rgba: Raster['rgba']): Uint32Array {
  const whole = rgba.byteOffset % 4 === 0 ? rgba : rgba.slice();
  return new Uint32Array(whole.buffer, whole.byteOffset, whole.length / 4);
}

export function distance(a: Point, b: Point): number {
  return Math.hypot(a[0] - b[0], a[1] - b[1]);
}
