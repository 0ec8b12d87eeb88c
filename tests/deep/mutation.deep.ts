import { fileURLToPath } from 'node:url';
import { Stryker } from '@stryker-mutator/core';

export const inputs = [
  'src/lib/trade',
  'src/lib/measure',
  'tests/unit/trade',
  'tests/unit/measure',
  'tests/vectors/trade',
  'tests/deep/mutation.deep.ts',
  'tests/deep/mutation.vitest.ts',
];

/** Killed in each file, of a hundred mutants; what the compiler or a hang catches counts as killed. */
const LEAST_PCT = 85;
const KILLED = new Set(['Killed', 'Timeout']);
const SURVIVED = new Set(['Survived', 'NoCoverage']);

/**
 * Changes `trade` and `measure` in every small way and sees whether a test notices. Prints each change that none noticed, and throws
 * where a file has too many of them. Takes about a second for each change.
 */
export async function run(): Promise<Record<string, string>> {
  const stryker = new Stryker({
    mutate: ['src/lib/{trade,measure}/**/*.ts'],
    testRunner: 'vitest',
    plugins: ['@stryker-mutator/vitest-runner'],
    vitest: { configFile: 'tests/deep/mutation.vitest.ts', related: false },
    coverageAnalysis: 'perTest',
    concurrency: 1,
    timeoutMS: 4_000,
    reporters: [],
    tempDirName: 'tests/.out/mutation',
    // The framework's tsconfig is not found from the copy, and nothing there needs it.
    ignorePatterns: ['static', 'build', 'docs', 'tsconfig.json', '.svelte-kit'],
  });
  const mutants = await stryker.runMutationTest();
  const root = fileURLToPath(new URL('../..', import.meta.url));
  const files = Map.groupBy(mutants, ({ fileName }) => fileName.replace(root, '').replaceAll('\\', '/'));
  const scores = [...files].sort().map(([file, all]) => {
    const killed = all.filter(({ status }) => KILLED.has(status)).length;
    const survivors = all.filter(({ status }) => SURVIVED.has(status));
    for (const { location, replacement, status } of survivors) console.log(`${file}:${location.start.line} ${status}: ${replacement}`);
    return { file, killed, of: killed + survivors.length };
  });
  const weak = scores.filter(({ killed, of }) => killed * 100 < LEAST_PCT * of);
  if (weak.length > 0)
    throw new Error(`under ${LEAST_PCT} %: ${weak.map(({ file, killed, of }) => `${file} ${killed} of ${of}`).join(', ')}`);
  return Object.fromEntries(scores.map(({ file, killed, of }) => [file, `${killed} of ${of}`]));
}
