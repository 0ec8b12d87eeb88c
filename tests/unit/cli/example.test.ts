import { mkdtempSync, openAsBlob, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, it } from 'vitest';
import { sameBytes } from '#lib/record/digest.ts';
import { verify } from '#lib/record/verify.ts';
import { asked, typed } from './terminal.ts';

const folder = mkdtempSync(join(tmpdir(), 'layerbook-example-'));
afterAll(() => rmSync(folder, { recursive: true }));

it('layerbook example writes an archive that is as written, the same each time', async () => {
  expect(typed(folder, ['example', '--out', 'a.zip'])).toMatchObject({
    exit: 0,
    answer: { missing: [], out: join(folder, 'a.zip') },
    stderr: '',
  });
  const archive = await openAsBlob(join(folder, 'a.zip'));
  expect(await verify(archive)).toMatchObject({ verdict: 'as-written', findings: [] });
  await asked(folder, ['example', '--out', 'b.zip']);
  expect(await sameBytes(archive, await openAsBlob(join(folder, 'b.zip')))).toBe(true);
});

it('layerbook example says where it cannot write', async () => {
  expect(await asked(folder, ['example', '--out', 'no/such/folder/a.zip'])).toMatchObject({
    exit: 2,
    answer: { error: { field: '--out', code: 'cannot-write' } },
  });
});
