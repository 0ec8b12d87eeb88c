import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, expect, it, vi } from 'vitest';
import type { Entry } from '#lib/record/entry.ts';
import { sha256Hex } from '#lib/record/hash.ts';
import type { Draft } from '#lib/record/kinds.ts';
import { buildRecord, type BuiltPdf } from '#lib/report/build.ts';
import { logText } from '#lib/report/chains.ts';
import { grouped } from '#lib/report/speaker.ts';
import { printable } from '#lib/report/text.ts';
import { limitSourceText, limitText } from '#lib/words/limit.ts';
import { quantityText, spanText } from '#lib/words/number.ts';
import { bytesOf, fullJob, greyPictures, logOf, newerEntry, PLAIN, recordOf, shotOf, type Names } from './job-fixture.ts';
import { expectSound } from './sound.ts';
import { tool } from './tool.ts';

// Each builds a PDF and starts five tools on it.
vi.setConfig({ testTimeout: 60_000 });

const folder = mkdtempSync(path.join(tmpdir(), 'record-'));
afterAll(() => rmSync(folder, { recursive: true }));

/** A line end is no difference. */
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

/** Every character that is printed as itself; a job's and a surface's name are set strong, the address in the other cut. */
const AS_ITSELF = Array.from({ length: 0x3000 }, (_, code) => String.fromCodePoint(code))
  .filter((one) => one === printable(one) && bare(one) !== '')
  .join('');
const EACH: Names = { ...PLAIN, job: AS_ITSELF.slice(0, 120), floor: AS_ITSELF.slice(120), address: AS_ITSELF };

const example = fullJob().map((draft): Draft => (draft.kind === 'job' ? { ...draft, data: { ...draft.data, example: true } } : draft));
const manyShots: Draft[] = [...fullJob(EACH), ...Array.from({ length: 52 }, (_, i) => shotOf(null, 's-north', i + 9))];
const EIGHT = [1, 2, 3, 4, 5, 6, 7, 8];
const ENGLISH = { locale: 'en', paper: 'letter' } as const;
const SPANISH = { locale: 'es', paper: 'a4' } as const;

/** Each is printed once, and asked everything. */
const JOBS = {
  'a full job': { drafts: fullJob(), shots: EIGHT, as: ENGLISH },
  'an example': { drafts: example, shots: EIGHT, as: SPANISH },
  'odd names': { drafts: fullJob(ODD), shots: EIGHT, as: SPANISH },
  'an address of 2000 characters without a space, and no shot': {
    drafts: fullJob(UNBROKEN).filter((draft) => draft.kind !== 'shot'),
    shots: [],
    as: ENGLISH,
  },
  '60 shots, and names of every character there is': { drafts: manyShots, shots: Array.from({ length: 60 }, (_, i) => i + 1), as: ENGLISH },
  'nothing but a name': { drafts: fullJob().slice(0, 1), shots: [], as: SPANISH },
} as const;

interface Printed {
  readonly built: BuiltPdf;
  readonly entries: readonly Entry[];
  readonly file: string;
  /** Its text, without white space, page by page. */
  readonly pages: readonly string[];
}
const printed = new Map<keyof typeof JOBS, Promise<Printed>>();

function record(name: keyof typeof JOBS): Promise<Printed> {
  const before = printed.get(name);
  if (before !== undefined) return before;
  const printing = (async () => {
    const { drafts, shots, as } = JOBS[name];
    const entries = [...(await logOf(drafts)), await newerEntry()];
    const built = await buildRecord(recordOf(entries, await greyPictures(shots), as));
    const file = path.join(folder, `${printed.size}.pdf`);
    writeFileSync(file, await bytesOf(built));
    return { built, entries, file, pages: tool('pdftotext', '-raw', file, '-').split('\f').slice(0, -1).map(bare) };
  })();
  printed.set(name, printing);
  return printing;
}

function logIn(file: string): string {
  const log = path.join(folder, 'log.jsonl');
  tool('pdfdetach', '-save', '1', '-o', log, file);
  return readFileSync(log, 'utf8');
}

it.each(Object.keys(JOBS) as (keyof typeof JOBS)[])('the record of %s is sound, whole, in its place', async (name) => {
  const { built, entries, file, pages } = await record(name);
  const { locale } = JOBS[name].as;
  const { document } = built;
  expectSound(file);
  const text = pages.join('');
  const limits = new Map(document.limits.map((limit) => [limit.limit, limit]));
  const promised = [
    ...[document.job.name, document.job.address].map(printable),
    ...document.people.map(({ name: called }) => printable(called)),
    ...document.surfaces.map(({ name: called }) => printable(called)),
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
  expect(logIn(file)).toBe(logText(entries));
});

it('is the same bytes from the same log, whatever order it came in', async () => {
  const { built, entries } = await record('a full job');
  const second = await buildRecord(recordOf([...entries].reverse(), await greyPictures(EIGHT), ENGLISH));
  expect(Buffer.from(await bytesOf(second)).equals(await bytesOf(built))).toBe(true);
  expect(second.pdf.sha256).toBe(sha256Hex(await bytesOf(built)));
});

it('shows people’s own words that the face lacks as code points, and the attached log as they were', async () => {
  const { file, pages } = await record('odd names');
  expect(pages.join('')).toContain(bare('Baño [U+1F6C1] & <hijos> “Ñandú” [U+05E9 U+05DC U+05D5 U+05DD]'));
  expect(logIn(file)).toContain(ODD.job);
});

it('has a glyph, in both cuts, for every character it prints as itself', async () => {
  expect(AS_ITSELF.length).toBeGreaterThan(200);
  const text = (await record('60 shots, and names of every character there is')).pages.join('');
  for (const name of [EACH.job, EACH.floor, EACH.address]) expect(text).toContain(name);
});

it('says its title, language and structure, and marks itself PDF/A-3a', async () => {
  const { file } = await record('odd names');
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
  const raw = readFileSync((await record('a full job')).file, 'latin1');
  // The section, the timeline, and a plot of the two readings of each of two measures.
  expect(raw.match(/\/Alt \(/g)).toHaveLength(1 + 1 + 2 + EIGHT.length);
});

it('says on every page that an example is invented', async () => {
  const { pages } = await record('an example');
  expect(pages.length).toBeGreaterThan(1);
  for (const page of pages) expect(page).toContain(bare('Obra de ejemplo. Todo en ella es inventado.'));
});

it('prints on the cover the head the attachment ends at', async () => {
  const { file, pages } = await record('a full job');
  const last = JSON.parse(logIn(file).trim().split('\n').at(-1)!) as { hash: string };
  expect(pages[0]).toContain(last.hash);
});

it('counts its pages', async () => {
  const { pages } = await record('a full job');
  pages.forEach((page, i) => expect(page).toContain(bare(`${i + 1} of ${pages.length}`)));
});
