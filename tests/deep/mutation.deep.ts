import { globSync } from 'node:fs';
import { Stryker } from '@stryker-mutator/core';
import { ROOT } from '../../src/cli/ready.mjs';

export const inputs = [
  'src/lib/trade',
  'src/lib/measure',
  'tests/unit/trade',
  'tests/unit/measure',
  'tests/vectors/trade',
  'tests/deep/mutation.deep.ts',
  'tests/deep/mutation.all.ts',
  'tests/deep/mutation.vitest.ts',
  'tests/property/runs.ts',
  'tests/property/trade-b.test.ts',
  'tests/property/trade-core.test.ts',
  'tests/property/units.test.ts',
];

/** Killed in each file, of a hundred mutants; what the compiler or a hang catches counts as killed. */
const LEAST_PCT = 85;
const KILLED = new Set(['Killed', 'Timeout']);
const SURVIVED = new Set(['Survived', 'NoCoverage']);

/**
 * Changes `trade` and `measure` in every small way and sees whether a test notices. Prints each change that none noticed, and throws
 * where a file has too many of them. Takes about a second for each change. The planner's own folders are tried by other means
 * (brute force, a solver, a checker of its own).
 */
export async function run(): Promise<Record<string, string>> {
  const scores: { file: string; killed: number; of: number }[] = [];
  for (const file of globSync('src/lib/{trade,measure}/*.ts', { cwd: ROOT }).sort()) {
    const mutants = await mutantsOf(file.replaceAll('\\', '/'));
    const killed = mutants.filter(({ status }) => KILLED.has(status)).length;
    const survivors = mutants.filter(({ status }) => SURVIVED.has(status));
    for (const { location, replacement, status } of survivors) console.log(`${file}:${location.start.line} ${status}: ${replacement}`);
    console.log(`${file}: ${killed} of ${killed + survivors.length}`);
    if (killed + survivors.length > 0) scores.push({ file, killed, of: killed + survivors.length });
  }
  const weak = scores.filter(({ killed, of }) => killed * 100 < LEAST_PCT * of);
  if (weak.length > 0)
    throw new Error(`under ${LEAST_PCT} %: ${weak.map(({ file, killed, of }) => `${file} ${killed} of ${of}`).join(', ')}`);
  return Object.fromEntries(scores.map(({ file, killed, of }) => [file, `${killed} of ${of}`]));
}

/** One file at a time, so that what was found shows as it is found. */
function mutantsOf(file: string) {
  const stryker = new Stryker({
    mutate: [file],
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
  return stryker.runMutationTest();
}
