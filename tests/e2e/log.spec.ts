import { expect, type Page } from '@playwright/test';
import { project } from '#lib/job/project.ts';
import { fieldWord } from '#lib/words/fields.ts';
import * as m from '#lib/words/compiled/messages.js';
import { job, limit, plantedSite, surface, type Planted } from './planted.ts';
import type { Site } from './site.ts';
import { entriesOf, readStored } from './stored.ts';
import { test } from './test.ts';

test.use({ serviceWorkers: 'block' });
// A busy machine is no fault of a test.
test.describe.configure({ mode: 'parallel', timeout: 240_000 });

const ID = 'hall-bath';
const lap = (value: string) => ({
  what: 'overlap' as const,
  surface: 'floor',
  said: { text: value, value, unit: 'in' as const, resolution: '0.0625' },
  how: 'tape' as const,
});
const amends = (id: string, of: string, value: string, why: string): Planted => ({
  id,
  ago: 20,
  kind: 'amendment',
  refs: [of],
  data: { of, data: lap(value), why },
});
const JOB: readonly Planted[] = [
  { ...job('Hall bath'), ago: 90 },
  { ago: 89, kind: 'person', data: { person: 'ben', name: 'Ben Ortiz' } },
  { ...surface('floor', 'Floor', 'floor'), ago: 88 },
  { ...surface('back', 'Back wall', 'wall'), ago: 87 },
  { ...limit('overlap', '2', null, 'in'), ago: 86 },
  { id: 'note-1', ago: 60, kind: 'note', data: { words: 'Key is with the neighbour', surfaces: [] } },
  { id: 'lap-1', ago: 50, kind: 'reading', data: lap('1.5') },
  { id: 'lap-2', ago: 49, kind: 'reading', data: lap('2') },
  {
    id: 'film-1',
    ago: 48,
    kind: 'reading',
    data: { what: 'wet-film', surface: 'back', said: { text: '26–28', value: '26', to: '28', unit: 'mil' }, how: 'comb' },
  },
  { id: 'start-1', ago: 47, kind: 'run-start', data: { step: 'scrape', surfaces: [] } },
  amends('cross-1', 'lap-2', '2.25', 'read again'),
  amends('cross-2', 'lap-2', '2.5', 'wrong tape'),
];

const row = (page: Page, id: string) => page.locator(`[id="${id}"]`);
const stand = (page: Page, id: string) => row(page, id).getAttribute('data-state');

async function open(site: Site, id: string): Promise<void> {
  const { page } = site;
  if (!page.url().endsWith('/log')) await page.goto(`/job/${ID}/log`);
  const head = row(page, id).getByRole('button').first();
  if ((await head.getAttribute('aria-expanded')) !== 'true') await head.click();
}

/** What was kept last, and what the first entries say still, byte for byte. */
async function grown(page: Page, before: readonly string[]) {
  const { raws } = await readStored(page);
  for (const raw of before) expect(raws).toContain(raw);
  const entries = entriesOf({ raws, heads: [], blobs: {} });
  return { last: entries.findLast(({ body }) => body.device !== 'phone-b')!.body, state: project(entries).state };
}

