import { spawnSync } from 'node:child_process';
import { mkdtempSync, openAsBlob, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, expect, it } from 'vitest';
import { sameBytes } from '#lib/record/digest.ts';
import { verify } from '#lib/record/verify.ts';

const folder = mkdtempSync(join(tmpdir(), 'layerbook-example-'));
afterAll(() => rmSync(folder, { recursive: true }));
const root = fileURLToPath(new URL('../../../', import.meta.url));

function example(out: string): { status: number | null; stdout: string } {
  const env = { PATH: process.env['PATH'], INIT_CWD: folder };
  return spawnSync(process.execPath, ['src/cli/layerbook.ts', 'example', '--out', out], { cwd: root, env, encoding: 'utf8' });
}

it('layerbook example writes an archive that is as written, the same each time', async () => {
  const done = example('a.zip');
  expect(done.status).toBe(0);
  expect(JSON.parse(done.stdout)).toMatchObject({ missing: [], out: join(folder, 'a.zip') });
  const archive = await openAsBlob(join(folder, 'a.zip'));
  expect(await verify(archive)).toMatchObject({ verdict: 'as-written', findings: [] });
  example('b.zip');
  expect(await sameBytes(archive, await openAsBlob(join(folder, 'b.zip')))).toBe(true);
});

it('layerbook example says where it cannot write', () => {
  const done = example('no/such/folder/a.zip');
  expect(done.status).toBe(2);
  expect(JSON.parse(done.stdout)).toMatchObject({ error: { field: '--out', code: 'cannot-write' } });
});
