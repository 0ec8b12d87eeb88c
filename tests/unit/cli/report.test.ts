import { execFileSync } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import sharp from 'sharp';
import { afterAll, expect, it } from 'vitest';
import { buildArchive } from '#lib/record/archive.ts';
import { sha256Hex } from '#lib/record/hash.ts';
import { edit, filesOf, rebagged } from '../../fixtures/forge.ts';
import { smallJob, tinyJob } from '../../fixtures/small-job.ts';
import { asked, typed } from './terminal.ts';

const folder = mkdtempSync(join(tmpdir(), 'layerbook-report-'));
afterAll(() => rmSync(folder, { recursive: true }));

const report = (file: string, out: string) => ['report', file, '--out', out];

async function archiveOf(job: Awaited<ReturnType<typeof smallJob>>): Promise<Blob> {
  const built = await buildArchive({ raws: job.raws, blob: job.blob, date: '2026-03-02' });
  if (!built.ok) throw new Error(built.fault.code);
  return built.value.blob;
}

const write = async (name: string, body: Blob) => writeFileSync(join(folder, name), new Uint8Array(await body.arrayBuffer()));

it('prints the photos of an archive and carries its log', async () => {
  const bytes = await sharp({ create: { width: 1600, height: 1200, channels: 3, background: '#888' } })
    .jpeg()
    .toBuffer();
  const photo = { sha256: sha256Hex(bytes), bytes: bytes.length, body: new Blob([new Uint8Array(bytes)], { type: 'image/jpeg' }) };
  const job = await tinyJob(photo);
  await write('whole.zip', await archiveOf(job));
  const done = typed(folder, report('whole.zip', 'record.pdf'));
  expect(done).toMatchObject({
    exit: 0,
    stderr: '',
    answer: { job: 'hall-bath', entries: job.raws.length, pictures: 1, notPrinted: [] },
  });
  const pdf = join(folder, 'record.pdf');
  expect(done.answer).toMatchObject({ sha256: sha256Hex(readFileSync(pdf)) });
  execFileSync('qpdf', ['--check', pdf]);
  execFileSync('pdfdetach', ['-saveall', pdf], { cwd: folder });
  expect(readFileSync(join(folder, 'log.jsonl'), 'utf8')).toBe(job.raws.map((raw) => `${raw}\n`).join(''));
});

it('names the photos it cannot print', async () => {
  const job = await smallJob();
  await write('fake.zip', await archiveOf(job));
  const photos = [...job.blobs].filter(([, blob]) => blob.type.startsWith('image/')).map(([sha256]) => sha256);
  expect(await asked(folder, report('fake.zip', 'fake.pdf'))).toMatchObject({ exit: 0, answer: { pictures: 0, notPrinted: photos } });
});

it('of an archive that was changed writes nothing, and answers as verify does', async () => {
  const files = await filesOf(await archiveOf(await smallJob()));
  edit(files, 'phone-a.jsonl', (log) => log.replace('12 Elm St', '14 Elm St'));
  await write('forged.zip', await rebagged(files));
  expect(await asked(folder, report('forged.zip', 'forged.pdf'))).toMatchObject({
    exit: 1,
    answer: { verdict: 'changed', findings: [{ code: 'hash-differs' }] },
  });
  expect(existsSync(join(folder, 'forged.pdf'))).toBe(false);
});
