import { expect, it } from 'vitest';
import { project } from '#lib/job/project.ts';
import { canonicalText } from '#lib/record/canonical.ts';
import type { Entry } from '#lib/record/entry.ts';
import { BuiltRecord } from '#lib/record/kinds/work.ts';
import { buildDocument } from '#lib/report/document.ts';
import { entryTable } from '#lib/report/entry-table.ts';
import { speaker } from '#lib/report/speaker.ts';
import type { SaidField } from '#lib/job/said-field.ts';
import { fullJob, logOf, newerEntry, phone, photoHash, recordOf, shotOf, UNSIGNED } from './job-fixture.ts';
import { wholeLog } from './whole-job.ts';

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
    'owed', // substrate: house number, survey
    'owed', // sheets: transfer, drain flange
    'owed', // bands: base, corner pieces, collars, drain
    'owed', // flood test: plug, lines, ceilings, result
    'running',
    'not-begun', // protection and check
    'unsorted',
    'not-printed',
    'unsigned',
    'newer',
  ]);
});

it('puts what a layer misses before what it shows', () => {
  const stands = document.layers.map((layer) => layer.items.map((item) => item.stand).join(' '));
  expect(stands.filter((one) => /shown.*owed/.test(one))).toEqual([]);
  expect(stands.filter((one) => /owed.*shown/.test(one)).length).toBeGreaterThan(2);
});

it('names the reading of a layer that stands worst', () => {
  const worst = document.layers.map((layer) => document.readings.find((reading) => reading.id === layer.worst)?.said.value ?? null);
  expect(worst).toEqual([null, '1.875', '2.5', '24', '2.25', null]);
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
  const least = log.flatMap((line) => line.said.flatMap((one) => (one.field === 'min' && one.is === 'quantity' ? [one.value] : [])));
  expect(least).toEqual(['2', '3']);
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

const wholeEntries = await wholeLog();
const whole = documentOf(wholeEntries);

/** The log as it stood before an entry was written. */
function wholeUntil(id: string): Entry[] {
  const before = wholeEntries.findIndex((entry) => entry.body.id === id);
  return wholeEntries.slice(0, before);
}

it('says of a lot when it was used after its use-by, and of none that has no date or a later one', () => {
  // Mixed at 10:58 on 14 October; its label says 1 October.
  expect(whole.materials.map(({ material, used, past }) => [material, used !== null, past?.utc.slice(0, 10) ?? null])).toEqual([
    ['m-sheet', true, null],
    ['m-mortar', true, '2025-10-14'],
    ['m-liquid', true, null],
  ]);
  expect(whole.open.find((point) => point.code === 'past-use-by')).toEqual({ code: 'past-use-by', materials: ['m-mortar'] });
});

it.each([
  // 2 am UTC on the 15th is still the 14th on the dial of the phone that was there. The lot is written first, the batch four minutes later.
  ['2025-10-14', '2025-10-15T02:00:00.000Z', null],
  ['2025-10-13', '2025-10-15T02:00:00.000Z', '2025-10-15T02:00:00.000Z'],
])('counts a use-by of %s by the calendar where the lot was used', async (useBy, utc, past) => {
  const writer = phone('phone-a', 'p-ines', UNSIGNED, Date.parse(utc) - 240_000);
  const { materials } = documentOf(
    await logOf(
      [
        { kind: 'material', data: { material: 'm-1', what: 'mortar', name: 'Mortar', lot: '1', useBy } },
        { kind: 'mix', data: { material: 'm-1', surfaces: [] } },
      ],
      writer,
    ),
  );
  expect(materials[0]?.past?.utc ?? null).toBe(past);
});

it('takes a value that a deviation owns up to out of what is open, and leaves its verdict as it is', () => {
  expect(whole.readings.find((reading) => reading.id === 'read-lap')?.verdict).toBe('outside');
  expect(whole.open.some((point) => point.code === 'outside')).toBe(false);
});

it('says how each wait ended', () => {
  expect(whole.waits.map(({ id, early, stand, ended }) => [id, early, stand, ended?.step ?? null])).toEqual([
    ['wait-slake', null, 'ready', null],
    ['wait-walk', 'early-1', 'ended', 'band-seams'],
    ['wait-recoat', null, 'too-late', null],
  ]);
});

it('numbers the attempts of a flood test and keeps what was seen apart from what the levels show', () => {
  const seen = whole.attempts.map(({ number, stand, seen: { worst }, levels }) => [
    number,
    stand,
    worst,
    levels.state === 'read' ? levels.finding : null,
  ]);
  expect(seen).toEqual([
    [1, 'failed', 'leak', 'loss'],
    [2, 'passed', 'no-leak', 'no-loss-above-limit'],
  ]);
  expect(whole.open.some((point) => point.code === 'flood-failed')).toBe(false);
  const { open } = documentOf(wholeUntil('flood-2'));
  expect(open.find((point) => point.code === 'flood-failed')).toEqual({ code: 'flood-failed', attempts: ['flood-1'] });
});

it('shows both readings of an entry amended twice as open, and what an amended one said first', () => {
  const line = (id: string) => whole.log.find((one) => one.id === id);
  expect(whole.open.find((point) => point.code === 'amendments')).toEqual({ code: 'amendments', entries: ['read-volume'] });
  expect(line('read-volume')?.amendments?.toSorted()).toEqual(['amend-volume', 'cross']);
  const value = (fields: readonly SaidField[] | undefined) => fields?.flatMap((one) => (one.is === 'quantity' ? [one.value] : []));
  expect([line('read-volume')?.said, line('amend-volume')?.instead, line('cross')?.instead].map(value)).toEqual([
    ['0.75'],
    ['0.7'],
    ['0.9'],
  ]);
  const words = (fields: readonly SaidField[] | undefined) => fields?.flatMap((one) => (one.is === 'words' ? [one.text] : []));
  expect([line('note-1')?.first, line('note-1')?.said].map(words)).toEqual([['Pail stood in the sun'], ['Pail stood in the shade']]);
  expect(line('note-2')?.state).toBe('withdrawn');
});

it('does not count what was left out on purpose as shown', () => {
  const bands = whole.layers.find((layer) => layer.layer === 'bands');
  expect(bands?.items.filter((item) => item.stand === 'not-done').map((item) => item.rule)).toEqual(['collar']);
  expect(bands?.shown).toBe(bands?.items.filter((item) => item.stand === 'shown').length);
  expect(whole.layers.find((layer) => layer.layer === 'coat')?.items.some((item) => item.stand === 'covered')).toBe(true);
});

it('says a name once, though a second phone was named with it, and that a statement without a surface is of the whole job', async () => {
  const again = documentOf(
    await logOf([
      ...fullJob(),
      { kind: 'person', data: { person: 'p-tobin-2', name: 'Tobin Lark' } },
      { kind: 'attestation', data: { surfaces: [], words: 'Ours' } },
      { kind: 'attestation', data: { surfaces: ['s-north'], words: 'Ours' } },
    ]),
  );
  const say = speaker(again, 'es');
  expect(say.everyone.filter((name) => name === 'Tobin Lark')).toHaveLength(1);
  expect(say.everyone).toHaveLength(2);
  const [, table] = entryTable('attestation', again, say);
  expect(table).toMatchObject({
    rows: [
      [{}, {}, { text: 'Toda la obra' }, {}],
      [{}, {}, { text: 'North wall' }, {}],
    ],
  });
});
