import { boxMean } from './box.ts';
import { connectedRuns } from './components.ts';
import type { Features } from './features.ts';
import type { Rectified } from './rectify.ts';

/** Share of clipped pixels in a box of 8 mm that makes glare of it, and how much brighter than film it is then (logarithm). */
const GLARE_DENSITY = 0.004;
const GLARE_BRIGHTER = 0.2;
/** Brighter than the substrate by this (logarithm) is a reflection too, where the photo was dark enough to hold it. */
const SHINE_BRIGHTER = 0.5;
/** Reach of the veil around glare, the score below which film is veiled, and the score that no veil makes of film. */
const VEIL_MM = 2;
const VEIL_SCORE = 0.75;
const BARE_IN_VEIL = 0.2;

/**
 * 1 where the surface shines: pixels at the limit of the photo, and those near them or far brighter than any substrate that are brighter
 * than film is there (`filmLight`). `bareBrighter` is by how much the substrate is brighter than the film (logarithm, at least 0).
 */
export function glareOf(surface: Rectified, features: Features, filmLight: Float32Array, bareBrighter: number): Uint8Array {
  const { clipped, width, height, pxPerMm } = surface;
  const glare = new Uint8Array(width * height);
  const reach = Math.max(1, Math.round(4 * pxPerMm));
  const density = boxMean(boxMean(Float32Array.from(clipped), width, height, reach), width, height, reach);
  for (let at = 0; at < glare.length; at++) {
    const brighter = features.planes[0][at]! - filmLight[at]!;
    const shines = brighter > bareBrighter + SHINE_BRIGHTER || (density[at]! > GLARE_DENSITY && brighter > GLARE_BRIGHTER);
    if (clipped[at] === 1 || shines) glare[at] = 1;
  }
  return glare;
}

/** Around glare a film is veiled: a patch that touches it and nowhere looks bare is unknown too. */
export function veil(score: Float32Array, glare: Uint8Array, { width, height, pxPerMm }: Rectified, mixed: number): void {
  if (!glare.includes(1)) return;
  const near = boxMean(Float32Array.from(glare), width, height, Math.max(1, Math.round(VEIL_MM * pxPerMm)));
  const pale = Uint8Array.from(score, (value, at) => (value < VEIL_SCORE && glare[at] === 0 ? 1 : 0));
  const { count, starts, firsts } = connectedRuns({ width, height, data: pale }, 8);
  const [touches, bare] = [new Uint8Array(count), new Uint8Array(count)];
  for (let run = 0; run < count; run++) {
    for (let at = starts[run]!; at < starts[run + 1]!; at++) {
      if (near[at]! > 0) touches[firsts[run]!] = 1;
      if (score[at]! <= Math.min(mixed, BARE_IN_VEIL)) bare[firsts[run]!] = 1;
    }
  }
  for (let run = 0; run < count; run++) {
    const [from, patch] = [starts[run]!, firsts[run]!];
    if (pale[from] === 1 && touches[patch] === 1 && bare[patch] === 0) glare.fill(1, from, starts[run + 1]);
  }
}
