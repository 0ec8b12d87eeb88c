import { lightAt, type Point, type Raster, type Tone } from './raster.ts';

/** A step in light found across a profile. */
export interface Step {
  readonly point: Point;
  /** Distance along the profile from its middle, in pixels; positive in the profile's direction. */
  readonly offset: number;
  /** Light gained in the profile's direction, negative when it grows darker. */
  readonly rise: number;
  /** Standard deviation of the step's gradient in pixels: how blurred it is. */
  readonly blur: number;
}

/** Distance of the samples of a profile, in pixels. */
const SPACING = 0.5;
/** Samples beside the profile that are averaged into it, in pixels along the edge. */
const BESIDE = [-1.5, -0.5, 0.5, 1.5];
/** Part of a gradient peak's height that is left out, so that noise beside it does not pull at its centroid. */
const FLOOR = 0.2;
/** A step of less light than this is noise. */
const RISE_MIN = 0.01;

/**
 * The steps across an edge: light is read along a line through `middle` in the unit direction `along`, `reach` pixels to both sides,
 * and each peak of its gradient is a step at its centroid. In order of strength, strongest first. `toneAt`: what is read instead of light.
 */
export function stepsAcross(picture: Raster, middle: Point, along: Point, reach: number, toneAt: Tone = lightAt): Step[] {
  const half = Math.ceil(reach / SPACING);
  const light: number[] = [];
  for (let i = -half - 1; i <= half + 1; i++) {
    const [x, y] = [middle[0] + along[0] * i * SPACING, middle[1] + along[1] * i * SPACING];
    let sum = 0;
    for (const side of BESIDE) sum += toneAt(picture, x - along[1] * side, y + along[0] * side);
    light.push(sum / BESIDE.length);
  }
  const slope = Array.from({ length: 2 * half + 1 }, (_, i) => (light[i + 2]! - light[i]!) / 2);
  return [1, -1].flatMap((sign) => peaksOf(slope, sign, half, middle, along)).sort((a, b) => Math.abs(b.rise) - Math.abs(a.rise));
}

/** Peaks of one sign: stretches above the floor of their own highest value. */
function peaksOf(slope: readonly number[], sign: number, half: number, middle: Point, along: Point): Step[] {
  const left = slope.map((value) => Math.max(0, sign * value));
  const steps: Step[] = [];
  for (;;) {
    const top = left.reduce((best, value, at) => (value > left[best]! ? at : best), 0);
    const floor = FLOOR * left[top]!;
    let [from, to] = [top, top];
    while (from > 0 && left[from - 1]! > floor) from--;
    while (to < left.length - 1 && left[to + 1]! > floor) to++;
    let [mass, first, second] = [0, 0, 0];
    for (let at = from; at <= to; at++) {
      const weight = left[at]! - floor;
      mass += weight;
      first += weight * at;
      second += weight * at * at;
    }
    const rise = left.slice(from, to + 1).reduce((sum, value) => sum + value, 0);
    if (!(rise > RISE_MIN) || steps.length === 4) return steps;
    const centre = first / mass;
    const offset = (centre - half) * SPACING;
    // A peak that runs out of the profile has no centroid.
    if (from > 0 && to < left.length - 1) {
      const blur = Math.sqrt(Math.max(0, second / mass - centre * centre)) * SPACING;
      steps.push({ point: [middle[0] + along[0] * offset, middle[1] + along[1] * offset], offset, rise: sign * rise, blur });
    }
    left.fill(0, from, to + 1);
  }
}