test('every entry is shown, and said anew without a word of it changed: by its form, by its value, in words', async ({ site }) => {
  const { page } = site;
  await plantedSite(site, ID, JOB);
  const { raws } = await readStored(page);
  await page.goto(`/job/${ID}/log`);
  await expect(page.locator('li[data-state]')).toHaveCount(raws.length);

  await test.step('a note by its own form', async () => {
    await open(site, 'note-1');
    await row(page, 'note-1').getByRole('link', { name: m.log_amend() }).click();
    const words = page.getByRole('textbox', { name: fieldWord('note', 'words')!({}) });
    await expect(words).toHaveValue('Key is with the neighbour');
    await words.fill('Key is under the mat');
    await page.getByRole('textbox', { name: m.write_why_amended() }).fill('neighbour moved');
    await site.button(m.write_save_amended()).click();
    await page.locator('[data-kept]').waitFor();
    // Beside "saved" stands what is kept, and a second tap keeps nothing more.
    await expect(words).toHaveValue('Key is under the mat');
    await site.button(m.write_save_amended()).click();
    const { last } = await grown(page, raws);
    expect(last).toMatchObject({
      kind: 'amendment',
      refs: ['note-1'],
      data: { of: 'note-1', data: { words: 'Key is under the mat', surfaces: [] }, why: 'neighbour moved' },
    });
    await open(site, 'note-1');
    expect(await stand(page, 'note-1')).toBe('amended');
    await expect(row(page, 'note-1')).toContainText('Key is under the mat');
    await expect(row(page, 'note-1')).toContainText('Key is with the neighbour');
  });

  await test.step('a reading by its value', async () => {
    await open(site, 'lap-1');
    await row(page, 'lap-1').getByRole('button', { name: m.log_amend() }).click();
    const value = row(page, 'lap-1').getByRole('textbox', { name: m.log_value({ unit: 'in' }) });
    await value.fill('two');
    await row(page, 'lap-1').getByRole('button', { name: m.write_save_amended() }).click();
    await expect(site.fault('not-a-number')).toBeVisible();
    await value.fill('2 1/2');
    await row(page, 'lap-1').getByLabel('Back wall', { exact: true }).check();
    await row(page, 'lap-1').getByRole('button', { name: m.write_save_amended() }).click();
    await expect(row(page, 'lap-1')).toHaveAttribute('data-state', 'amended');
    const { last, state } = await grown(page, raws);
    expect(last.data).toMatchObject({ of: 'lap-1', data: { said: { value: '2.5', unit: 'in', resolution: '0.0625' }, surface: 'back' } });
    expect(state.readings[0]).toMatchObject({ surface: 'back', said: { value: '2.5' } });
  });

  await test.step('a comb by both teeth', async () => {
    await open(site, 'film-1');
    await row(page, 'film-1').getByRole('button', { name: m.log_amend() }).click();
    await row(page, 'film-1')
      .getByRole('textbox', { name: m.log_value_from({ unit: 'mil' }) })
      .fill('22');
    await row(page, 'film-1')
      .getByRole('textbox', { name: m.log_value_to({ unit: 'mil' }) })
      .fill('24');
    await row(page, 'film-1').getByRole('button', { name: m.write_save_amended() }).click();
    await expect(row(page, 'film-1')).toHaveAttribute('data-state', 'amended');
    expect((await grown(page, raws)).last.data).toMatchObject({ data: { said: { value: '22', to: '24', unit: 'mil' } } });
  });

  await test.step('any other in words beside it', async () => {
    await open(site, 'start-1');
    await row(page, 'start-1').getByRole('button', { name: m.log_amend() }).click();
    await row(page, 'start-1').getByRole('textbox', { name: m.log_in_words() }).fill('Began an hour before');
    await row(page, 'start-1').getByRole('button', { name: m.log_save_words() }).click();
    await expect(row(page, 'start-1').getByRole('textbox')).toHaveCount(0);
    expect((await grown(page, raws)).last).toMatchObject({ kind: 'note', refs: ['start-1'], data: { words: 'Began an hour before' } });
  });
});

test('two amendments that cross are both shown, and one touch decides', async ({ site }) => {
  const { page } = site;
  await plantedSite(site, ID, JOB);
  const { raws } = await readStored(page);
  await open(site, 'lap-2');
  expect(await stand(page, 'lap-2')).toBe('open');
  const version = (id: string) => row(page, 'lap-2').locator(`[data-version="${id}"]`);
  await expect(version('first')).toContainText('2 in');
  await expect(version('cross-1')).toContainText('2 1/4 in');
  await expect(version('cross-2')).toContainText('wrong tape');
  await version('cross-2').getByRole('button', { name: m.log_this_stands() }).click();
  await expect(row(page, 'lap-2')).toHaveAttribute('data-state', 'amended');
  const { last, state } = await grown(page, raws);
  expect(last.refs).toEqual(['lap-2', 'cross-1', 'cross-2']);
  expect(state.readings.find(({ id }) => id === 'lap-2')).toMatchObject({ open: false, said: { value: '2.5' } });
});

test('taken back with a reason, and brought again', async ({ site }) => {
  const { page } = site;
  await plantedSite(site, ID, JOB);
  const { raws } = await readStored(page);
  await open(site, 'lap-1');
  const withdraw = row(page, 'lap-1').getByRole('button', { name: m.log_withdraw() });
  await withdraw.click();
  await withdraw.click();
  await expect(site.fault('empty')).toBeVisible();
  await row(page, 'lap-1').getByRole('textbox', { name: m.log_why() }).fill('measured at another shower');
  await withdraw.click();
  await expect(row(page, 'lap-1')).toHaveAttribute('data-state', 'withdrawn');
  const { last, state } = await grown(page, raws);
  expect(last).toMatchObject({ kind: 'withdrawal', refs: ['lap-1'], data: { of: 'lap-1', why: 'measured at another shower' } });
  expect(state.readings.map(({ id }) => id)).not.toContain('lap-1');
  await row(page, 'lap-1').getByRole('button', { name: m.log_bring_back() }).click();
  await expect(row(page, 'lap-1')).toHaveAttribute('data-state', 'stands');
  expect((await grown(page, raws)).state.readings.map(({ id }) => id)).toContain('lap-1');
});
