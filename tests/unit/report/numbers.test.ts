import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, expect, it } from 'vitest';
import { project } from '#lib/job/project.ts';
import { buildArchive } from '#lib/record/archive.ts';
import type { Entry } from '#lib/record/entry.ts';
import { buildDocument } from '#lib/report/document.ts';
import type { RecordDocument } from '#lib/report/record-document.ts';
import { logOf, phone, photoHash, recordOf } from './job-fixture.ts';
import { wholeLog } from './whole-job.ts';

const folder = mkdtempSync(path.join(tmpdir(), 'numbers-'));
afterAll(() => rmSync(folder, { recursive: true }));
const script = fileURLToPath(new URL('recompute.py', import.meta.url));

/** The archive of a log that holds a record of it, built in the office. */
async function archiveWith(entries: readonly Entry[], document: RecordDocument): Promise<string> {
  const { rules, heads } = document;
  const office = await logOf(
    [{ kind: 'record', data: { rules, lang: 'en', heads, document, pictures: [], pdf: { sha256: photoHash(1), bytes: 1 } } }],
    phone('phone-z', 'p-tobin'),
  );
  const built = await buildArchive({ raws: [...entries, ...office].map(({ raw }) => raw), blob: async () => null, date: '2026-03-04' });
  if (!built.ok) throw new Error(built.fault.code);
  const file = path.join(folder, 'job.zip');
  writeFileSync(file, new Uint8Array(await built.value.blob.arrayBuffer()));
  return file;
}

function numbersOf(archive: string): { found: Record<string, [then: unknown, now: unknown]>; status: number | null } {
  const { stdout, stderr, status } = spawnSync('python3', [script, archive], { encoding: 'utf8' });
  expect(stderr).toBe('');
  return { found: JSON.parse(stdout) as Record<string, [unknown, unknown]>, status };
}

const entries = await wholeLog();
const { built, by } = recordOf(entries, new Map());
const document = buildDocument({ job: project(entries).state, unreadable: 0, built, by, printed: new Map() });

it('twelve of the record’s numbers, recomputed from the archive alone in another language', async () => {
  const { found, status } = numbersOf(await archiveWith(entries, document));
  expect(Object.keys(found)).toHaveLength(12);
  expect(Object.entries(found).filter(([, [then, now]]) => then !== now)).toEqual([]);
  expect(status).toBe(0);
  expect(found['net drop in the flood test, um']![0]).not.toBe(0);
  expect(found['entries']![0]).toBe(entries.length);
});

it('a record that says another number is told', async () => {
  const reading = document.readings.findIndex(({ verdict }) => verdict === 'outside');
  const readings = document.readings.with(reading, { ...document.readings[reading]!, verdict: 'within' });
  const { found, status } = numbersOf(await archiveWith(entries, { ...document, readings }));
  expect(status).toBe(1);
  expect(Object.entries(found).flatMap(([name, [then, now]]) => (then === now ? [] : [name]))).toEqual([
    'readings within',
    'readings outside',
  ]);
});
