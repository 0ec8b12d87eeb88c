import { readFileSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, expect, it, vi } from 'vitest';
import { project } from '#lib/job/project.ts';
import { canonicalText } from '#lib/record/canonical.ts';
import { readEntry, type Entry } from '#lib/record/entry.ts';
import { answerOf, wordAnswer } from '#lib/report/answer.ts';
import { buildPaper } from '#lib/report/build.ts';
import { buildDocument } from '#lib/report/document.ts';
import { recompute } from '#lib/report/recompute.ts';
import { printable } from '#lib/report/text.ts';
import { q } from '../../fixtures/drawn.ts';
import { chain, type Said } from '../../fixtures/log.ts';
import { bytesOf, recordOf } from './job-fixture.ts';
import { tool } from './tool.ts';

vi.setConfig({ testTimeout: 60_000 });

const folder = mkdtempSync(path.join(tmpdir(), 'answer-'));
afterAll(() => rmSync(folder, { recursive: true }));

/** The example job, as the app carries it. */
const EXAMPLE: readonly Entry[] = readFileSync('static/example/log.jsonl', 'utf8')
  .trimEnd()
  .split('\n')
  .map((line) => {
    const read = readEntry(line, 'example');
    if (!read.ok) throw new TypeError(read.fault.code);
    return read.value;
  });

const CALL = {
  surfaces: [],
  complaint: 'The ceiling under the bath is wet',
  shows: 'room-below',
  looked: 'The hall ceiling',
  found: '',
  answer: 'We come again on Friday',
  stand: 'open',
};
const begun = (test: string, below: string): Said => ({
  id: `t-${test}`,
  kind: 'isolation',
  data: { callback: 'call', test, below, words: '' },
});
const look = (test: string, below: string): Said => ({ kind: 'isolation-look', data: { isolation: `t-${test}`, below, words: '' } });
const PLACE: Said = { kind: 'mark', refs: ['call'], data: { of: 'call', room: 'bath', x: q(24), y: q(28) } };

function answered(call: object, ...more: readonly Said[]): Entry[] {
  const said: Said[] = [
    { kind: 'device', data: { key: { alg: 'none', why: 'test' } } },
    { id: 'call', kind: 'callback', data: { ...CALL, ...call } },
    ...more,
  ];
  return [...EXAMPLE, ...chain('other-phone', said)];
}

const documentOf = (entries: readonly Entry[]) =>
  buildDocument({
    job: project([...entries]).state,
    unreadable: 0,
    built: { utc: '2026-11-05T12:00:00.000Z', offsetMin: -300, zone: '', monoMs: 0, session: '' },
    by: 'person-dara',
    printed: new Map(),
  });

async function textOf(entries: readonly Entry[], locale: 'en' | 'es', most = 1): Promise<string[]> {
  const built = await buildPaper('answer', recordOf(entries, new Map(), { locale, paper: 'letter' }));
  const file = path.join(folder, 'answer.pdf');
  writeFileSync(file, await bytesOf(built!));
  expect(tool('qpdf', '--check', file)).toContain('No syntax or stream encoding errors found');
  const pages = tool('pdftotext', '-layout', file, '-').split('\f').slice(0, -1);
  expect(pages.length).toBeLessThanOrEqual(most);
  return pages
    .join('\n')
    .split('\n')
    .filter((line) => line.trim() !== '');
}
const bare = (text: string) => printable(text).replaceAll(/\s/g, '');

it.each<[what: string, call: object, log: Said[], first: string, spanish: string]>([
  ['nothing known', {}, [], 'Tonight: do not use this shower', 'Esta noche: no use esta ducha'],
  [
    'wetter with the supply alone',
    {},
    [begun('supply', 'dry'), look('supply', 'wet')],
    'Tonight: close the water valve',
    'Esta noche: cierre la llave de paso',
  ],
  [
    'the drain line is the cause',
    { cause: 'drain-line' },
    [],
    "Tonight: run no water into this shower's drain",
    'Esta noche: no eche agua en el desagüe',
  ],
  ['closed', { cause: 'tile-or-sealant', stand: 'closed' }, [], 'Tonight: you can use this shower', 'Esta noche: puede usar esta ducha'],
])('its first line says what to do tonight: %s', (_, call, log, first, spanish) => {
  const document = answerOf(documentOf(answered(call, ...log)))!;
  const firstBlocks = wordAnswer(document, ['en', 'es']).editions.map(({ parts }) => parts[0]!.blocks[0]);
  expect(firstBlocks).toMatchObject(
    [first, spanish].map((text) => ({ block: 'paragraph', text: expect.stringContaining(text) as string })),
  );
});

