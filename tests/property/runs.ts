import fc from 'fast-check';

/** How often a property is tried: fewer where each of a thousand changes runs them all (`npm run deep -- mutation`). */
export const tries = (runs: number): number => Math.min(runs, Number(process.env.PROPERTY_RUNS ?? runs));

/** Text of any code points at all. The library's own arbitrary for it first lists all million of them, which costs seconds. */
export const anyText = (maxLength = 10): fc.Arbitrary<string> =>
  fc.array(fc.nat(0x10ffff), { maxLength }).map((points) => String.fromCodePoint(...points));
