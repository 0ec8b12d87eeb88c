import { expect, it } from 'vitest';
import { project } from '#lib/job/project.ts';
import { canonicalText } from '#lib/record/canonical.ts';
import type { Entry } from '#lib/record/entry.ts';
import { BuiltRecord } from '#lib/record/kinds.ts';
import { buildDocument } from '#lib/report/document.ts';
import { fullJob, logOf, newerEntry, phone, photoHash, recordOf, shotOf, UNSIGNED } from './job-fixture.ts';

function documentOf(entries: readonly Entry[], printed = new Map<string, string>()) {
  const { built, by } = recordOf(entries, new Map());
  return buildDocument({ job: project(entries).state, unreadable: 0, built, by, printed });
}

const entries = [...(await logOf(fullJob())), await newerEntry()];
const document = documentOf(entries);

it('has a line for every entry of the log, and none besides', () => {
  expect(document.log.map((line) => `${line.device} ${line.seq} ${line.hash}`).sort()).toEqual(
    entries.map(({ body, hash }) => `${body.device} ${body.seq} ${hash.slice(0, 16)}`).sort(),
  );
});

it('keeps every run, shot and reading in full, found by the id of its entry', () => {
  const of = (kind: string) => entries.filter((entry) => entry.body.kind === kind).map((entry) => entry.body.id);
  expect(document.runs.map((one) => one.id)).toEqual(of('run-start'));
  expect(document.shots.map((one) => one.id)).toEqual(of('shot'));
  expect(document.readings.map((one) => one.id)).toEqual(of('reading'));
});

it('may be hashed, fits a record entry, and stays small', () => {
  const text = canonicalText(document);
  expect(text.length).toBeLessThan(100_000);
  const heads = document.heads;
  expect(
    BuiltRecord.safeParse({ rules: document.rules, lang: 'en', heads, document, pictures: [], pdf: { sha256: photoHash(1), bytes: 1 } })
      .success,
  ).toBe(true);
});

it('says what is open, worst first', () => {
  expect(document.open.map((point) => point.code)).toEqual([
    'outside', // 1 7/8 in on the floor against at least 2 in
    'not-proven', // 24 to 26 mil against at least 25
    'owed', // sheets bonded, floor
    'owed', // seams banded and lap of the band, wall
    'running',
    'not-printed',
    'unsigned',
    'newer',
  ]);
});

it('puts what a layer misses before what it shows', () => {
  const bands = document.layers.find((layer) => layer.layer === 'bands');
  expect(bands?.items.map((item) => item.shown)).toEqual([false, false, true, true]);
});

it('names the reading of a layer that stands worst', () => {
  const worst = document.layers.map((layer) => document.readings.find((reading) => reading.id === layer.worst)?.said.value ?? null);
  expect(worst).toEqual([null, '1.875', '2.5', '24', '2.25']);
});

it('keeps what a later entry replaced', async () => {
  const limit = (min: string) => ({
    limit: 'l-1',
    what: 'overlap' as const,
    min,
    max: null,
    unit: 'in' as const,
    source: { kind: 'crew' as const, text: 'rule' },
  });
  const { limits, log } = documentOf(
    await logOf([
      { kind: 'limit', data: limit('2') },
      { kind: 'limit', data: limit('3') },
    ]),
  );
  expect(limits.map((one) => one.min)).toEqual(['3']);
  expect(log.flatMap((line) => (line.set?.kind === 'limit' ? [line.set.min] : []))).toEqual(['2', '3']);
});

it('names the unsigned stretches of each chain', async () => {
  const signed = await logOf([shotOf(null, null, 1)], phone('phone-a'));
  const unsigned = await logOf([shotOf(null, null, 2), shotOf(null, null, 3)], phone('phone-b', 'p-tobin', UNSIGNED));
  expect(documentOf([...unsigned, ...signed]).chains.map(({ device, unsigned: gaps }) => ({ device, gaps }))).toEqual([
    { device: 'phone-a', gaps: [] },
    { device: 'phone-b', gaps: [{ from: 0, to: 2 }] },
  ]);
});

it('does not depend on the order in which entries arrive', () => {
  expect(documentOf([...entries].reverse())).toEqual(document);
});

it('names the picture that was printed for a photo', () => {
  const printed = new Map([[photoHash(3), photoHash(103)]]);
  expect(
    documentOf(entries, printed)
      .shots.map((shot) => shot.printed)
      .filter((one) => one !== null),
  ).toEqual([photoHash(103)]);
});
