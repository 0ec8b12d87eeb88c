import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, expect, it, vi } from 'vitest';
import { readEntry } from '#lib/record/entry.ts';
import { buildPaper, buildRecord } from '#lib/report/build.ts';
import { recompute } from '#lib/report/recompute.ts';
import { bytesOf, recordOf } from './job-fixture.ts';
import { expectSound } from './sound.ts';
import { tool } from './tool.ts';

vi.setConfig({ testTimeout: 60_000 });

const folder = mkdtempSync(path.join(tmpdir(), 'example-'));
afterAll(() => rmSync(folder, { recursive: true }));

const entries = readFileSync(new URL('../../../static/example/log.jsonl', import.meta.url), 'utf8')
  .trim()
  .split('\n')
  .map((raw) => {
    const entry = readEntry(raw, 'example');
    if (!entry.ok) throw new Error(entry.fault.code);
    return entry.value;
  });

const bare = (text: string) => text.replaceAll(/\s/g, '');

async function pagesOf(built: Parameters<typeof bytesOf>[0] | null): Promise<string[]> {
  const file = path.join(folder, 'example.pdf');
  writeFileSync(file, await bytesOf(built!));
  expectSound(file);
  return tool('pdftotext', '-raw', file, '-').split('\f').slice(0, -1);
}

/** As they stand on the bag, the pail and the roll. */
const CARD = {
  mortar: ['floor'],
  'mortar.bagKg': '50',
  'mortar.bagM2': '80',
  'mortar.waterMinL': '5',
  'mortar.waterMaxL': '6',
  'mortar.paceM2': '40',
  'mortar.openTime': '30',
  'mortar.potLife': '120',
  'mortar.lossPct': '10',
  'band.lapMm': '2',
  'band.rollMm': '85 ft',
  'liquid.wetUm': 'thick',
};

it('has a cover of one page, in the longer language on the shorter paper, and the room drawn and planned', async () => {
  const pages = await pagesOf(await buildRecord(recordOf(entries, new Map(), { locale: 'es', paper: 'letter' })));
  expect(bare(pages[1]!).startsWith('Contenido')).toBe(true);
  const text = bare(pages.join(''));
  // By hand: 60 by 31 in; 12.9 sq ft; around it 182 in; the drain and the valve by name.
  for (const one of ['Dibujo: Hall bath', '5 ft 0 in', '2 ft 7 in', '12.9', '15 ft 2 in', 'Desagüe', 'Válvula', 'Orden de colocación'])
    expect(text).toContain(bare(one));
});

it('has a cut list of one page: each piece, its length, its roll, what is left', async () => {
  const built = await buildPaper('cut', recordOf(entries, new Map()));
  const pages = await pagesOf(built);
  expect(pages).toHaveLength(1);
  // 60 in and twice 6 in of upturn; of 33 ft, 21 are left.
  for (const one of ['A 6 ft 0 in Roll 1', 'B 6 ft 0 in Roll 1', 'In all 12 ft 0 in', 'Left: 21 ft 0 in'])
    expect(bare(pages[0]!)).toContain(bare(one));
});

it('has a mixing card of one page, with what came out of what was typed', async () => {
  const built = await buildPaper('mixing', recordOf(entries, new Map(), { cards: new Map([['bath', CARD]]) }));
  const pages = await pagesOf(built);
  expect(pages).toHaveLength(1);
  // 12.92 sq ft and 10 % of it: 14.21 of the 80 that 50 lb cover.
  for (const one of [
    'To bond 12.9 sq ft',
    'Bags to buy 1',
    'Powder a batch 8.88 lb',
    'Water a batch 0.888 to 1.07 qt',
    'A bag covers: 80 sq ft.',
  ])
    expect(bare(pages[0]!)).toContain(bare(one));
  // What cannot be read is on no card.
  expect(bare(pages[0]!)).not.toContain(bare('Liquid a coat'));
  expect(await buildPaper('mixing', recordOf(entries, new Map(), { cards: new Map([['bath', { 'band.lapMm': '2' }]]) }))).toBeNull();
});

it('prints a card that was printed before in the next record, and works it out again from what was typed', async () => {
  const made = await buildPaper('mixing', recordOf(entries, new Map(), { cards: new Map([['bath', CARD]]) }));
  const { rules, heads } = made!.document;
  const data = { rules, lang: 'en', heads, document: made!.document, pictures: [], pdf: { sha256: 'a'.repeat(64), bytes: 1 } };
  const last = entries.at(-1)!;
  const body = { ...last.body, kind: 'record', id: 'card', seq: last.body.seq + 1, data: data as unknown as Record<string, unknown> };
  const log = [...entries, { ...last, body, raw: JSON.stringify(body) }];
  expect(recompute(log)).toEqual([expect.objectContaining({ entry: 'card', paper: 'mixing', differences: [] })]);
  const { document } = await buildRecord(recordOf(log, new Map()));
  expect(document.mixing.map(({ room, parts }) => [room, parts.map(({ part }) => part)])).toEqual([['bath', ['mortar', 'band']]]);
});
