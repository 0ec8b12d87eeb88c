// npm run deep [-- NAME... SEED]: the tests too dear for every run, all or those named. Their figures are committed, and `npm test`
// says when they are stale.
import { execFileSync } from 'node:child_process';
import { randomInt } from 'node:crypto';
import { existsSync, globSync, readFileSync, writeFileSync } from 'node:fs';
import { basename } from 'node:path';
import { hashOf, ROOT } from '../../src/cli/ready.mjs';
import { RESULTS } from './stale.mjs';

/** What a `*.deep.ts` exports. It throws when it finds a fault, and names the round in what it throws. */
export interface Deep {
  /** Files and folders, from the root, whose change makes the figures stale. */
  readonly inputs: readonly string[];
  readonly run: (seed: number) => Promise<Readonly<Record<string, number | string>>>;
}

const all = globSync('tests/deep/*.deep.ts', { cwd: ROOT })
  .map((file) => basename(file, '.deep.ts'))
  .sort();
const isSeed = (arg: string) => /^\d{1,10}$/.test(arg);
const named = process.argv.slice(2).filter((arg) => !isSeed(arg));
const unknown = named.filter((name) => !all.includes(name));
if (unknown.length > 0)
  throw new RangeError(`No such test: ${unknown.join(', ')}. There are: ${all.join(', ')}; a seed is a whole number.`);
const seed = Number(process.argv.slice(2).find(isSeed) ?? randomInt(2 ** 31));
const commit = execFileSync('git', ['describe', '--always', '--dirty', '--abbrev=12'], { cwd: ROOT, encoding: 'utf8' }).trim();

// What was not run stays as it was found; a test that is gone takes its figures with it.
const before = existsSync(RESULTS) ? (JSON.parse(readFileSync(RESULTS, 'utf8')) as Record<string, object>) : {};
const results = Object.fromEntries(Object.entries(before).filter(([name]) => all.includes(name)));
for (const name of named.length > 0 ? named : all) {
  const { inputs, run } = (await import(`./${name}.deep.ts`)) as Deep;
  console.log(`${name}, seed ${seed} ...`);
  const from = Date.now();
  const figures = await run(seed);
  const tookS = Math.round((Date.now() - from) / 1000);
  console.log(figures);
  results[name] = { figures, seed, commit, tookS, inputs, inputHash: hashOf(inputs) };
  // Written after each: an hour's figures are not lost to the next one's fault.
  writeFileSync(RESULTS, `${JSON.stringify(Object.fromEntries(Object.entries(results).sort()), null, 2)}\n`);
}
