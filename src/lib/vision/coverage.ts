import { fail, ok, type Result } from '../result.ts';
import { invert } from './_linear.ts';
import { localMean } from './_local-mean.ts';
import { boxMean } from './box.ts';
import { deltaE2000, labOf } from './colour.ts';
import { type Features, featureOf, featuresOf } from './features.ts';
import { area } from './find-card.ts';

import { fitHomography, type Homography, invertHomography, project } from './homography.ts';
import type { CoveragePoints } from './points.ts';
import { pxPerMmAt, type Rectified, rectify } from './rectify.ts';
import { labelComponents, type Mask } from './components.ts';
import type { Point, Quad, Raster } from './raster.ts';
import { type Spot, spotsOf } from './spots.ts';

export type CoverageFault =
  'not-a-rectangle' | 'outside-picture' | 'area-too-small' | 'no-film' | 'no-bare' | 'taught-mixed' | 'low-contrast' | 'glare';

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
/** Coarser than this a coat is not judged. */
const PX_PER_MM_MIN = 1.2;
/** Radius of a taught place of film, and of a bare one, which may lie within a holiday. */
const FILM_RADIUS_MM = 3;
const BARE_RADIUS_MM = 1;
/** Spread of brightness by uneven light and of colour by the lamp, beside what the taught places show: at first, and once light is followed. */
const SPREADS = [0.35, 0.2, 0.12] as const;
const COLOUR_SPREAD = 0.03;
/** How far around the film's own colour is followed, in mm. */
const FOLLOW_MM = [40, 25] as const;
/** Separation below which film and bare are not told apart. */
const SEPARATION_MIN = 8;
const COLOUR_DIFFERENCE_MIN = 3;
/** Share of clipped pixels in a box of 8 mm that makes glare of it, and how much brighter than film it is then (logarithm). */
const GLARE_DENSITY = 0.004;
const GLARE_BRIGHTER = 0.2;
/** Reach of the veil around glare, the score below which film is veiled, and the score that no veil makes of film. */
const VEIL_MM = 2;
const VEIL_SCORE = 0.75;
const BARE_IN_VEIL = 0.2;
const UNKNOWN_MAX = 0.5;
/** Standard deviation of a side of the marked area in pixels, from corners tapped to 2 px. */
const SIDE_SD_PX = 1.5;

/** Film and bare as taught: means of features and of light, and the mean covariance within a place. */
interface Taught {
  readonly film: Colour;
  readonly bare: Colour;
  readonly covariance: readonly (readonly number[])[];
}

interface Colour {
  readonly feature: readonly [number, number, number];
  readonly light: readonly [number, number, number];
  readonly covariance: readonly (readonly number[])[];
}

/**
 * Share of a marked area that a coat covers, and where it does not, from colours that a person taught by taps. It tells covered from
 * bare by colour and says nothing about thickness.
 */
