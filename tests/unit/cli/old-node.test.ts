import { spawnSync } from 'node:child_process';
import { expect, it } from 'vitest';
import { ROOT } from '../../../src/cli/ready.mjs';

/** Runs a script of ours as if under another Node: our scripts ask `process.versions` before anything else. */
function under(version: string, script: string) {
  const pretend = `Object.defineProperty(process, 'versions', { value: { ...process.versions, node: '${version}' } })`;
  const { status, stdout, stderr } = spawnSync(
    process.execPath,
    ['--import', `data:text/javascript,${encodeURIComponent(pretend)}`, script],
    {
      cwd: ROOT,
      encoding: 'utf8',
    },
  );
  return { status, stdout, lines: stderr.trim().split('\n') };
}

it.each([
  ['src/cli/start.mjs', '18.20.4', /20\.19 or newer; this is 18\.20\.4/],
  ['src/cli/start.mjs', '20.18.9', /20\.19 or newer/],
  ['tests/run.mjs', '18.20.4', /20\.19 or newer/],
  ['src/server.mjs', '20.20.2', /22\.17 or newer; this is 20\.20\.2/],
  ['src/server.mjs', '22.16.0', /22\.17 or newer/],
])('%s under Node %s ends with one sentence', (script, version, sentence) => {
  const { status, stdout, lines } = under(version, script);
  expect({ status, stdout, count: lines.length }).toEqual({ status: 1, stdout: '', count: 1 });
  expect(lines[0]).toMatch(sentence);
});
