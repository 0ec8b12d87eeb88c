import sharp from 'sharp';
import type { Raster } from '#lib/vision/raster.ts';
import { type Camera, lookThrough } from './camera.ts';

/** What is at a place that a ray meets: fills `light` with red, green and blue as they leave it, 0 to 1. `footMm` is a pixel's size there. */
export type Scene = (from: readonly number[], ray: Float64Array, light: Float64Array) => void;

export interface Film {
  /** Standard deviation of the blur of lens and focus, in pixels. */
  readonly blurPx: number;
  /** Full well: electrons at white. Fewer give more noise. */
  readonly electrons: number;
  /** Light lost in the corners, 0 to 1. */
  readonly vignette: number;
  /** Gain of red, green and blue: the cast of the lamp that the camera did not balance. */
  readonly cast: readonly [number, number, number];
  readonly exposure: number;
  readonly quality: number;
}

/** Standard normal numbers from uniform ones (Box and Muller, 1958). */
export function normal(chance: () => number): number {
  return Math.sqrt(-2 * Math.log(1 - chance())) * Math.cos(2 * Math.PI * chance());
}

/** Takes the photo: rays, blur in light, noise, the curve of sRGB, JPEG. */
export async function photograph(
  camera: Camera,
  scene: Scene,
  film: Film,
  chance: () => number,
): Promise<{ jpeg: Buffer; raster: Raster }> {
  const { width, height } = camera;
  const planes = [0, 1, 2].map(() => new Float32Array(width * height));
  const [ray, light] = [new Float64Array(3), new Float64Array(3)];
  const [red, green, blue] = planes as [Float32Array, Float32Array, Float32Array];
  const corner = (width * width + height * height) / 4;
  const look = lookThrough(camera);
  const [gainRed, gainGreen, gainBlue] = film.cast;
  for (let y = 0, at = 0; y < height; y++) {
    for (let x = 0; x < width; x++, at++) {
      look(x + 0.5, y + 0.5, ray);
      scene(camera.at, ray, light);
      const off = (x + 0.5 - width / 2) ** 2 + (y + 0.5 - height / 2) ** 2;
      const gain = film.exposure * (1 - (film.vignette * off) / corner);
      red[at] = light[0]! * gain * gainRed;
      green[at] = light[1]! * gain * gainGreen;
      blue[at] = light[2]! * gain * gainBlue;
    }
  }
  for (const plane of planes) blur(plane, width, height, film.blurPx);
  const curve = Uint8Array.from({ length: 4097 }, (_, i) => coded(i / 4096));
  const normals = Float32Array.from({ length: 1 << 16 }, () => normal(chance));
  const rgb = new Uint8Array(3 * width * height);
  const perElectron = 1 / film.electrons;
  let next = 0;
  for (let at = 0; at < width * height; at++) {
    if ((at & 1023) === 0) next = Math.floor(chance() * normals.length);
    for (let channel = 0; channel < 3; channel++) {
      const value = (channel === 0 ? red : channel === 1 ? green : blue)[at]!;
      const noise = normals[next++ & 65535]! * Math.sqrt((value > 0 ? value : 0) * perElectron + 1e-6);
      const noisy = value + noise;
      rgb[3 * at + channel] = curve[noisy <= 0 ? 0 : noisy >= 1 ? 4096 : (4096 * noisy + 0.5) | 0]!;
    }
  }
  const jpeg = await sharp(rgb, { raw: { width, height, channels: 3 } })
    .jpeg({ quality: film.quality, chromaSubsampling: '4:2:0' })
    .toBuffer();
  return { jpeg, raster: await decode(jpeg) };
}

export async function decode(file: Buffer): Promise<Raster> {
  const { data, info } = await sharp(file).autoOrient().toColourspace('srgb').ensureAlpha().raw().toBuffer({ resolveWithObject: true });
  return { width: info.width, height: info.height, rgba: data };
}

/** Blurs by a bell of that standard deviation; under a third of a pixel nothing. */
function blur(plane: Float32Array, width: number, height: number, sd: number): void {
  if (sd < 0.33) return;
  const reach = Math.ceil(3 * sd);
  const bell = Array.from({ length: 2 * reach + 1 }, (_, i) => Math.exp(-((i - reach) ** 2) / (2 * sd * sd)));
  const sum = bell.reduce((total, weight) => total + weight);
  const weights = bell.map((weight) => weight / sum);
  const before = Float32Array.from(plane);
  for (let y = 0; y < height; y++) {
    const to = y * width;
    plane.fill(0, to, to + width);
    for (let i = 0; i < weights.length; i++) {
      const from = Math.min(Math.max(y + i - reach, 0), height - 1) * width;
      const weight = weights[i]!;
      for (let x = 0; x < width; x++) plane[to + x]! += weight * before[from + x]!;
    }
  }
  const line = new Float32Array(width + 2 * reach);
  for (let y = 0; y < height; y++) {
    const row = plane.subarray(y * width, (y + 1) * width);
    line.set(row, reach);
    line.fill(row[0]!, 0, reach);
    line.fill(row[width - 1]!, width + reach);
    for (let x = 0; x < width; x++) {
      let mixed = 0;
      for (let i = 0; i < weights.length; i++) mixed += weights[i]! * line[x + i]!;
      row[x] = mixed;
    }
  }
}

function coded(light: number): number {
  return Math.round(255 * (light <= 0.0031308 ? 12.92 * light : 1.055 * light ** (1 / 2.4) - 0.055));
}

/** Smooth noise on a grid of `cell` mm, -1 to 1, the same for the same place and salt. */
export function grain(x: number, y: number, cell: number, salt: number): number {
  const [u, v] = [x / cell, y / cell];
  const [i, j] = [Math.floor(u), Math.floor(v)];
  const [fx, fy] = [u - i, v - j];
  const upper = lattice(i, j, salt) * (1 - fx) + lattice(i + 1, j, salt) * fx;
  const lower = lattice(i, j + 1, salt) * (1 - fx) + lattice(i + 1, j + 1, salt) * fx;
  return upper * (1 - fy) + lower * fy;
}

function lattice(i: number, j: number, salt: number): number {
  let mixed = Math.imul(i, 0x27d4eb2d) ^ Math.imul(j, 0x165667b1) ^ Math.imul(salt, 0x9e3779b1);
  mixed = Math.imul(mixed ^ (mixed >>> 15), 0x85ebca6b);
  mixed ^= mixed >>> 13;
  return (mixed >>> 0) / 2 ** 31 - 1;
}

/** 1 inside, 0 outside, and between over one pixel: `depth` is the signed distance inside an edge, `foot` a pixel's size, both in mm. */
export function inside(depth: number, foot: number): number {
  const share = depth / foot + 0.5;
  return share < 0 ? 0 : share > 1 ? 1 : share;
}
