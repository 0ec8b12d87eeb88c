import { fail, ok, type Result } from '../result.ts';
import type { Mask } from './components.ts';
import { featuresOf } from './features.ts';
import { glareOf, veil } from './glare.ts';
import { invertHomography } from './homography.ts';
import type { CoveragePoints } from './points.ts';
import { area } from './polygon.ts';
import type { Point, Raster } from './raster.ts';
import { rectify } from './rectify.ts';
import { bareOverFilm, filmLight, scoreSurface, SPREADS } from './score.ts';
import { type Spot, spotsOf } from './spots.ts';
import { mapOf, photoPxPerMm, samplesFor } from './surface.ts';
import { differenceInEqualLight, mixThreshold, separationOf, teach } from './taught.ts';

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