it('tells what was said, tried, looked at and found, and what the book shows behind each place', async () => {
  const known = {
    cause: 'supply',
    found: 'A fitting drips',
    warranty: 'no',
    took: { text: '2', value: '2', unit: 'h' },
    cost: { minor: '8550', currency: 'USD' },
  };
  const entries = answered(known, begun('supply', 'dry'), look('supply', 'wet'), begun('pan', 'stained'), look('pan', 'stained'), PLACE);
  const lines = await textOf(entries, 'en', 2);
  expect(lines[0]).toContain('Tonight: close the water valve that feeds this shower');
  const text = bare(lines.join('\n'));
  // prettier-ignore
  const promised = [
    'The ceiling under the bath is wet', 'Water showed: in the room below.', 'If the ceiling below sags',
    'Supply under pressure, shower dry', 'got wetter below', 'Pan plugged and filled', 'no change below',
    'The hall ceiling', 'On the floor, from corner 1: 2 ft 0 in across, 2 ft 4 in into the room', 'A fitting drips', 'Supply pipe or valve', '2 h', '85.50 USD', 'We come again on Friday',
    'Substrate: Fri 6 Mar 2026, 3 photos', 'Sheets: Fri 6 Mar 2026', 'Bands and corners: Mon 9 Mar 2026', 'nobody logged work on it', 'Nearest: Seam 1', 'Lap 2 3/8 in (within',
    'Places to look are no finding',
  ];
  expect(promised.filter((one) => !text.includes(bare(one)))).toEqual([]);
  const spanish = bare((await textOf(entries, 'es', 2)).join('\n'));
  const said = ['Usted nos dijo', 'En el cuarto de abajo'.toLowerCase(), '85,50 USD', 'Lo más cercano', 'no son un dictamen'];
  expect(said.filter((one) => !spanish.toLowerCase().includes(bare(one).toLowerCase()))).toEqual([]);
});

it('is nothing without a callback, can be held by an entry, and is given again by the same log', () => {
  expect(answerOf(documentOf(EXAMPLE))).toBeNull();
  expect(documentOf(EXAMPLE)).not.toHaveProperty('callbacks');
  const entries = answered({}, begun('pan', 'dry'), look('pan', 'wet'), PLACE);
  const document = answerOf(documentOf(entries))!;
  expect(JSON.parse(canonicalText(document))).toEqual(document);
  const heads = document.heads.map(({ device, seq }) => ({ device, seq, hash: 'a'.repeat(64) }));
  const record: Said = {
    kind: 'record',
    data: { rules: document.rules, lang: 'en', heads, document, pictures: [], pdf: { sha256: 'a'.repeat(64), bytes: 9 } },
  };
  const [again] = recompute([...entries, ...chain('third-phone', [record])]);
  expect(again).toMatchObject({ paper: 'answer', differences: [] });
});

it('of several callbacks answers the one asked for, else the latest open; the log gives an answer to an earlier one again', () => {
  const closed: Said = { id: 'later', kind: 'callback', data: { ...CALL, complaint: 'The hall is damp', stand: 'closed' } };
  const entries = answered({}, closed);
  const record = documentOf(entries);
  expect([null, 'later', 'call'].map((asked) => answerOf(record, asked)!.callback.entry)).toEqual(['call', 'later', 'call']);
  const done = documentOf(answered({ stand: 'closed' }, closed));
  expect(answerOf(done)!.callback.entry).toBe('later');

  const document = answerOf(record, 'later')!;
  const heads = document.heads.map(({ device, seq }) => ({ device, seq, hash: 'a'.repeat(64) }));
  const pdf = { sha256: 'a'.repeat(64), bytes: 9 };
  const built: Said = { kind: 'record', data: { rules: document.rules, lang: 'en', heads, document, pictures: [], pdf } };
  expect(recompute([...entries, ...chain('third-phone', [built])])).toMatchObject([{ paper: 'answer', differences: [] }]);
});
