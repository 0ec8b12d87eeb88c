import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, describe, expect, it, vi } from 'vitest';
import { sha256Hex } from '#lib/record/hash.ts';
import type { Draft } from '#lib/record/kinds.ts';
import { buildRecord, type BuiltPdf } from '#lib/report/build.ts';
import { logText } from '#lib/report/chains.ts';
import { grouped } from '#lib/report/speaker.ts';
import { printable } from '#lib/report/text.ts';
import { limitSourceText, limitText } from '#lib/words/limit.ts';
import { quantityText, spanText } from '#lib/words/number.ts';
import { bytesOf, fullJob, greyPictures, logOf, newerEntry, PLAIN, recordOf, shotOf, type Names } from './job-fixture.ts';
import { SIGNATURES, WHOLE_SHOTS, wholeLog } from './whole-job.ts';
import { expectSound } from './sound.ts';
import { tool } from './tool.ts';

// Each case builds a PDF and starts five tools on it.
vi.setConfig({ testTimeout: 60_000 });

const folder = mkdtempSync(path.join(tmpdir(), 'record-'));
afterAll(() => rmSync(folder, { recursive: true }));

async function saved(built: BuiltPdf): Promise<string> {
  const file = path.join(folder, 'record.pdf');
  writeFileSync(file, await bytesOf(built));
  return file;
}

/** The text of a PDF in the order it was written, without white space: a line end is no difference. */
function textOf(file: string): string {
  return bare(tool('pdftotext', '-raw', file, '-'));
}

function bare(text: string): string {
  return text.replaceAll(/\s/g, '');
}

const ODD: Names = {
  job: 'Baño 🛁 & <hijos> “Ñandú” שלום'.slice(0, 200),
  address: 'calle '.repeat(333),
  person: 'W'.repeat(200),
  floor: 'م'.repeat(200),
};
const UNBROKEN: Names = { ...PLAIN, address: 'x'.repeat(2_000), floor: 'مرحبا '.repeat(33).trim() };

const manyShots: Draft[] = [...fullJob(), ...Array.from({ length: 52 }, (_, i) => shotOf(null, 's-north', i + 9))];
const noShots = fullJob().filter((draft) => draft.kind !== 'shot');
const EIGHT = [1, 2, 3, 4, 5, 6, 7, 8];

const ENGLISH = { locale: 'en', paper: 'letter' } as const;
const SPANISH = { locale: 'es', paper: 'a4' } as const;

describe.each([
  { name: 'a full job', drafts: fullJob(), shots: EIGHT, as: [ENGLISH, SPANISH] },
  { name: 'odd names', drafts: fullJob(ODD), shots: EIGHT, as: [SPANISH] },
  { name: 'an address of 2000 characters without a space', drafts: fullJob(UNBROKEN), shots: EIGHT, as: [ENGLISH] },
  { name: 'no shot', drafts: noShots, shots: [], as: [SPANISH] },
  { name: '60 shots', drafts: manyShots, shots: Array.from({ length: 60 }, (_, i) => i + 1), as: [ENGLISH] },
  { name: 'nothing but a name', drafts: fullJob().slice(0, 1), shots: [], as: [SPANISH] },
])('the record of $name', ({ drafts, shots, as }) => {
  it.each(as)('in $locale on $paper: sound, whole, in its place', async ({ locale, paper }) => {
    const entries = [...(await logOf(drafts)), await newerEntry()];
    const built = await buildRecord(recordOf(entries, await greyPictures(shots), { locale, paper }));
    const { document } = built;
    const file = await saved(built);
    expectSound(file);
    const text = textOf(file);
    const limits = new Map(document.limits.map((limit) => [limit.limit, limit]));
    const promised = [
      ...[document.job.name, document.job.address].map(printable),
      ...document.people.map(({ name }) => printable(name)),
      ...document.surfaces.map(({ name }) => printable(name)),
      ...document.readings.map(({ said }) => (said.to === null ? quantityText(said, locale) : spanText({ ...said, to: said.to }, locale))),
      ...document.readings.flatMap(({ said }) => said.text ?? []),
      ...[...limits.values()].flatMap((limit) => [limitText(limit, locale), limitSourceText(limit, locale)]),
      ...document.heads.map((head) => head.hash),
      ...entries.map((entry) => grouped(entry.hash, 16)),
      ...document.shots.map((shot) => grouped(shot.sha256, 16)),
      ...document.shots.flatMap((shot) => (shot.cameraSays === null ? [] : [shot.cameraSays])),
    ];
    expect(promised.filter((one) => !text.includes(bare(one)))).toEqual([]);
    expect(tool('pdfdetach', '-list', file)).toContain('1: log.jsonl');
    tool('pdfdetach', '-save', '1', '-o', path.join(folder, 'log.jsonl'), file);
    expect(readFileSync(path.join(folder, 'log.jsonl'), 'utf8')).toBe(logText(entries));
  });
});

it('is sound where every kind of entry is said', async () => {
  for (const more of [
    { locale: 'en', paper: 'letter' },
    { locale: 'es', paper: 'a4' },
  ] as const) {
    expectSound(await saved(await buildRecord(recordOf(await wholeLog(), await greyPictures([...WHOLE_SHOTS, ...SIGNATURES]), more))));
  }
});

const entries = await logOf(fullJob());
const pictures = await greyPictures(EIGHT);

it.each([
  { locale: 'en', paper: 'a4' },
  { locale: 'es', paper: 'letter' },
] as const)('is sound in $locale on $paper too', async (more) => {
  expectSound(await saved(await buildRecord(recordOf(entries, pictures, more))));
});

