import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, expect, it, vi } from 'vitest';
import { amendedFields, saidFields } from '#lib/job/said.ts';
import { known } from '#lib/record/kinds.ts';
import { buildRecord } from '#lib/report/build.ts';
import { logText } from '#lib/report/chains.ts';
import { grouped } from '#lib/report/speaker.ts';
import { printable } from '#lib/report/text.ts';
import { limitSourceText, limitText } from '#lib/words/limit.ts';
import { PICTURE } from '../../fixtures/shower.ts';
import { generatedLog } from './generated-job.ts';
import { bytesOf, greyPictures, recordOf } from './job-fixture.ts';
import { promisedBy } from './promised.ts';
import { expectSound } from './sound.ts';
import { tool } from './tool.ts';

// Each case builds a PDF and starts six tools on it.
vi.setConfig({ testTimeout: 120_000 });

const folder = mkdtempSync(path.join(tmpdir(), 'generated-'));
afterAll(() => rmSync(folder, { recursive: true }));

/** As many as a run has time for; `npm run deep` asks for thirty, from a seed of its own. */
const JOBS = Number(process.env['GENERATED_JOBS'] ?? 2);
const FIRST = Number(process.env['GENERATED_FIRST'] ?? 20_261_300);
/** Every photo of these jobs is this one. */
const pictures = new Map([[PICTURE.sha256, [...(await greyPictures([0], 403, 302)).values()][0]!]]);
const bare = (text: string) => printable(text).replaceAll(/\s/g, '');

it.each(Array.from({ length: JOBS }, (_, i) => FIRST + i))(
  'the record of the generated job %d says all of it, and is sound',
  async (seed) => {
    const entries = generatedLog(seed);
    const locale = seed % 2 === 0 ? 'en' : 'es';
    const built = await buildRecord(recordOf(entries, pictures, { locale, paper: seed % 3 === 0 ? 'a4' : 'letter' }));
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
