/** How often a property is tried: fewer where each of a thousand changes runs them all (`npm run deep -- mutation`). */
export const tries = (runs: number): number => Math.min(runs, Number(process.env.PROPERTY_RUNS ?? runs));