it('is the same bytes from the same log, whatever order it came in', async () => {
  const first = await buildRecord(recordOf(entries, pictures));
  const second = await buildRecord(recordOf([...entries].reverse(), pictures));
  expect(Buffer.from(await bytesOf(second)).equals(await bytesOf(first))).toBe(true);
  expect(second.pdf.sha256).toBe(sha256Hex(await bytesOf(first)));
});

it('shows people’s own words that the face lacks as code points, and the attached log as they were', async () => {
  const log = await logOf(fullJob(ODD));
  const file = await saved(await buildRecord(recordOf(log, pictures)));
  expect(textOf(file)).toContain(bare('Baño [U+1F6C1] & <hijos> “Ñandú” [U+05E9 U+05DC U+05D5 U+05DD]'));
  tool('pdfdetach', '-save', '1', '-o', path.join(folder, 'log.jsonl'), file);
  expect(readFileSync(path.join(folder, 'log.jsonl'), 'utf8')).toContain(ODD.job);
});

it('has a glyph, in both cuts, for every character it prints as itself', async () => {
  const asItself = Array.from({ length: 0x3000 }, (_, code) => String.fromCodePoint(code)).filter(
    (one) => one === printable(one) && bare(one) !== '',
  );
  expect(asItself.length).toBeGreaterThan(200);
  const all = asItself.join('');
  // The name of the job and of a surface are set strong, the address in the other cut.
  const names = { ...PLAIN, job: all.slice(0, 120), floor: all.slice(120), address: all };
  const text = textOf(await saved(await buildRecord(recordOf(await logOf(fullJob(names)), pictures))));
  for (const name of [names.job, names.floor, names.address]) expect(text).toContain(name);
});

it('says its title, language and structure, and marks itself PDF/A-3a', async () => {
  const file = await saved(await buildRecord(recordOf(await logOf(fullJob(ODD)), pictures, { locale: 'es' })));
  const info = tool('pdfinfo', file);
  expect(info).toMatch(/^Title: +Registro de impermeabilización: Baño /m);
  expect(info).toMatch(/^Tagged: +yes$/m);
  // The title holds &, < and >, which the metadata must escape.
  const metadata = tool('pdfinfo', '-meta', file);
  expect(metadata).toContain('&amp; &lt;hijos&gt;');
  expect(metadata).toContain('<pdfaid:part>3</pdfaid:part>');
  expect(metadata).toContain('<pdfaid:conformance>A</pdfaid:conformance>');
  const raw = readFileSync(file, 'latin1');
  expect(raw).toContain('/Lang (es)');
  expect(raw).toContain('/AFRelationship /Source');
  expect(raw).toContain('/OutputIntents');
  // What part 3 asks of a file with another in it (ISO 19005-3, 6.8): named in the catalog, with its type, size and dates, and why it is there.
  for (const key of [
    '/AF [',
    '/EmbeddedFiles',
    '/Type /EmbeddedFile',
    '/UF (log.jsonl)',
    '/Subtype /application#2Fx-ndjson',
    '/ModDate',
    '/StructTreeRoot',
    '/Marked true',
  ])
    expect(raw.includes(key), key).toBe(true);
  // Nothing a reader could be made to run, no cipher, no font left out.
  for (const key of ['/JavaScript', '/Encrypt', '/Launch', '/XFA']) expect(raw.includes(key), key).toBe(false);
  const structure = tool('pdfinfo', '-struct', file);
  for (const element of ['H1', 'H2', 'Table', 'TR', 'TH', 'TD', 'Figure', 'Caption'])
    expect(structure).toMatch(new RegExp(`^ *${element}\\b`, 'm'));
});

it('gives every picture and the section a text for readers that do not see it', async () => {
  const raw = readFileSync(await saved(await buildRecord(recordOf(entries, pictures))), 'latin1');
  // The section, the timeline, and a plot of the two readings of each of two measures.
  expect(raw.match(/\/Alt \(/g)).toHaveLength(1 + 1 + 2 + EIGHT.length);
});

it('says on every page that an example is invented', async () => {
  const example = fullJob().map((draft): Draft => (draft.kind === 'job' ? { ...draft, data: { ...draft.data, example: true } } : draft));
  const file = await saved(await buildRecord(recordOf(await logOf(example), pictures)));
  const pages = tool('pdftotext', '-raw', file, '-').split('\f').slice(0, -1);
  expect(pages.length).toBeGreaterThan(1);
  for (const page of pages) expect(bare(page)).toContain(bare('Example job. All of it is invented.'));
});

it('prints on the cover the head the attachment ends at', async () => {
  const file = await saved(await buildRecord(recordOf(entries, pictures)));
  const cover = bare(tool('pdftotext', '-raw', '-l', '1', file, '-'));
  tool('pdfdetach', '-save', '1', '-o', path.join(folder, 'log.jsonl'), file);
  const last = JSON.parse(readFileSync(path.join(folder, 'log.jsonl'), 'utf8').trim().split('\n').at(-1)!) as { hash: string };
  expect(cover).toContain(last.hash);
});

it('counts its pages', async () => {
  const file = await saved(await buildRecord(recordOf(entries, pictures)));
  const pages = tool('pdftotext', '-raw', file, '-').split('\f').slice(0, -1);
  pages.forEach((page, i) => expect(page).toContain(`${i + 1} of ${pages.length}`));
});
