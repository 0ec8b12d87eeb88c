import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, expect, it, vi } from 'vitest';
import { amendedFields, saidFields } from '#lib/job/said.ts';
import type { Entry } from '#lib/record/entry.ts';
import { sha256HexOfText } from '#lib/record/hash.ts';
import { known, KINDS } from '#lib/record/kinds.ts';
import { buildRecord } from '#lib/report/build.ts';
import { logText } from '#lib/report/chains.ts';
import { grouped } from '#lib/report/speaker.ts';
import { printable } from '#lib/report/text.ts';
import { limitSourceText, limitText } from '#lib/words/limit.ts';
import { chain } from '../../fixtures/log.ts';
import { ONE_OF_EACH } from '../../fixtures/one-of-each.ts';
import { crewLog } from '../../sim/crew-log.ts';
import { bytesOf, recordOf } from './job-fixture.ts';
import { promisedBy } from './promised.ts';
import { expectSound } from './sound.ts';
import { tool } from './tool.ts';

// Each case builds a PDF and starts six tools on it.
vi.setConfig({ testTimeout: 120_000 });

const folder = mkdtempSync(path.join(tmpdir(), 'generated-'));
afterAll(() => rmSync(folder, { recursive: true }));

/** As many as a run has time for; `npm run deep` asks for thirty, from a seed of its own. */
const JOBS = Number(process.env['GENERATED_JOBS'] ?? 6);
const FIRST = Number(process.env['GENERATED_FIRST'] ?? 20_261_300);
/** What people call things: accents, signs of mark-up, other scripts, directions, emoji, and words without a space. */
const ODD = [
  'Baño <2> & “Ñandú”',
  'שלום room',
  'Łazienka — 1½',
  '浴室',
  'x'.repeat(90),
  'W W'.repeat(20),
  '🛁 tub',
  'a\u202Eb (c)',
  '"quoted" \\ back',
  "O'Hara",
];

/** A generated day of a crew, with one entry of each kind said by a third phone, and odd names on what can be named. */
function logOf(seed: number): Entry[] {
  const odd = (at: number) => ODD[(seed + at) % ODD.length]!;
  const crew = crewLog(seed).map((entry) => renamed(entry, odd));
  const kinds = KINDS.filter((kind) => kind !== 'device' && kind !== 'record' && kind !== 'amendment' && kind !== 'withdrawal');
  const office = chain('office', [
    { kind: 'device', data: { key: { alg: 'none', why: 'no-key-store' } } },
    ...kinds.map((kind, i) => ({ kind, data: named(kind, ONE_OF_EACH[kind], odd(i)) })),
  ]);
  // The simulated days are neither hashed nor signed.
  return [...crew, ...office].map((entry) => ({ ...entry, hash: sha256HexOfText(entry.raw) }));
}

function renamed(entry: Entry, odd: (at: number) => string): Entry {
  const { kind, data, seq } = entry.body;
  if (kind !== 'job' && kind !== 'surface' && kind !== 'room') return entry;
  const body = { ...entry.body, data: { ...data, name: `${odd(seq)} ${seq}` } };
  return { ...entry, body, raw: JSON.stringify(body) };
}

function named(kind: string, data: object, odd: string): object {
  if (kind === 'job') return { ...data, name: odd, address: odd };
  if (kind === 'material') return { ...data, name: odd, lot: odd.slice(0, 40) };
  if (kind === 'deviation') return { ...data, what: odd, why: odd };
  if (kind === 'limit') return { ...data, source: { kind: 'data-sheet', text: odd } };
  return 'words' in data && kind !== 'note' ? { ...data, words: odd } : data;
}

const bare = (text: string) => printable(text).replaceAll(/\s/g, '');

it.each(Array.from({ length: JOBS }, (_, i) => FIRST + i))(
  'the record of the generated job %d says all of it, and is sound',
  async (seed) => {
    const entries = logOf(seed);
    const locale = seed % 2 === 0 ? 'en' : 'es';
    const built = await buildRecord(recordOf(entries, new Map(), { locale, paper: seed % 3 === 0 ? 'a4' : 'letter' }));
    const file = path.join(folder, 'job.pdf');
    writeFileSync(file, await bytesOf(built));
    expectSound(file);
    const text = tool('pdftotext', '-raw', file, '-').replaceAll(/\s/g, '');

    const { document } = built;
    const kinds = new Map(entries.map(({ body }) => [body.id, body.kind]));
    const said = entries.flatMap((entry) => {
      const view = known(entry);
      const instead = view.kind === 'amendment' ? amendedFields(kinds.get(view.data.of) ?? '', view.data.data) : [];
      return promisedBy([...saidFields(view), ...instead], locale, entry.body.times.offsetMin);
    });
    const promised = [
      ...said,
      ...entries.map(({ hash }) => grouped(hash, 16)),
      ...document.limits.flatMap((limit) => [limitText(limit, locale), limitSourceText(limit, locale)]),
      ...document.materials.flatMap(({ name, lot }) => [name, lot]),
      ...document.surfaces.map(({ name }) => name),
      grouped(document.fingerprint),
    ];
    expect(promised.length).toBeGreaterThan(150);
    expect([...new Set(promised)].filter((one) => !text.includes(bare(one)))).toEqual([]);

    tool('pdfdetach', '-save', '1', '-o', path.join(folder, 'log.jsonl'), file);
    expect(readFileSync(path.join(folder, 'log.jsonl'), 'utf8')).toBe(logText(entries));
  },
);
