import { expect, type Page } from '@playwright/test';
import { known } from '#lib/record/kinds.ts';
import type { Measure, Reading } from '#lib/record/kinds/reading.ts';
import { MEASURE } from '#lib/words/codes.ts';
import * as m from '#lib/words/compiled/messages.js';
import { job, limit, looseShots, plantedSite, run, surface } from './planted.ts';
import type { Site } from './site.ts';
import { entriesOf, readDraft, readStored } from './stored.ts';
import { test } from './test.ts';

// Offline is tried elsewhere; here its cache would only take room and time.
test.use({ serviceWorkers: 'block' });
test.describe.configure({ mode: 'parallel' });

const HALL = [
  surface('north', 'Back wall', 'wall'),
  surface('floor', 'Shower floor', 'floor'),
  limit('moisture', null, '4', '%', { scale: 'carbide' }),
  limit('wet-film', '20', '26', 'mil'),
  run('survey', ['north', 'floor'], { ago: 50 }),
  run('liquid-coat', ['north', 'floor'], { ago: 30, coat: 2 }),
];
const both = ['north', 'floor'];

async function open(page: Page, query: string): Promise<void> {
  await page.goto(`/job/hall/read?surface=floor&${query}`);
  await page.getByRole('button', { name: 'Shower floor', pressed: true }).waitFor();
}

async function press(site: Site, ...keys: readonly string[]): Promise<void> {
  for (const key of keys) await site.button(key).click();
}

async function readings(page: Page): Promise<Reading[]> {
  return entriesOf(await readStored(page))
    .filter(({ body }) => body.device !== 'phone-b')
    .map(known)
    .flatMap((view) => (view.kind === 'reading' ? [view.data] : []));
}

interface Case {
  readonly what: Measure;
  readonly keys: readonly string[];
  readonly save: string;
  readonly kept: object;
}

const CASES: readonly Case[] = [
  { what: 'slope', keys: ['1/4'], save: '1/4 in/ft', kept: { how: 'level', said: { value: '0.25', unit: 'in/ft' } } },
  {
    what: 'slope',
    keys: ['Minus', 'In %', '2', '.', '0', '8'],
    save: '2.08 %',
    kept: { how: 'level', said: { value: '2.08', unit: '%', resolution: '0.01' } },
  },
  { what: 'surface-temperature', keys: ['4', '1', 'Minus'], save: '-41 °F', kept: {} },
  {
    what: 'surface-temperature',
    keys: ['4', '1'],
    save: '41 °F',
    kept: { how: 'thermometer', said: { value: '41', unit: 'F', resolution: '1' } },
  },
  { what: 'volume-used', keys: ['In qt', '3', '.', '5'], save: '3.5 qt', kept: { how: 'typed', said: { value: '3.5', unit: 'qt' } } },
  { what: 'flood-level', keys: ['0'], save: '0 in', kept: { how: 'tape', said: { value: '0', unit: 'in' } } },
];

test('each measure has its pad: slope by its eighths, degrees below zero, volume in its unit, a level at zero', async ({ site, page }) => {
  await plantedSite(site, 'hall', [job('Hall bath'), ...HALL]);
  const kept = [];
  await open(page, 'what=overlap');
  for (const { what, keys, save, kept: data } of CASES) {
    await page
      .getByRole('group', { name: 'Which measure?' })
      .getByRole('button', { name: site.say(MEASURE[what]), exact: true })
      .click();
    await expect(site.heading).toHaveText(site.say(MEASURE[what]));
    await page.getByRole('button', { name: 'Shower floor', pressed: true }).waitFor();
    if (await site.button('Clear').isEnabled()) await site.button('Clear').click();
    await press(site, ...keys);
    if (Object.keys(data).length === 0) {
      await expect(site.fault('reading-too-small')).toContainText(`${save} is below what can be.`);
      continue;
    }
    await site.saveReading(save);
    kept.push({ what, surface: 'floor', ...data });
  }
  expect(await readings(page)).toMatchObject(kept);
});

test('moisture: the scale first, each kept and judged by itself', async ({ site, page }) => {
  await plantedSite(site, 'hall', [job('Hall bath'), ...HALL]);
  await open(page, 'what=moisture&run=run-survey');
  await expect(site.button('7')).toHaveCount(0);
  await expect(site.button('Save')).toBeDisabled();
  const scale = (name: string) => page.getByRole('radio', { name, exact: true });
  await scale('Wood scale').check();
  await press(site, '7');
  await expect(page.getByText('No limit set')).toBeVisible();
  await site.saveReading('7 %');
  await scale('Calcium carbide').check();
  await press(site, '7');
  await expect(page.getByText('Outside', { exact: true })).toBeVisible();
  await site.saveReading('7 %');
  expect((await readings(page)).map(({ scale: of }) => of)).toEqual(['wood', 'carbide']);
});

