import { fail, ok, type Result } from '../result.ts';
import { localMean, type LocalMean } from './_local-mean.ts';
import type { Mask } from './components.ts';
import { type Features, featuresOf } from './features.ts';
import { glareOf, veil } from './glare.ts';
import { type Homography, invertHomography, project } from './homography.ts';
import type { CoveragePoints } from './points.ts';
import { area } from './polygon.ts';
import type { Point, Raster } from './raster.ts';
import { type Rectified, rectify } from './rectify.ts';
import { type Spot, spotsOf } from './spots.ts';
import { mapOf, photoPxPerMm, samplesFor } from './surface.ts';
import { differenceInEqualLight, mixThreshold, separationOf, teach, type Taught, weightsFor } from './taught.ts';

export type CoverageFault = 'not-a-rectangle' | 'outside-picture' | 'area-too-small' | 'no-film' | 'no-bare' | 'low-contrast' | 'glare';

export interface Coverage {
  /** Share of the marked area that reads as covered, 0 to 1, and the ends of its 95 % interval. */
  readonly coveredShare: number;
  readonly low: number;
  readonly high: number;
  /** Share that shines too much to be judged. The lower end takes it as uncovered. */
  readonly unknownShare: number;
  readonly mmPerPx: number;
  /** A holiday smaller than this may be missed. */
  readonly smallestFoundMm: number;
  readonly holidays: readonly Spot[];
  /** How far film and bare lie apart, in standard deviations of both, and as CIEDE2000 of the taught colours in equal light. */
  readonly separation: number;
  readonly colourDifference: number;
  /** Pixels of the surface straight on: 1 uncovered, 2 unknown, 0 covered. */
  readonly map: Mask & { readonly pxPerMm: number };
}

/** Finest and largest surface that is looked at, in pixels. */
const PX_PER_MM_MAX = 4;
const PIXELS_MAX = 2e6;
/** A corner may be tapped this far beyond the photo's edge, in pixels. */
const EDGE_PX = 5;
/** Coarser than this a coat is not judged. */
const PX_PER_MM_MIN = 1.2;
/** Spread of brightness by uneven light, beside what the taught places show: at first, and as light is followed more closely. */
const SPREADS = [0.35, 0.2, 0.12] as const;
/** How far around the film's own colour is followed, in mm. */
const FOLLOW_MM = [40, 25] as const;
/** Separation below which film and bare are not told apart. */
const SEPARATION_MIN = 8;
const COLOUR_DIFFERENCE_MIN = 3;
/** Largest share that may be unknown. */
const UNKNOWN_MAX = 0.5;
/** Standard deviation of a side of the marked area in pixels, from corners tapped to 2 px. */
const SIDE_SD_PX = 1.5;

/**
 * Share of a marked area that a coat covers, and where it does not, from colours that a person taught by taps. It tells covered from
 * bare by colour and says nothing about thickness.
 */
