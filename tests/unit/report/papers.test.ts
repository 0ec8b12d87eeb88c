import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, describe, expect, it, vi } from 'vitest';
import { canonicalText } from '#lib/record/canonical.ts';
import type { Draft } from '#lib/record/kinds.ts';
import { buildPaper } from '#lib/report/build.ts';
import { printable } from '#lib/report/text.ts';
import { bytesOf, fullJob, greyPictures, logOf, recordOf, shotOf } from './job-fixture.ts';
import { tool } from './tool.ts';
import { wholeLog, WHOLE_SHOTS } from './whole-job.ts';

vi.setConfig({ testTimeout: 60_000 });

const folder = mkdtempSync(path.join(tmpdir(), 'papers-'));
afterAll(() => rmSync(folder, { recursive: true }));
const bare = (text: string) => printable(text).replaceAll(/\s/g, '');

async function pagesOf(built: Awaited<ReturnType<typeof buildPaper>>): Promise<string[]> {
  const file = path.join(folder, 'paper.pdf');
  writeFileSync(file, await bytesOf(built!));
  expect(tool('qpdf', '--check', file)).toContain('No syntax or stream encoding errors found');
  expect(tool('pdfdetach', '-list', file)).toContain('0 embedded files');
  return tool('pdftotext', '-raw', file, '-').split('\f').slice(0, -1);
}

const whole = await wholeLog();
const pictures = await greyPictures(WHOLE_SHOTS);

describe('the page for an inspector', () => {
  it.each([
    [
      'en',
      'Permit PW-2025-0417',
      ['Below the weep holes', 'As the contract says', 'No leak seen', '24 h', 'Passed', 'City inspector 12', 'Passed, by the crew'],
    ],
    ['es', 'Permiso PW-2025-0417', ['24 h', 'Aprobada', 'City inspector 12']],
  ] as const)('begins with the permit and fits one sheet, in %s', async (locale, permit, said) => {
    const pages = await pagesOf(await buildPaper('inspector', recordOf(whole, pictures, { locale })));
    expect(pages).toHaveLength(1);
    const text = bare(pages[0]!);
    expect(text.startsWith(bare(permit))).toBe(true);
    for (const one of [...said, 'Two baths', '9 Quarry Steps', '2 in', 'Walls over the line, outside of the curb'])
      expect(text).toContain(bare(one));
  });

  it('puts what an inspector passed before anything that levels do not show', async () => {
    const [page] = await pagesOf(await buildPaper('inspector', recordOf(whole, pictures)));
    const text = bare(page!);
    const passed = text.indexOf(bare('City inspector 12'));
    expect(passed).toBeGreaterThan(0);
    for (const doubt of ['Not proven', 'Not conclusive']) {
      const at = text.indexOf(bare(doubt));
      expect(at < 0 || at > passed, doubt).toBe(true);
    }
  });

  it('is none where no water was let in under an attempt', async () => {
    expect(await buildPaper('inspector', recordOf(await logOf(fullJob()), new Map()))).toBeNull();
  });
});

describe('the owner’s page', () => {
  const behind: Draft[] = [
    ...fullJob(),
    { kind: 'run-start', id: 'r-behind', data: { step: 'behind', surfaces: ['s-north'] } },
    { ...shotOf('r-behind', 's-north', 70), run: 'r-behind' },
    {
      kind: 'reading',
      run: 'r-coat',
      data: { what: 'upturn', surface: 's-north', said: { text: '72', value: '72', unit: 'in' }, how: 'tape' },
    },
  ];

  it.each([
    ['en', ['Do not drill here', 'North wall', 'Photo 1', '72 in', 'Care', 'If water shows']],
    ['es', ['No perforar aquí', 'North wall', 'Foto 1', '72 in', 'Cuidado', 'Si aparece agua']],
  ] as const)('says where not to drill, what lies behind, and how to care for it, in %s', async (locale, said) => {
    const built = await buildPaper('owner', recordOf(await logOf(behind), await greyPictures([70]), { locale }));
    const pages = await pagesOf(built);
    expect(pages.length).toBeLessThanOrEqual(2);
    const text = bare(pages.join(''));
    for (const one of said) expect(text).toContain(bare(one));
    expect(canonicalText(built!.document)).toContain('"paper":"owner"');
  });

  it('of a job without photos of open walls says that pipes may be anywhere', async () => {
    const text = bare((await pagesOf(await buildPaper('owner', recordOf(await logOf(fullJob()), new Map())))).join(''));
    expect(text).toContain(bare('Treat every spot as one with a pipe or a wire behind it.'));
  });

  it('is none for a job without surfaces', async () => {
    expect(await buildPaper('owner', recordOf(await logOf(fullJob().slice(0, 1)), new Map()))).toBeNull();
  });
});