test('the wrong value: said in the unit in which the slip shows, and what is ten times off is asked about once', async ({ site, page }) => {
  await plantedSite(site, 'hall', [job('Hall bath'), ...HALL]);
  await open(page, 'what=dry-film');
  await press(site, '2', '0', '0', '0');
  await expect(site.fault('reading-too-large')).toContainText('2000 mil is 2 in. Check the number and the unit.');
  await expect(site.button('Save')).toBeDisabled();
  await press(site, 'Delete', 'Delete');
  await site.saveReading('20 mil');

  await press(site, '2');
  await site.button('Save 2 mil').click();
  await expect(site.fault('reading-tenfold')).toContainText('The last one was 20 mil.');
  expect(await readings(page)).toHaveLength(1);
  await site.button('Yes, save 2 mil').click();
  await expect(site.saved).toContainText('2 mil');

  await open(page, 'what=humidity');
  await press(site, '1', '0', '1');
  await expect(site.fault('reading-too-large')).toContainText('101 % is more than can be. Check the number.');
  await press(site, 'Delete', '0');
  await site.saveReading('100 %');

  // There is no way to a lap below zero, and a lap of nothing is none.
  await open(page, 'what=overlap');
  await expect(site.button('Minus')).toHaveCount(0);
  await site.button('0').click();
  await site.button('A sixteenth less').click();
  await page.getByRole('slider').press('ArrowLeft');
  await expect(site.fault('reading-zero')).toBeVisible();
  await expect(site.button('Save')).toBeDisabled();
  expect((await readings(page)).map(({ said }) => said.value)).toEqual(['20', '2', '100']);
});

test('the coat can be changed, and a spot of 100,000 characters is refused and kept on the pad', async ({ site, page }) => {
  await plantedSite(site, 'hall', [job('Hall bath'), ...HALL]);
  await open(page, 'run=run-liquid-coat');
  await expect(site.heading).toHaveText('Wet film, coat 2');
  await site.button('Coat before').click();
  await expect(site.heading).toHaveText('Wet film, coat 1');
  await site.touchTooth('22 mil');
  const spot = page.getByLabel('Spot', { exact: true });
  const long = '🚿 قرب المصرف '.repeat(7_200).slice(0, 100_000);
  await spot.fill(long);
  await expect(page.getByText(/characters\. Shorten it to 200; a note holds more\./)).toBeVisible();
  await expect(site.button('Save 22–24 mil')).toBeDisabled();
  await expect.poll(async () => (await readDraft(page, ['reading', 'hall', 'wet-film'])).length).toBeGreaterThan(100_000);
  await page.reload();
  await expect(spot).toHaveValue(long);
  await spot.fill('🚿 قرب المصرف');
  await site.saveReading('22–24 mil');
  await expect(spot).toHaveValue('');
  expect(await readings(page)).toMatchObject([
    { what: 'wet-film', how: 'comb', coat: 1, surface: 'floor', spot: '🚿 قرب المصرف', said: { value: '22', to: '24' } },
  ]);
});

test('typed from a photo with the tape in it: picked or taken, large beside the pad, and named in the entry', async ({ site, page }) => {
  await plantedSite(site, 'hall', [job('Hall bath'), ...HALL, run('pre-cut', both, { ago: 10 })], await looseShots(3, 2));
  await open(page, 'what=overlap&run=run-pre-cut');
  await page
    .getByRole('button', { name: /^Photo, / })
    .first()
    .click();
  await expect(page.getByText('Only what both edges show.')).toBeVisible();
  const large = site.button('Bring a place near');
  await expect(large.getByRole('img')).toBeVisible();
  await large.click({ position: { x: 200, y: 60 } });
  await expect(large).toHaveAttribute('aria-pressed', 'true');
  await site.touchInches(2, 3);
  await site.saveReading('2 3/16 in');

  // Taken now: the shutter leads back to the pad, with nothing on it yet.
  await site.link('Photo').click();
  await site.untilFinder();
  await expect(page.getByText('Take the photo with the tape in it and both edges showing.')).toBeVisible();
  await site.shutter.click();
  await page.waitForURL(/\/read\?/);
  await expect(large.getByRole('img')).toBeVisible();
  await site.touchInches(2, 5);
  await site.saveReading('2 5/16 in');

  // Read on the spot, and shown by the photo that keeps it.
  await site.touchInches(2, 7);
  await site.link('Photo').click();
  await site.untilFinder();
  await expect(page.getByRole('status').filter({ hasText: '2 7/16 in' })).toContainText('The next photo is saved together with it.');
  await site.shutter.click();
  await page.waitForURL(/\/read\?/);
  await expect(site.saved).toContainText('2 7/16 in, with a photo');
  await expect(page.getByText(site.say(m.pad_no_value))).toBeVisible();

  const entries = entriesOf(await readStored(page));
  const shots = entries.filter(({ body }) => body.kind === 'shot' && body.device !== 'phone-b').map(({ body }) => body.id);
  expect(await readings(page)).toMatchObject([
    { how: 'photo', shot: 'shot-2', said: { value: '2.1875' } },
    { how: 'photo', shot: shots[0], said: { value: '2.3125' } },
    { how: 'tape', shot: shots[1], said: { value: '2.4375' } },
  ]);
});
