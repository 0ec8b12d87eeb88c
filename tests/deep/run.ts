// npm run deep [-- SEED]: the tests too dear for every run. Their figures are committed, and `npm test` says when they are stale.
import { execFileSync } from 'node:child_process';
import { randomInt } from 'node:crypto';
import { globSync, writeFileSync } from 'node:fs';
import { basename } from 'node:path';
import { hashOf, ROOT } from '../../src/cli/ready.mjs';
import { RESULTS } from './stale.mjs';

/** What a `*.deep.ts` exports. It throws when it finds a fault, and names the round in what it throws. */
export interface Deep {
  /** Files and folders, from the root, whose change makes the figures stale. */
  readonly inputs: readonly string[];
  readonly run: (seed: number) => Promise<Readonly<Record<string, number | string>>>;
}

const seed = process.argv[2] === undefined ? randomInt(2 ** 31) : Number(process.argv[2]);
if (!Number.isSafeInteger(seed)) throw new RangeError(`seed: expected a whole number, got ${process.argv[2]}`);
const commit = execFileSync('git', ['describe', '--always', '--dirty', '--abbrev=12'], { cwd: ROOT, encoding: 'utf8' }).trim();

const results: Record<string, object> = {};
for (const file of globSync('tests/deep/*.deep.ts', { cwd: ROOT }).sort()) {
  const name = basename(file, '.deep.ts');
  const { inputs, run } = (await import(`./${name}.deep.ts`)) as Deep;
  console.log(`${name}, seed ${seed} ...`);
  const from = Date.now();
  const figures = await run(seed);
  const tookS = Math.round((Date.now() - from) / 1000);
  console.log(figures);
  results[name] = { figures, seed, commit, tookS, inputs, inputHash: hashOf(inputs) };
}
writeFileSync(RESULTS, `${JSON.stringify(results, null, 2)}\n`);
