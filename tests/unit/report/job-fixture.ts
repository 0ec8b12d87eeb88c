import { readFile } from 'node:fs/promises';
import sharp from 'sharp';
import { append, seal, type Writer } from '#lib/record/append.ts';
import { Book } from '#lib/record/book.ts';
import { ed25519Signer } from '#lib/record/ed25519.ts';
import type { Entry } from '#lib/record/entry.ts';
import { sha256Hex } from '#lib/record/hash.ts';
import type { Draft } from '#lib/record/kinds.ts';
import type { Step } from '#lib/record/kinds/setup.ts';
import { MemoryShelf } from '#lib/record/memory-shelf.ts';
import type { Signer } from '#lib/record/sign.ts';
import type { BuiltPdf, RecordInput } from '#lib/report/build.ts';
import type { Picture } from '#lib/report/photos.ts';

const START_MS = Date.parse('2025-10-14T12:58:00.000Z');
export const UNSIGNED: Signer = { publicKey: null, whyNone: 'no-key-store', sign: async () => null };

/** A phone that writes an entry every four minutes from 7:58 am, five hours behind UTC. */
export function phone(
  device = 'phone-a',
  person = 'p-ines',
  signer: Signer = ed25519Signer(new Uint8Array(32).fill(7)),
  startMs = START_MS,
): Writer {
  let tick = 0;
  let ids = 0;
  return {
    device,
    person,
    signer,
    now: () => {
      const ms = tick++ * 240_000;
      return { utc: new Date(startMs + ms).toISOString(), offsetMin: -300, zone: 'America/Chicago', monoMs: ms, session: 'awake-1' };
    },
    newId: () => `${device}-e${ids++}`,
  };
}

/** A job's log, each draft kept in a moment of its own. */
export async function logOf(drafts: readonly Draft[], writer: Writer = phone()): Promise<Entry[]> {
  const book = new Book(new MemoryShelf());
  for (const draft of drafts) {
    const kept = await append(book, 'job-1', [draft], [], writer);
    if (!kept.ok) throw new Error(kept.fault.code);
  }
  return (await book.log('job-1')).entries;
}

/** What a newer version might write: a kind of its own, in a chain of its own. */
export async function newerEntry(): Promise<Entry> {
  const writer = phone('phone-b', 'p-tobin', UNSIGNED, START_MS + 86_400_000);
  const device = await seal({ kind: 'device', data: { key: { alg: 'none', why: 'no-key-store' } } }, 'job-1', null, writer, writer.now());
  const body = { ...device.body, kind: 'moisture-map', id: 'newer-1' };
  return { ...device, body, raw: JSON.stringify({ body, hash: device.hash, sig: device.sig }) };
}

export const shotOf = (run: string | null, surface: string | null, n: number, more: object = {}): Draft => ({
  kind: 'shot',
  ...(run !== null && { run }),
  data: { picture: { sha256: photoHash(n), bytes: 812_345 + n, type: 'image/jpeg' }, from: 'viewfinder', surface, ...more },
});

export function photoHash(n: number): string {
  return sha256Hex(new TextEncoder().encode(`photo ${n}`));
}

function run(id: string, step: Step, surfaces: string[], inside: readonly Draft[]): Draft[] {
  const within = inside.map((draft) => ({ ...draft, run: id }));
  return [{ kind: 'run-start', id, data: { step, surfaces } }, ...within, { kind: 'run-stop', run: id, data: { end: 'touched' } }];
}

const reading = (
  what: 'overlap' | 'band-lap' | 'wet-film' | 'flood-depth',
  surface: string,
  text: string,
  value: string,
  unit: 'in' | 'mil',
  to?: string,
): Draft => ({
  kind: 'reading',
  data: { what, surface, said: { text, value, unit, ...(to !== undefined && { to }) }, how: to === undefined ? 'tape' : 'comb' },
});

export interface Names {
  readonly job: string;
  readonly address: string;
  readonly person: string;
  readonly floor: string;
}

export const PLAIN: Names = { job: 'Hall bath', address: '214 Alder Court, unit 2', person: 'Inés Robledo', floor: 'Shower floor' };