export function measureCoverage(picture: Raster, points: CoveragePoints): Result<Coverage, CoverageFault> {
  const { quad, widthMm, heightMm } = points;
  if (points.film.length === 0) return fail('no-film');
  if (points.bare.length === 0) return fail('no-bare');
  const toPicture = mapOf(points);
  if (toPicture === null) return fail('not-a-rectangle');
  const within = ([x, y]: Point) => x >= -EDGE_PX && y >= -EDGE_PX && x <= picture.width + EDGE_PX && y <= picture.height + EDGE_PX;
  if (![...quad, ...points.film, ...points.bare].every(within)) return fail('outside-picture');
  const finest = photoPxPerMm(toPicture, points);
  const pxPerMm = Math.min(PX_PER_MM_MAX, finest, Math.sqrt(PIXELS_MAX / (widthMm * heightMm)));
  if (finest < PX_PER_MM_MIN || area(quad) < 10_000) return fail('area-too-small');
  const samples = samplesFor(finest, pxPerMm);
  const reach = Math.max(1, Math.round(0.35 * pxPerMm - 0.5));
  const see = (xMm: number, yMm: number, w: number, h: number) =>
    rectify(picture, toPicture, { xMm, yMm, widthMm: w, heightMm: h }, pxPerMm, samples);

  const taught = teach(points, toPicture, pxPerMm, reach, see);
  if (taught === null) return fail('glare');
  const colourDifference = differenceInEqualLight(taught);
  const separation = separationOf(taught, SPREADS[2]);
  if (separation < SEPARATION_MIN || colourDifference < COLOUR_DIFFERENCE_MIN) return fail('low-contrast');

  const surface = see(0, 0, widthMm, heightMm);
  const features = featuresOf(surface, reach);
  const scored = scoreSurface(surface, features, taught);
  const bareBrighter = bareOverFilm(points.bare, invertHomography(toPicture), surface, features, scored, taught);
  const glare = glareOf(surface, features, filmLight(surface, features, scored, bareBrighter), bareBrighter);
  const mixed = mixThreshold(taught, SPREADS[2]);
  veil(scored.score, glare, surface, mixed);
  const unknownShare = share(glare, 1);
  if (unknownShare > UNKNOWN_MAX) return fail('glare');

  const { width, height } = surface;
  const uncoveredAt = (threshold: number) => countBelow(scored.score, glare, threshold) / (width * height);
  const mmPerPx = 1 / finest;
  const { spots, perimeterPx, droppedShare } = spotsOf(scored.score, glare, { width, height, pxPerMm }, mixed);

  const uncovered = uncoveredAt(mixed);
  const spread = Math.abs(uncoveredAt(Math.min(0.9, mixed + 0.15)) - uncoveredAt(Math.max(0.1, mixed - 0.15))) / 2;
  const outline = (0.4 * perimeterPx * Math.max(1, pxPerMm * mmPerPx)) / (width * height);
  const sides = sideError(scored.score, glare, mixed, uncovered, surface, SIDE_SD_PX * mmPerPx * pxPerMm);
  const half = Math.max(0.002, 0.04 * Math.min(uncovered, 1 - uncovered), spread, outline, 1.96 * sides);
  const thin = uncoveredAt(0.5);
  const lowest = Math.abs(thin - uncovered) > 0.01 ? Math.max(thin, uncovered) : uncovered;
  const map = new Uint8Array(width * height);
  for (let at = 0; at < map.length; at++) map[at] = glare[at] === 1 ? 2 : scored.score[at]! < mixed ? 1 : 0;
  return ok({
    coveredShare: 1 - uncovered / (1 - unknownShare),
    low: Math.max(0, 1 - lowest - half - unknownShare - droppedShare / 2),
    high: Math.min(1, 1 - uncovered + half),
    unknownShare,
    mmPerPx,
    smallestFoundMm: Math.max(1.5, 8 * mmPerPx),
    holidays: spots,
    separation,
    colourDifference,
    map: { width, height, data: map, pxPerMm },
  });
}

/** 1 is film, 0 is bare; and the film's own feature around each place, which follows light and shadow. */
interface Scored {
  readonly score: Float32Array;
  readonly film: LocalMean;
}

function scoreSurface(surface: Rectified, features: Features, taught: Taught): Scored {
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
function filmLight(surface: Rectified, { width, height, planes }: Features, { score, film }: Scored, bareBrighter: number) {
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
function bareOverFilm(
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
  return score[at]! < 0.3 && clipped[at] === 0;
}

function share(mask: Uint8Array, value: number): number {
  let count = 0;
  for (const each of mask) if (each === value) count++;
  return count / mask.length;
}

function countBelow(score: Float32Array, glare: Uint8Array, threshold: number): number {
  let count = 0;
  for (let at = 0; at < score.length; at++) if (score[at]! < threshold && glare[at] === 0) count++;
  return count;
}

/** Standard deviation of the uncovered share because each side of the marked area may be off by `sdPx`. */
function sideError(
  score: Float32Array,
  glare: Uint8Array,
  threshold: number,
  uncovered: number,
  { width, height }: { width: number; height: number },
  sdPx: number,
): number {
  const sides = [
    { start: 0, step: 1, length: width },
    { start: (height - 1) * width, step: 1, length: width },
    { start: 0, step: width, length: height },
    { start: width - 1, step: width, length: height },
  ];
  const variance = sides.reduce((sum, { start, step, length }) => {
    let bare = 0;
    for (let i = 0; i < length; i++) if (score[start + i * step]! < threshold && glare[start + i * step] === 0) bare++;
    return sum + (((bare - uncovered * length) * sdPx) / (width * height)) ** 2;
  }, 0);
  return Math.sqrt(variance);
}
