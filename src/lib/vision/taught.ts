import { invert, type Matrix } from './_linear.ts';
import { deltaE2000, labOf } from './colour.ts';
import { featureOf, featuresOf } from './features.ts';
import { type Homography, invertHomography, project } from './homography.ts';
import type { CoveragePoints } from './points.ts';
import type { Point } from './raster.ts';
import type { Rectified } from './rectify.ts';

/** Radius of a taught place of film, and of a bare one, which may lie within a holiday. */
const FILM_RADIUS_MM = 3;
const BARE_RADIUS_MM = 1;
/** Spread of colour by the lamp, beside what the taught places show. */
const COLOUR_SPREAD = 0.03;
/** Share of clipped pixels from which on a taught place teaches nothing. */
const CLIPPED_TAUGHT_MAX = 0.2;

/** Film and bare as taught: means of features and of light, and the mean covariance within a place. */
export interface Taught {
  readonly film: Colour;
  readonly bare: Colour;
  readonly covariance: Matrix;
  /** How bright each bare place is (logarithm). */
  readonly bareBright: readonly number[];
}

interface Colour {
  readonly feature: readonly [number, number, number];
  readonly light: readonly [number, number, number];
  readonly covariance: Matrix;
  /** Of its pixels those that say nothing about how bright they were. */
  readonly clippedShare: number;
}

type See = (xMm: number, yMm: number, w: number, h: number) => Rectified;

/**
 * Learns film and bare from taps, each seen straight on by `see` (part of the surface in mm) and smoothed by `reach`. Null when a place
 * shines so much that it teaches nothing.
 */
export function teach(points: CoveragePoints, toPicture: Homography, pxPerMm: number, reach: number, see: See): Taught | null {
  const toSurface = invertHomography(toPicture);
  const learn = (taps: readonly Point[], radiusMm: number) => {
    const margin = radiusMm + (2 * reach + 2) / pxPerMm;
    return taps.map((tap) => {
      const [x, y] = project(toSurface, tap);
      return colourOf(see(x - margin, y - margin, 2 * margin, 2 * margin), reach, radiusMm * pxPerMm);
    });
  };
  const film = meanColour(learn(points.film, FILM_RADIUS_MM));
  const bares = learn(points.bare, BARE_RADIUS_MM);
  const bare = meanColour(bares);
  const covariance = film.covariance.map((row, i) => row.map((value, j) => (value + bare.covariance[i]![j]!) / 2));
  return Math.max(film.clippedShare, bare.clippedShare) > CLIPPED_TAUGHT_MAX
    ? null
    : { film, bare, covariance, bareBright: bares.map(({ feature }) => feature[0]) };
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
  return { feature, light, covariance, clippedShare: inDisc.filter(({ at }) => piece.clipped[at] === 1).length / inDisc.length };
}

function meanColour(colours: readonly Colour[]): Colour {
  const mean = (of: (colour: Colour) => number) => colours.reduce((sum, colour) => sum + of(colour), 0) / colours.length;
  const triple = (of: (colour: Colour, i: number) => number) =>
    [0, 1, 2].map((i) => mean((colour) => of(colour, i))) as [number, number, number];
  return {
    feature: triple(({ feature }, i) => feature[i]!),
    light: triple(({ light }, i) => light[i]!),
    covariance: [0, 1, 2].map((i) => [0, 1, 2].map((j) => mean(({ covariance }) => covariance[i]![j]!))),
    clippedShare: Math.max(...colours.map(({ clippedShare }) => clippedShare)),
  };
}

/** Weights of the three features in the score: they make the difference of film and bare largest against their spread. */
export function weightsFor({ film, bare, covariance }: Taught, spread: number): { weights: number[]; separation: number } {
  const difference = bare.feature.map((value, i) => value - film.feature[i]!);
  const noise = [spread ** 2, COLOUR_SPREAD ** 2, COLOUR_SPREAD ** 2];
  const inverse = invert(covariance.map((row, i) => row.map((value, j) => value + (i === j ? noise[i]! : 0))));
  const raw = inverse!.map((row) => row.reduce((sum, value, j) => sum + value * difference[j]!, 0));
  const square = raw.reduce((sum, value, i) => sum + value * difference[i]!, 0);
  return { weights: raw.map((value) => value / square), separation: Math.sqrt(Math.max(0, square)) };
}

/** How far film and bare lie apart, in standard deviations. */
export function separationOf(taught: Taught, spread: number): number {
  return weightsFor(taught, spread).separation;
}

/** Score of a pixel that is half film and half bare, which is mixed in light while the score is made of logarithms. */
export function mixThreshold(taught: Taught, spread: number): number {
  const { film, bare } = taught;
  const [r, g, b] = film.light.map((value, i) => (value + bare.light[i]!) / 2) as [number, number, number];
  const { weights } = weightsFor(taught, spread);
  const mixed = 1 - featureOf(r, g, b).reduce((sum, value, i) => sum + weights[i]! * (value - film.feature[i]!), 0);
  return Math.min(0.75, Math.max(0.25, mixed));
}

/** CIEDE2000 of the two colours as they would look in the same light. */
export function differenceInEqualLight({ film, bare }: Taught): number {
  const brightness = ([r, g, b]: readonly [number, number, number]) => 0.2126 * r + 0.7152 * g + 0.0722 * b;
  const level = 0.3 / Math.max(1e-6, (brightness(film.light) + brightness(bare.light)) / 2);
  const lab = ([r, g, b]: readonly [number, number, number]) => labOf(r * level, g * level, b * level);
  return deltaE2000(lab(film.light), lab(bare.light));
}
