import { readFile } from 'node:fs/promises';
import { expect, type Page } from '@playwright/test';
import { known } from '#lib/record/kinds.ts';
import { unpack } from '#lib/record/unpack.ts';
import { recompute } from '#lib/report/recompute.ts';
import * as m from '#lib/words/compiled/messages.js';
import { rebuilt } from '../fixtures/rebuild.ts';
import { job, limit, looseShots, plantedSite, surface, type Planted } from './planted.ts';
import { Site } from './site.ts';
import { entriesOf, readStored } from './stored.ts';
import { test } from './test.ts';

test.use({ serviceWorkers: 'block' });
// A busy machine is no fault of a test.
test.describe.configure({ timeout: 240_000 });

const ID = 'hall-bath';
const JOB: readonly Planted[] = [
  job('Hall bath'),
  surface('floor', 'Floor', 'floor'),
  surface('back', 'Back wall', 'wall'),
  limit('overlap', '2', null, 'in'),
  { kind: 'reading', data: { what: 'overlap', surface: 'floor', said: { text: '2 1/4', value: '2.25', unit: 'in' }, how: 'tape' } },
  {
    kind: 'survey',
    data: { surfaces: ['floor'], result: 'with-reservation', drop: 'slowly', found: 'A crack by the drain', told: 'The builder' },
  },
  {
    id: 'fill',
    kind: 'flood-fill',
    data: {
      profile: 'contract',
      holdMin: '60',
      depth: { text: '2', value: '2', unit: 'in' },
      under: ['floor'],
      above: 'Walls',
      plug: 'below-flange',
      line: true,
      ceiling: 'dry',
      dam: true,
      soaked: true,
      sign: true,
      pan: false,
    },
  },
];

/** Chooses a paper by its name, builds it, and waits until it is kept. */
async function buildPage(page: Page, name: string): Promise<void> {
  await page.getByLabel(name, { exact: true }).check();
  await page.getByRole('button', { name: m.record_build_page(), exact: true }).click();
  await page.getByRole('status').filter({ hasText: m.record_built() }).waitFor();
}

test('papers for each reader, built again elsewhere to the byte, judged again, and the whole job on another phone', async ({
  site,
  browser,
  baseURL,
}) => {
  const { page } = site;
  await plantedSite(site, ID, JOB, await looseShots(3, 5));
  await site.openRecordPage();

  await test.step('the record in both languages, and one page for each of three readers', async () => {
    await page.getByLabel(m.record_both(), { exact: true }).check();
    await site.buildRecord();
    await page.getByLabel('Español', { exact: true }).check();
    for (const name of [m.paper_inspector(), m.paper_owner(), m.paper_notice()]) await buildPage(page, name);
    // Without the address: the log, which has it, is not attached.
    await page.getByLabel(m.paper_record(), { exact: true }).check();
    await page.getByLabel(m.job_address(), { exact: true }).uncheck();
    await expect(page.getByText(m.record_without_log())).toBeVisible();
    const pdf = await readFile(await (await site.buildRecord()).path());
    expect(pdf.includes('12 Elm Street')).toBe(false);
  });

  const stored = await readStored(page);
  const records = entriesOf(stored)
    .map(known)
    .flatMap((view) => (view.kind === 'record' ? [view.data] : []));
  await test.step('pictures were made once, and kept', () => {
    expect(records.map(({ document }) => document['paper'] ?? 'record')).toEqual(['record', 'inspector', 'owner', 'notice', 'record']);
    const [first, ...later] = records;
    expect(first!.derived).toHaveLength(3);
    expect(later.at(-1)!.derived).toEqual(first!.derived);
    expect(first!.derived!.filter(({ sha256 }) => stored.blobs[sha256] !== sha256)).toEqual([]);
  });

  await test.step('each judged again by today’s rules', async () => {
    await page.getByRole('button', { name: m.judge_again(), exact: true }).click();
    await expect(page.getByTestId('judged')).toHaveCount(records.length);
    await expect(page.getByText(m.judged_same(), { exact: true })).toHaveCount(records.length);
  });

  const archive = await (await site.writeArchive()).path();
  await test.step('built again without a browser, each has the same bytes', async () => {
    const opened = await unpack(new Blob([await readFile(archive)]));
    if (!opened.ok) throw new Error(opened.fault.code);
    const again = await rebuilt(opened.value);
    expect(again).toHaveLength(records.length);
    expect(again.map(({ now }) => now)).toEqual(again.map(({ then }) => then));
    expect(recompute(opened.value.entries).map(({ differences }) => differences)).toEqual(records.map(() => []));
  });

  await test.step('another phone refuses a changed copy, and takes the whole one', async () => {
    const context = await browser.newContext({ baseURL: baseURL!, serviceWorkers: 'block', viewport: { width: 390, height: 844 } });
    try {
      const other = new Site(await context.newPage());
      await other.openJobs();
      await other.link(m.page_import()).click();
      const choose = (file: string | { name: string; mimeType: string; buffer: Buffer }) =>
        other.page.getByLabel(m.check_choose()).setInputFiles(file);
      const bytes = await readFile(archive);
      const changed = Buffer.from(bytes);
      changed[bytes.indexOf('Hall bath')] = 'B'.charCodeAt(0);
      await choose({ name: 'changed.zip', mimeType: 'application/zip', buffer: changed });
      await other.fault('import-refused').waitFor();
      expect((await readStored(other.page)).raws).toEqual([]);

      await choose(archive);
      const { raws, blobs } = await readStored(page);
      const counted = { entries: raws.length, files: Object.keys(blobs).length };
      await expect(other.page.getByText(m.check_counts(counted), { exact: true })).toBeVisible();
      await expect(other.page.getByText(m.import_new(counted), { exact: true })).toBeVisible();
      await other.button(m.import_take()).click();
      await other.page.getByRole('link', { name: m.import_open() }).click();
      await other.page.getByTestId('section').waitFor();
      const taken = await readStored(other.page);
      expect(taken.raws).toEqual((await readStored(page)).raws);
      expect(taken.blobs).toEqual((await readStored(page)).blobs);

      await other.page.goto('/import');
      await choose(archive);
      await expect(other.page.getByText(m.import_nothing_new(), { exact: true })).toBeVisible();
    } finally {
      await context.close();
    }
  });
});
