import { expect, test } from 'vitest';
import { project } from '#lib/job/project.ts';
import { readEntry, type Entry } from '#lib/record/entry.ts';
import { sha256HexOfText } from '#lib/record/hash.ts';
import { buildDocument } from '#lib/report/document.ts';
import { noticeOf, type NoticeDocument } from '#lib/report/notice.ts';
import { recompute } from '#lib/report/recompute.ts';
import type { RecordDocument } from '#lib/report/record-document.ts';
import { exampleJob } from '../../../src/cli/example/job.ts';
import { chain } from '../../fixtures/log.ts';
import { crewLog } from '../../sim/crew-log.ts';

const SHA = 'f'.repeat(64);
const BUILT = { utc: '2026-03-04T08:00:00.000Z', offsetMin: -360, zone: '', monoMs: 0, session: '' };

function documentOf(entries: readonly Entry[], printed: ReadonlyMap<string, string> = new Map()): RecordDocument {
  return buildDocument({ job: project(entries).state, unreadable: 2, built: BUILT, by: 'ana', printed });
}

/** The log with one more phone in the office, which kept a record of all the others. */
function withRecord(entries: readonly Entry[], document: RecordDocument | NoticeDocument): Entry[] {
  const { rules, heads } = document;
  const data = { rules, lang: 'en', heads, document, pictures: [], pdf: { sha256: SHA, bytes: 1 } };
  return [
    ...entries,
    ...chain('office', [
      { kind: 'device', data: { key: { alg: 'none', why: 'test' } } },
      { kind: 'record', data },
    ]),
  ];
}

async function exampleEntries(): Promise<Entry[]> {
  const { raws } = await exampleJob();
  return raws.flatMap((raw) => {
    const entry = readEntry(raw, 'example');
    return entry.ok ? [entry.value] : [];
  });
}

test('a record of the example is built again without a difference, its printed pictures taken over', async () => {
  const entries = await exampleEntries();
  const shot = documentOf(entries).shots[0]!;
  const document = documentOf(entries, new Map([[shot.sha256, SHA]]));
  const [record, ...more] = recompute(withRecord(entries, document));
  expect(more).toEqual([]);
  expect(record).toMatchObject({
    entry: 'office-1',
    paper: 'record',
    differences: [],
    rules: { then: document.rules, now: document.rules },
  });
  expect(record!.values).toBeGreaterThan(1_000);
});

test.each(Array.from({ length: 30 }, (_, i) => 20_261_200 + i))('a record of the generated job %d too, whatever came after it', (seed) => {
  // The simulated log is not hashed, and a record names its heads by their hashes.
  const entries = crewLog(seed).map((entry) => ({ ...entry, hash: sha256HexOfText(entry.raw) }));
  const all = withRecord(entries, documentOf(entries));
  const later = chain('late', [
    { kind: 'device', data: { key: { alg: 'none', why: 'test' } } },
    { kind: 'note', data: { words: 'x', surfaces: [] } },
  ]);
  expect(recompute([...later, ...all]).map(({ differences }) => differences)).toEqual([[]]);
});

test('a value that the log does not give is named, with what it was and what it is', async () => {
  const entries = await exampleEntries();
  const as = structuredClone(documentOf(entries));
  const document = { ...as, job: { ...as.job, name: 'Another bath' } };
  const film = document.readings.findIndex((reading) => reading.verdict === 'within');
  document.readings[film]!.verdict = 'outside';
  document.waits.pop();
  const [record] = recompute(withRecord(entries, document));
  expect(record!.differences).toContainEqual({ at: `readings[${film}].verdict`, then: 'outside', now: 'within' });
  expect(record!.differences).toContainEqual({ at: 'job.name', then: 'Another bath', now: documentOf(entries).job.name });
  expect(record!.differences!.filter(({ at }) => at.startsWith('waits['))).toHaveLength(1);
  expect(record!.differences).toHaveLength(3);
});

test('a notice is built again from its own tree; a document of another version is not, and says so', () => {
  const entries = chain('phone-a', [
    { kind: 'job', data: { name: 'Hall', address: '', units: 'in', lang: 'en' } },
    { kind: 'survey', data: { surfaces: [], result: 'refused', drop: 'stays', found: 'wax', told: 'the builder' } },
  ]);
  const notice = noticeOf(documentOf(entries))!;
  expect(recompute(withRecord(entries, notice))).toMatchObject([{ paper: 'notice', differences: [] }]);
  const other = { ...notice, paper: 'leaflet' } as unknown as NoticeDocument;
  expect(recompute(withRecord(entries, other))).toMatchObject([{ paper: 'unknown', values: 0, differences: null }]);
  const undated = { ...notice, built: null } as unknown as NoticeDocument;
  expect(recompute(withRecord(entries, undated))).toMatchObject([{ paper: 'notice', differences: null }]);
  expect(recompute(entries)).toEqual([]);
});
