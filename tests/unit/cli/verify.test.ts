import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { buildArchive } from '#lib/record/archive.ts';
import { edit, filesOf, rebagged } from '../../fixtures/forge.ts';
import { rawZip } from '../../fixtures/raw-zip.ts';
import { smallJob } from '../../fixtures/small-job.ts';
import { asked, typed } from './terminal.ts';

const folder = mkdtempSync(join(tmpdir(), 'layerbook-cli-'));
afterAll(() => rmSync(folder, { recursive: true }));

beforeAll(async () => {
  const job = await smallJob();
  const built = await buildArchive({ raws: job.raws, blob: job.blob, date: '2026-03-02' });
  if (!built.ok) throw new Error(built.fault.code);
  const write = async (name: string, body: Blob) => writeFileSync(join(folder, name), new Uint8Array(await body.arrayBuffer()));
  const files = await filesOf(built.value.blob);
  await write('whole.zip', built.value.blob);
  edit(files, 'phone-a.jsonl', (log) => log.replace('12 Elm St', '14 Elm St'));
  await write('forged.zip', await rebagged(files));
  await write('up.zip', rawZip([{ name: '../x.txt' }]));
  await write('text.zip', new Blob(['no ZIP, whatever its name says'.repeat(9)]));
  // By Python's own ZIP writer, as a mail program or a file manager would.
  const script =
    'import zipfile as z; a=z.ZipFile("whole.zip"); b=z.ZipFile("zipped.zip","w",z.ZIP_DEFLATED)\nfor i in a.namelist(): b.writestr(i,a.read(i))\nb.close()';
  expect(spawnSync('python3', ['-c', script], { cwd: folder }).status).toBe(0);
});

describe('layerbook verify', () => {
  const error = (field: string, code: string) => ({ error: { field, code, message: expect.any(String) as string } });
  const forged = {
    verdict: 'changed',
    findings: [{ code: 'hash-differs', device: 'phone-a', seq: 1, message: expect.stringContaining('phone-a') as string }],
  };
  const cases: [args: string[], exit: number, answer: object][] = [
    [['verify', 'whole.zip'], 0, { verdict: 'as-written', job: 'hall-bath', findings: [], counts: { files: 11, entries: 8 } }],
    [['verify', 'zipped.zip'], 3, { verdict: 'rewritten', job: 'hall-bath', findings: [] }],
    [['verify', 'forged.zip'], 1, forged],
    [['verify', 'text.zip'], 2, error('FILE', 'not-a-zip')],
    [['verify', 'up.zip'], 2, error('../x.txt', 'bad-name')],
    [['verify', 'absent.zip'], 2, error('FILE', 'no-such-file')],
    [['verify'], 2, error('COMMAND', 'bad-arguments')],
    [['verify', 'whole.zip', '--out', 'x'], 2, error('COMMAND', 'bad-arguments')],
    [['constructor'], 2, error('COMMAND', 'unknown-command')],
  ];
  for (const [args, exit, answer] of cases) {
    it(`${args.join(' ')}: exit ${exit}`, async () => {
      expect(await asked(folder, args)).toMatchObject({ exit, answer });
    });
  }

  it.each(['forged.zip', 'text.zip'])('%s in a terminal: the same exit code, one JSON, nothing on stderr', async (file) => {
    expect(typed(folder, ['verify', file])).toEqual({ ...(await asked(folder, ['verify', file])), stderr: '' });
  });

  it('speaks the language of the terminal', async () => {
    expect(await asked(folder, ['verify', 'text.zip'], { LANG: 'es_MX.UTF-8' })).toMatchObject({
      answer: { error: { message: expect.stringContaining('Pida otra copia.') as string } },
    });
  });
});
