import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, describe, expect, it, vi } from 'vitest';
import { amendedFields, saidFields } from '#lib/job/said.ts';
import { canonicalText } from '#lib/record/canonical.ts';
import { known, KINDS } from '#lib/record/kinds.ts';
import { BuiltRecord } from '#lib/record/kinds/work.ts';
import { buildRecord } from '#lib/report/build.ts';
import { grouped } from '#lib/report/speaker.ts';
import { printable } from '#lib/report/text.ts';
import { CHOICE, FIELD } from '#lib/words/fields.ts';
import * as m from '#lib/words/compiled/messages.js';
import { bytesOf, greyPictures, photoHash, recordOf } from './job-fixture.ts';
import { promisedBy } from './promised.ts';
import { expectSound } from './sound.ts';
import { SIGNATURES, WHOLE_SHOTS, wholeLog } from './whole-job.ts';
import { tool } from './tool.ts';

// Each case builds a PDF and starts a tool on it.
vi.setConfig({ testTimeout: 60_000 });

const folder = mkdtempSync(path.join(tmpdir(), 'whole-'));
afterAll(() => rmSync(folder, { recursive: true }));

const bare = (text: string) => text.replaceAll(/\s/g, '');
const entries = await wholeLog();
const pictures = await greyPictures([...WHOLE_SHOTS, ...SIGNATURES], 400, 300);

it('the fixture says every kind there is', () => {
  const said = new Set(entries.map((entry) => entry.body.kind));
  expect(KINDS.filter((kind) => !said.has(kind))).toEqual([]);
  expect(entries.filter((entry) => known(entry).kind === 'unknown')).toEqual([]);
});

describe.each(['en', 'es'] as const)('the record of a job that holds every kind, in %s', async (locale) => {
  const built = await buildRecord(recordOf(entries, pictures, { locale }));
  const { document } = built;
  const file = path.join(folder, `${locale}.pdf`);
  writeFileSync(file, await bytesOf(built));
  const raw = tool('pdftotext', '-raw', file, '-');
  const text = bare(raw);
  const missing = (promised: readonly string[]) => promised.filter((one) => !text.includes(bare(printable(one))));

  it('is sound', () => expectSound(file));

  it('has every entry of the log, and the words people put into it', () => {
    expect(missing(entries.map((entry) => grouped(entry.hash, 16)))).toEqual([]);
    const kinds = new Map(entries.map(({ body }) => [body.id, body.kind]));
    const promised = entries.flatMap((entry) => {
      const view = known(entry);
      const instead = view.kind === 'amendment' ? amendedFields(kinds.get(view.data.of)!, view.data.data) : [];
      return promisedBy([...saidFields(view), ...instead], locale);
    });
    expect(promised.length).toBeGreaterThan(150);
    expect(missing(promised)).toEqual([]);
  });

  it('says people’s words in the parts before the log too, so that nobody has to read the log for them', () => {
    const body = text.slice(0, text.indexOf(bare(m.record_log_note({}, { locale }))));
    expect(body.length).toBeGreaterThan(2_000);
    const words = entries.flatMap((entry) => saidFields(known(entry)).flatMap((field) => (field.is === 'words' ? [field.text] : [])));
    expect(words.length).toBeGreaterThan(60);
    expect(words.filter((one) => !body.includes(bare(printable(one))))).toEqual([]);
  });

  it('shows no code, no object and no bare id in place of a word', () => {
    expect(raw).not.toMatch(/\[object|undefined|NaN|\bnull\b/);
    // Codes with a hyphen are no words of any language.
    const codes = Object.keys(CHOICE)
      .map((key) => key.split('.').slice(1).join('.'))
      .filter((code) => code.includes('-') && !code.includes('.'));
    const kinds = KINDS.filter((kind) => kind.includes('-'));
    const fields = Object.keys(FIELD).filter((key) => /[a-z][A-Z]/.test(key));
    const shown = [...codes, ...kinds, ...fields].filter((code) => new RegExp(`(?<![\\w-])${code}(?![\\w-])`).test(raw));
    // English says these two in the same letters.
    expect(shown.filter((code) => !['by-others', 'flood-test'].includes(code))).toEqual([]);
    expect(raw.match(/\b(?:[smldr]|r|p)-(?:north|floor|curb|tub|shower|lap|film|sheet|mortar|liquid|ines|tobin|walk)\b/g)).toBe(null);
  });

  it('fits a record entry as a tree that may be hashed', () => {
    const { rules, heads } = document;
    expect(canonicalText(document).length).toBeLessThan(120_000);
    const data = { rules, lang: locale, heads, document, pictures: [], pdf: { sha256: photoHash(1), bytes: 1 } };
    expect(BuiltRecord.safeParse(data).success).toBe(true);
  });
});
