/** Coverage factor of every expanded uncertainty of the book: about 95 % (JCGM 100:2008, 6.3.3). */
export const COVERAGE = 2;

/** Standard uncertainty, in the unit of `step`, of one reading on a scale of such steps: rectangular over one (JCGM 100:2008, F.2.2.1). */
export function stepUncertainty(step: number): number {
  return step / Math.sqrt(12);
}

/** Standard uncertainty, in the same unit, of something that may lie anywhere within `halfWidth` either way (JCGM 100:2008, 4.3.7). */
export function boundsUncertainty(halfWidth: number): number {
  return halfWidth / Math.sqrt(3);
}
