import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, expect, it, vi } from 'vitest';
import type { Draft } from '#lib/record/kinds.ts';
import { canonicalText } from '#lib/record/canonical.ts';
import { BuiltRecord } from '#lib/record/kinds/work.ts';
import { buildPaper, paperPhotos } from '#lib/report/build.ts';
import { grouped } from '#lib/report/speaker.ts';
import { printable } from '#lib/report/text.ts';
import { bytesOf, fullJob, greyPictures, logOf, photoHash, recordOf } from './job-fixture.ts';
import { wholeLog } from './whole-job.ts';
import { tool } from './tool.ts';

vi.setConfig({ testTimeout: 60_000 });

const folder = mkdtempSync(path.join(tmpdir(), 'notice-'));
afterAll(() => rmSync(folder, { recursive: true }));
const bare = (text: string) => text.replaceAll(/\s/g, '');

function pagesOf(pdf: Uint8Array): string[] {
  const file = path.join(folder, 'notice.pdf');
  writeFileSync(file, pdf);
  expect(tool('qpdf', '--check', file)).toContain('No syntax or stream encoding errors found');
  expect(tool('pdfdetach', '-list', file)).toContain('0 embedded files');
  return tool('pdftotext', '-raw', file, '-').split('\f').slice(0, -1);
}

const survey = (surfaces: string[], result: 'accepted' | 'with-reservation' | 'refused', found: string): Draft => ({
  kind: 'survey',
  data: { surfaces, result, drop: 'slowly', found, told: '' },
});

it.each([
  { locale: 'en', paper: 'letter', result: 'With reservation', place: 'Wall' },
  { locale: 'es', paper: 'a4', result: 'Con reserva', place: 'Pared' },
] as const)('says on one page what was found, where, who was told and by whom, in $locale', async ({ locale, paper, result, place }) => {
  const entries = await wholeLog();
  const built = await buildPaper('notice', recordOf(entries, await greyPictures([1, 2, 3, 4]), { locale, paper }));
  const pages = pagesOf(await bytesOf(built!));
  expect(pages).toHaveLength(1);
  const text = bare(pages[0]!);
  const surveys = entries.filter((entry) => entry.body.kind === 'survey');
  // prettier-ignore
  const promised = [
    'Two baths', '9 Quarry Steps', 'PW-2025-0417', 'Inés Robledo', result, place,
    'North wall', 'Upper shower', 'Hairline crack above the valve, 14 in long', 'Wanda Pell, builder',
    'Tub wall', 'Paint chalks off under the hand', 'Wanda Pell by phone', 'Unmodified mortar',
    ...surveys.slice(1).map((entry) => grouped(entry.hash, 16)),
    ...[1, 2, 3, 4].map((n) => grouped(photoHash(n), 16)),
  ];
  expect(promised.filter((one) => !text.includes(bare(printable(one))))).toEqual([]);
  // The survey that accepted what it saw, and a photo of another step, are no part of it.
  expect(text).not.toContain(bare('Sound and clean'));
  expect(text).not.toContain(bare(grouped(photoHash(5), 16)));
});

it('is a document that a record entry can hold', async () => {
  const built = await buildPaper('notice', recordOf(await wholeLog(), new Map()));
  const { rules, heads } = built!.document;
  expect(canonicalText(built!.document)).toContain('"paper":"notice"');
  const data = { rules, lang: 'en', heads, document: built!.document, pictures: [], pdf: { sha256: photoHash(1), bytes: 1 } };
  expect(BuiltRecord.safeParse(data).success).toBe(true);
});

it('names the photos it prints, those that show a condition first', async () => {
  expect(paperPhotos('notice', recordOf(await wholeLog(), new Map()))).toEqual([2, 3, 1, 4].map(photoHash));
});

it('is none where every survey accepted what it saw, or the other was taken back', async () => {
  const accepted = [...fullJob(), survey([], 'accepted', 'Sound')];
  expect(await buildPaper('notice', recordOf(await logOf(accepted), new Map()))).toBeNull();
  const back: Draft[] = [
    { ...survey([], 'refused', 'Wet'), id: 'wet' },
    { kind: 'withdrawal', refs: ['wet'], data: { of: 'wet', why: 'Wrong room' } },
  ];
  expect(await buildPaper('notice', recordOf(await logOf([...accepted, ...back]), new Map()))).toBeNull();
});

it('says when a surface was accepted after all, and loses no word of a long finding', async () => {
  const found = Array.from({ length: 300 }, (_, i) => `w${i}`).join(' ');
  const drafts = [...fullJob(), survey(['s-north'], 'refused', found), survey(['s-north'], 'accepted', 'Dry now')];
  const built = await buildPaper('notice', recordOf(await logOf(drafts), new Map()));
  const text = bare(pagesOf(await bytesOf(built!)).join(''));
  expect(text).toContain(bare('Accepted since: North wall'));
  expect(found.split(' ').filter((word) => !text.includes(word))).toEqual([]);
});
