import { localMean, type LocalMean } from './_local-mean.ts';
import type { Features } from './features.ts';
import { type Homography, project } from './homography.ts';
import type { Point } from './raster.ts';
import type { Rectified } from './rectify.ts';
import { type Taught, weightsFor } from './taught.ts';

/** Spread of brightness by uneven light, beside what the taught places show: at first, and as light is followed more closely. */
export const SPREADS = [0.35, 0.2, 0.12] as const;
/** How far around the film's own colour is followed, in mm. */
const FOLLOW_MM = [40, 25] as const;
/** Score below which a place is bare ground for sure. */
const GROUND = 0.3;

export interface Scored {
  /** 1 is film, 0 is bare. */
  readonly score: Float32Array;
  /** The film's own feature around each place, which follows light and shadow. */
  readonly film: LocalMean;
}

/** Tells film from bare all over a surface by what was taught, more closely each round. */
export function scoreSurface(surface: Rectified, features: Features, taught: Taught): Scored {
  const { planes } = features;
  const size = planes[0].length;
  const score = new Float32Array(size);
  let film: LocalMean = { planes: taught.film.feature.map((value) => new Float32Array(size).fill(value)), near: null };
  for (const [round, spread] of SPREADS.entries()) {
    const [w0, w1, w2] = weightsFor(taught, spread).weights as [number, number, number];
    const [c0, c1, c2] = film.planes as [Float32Array, Float32Array, Float32Array];
    for (let at = 0; at < size; at++) {
      score[at] = 1 - w0 * (planes[0][at]! - c0[at]!) - w1 * (planes[1][at]! - c1[at]!) - w2 * (planes[2][at]! - c2[at]!);
    }
    const follow = FOLLOW_MM[round];
    if (follow === undefined) break;
    const isFilm = new Uint8Array(size);
    for (let at = 0; at < size; at++) isFilm[at] = score[at]! > 0.7 && score[at]! < 1.6 && surface.clipped[at] === 0 ? 1 : 0;
    film = localMean(features, isFilm, taught.film.feature, follow, surface.pxPerMm);
  }
  return { score, film };
}

/**
 * How bright film is around each place, or would be in the light there (logarithm). Amid bare ground with no film near the ground itself
 * tells: film far off lies in other light.
 */
export function filmLight(surface: Rectified, { width, height, planes }: Features, { score, film }: Scored, bareBrighter: number) {
  const [light] = film.planes as [Float32Array];
  const { near } = film;
  if (near === null) return light;
  const isBare = new Uint8Array(score.length);
  for (let at = 0; at < score.length; at++) isBare[at] = isGround(score, surface, at) ? 1 : 0;
  const bare = localMean({ width, height, planes: [planes[0]] }, isBare, [NaN], FOLLOW_MM[1], surface.pxPerMm).planes[0]!;
  return light.map((value, at) => (near[at] === 1 || Number.isNaN(bare[at]!) ? value : bare[at]! - bareBrighter));
}

/**
 * By how much the bare ground is brighter than film in the same light (logarithm, at least 0): as the bare places show that have film near
 * them, or that are near to such a place of the area; where none has, as the ground near film does.
 */
export function bareOverFilm(
  bare: readonly Point[],
  toSurface: Homography,
  surface: Rectified,
  { planes }: Features,
  scored: Scored,
  taught: Taught,
) {
  const { width, height, pxPerMm } = surface;
  const { score, film } = scored;
  const [light] = film.planes as [Float32Array];
  const isNear = (at: number) => film.near === null || film.near[at] === 1;
  const within = (mm: number, most: number) => Math.min(most - 1, Math.max(0, Math.floor(mm * pxPerMm)));
  const places = bare.map((tap) => {
    const [x, y] = project(toSurface, tap);
    return within(y, height) * width + within(x, width);
  });
  const taps = places.flatMap((at, i) => (isNear(at) ? [taught.bareBright[i]! - light[at]!] : []));
  if (taps.length > 0) return Math.max(0, taps.reduce((sum, each) => sum + each, 0) / taps.length);
  let [sum, count] = [0, 0];
  for (let at = 0; at < score.length; at++) {
    if (!isNear(at) || !isGround(score, surface, at)) continue;
    sum += planes[0][at]! - light[at]!;
    count++;
  }
  return Math.max(0, count > 0 ? sum / count : taught.bare.feature[0] - taught.film.feature[0]);
}

function isGround(score: Float32Array, { clipped }: Rectified, at: number): boolean {
  return score[at]! < GROUND && clipped[at] === 0;
}