export function measureCoverage(picture: Raster, points: CoveragePoints): Result<Coverage, CoverageFault> {
  const { quad, widthMm, heightMm } = points;
  if (points.film.length === 0) return fail('no-film');
  if (points.bare.length === 0) return fail('no-bare');
  const onSurface: Quad = [
    [0, 0],
    [widthMm, 0],
    [widthMm, heightMm],
    [0, heightMm],
  ];
  const toPicture = convex(quad) ? fitHomography(onSurface, quad) : null;
  if (toPicture === null) return fail('not-a-rectangle');
  const within = ([x, y]: Point) => x >= 0 && y >= 0 && x <= picture.width && y <= picture.height;
  if (![...quad, ...points.film, ...points.bare].every(within)) return fail('outside-picture');
  const photoPxPerMm = pxPerMmAt(toPicture, [widthMm / 2, heightMm / 2]);
  const pxPerMm = Math.min(PX_PER_MM_MAX, photoPxPerMm, Math.sqrt(PIXELS_MAX / (widthMm * heightMm)));
  if (photoPxPerMm < PX_PER_MM_MIN || area(quad) < 10_000) return fail('area-too-small');
  const samples = Math.min(4, Math.max(1, Math.ceil(photoPxPerMm / pxPerMm - 0.2)));
  const reach = Math.max(1, Math.round(0.35 * pxPerMm - 0.5));
  const see = (xMm: number, yMm: number, w: number, h: number) =>
    rectify(picture, toPicture, { xMm, yMm, widthMm: w, heightMm: h }, pxPerMm, samples);

  const taught = teach(points, toPicture, pxPerMm, reach, see);
  if (taught === null) return fail('taught-mixed');
  const colourDifference = differenceInEqualLight(taught);
  const separation = separationOf(taught, SPREADS[2]);
  if (separation < SEPARATION_MIN || colourDifference < COLOUR_DIFFERENCE_MIN) return fail('low-contrast');

  const surface = see(0, 0, widthMm, heightMm);
  const features = featuresOf(surface, reach);
  const scored = scoreSurface(surface, features, taught);
  const glare = glareOf(surface, features, scored.local);
  const mixed = mixThreshold(taught);
  veil(scored.score, glare, surface, mixed);
  const unknownShare = share(glare, 1);
  if (unknownShare > UNKNOWN_MAX) return fail('glare');

  const { width, height } = surface;
  const uncoveredAt = (threshold: number) => countBelow(scored.score, glare, threshold) / (width * height);
  const mmPerPx = 1 / photoPxPerMm;
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

type See = (xMm: number, yMm: number, w: number, h: number) => Rectified;

function teach(points: CoveragePoints, toPicture: Homography, pxPerMm: number, reach: number, see: See): Taught | null {
  const toSurface = invertHomography(toPicture);
  const learn = (taps: readonly Point[], radiusMm: number) => {
    const margin = radiusMm + (2 * reach + 2) / pxPerMm;
    return taps.map((tap) => {
      const [x, y] = project(toSurface, tap);
      return colourOf(see(x - margin, y - margin, 2 * margin, 2 * margin), reach, radiusMm * pxPerMm);
    });
  };
  const film = meanColour(learn(points.film, FILM_RADIUS_MM));
  const bare = meanColour(learn(points.bare, BARE_RADIUS_MM));
  const covariance = film.covariance.map((row, i) => row.map((value, j) => (value + bare.covariance[i]![j]!) / 2));
  return [...film.feature, ...bare.feature].every(Number.isFinite) ? { film, bare, covariance } : null;
}

/** Mean and covariance of a disc in the middle of a small piece of surface; the fifth of it that lies farthest off is left out. */
function colourOf(piece: Rectified, reach: number, radiusPx: number): Colour {
  const { planes } = featuresOf(piece, reach);
  const inDisc: { feature: [number, number, number]; at: number }[] = [];
  for (let y = 0, at = 0; y < piece.height; y++) {
    for (let x = 0; x < piece.width; x++, at++) {
      if (Math.hypot(x + 0.5 - piece.width / 2, y + 0.5 - piece.height / 2) > Math.max(1.5, radiusPx)) continue;
      inDisc.push({ feature: [planes[0][at]!, planes[1][at]!, planes[2][at]!], at });
    }
  }
  const middle = [0, 1, 2].map((i) => inDisc.map(({ feature }) => feature[i]!).sort((a, b) => a - b)[inDisc.length >> 1]!);
  const off = (feature: readonly number[]) => Math.hypot(...feature.map((value, i) => value - middle[i]!));
  const kept = inDisc.sort((a, b) => off(a.feature) - off(b.feature)).slice(0, Math.ceil(0.8 * inDisc.length));
  const mean = (of: (each: (typeof kept)[number]) => number) => kept.reduce((sum, each) => sum + of(each), 0) / kept.length;
  const feature = [0, 1, 2].map((i) => mean((each) => each.feature[i]!)) as [number, number, number];
  const light = [piece.red, piece.green, piece.blue].map((plane) => mean(({ at }) => plane[at]!)) as [number, number, number];
  const covariance = [0, 1, 2].map((i) =>
    [0, 1, 2].map((j) => mean((each) => (each.feature[i]! - feature[i]!) * (each.feature[j]! - feature[j]!))),
  );
  return { feature, light, covariance };
}

function meanColour(colours: readonly Colour[]): Colour {
  const mean = (of: (colour: Colour) => number) => colours.reduce((sum, colour) => sum + of(colour), 0) / colours.length;
  const triple = (of: (colour: Colour, i: number) => number) =>
    [0, 1, 2].map((i) => mean((colour) => of(colour, i))) as [number, number, number];
  return {
    feature: triple(({ feature }, i) => feature[i]!),
    light: triple(({ light }, i) => light[i]!),
    covariance: [0, 1, 2].map((i) => [0, 1, 2].map((j) => mean(({ covariance }) => covariance[i]![j]!))),
  };
}

/** Weights of the three features in the score: they make the difference of film and bare largest against their spread. */
function weightsFor({ film, bare, covariance }: Taught, spread: number): { weights: number[]; separation: number } {
  const difference = bare.feature.map((value, i) => value - film.feature[i]!);
  const noise = [spread ** 2, COLOUR_SPREAD ** 2, COLOUR_SPREAD ** 2];
  const inverse = invert(covariance.map((row, i) => row.map((value, j) => value + (i === j ? noise[i]! : 0))));
  const raw = inverse!.map((row) => row.reduce((sum, value, j) => sum + value * difference[j]!, 0));
  const square = raw.reduce((sum, value, i) => sum + value * difference[i]!, 0);
  return { weights: raw.map((value) => value / square), separation: Math.sqrt(Math.max(0, square)) };
}

function separationOf(taught: Taught, spread: number): number {
  return weightsFor(taught, spread).separation;
}

/** 1 is film, 0 is bare; and the film's own feature around each place, which follows light and shadow. */
function scoreSurface(surface: Rectified, features: Features, taught: Taught): { score: Float32Array; local: readonly Float32Array[] } {
  const { planes } = features;
  const size = planes[0].length;
  const score = new Float32Array(size);
  let local: readonly Float32Array[] = taught.film.feature.map((value) => new Float32Array(size).fill(value));
  for (const [round, spread] of SPREADS.entries()) {
    const [w0, w1, w2] = weightsFor(taught, spread).weights as [number, number, number];
    const [c0, c1, c2] = local as [Float32Array, Float32Array, Float32Array];
    for (let at = 0; at < size; at++) {
      score[at] = 1 - w0 * (planes[0][at]! - c0[at]!) - w1 * (planes[1][at]! - c1[at]!) - w2 * (planes[2][at]! - c2[at]!);
    }
    const follow = FOLLOW_MM[round];
    if (follow === undefined) break;
    const film = new Uint8Array(size);
    for (let at = 0; at < size; at++) film[at] = score[at]! > 0.7 && score[at]! < 1.6 && surface.clipped[at] === 0 ? 1 : 0;
    local = localMean(features, film, taught.film.feature, follow, surface.pxPerMm);
  }
  return { score, local };
}

/** Score of a pixel that is half film and half bare, which is mixed in light while the score is made of logarithms. */
function mixThreshold(taught: Taught): number {
  const { film, bare } = taught;
  const [r, g, b] = film.light.map((value, i) => (value + bare.light[i]!) / 2) as [number, number, number];
  const { weights } = weightsFor(taught, SPREADS[2]);
  const mixed = 1 - featureOf(r, g, b).reduce((sum, value, i) => sum + weights[i]! * (value - film.feature[i]!), 0);
  return Math.min(0.75, Math.max(0.25, mixed));
}

function differenceInEqualLight({ film, bare }: Taught): number {
  const brightness = ([r, g, b]: readonly [number, number, number]) => 0.2126 * r + 0.7152 * g + 0.0722 * b;
  const level = 0.3 / Math.max(1e-6, (brightness(film.light) + brightness(bare.light)) / 2);
  const lab = ([r, g, b]: readonly [number, number, number]) => labOf(r * level, g * level, b * level);
  return deltaE2000(lab(film.light), lab(bare.light));
}

function glareOf(surface: Rectified, features: Features, local: readonly Float32Array[]): Uint8Array {
  const { clipped, width, height, pxPerMm } = surface;
  const glare = new Uint8Array(width * height);
  if (!clipped.includes(1)) return glare;
  const reach = Math.max(1, Math.round(4 * pxPerMm));
  const everywhere = Float32Array.from(clipped);
  const density = boxMean(boxMean(everywhere, width, height, reach), width, height, reach);
  for (let at = 0; at < glare.length; at++) {
    const brighter = features.planes[0][at]! - local[0]![at]! > GLARE_BRIGHTER;
    if (clipped[at] === 1 || (density[at]! > GLARE_DENSITY && brighter)) glare[at] = 1;
  }
  return glare;
}

/** Around glare a film is veiled: a patch that touches it and nowhere looks bare is unknown too. */
function veil(score: Float32Array, glare: Uint8Array, { width, height, pxPerMm }: Rectified, mixed: number): void {
  if (!glare.includes(1)) return;
  const near = boxMean(Float32Array.from(glare), width, height, Math.max(1, Math.round(VEIL_MM * pxPerMm)));
  const pale = Uint8Array.from(score, (value, at) => (value < VEIL_SCORE && glare[at] === 0 ? 1 : 0));
  const { labels, count } = labelComponents({ width, height, data: pale }, 8);
  const [touches, bare] = [new Uint8Array(count + 1), new Uint8Array(count + 1)];
  for (let at = 0; at < score.length; at++) {
    if (near[at]! > 0) touches[labels[at]!] = 1;
    if (score[at]! <= Math.min(mixed, BARE_IN_VEIL)) bare[labels[at]!] = 1;
  }
  for (let at = 0; at < score.length; at++) {
    const label = labels[at]!;
    if (label > 0 && touches[label] === 1 && bare[label] === 0) glare[at] = 1;
  }
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

function convex(quad: Quad): boolean {
  const turns = quad.map((corner, i) => {
    const [b, c] = [quad[(i + 1) % 4]!, quad[(i + 2) % 4]!];
    return (b[0] - corner[0]) * (c[1] - b[1]) - (b[1] - corner[1]) * (c[0] - b[0]);
  });
  return turns.every((turn) => turn > 0) || turns.every((turn) => turn < 0);
}
