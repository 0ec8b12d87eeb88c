// node tests/run.mjs [PART...]: installs what is missing, then runs the parts, each timed against its budget, and ends
// with one line that counts them all. Without names: every part. A part that fails does not keep the next from being run.
import { spawn } from 'node:child_process';
import { readFileSync, rmSync } from 'node:fs';
import path from 'node:path';
import { ensureReady, npmCommand, ROOT } from '../src/cli/ready.mjs';
import { staleDeepLines } from './deep/stale.mjs';
import { ensurePackages } from './packages.mjs';

/** Seconds each part may take, as DEVELOPERS.md says; only the row `all` is enforced, a tenth above it: the machine may be busy. */
const BUDGET_S = Object.fromEntries(
  Array.from(readFileSync(path.join(ROOT, 'DEVELOPERS.md'), 'utf8').matchAll(/^\| (\w+) \| (\d+):(\d\d) \|/gm), ([, part, min, s]) => [
    part,
    min * 60 + Number(s),
  ]),
);

const LONGEST_S = Math.round(BUDGET_S.all * 1.1);

const UNIT = 'tests/.out/unit.json';
const BROWSER = 'tests/.out/e2e.json';

const PARTS = {
  static: () => inParallel('lint', 'types', 'unused'),
  unit: () => counted('unit', UNIT, unitCounts, '--reporter=default', '--reporter=json', `--outputFile.json=${UNIT}`),
  build: () => inParallel('build'),
  browser: () => counted('e2e', BROWSER, browserCounts),
};

// A test that was skipped proves nothing: it counts as failed.
const unitCounts = ({ numPassedTests: passed, numTotalTests: all }) => ({ passed, failed: all - passed });
const browserCounts = ({ stats }) => ({ passed: stats.expected, failed: stats.unexpected + stats.flaky + stats.skipped });

const asked = process.argv.slice(2);
const unknown = asked.filter((name) => !(name in PARTS));
if (unknown.length > 0) {
  console.error(`No such part: ${unknown.join(', ')}. There are: ${Object.keys(PARTS).join(', ')}.`);
  process.exit(2);
}

const started = Date.now();
const tookS = {};
await timed('install', async () => {
  ensurePackages();
  ensureReady();
});

const total = { passed: 0, failed: 0 };
const wanted = asked.length > 0 ? asked : Object.keys(PARTS);
// Each of these leaves a core idle for long, the browser never does.
const together = ['static', 'unit'];
add(await Promise.all(wanted.filter((name) => together.includes(name)).map((name) => timed(name, PARTS[name]))));
for (const name of wanted.filter((one) => !together.includes(one))) add([await timed(name, PARTS[name])]);

tookS.all = secondsSince(started);
console.log(`\n${'part'.padEnd(10)}${'took'.padStart(7)}${'budget'.padStart(9)}`);
for (const [name, seconds] of Object.entries(tookS)) row(name, seconds, BUDGET_S[name]);
for (const line of staleDeepLines()) console.log(line);
if (tookS.all > LONGEST_S) total.failed += 1;
console.log(`${total.passed} passed, ${total.failed} failed`);
process.exitCode = total.failed === 0 ? 0 : 1;

function add(results) {
  for (const { passed, failed } of results) {
    total.passed += passed;
    total.failed += failed;
  }
}

async function timed(name, work) {
  const from = Date.now();
  const result = await work();
  tookS[name] = secondsSince(from);
  return result;
}

/** Checks that pass or fail as a whole, several at once; what one says is shown when it fails. */
async function inParallel(...scripts) {
  const done = await Promise.all(
    scripts.map(async (script) => {
      const from = Date.now();
      const { code, said } = await npmRun(script, [], 'pipe');
      const result = code === 0 ? 'passed' : 'failed';
      console.log(`${code === 0 ? '' : said}${script} ${result} in ${secondsSince(from).toFixed(1)} s`);
      return result;
    }),
  );
  return { passed: done.filter((one) => one === 'passed').length, failed: done.filter((one) => one === 'failed').length };
}

/** Tests that write a report. A run that ends badly with no test to blame, or runs none, counts as one failed. */
async function counted(script, report, count, ...args) {
  rmSync(path.join(ROOT, report), { force: true });
  const { code } = await npmRun(script, args, 'inherit');
  const { passed, failed } = readReport(report, count);
  const blameless = failed === 0 && (code !== 0 || passed === 0);
  return { passed, failed: blameless ? 1 : failed };
}

function readReport(report, count) {
  try {
    return count(JSON.parse(readFileSync(path.join(ROOT, report), 'utf8')));
  } catch {
    return { passed: 0, failed: 0 };
  }
}

/** Runs a script of package.json, at most until the longest time for all is up. Null is the code of one that was ended. */
function npmRun(script, args, output) {
  const [command, commandArgs, options] = npmCommand('run', '--silent', script, '--', ...args);
  const timeout = Math.max(1, LONGEST_S * 1000 - (Date.now() - started));
  return new Promise((resolve) => {
    const child = spawn(command, commandArgs, { ...options, cwd: ROOT, stdio: ['ignore', output, output], timeout });
    let said = '';
    for (const stream of [child.stdout, child.stderr]) stream?.setEncoding('utf8').on('data', (text) => (said += text));
    child.on('error', (error) => resolve({ code: null, said: `${error.message}\n` }));
    child.on('close', (code) => resolve({ code, said }));
  });
}

function secondsSince(from) {
  return (Date.now() - from) / 1000;
}

function row(name, seconds, budget) {
  const clock = (s) => `${Math.floor(s / 60)}:${String(Math.floor(s % 60)).padStart(2, '0')}`;
  console.log(`${name.padEnd(10)}${clock(seconds).padStart(7)}${clock(budget).padStart(9)}${seconds > budget ? '  over' : ''}`);
}