/** Everything the slice can hold: all six steps, a value within, one not proven, one outside, a shot in the tray, a run still open. */
export function fullJob({ job, address, person, floor }: Names = PLAIN): Draft[] {
  return [
    { kind: 'job', data: { name: job, address, units: 'in', lang: 'en' } },
    { kind: 'person', data: { person: 'p-ines', name: person } },
    { kind: 'person', data: { person: 'p-tobin', name: 'Tobin Lark' } },
    { kind: 'surface', data: { surface: 's-north', name: 'North wall', place: 'wall', system: 'sheet-and-liquid' } },
    { kind: 'surface', data: { surface: 's-floor', name: floor, place: 'floor', system: 'sheet-and-liquid' } },
    {
      kind: 'limit',
      data: { limit: 'l-lap', what: 'overlap', min: '2', max: null, unit: 'in', source: { kind: 'data-sheet', text: 'p. 2, March 2025' } },
    },
    {
      kind: 'limit',
      data: { limit: 'l-band', what: 'band-lap', min: '2.375', max: null, unit: 'in', source: { kind: 'data-sheet', text: 'p. 4' } },
    },
    {
      kind: 'limit',
      data: { limit: 'l-film', what: 'wet-film', min: '25', max: '40', unit: 'mil', source: { kind: 'data-sheet', text: 'p. 3' } },
    },
    {
      kind: 'limit',
      data: { limit: 'l-depth', what: 'flood-depth', min: '2', max: null, unit: 'in', source: { kind: 'code', text: 'IPC 312.9' } },
    },
    ...run('r-scrape', 'scrape', ['s-north', 's-floor'], [shotOf('', 's-north', 1), shotOf('', 's-floor', 2)]),
    ...run(
      'r-cut',
      'pre-cut',
      ['s-north', 's-floor'],
      [
        reading('overlap', 's-north', 'two and eleven sixteenths', '2.6875', 'in'),
        reading('overlap', 's-floor', 'one and seven eighths', '1.875', 'in'),
      ],
    ),
    ...run('r-bond', 'bond-sheets', ['s-north'], [shotOf('', 's-north', 3, { cameraSays: { taken: '2025:10:14 09:12:07' } })]),
    ...run('r-band', 'band-seams', ['s-floor'], [shotOf('', 's-floor', 4), reading('band-lap', 's-floor', '2 1/2', '2.5', 'in')]),
    ...run(
      'r-coat',
      'liquid-coat',
      ['s-north', 's-floor'],
      [
        shotOf('', 's-north', 5, { from: 'file' }),
        shotOf('', 's-floor', 6),
        reading('wet-film', 's-north', 'wet at 24, dry at 26', '24', 'mil', '26'),
        reading('wet-film', 's-floor', 'wet at 26, dry at 28', '26', 'mil', '28'),
      ],
    ),
    ...run(
      'r-flood',
      'flood-test',
      ['s-floor'],
      [shotOf('', 's-floor', 7), reading('flood-depth', 's-floor', 'two and a quarter', '2.25', 'in')],
    ),
    { kind: 'run-start', id: 'r-again', data: { step: 'liquid-coat', surfaces: ['s-north'] } },
    shotOf(null, null, 8),
  ];
}

export function pictureOf(bytes: Uint8Array, width: number, height: number): Picture {
  return { sha256: sha256Hex(bytes), width, height, bytes: async () => bytes };
}

/** A grey picture for each photo that `fullJob` and its like name. */
export async function greyPictures(numbers: readonly number[], width = 800, height = 600): Promise<Map<string, Picture>> {
  const jpeg = await sharp({ create: { width, height, channels: 3, background: '#8a8a88' } })
    .jpeg({ quality: 60 })
    .toBuffer();
  const picture = pictureOf(new Uint8Array(jpeg), width, height);
  return new Map(numbers.map((n) => [photoHash(n), picture]));
}

const fontFile = (name: string) => readFile(new URL(`../../../static/fonts/${name}`, import.meta.url));
export const FONTS = {
  text: new Uint8Array(await fontFile('encode-sans-500.woff')),
  strong: new Uint8Array(await fontFile('encode-sans-700.woff')),
};

export async function bytesOf({ pdf }: Pick<BuiltPdf<unknown>, 'pdf'>): Promise<Uint8Array> {
  return new Uint8Array(await pdf.blob.arrayBuffer());
}

/** A record of entries built on 22 Oct 2025 at 4:12 pm, in English on Letter unless said otherwise. */
export function recordOf(entries: readonly Entry[], pictures: ReadonlyMap<string, Picture>, more: Partial<RecordInput> = {}): RecordInput {
  const built = { utc: '2025-10-22T21:12:00.000Z', offsetMin: -300, zone: 'America/Chicago', monoMs: 0, session: 'awake-9' };
  return { entries, unreadable: 0, built, by: 'p-ines', locale: 'en', paper: 'letter', fonts: FONTS, pictures, ...more };
}
