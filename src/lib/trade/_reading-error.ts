/** Coverage factor of every expanded uncertainty of the flood test: about 95 % (JCGM 100:2008, 6.3.3). */
export const COVERAGE = 2;

/** Standard uncertainty of one reading on a scale of steps `stepMm`: rectangular over one step (JCGM 100:2008, F.2.2.1). */
export function stepUncertaintyMm(stepMm: number): number {
  return stepMm / Math.sqrt(12);
}

/** Standard uncertainty of something that may lie anywhere within `halfWidthMm` either way (JCGM 100:2008, 4.3.7). */
export function boundsUncertaintyMm(halfWidthMm: number): number {
  return halfWidthMm / Math.sqrt(3);
}
