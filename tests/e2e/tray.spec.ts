import { expect, type Page } from '@playwright/test';
import { known, type Known } from '#lib/record/kinds.ts';
import * as m from '#lib/words/compiled/messages.js';
import { OWED } from '#lib/words/codes.ts';
import { job, looseShots, plantedSite, room, run, surface } from './planted.ts';
import { entriesOf, readDraft, readStored } from './stored.ts';
import { test } from './test.ts';

// Offline is tried elsewhere; here its cache would only take room and time.
test.use({ serviceWorkers: 'block' });
test.describe.configure({ mode: 'parallel' });

/** What this phone wrote, of one kind. */
async function wrote<K extends Known['kind']>(page: Page, kind: K): Promise<(Known & { kind: K })[]> {
  return entriesOf(await readStored(page))
    .filter(({ body }) => body.device !== 'phone-b')
    .map(known)
    .filter((view): view is Known & { kind: K } => view.kind === kind);
}

const HALL = [job('Hall bath'), surface('north', 'Back wall', 'wall'), surface('floor', 'Shower floor', 'floor')];
const both = ['north', 'floor'];

test('photos of the tray are sorted many at once into the run they were taken in, and again later', async ({ site, page }) => {
  const runs = [run('band-seams', both, { ago: 200 }), { ...run('scrape', both, { ago: 20 }) }];
  await plantedSite(site, 'hall', [...HALL, ...runs], await looseShots(5, 3));
  await page.goto('/job/hall/tray');
  await expect(site.heading).toHaveText('5 photos, no tag yet');
  // Four of the five, one by one.
  const tiles = page.getByRole('button', { name: /^Photo, / });
  for (const nth of [0, 1, 2, 4]) await tiles.nth(nth).click();
  await expect(page.getByRole('group', { name: 'Which step?' }).getByRole('button', { pressed: true })).toContainText('Scrape and clean');
  await expect(site.button('Tag 4 photos')).toBeDisabled();
  await site.button('Shower floor').click();
  await site.button('Back wall').click();
  await expect(page.getByText('Answers 1 owed')).toBeVisible();
  await site.button('Tag 4 photos').click();
  await expect(site.saved).toContainText('4 photos tagged.');
  await expect(site.heading).toHaveText('1 photo, no tag yet');
  const [first] = await wrote(page, 'tag');
  expect(first?.data).toMatchObject({ shots: ['shot-4', 'shot-3', 'shot-2', 'shot-0'], run: 'run-scrape', surfaces: ['floor', 'north'] });

  // One of them belonged elsewhere: what was said of it comes up, and is said anew.
  await site.button('Sorted already: 4').click();
  await page
    .getByRole('button', { name: /^Photo, .*Shower floor/ })
    .first()
    .click();
  for (const name of ['Shower floor', 'Back wall']) await expect(site.button(name)).toHaveAttribute('aria-pressed', 'true');
  await site.button('Back wall').click();
  await page
    .getByRole('group', { name: 'Which step?' })
    .getByRole('button', { name: /Band seams/ })
    .click();
  await site.button(site.say(OWED['base-band'])).click();
  await site.button('Tag 1 photo').click();
  await expect(site.saved).toContainText('1 photo tagged.');
  const [, again] = await wrote(page, 'tag');
  expect(again?.data).toMatchObject({ run: 'run-band-seams', surfaces: ['floor'], shows: ['base-band'] });
  await page.goto('/job/hall/shoot?run=run-band-seams&surface=floor');
  await site.untilFinder();
  // It answered, so it is owed no longer.
  await expect(site.button(site.say(OWED.banded))).toBeVisible();
  await expect(site.button(site.say(OWED['base-band']))).toHaveCount(0);
});

test('one photo answers several, wide and close make a pair, and the house is offered until it is shown', async ({ site, page }) => {
  await plantedSite(site, 'hall', [...HALL, run('band-seams', both)]);
  await page.goto('/job/hall/shoot?run=run-band-seams&surface=floor');
  await site.untilFinder();
  const chip = (rule: keyof typeof OWED) => site.button(site.say(OWED[rule]));
  for (const rule of ['banded', 'base-band'] as const) await chip(rule).click();
  await site.button('Wide').click();
  await site.shoot();
  await expect(chip('banded')).toHaveCount(0);
  await expect(chip('base-band')).toHaveCount(0);
  // What was said of that photo is not said of the next.
  await expect(page.getByRole('group', { name: 'From how far' }).getByRole('button', { pressed: true })).toHaveCount(0);
  for (const nearer of ['Mid', 'Close']) {
    await site.button('Same place, one step closer').click();
    await expect(site.button(nearer)).toHaveAttribute('aria-pressed', 'true');
    await site.shoot();
  }
  await expect(site.button('Same place, one step closer')).toHaveCount(0);

  await chip('front').click();
  // What is touched after a photo begins anew; a second touch before the next one adds.
  await site.button('Back wall').click();
  await expect(site.button('Shower floor')).toHaveAttribute('aria-pressed', 'false');
  await site.button('Shower floor').click();
  await site.shoot();
  await expect(chip('front')).toHaveCount(0);

  const entries = entriesOf(await readStored(page)).filter(({ body }) => body.kind === 'shot');
  const shots = (await wrote(page, 'shot')).map(({ data }) => data);
  expect(shots.map(({ surface: on, surfaces, shows, distance, pair }) => ({ on, surfaces, shows, distance, pair }))).toEqual([
    { on: 'floor', shows: ['banded', 'base-band'], distance: 'wide' },
    { on: 'floor', distance: 'mid', pair: entries[0]!.body.id },
    { on: 'floor', distance: 'close', pair: entries[1]!.body.id },
    { on: 'north', surfaces: ['north', 'floor'], shows: ['front'] },
  ]);
});

test('a page thrown away comes back to the surfaces, the distance and what the photo was to show', async ({ site, page }) => {
  await plantedSite(site, 'hall', [...HALL, run('band-seams', both)]);
  await page.goto('/job/hall/shoot?run=run-band-seams');
  await site.untilFinder();
  await site.button('Back wall').click();
  await site.button('Shower floor').click();
  await site.button(site.say(OWED['base-band'])).click();
  await site.button('Close').click();
  await expect.poll(() => readDraft(page, ['shooting'])).toContain('close');
  const next = await page.context().newPage();
  await next.goto('/job/hall/shoot?run=run-band-seams&surface=north');
  for (const name of ['Back wall', 'Shower floor', site.say(OWED['base-band']), 'Close']) {
    await expect(next.getByRole('button', { name, exact: true })).toHaveAttribute('aria-pressed', 'true');
  }
});

const NAMES = ['🚿🛁 Wand', 'جدار خلفي', 'קיר שמאל', 'Very long name of a wall '.repeat(8), 'Floor', 'Floor'] as const;

test('surfaces named in emoji, from right to left and at full length, in two rooms: no screen is pushed wide, and each is told apart', async ({
  site,
  page,
}) => {
  await page.setViewportSize({ width: 320, height: 640 });
  const surfaces = NAMES.map((name, i) => surface(`s${i}`, name, i > 3 ? 'floor' : 'wall', { room: i === 5 ? 'main' : 'hall' }));
  await plantedSite(
    site,
    'hall',
    [
      job('حمام 🛁'),
      room('hall', 'حمام الضيوف 🛁'),
      room('main', 'Main bath'),
      ...surfaces,
      run(
        'scrape',
        surfaces.map((_, i) => `s${i}`),
      ),
    ],
    await looseShots(2, 2),
  );
  const wide = () => page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
  await page.goto('/job/hall/shoot');
  await site.untilFinder();
  for (const name of [NAMES[0], NAMES[1]]) await site.button(name).click();
  // The room of what is picked, large.
  await expect(site.heading).toHaveText('حمام الضيوف 🛁');
  expect(await wide()).toBeLessThanOrEqual(0);
  await site.shoot();
  await site.button('Floor, Main bath').click();
  await expect(site.heading).toHaveText('Main bath');

  await page.goto('/job/hall/tray');
  await site.button(site.say(m.tray_take, { n: 2 })).click();
  for (const name of [NAMES[2], NAMES[3].trim(), 'Floor, حمام الضيوف 🛁']) await site.button(name).click();
  expect(await wide()).toBeLessThanOrEqual(0);
  await site.button('Tag 2 photos').click();
  await site.saved.waitFor();
  const [tag] = await wrote(page, 'tag');
  const [shot] = await wrote(page, 'shot');
  expect([tag?.data.surfaces, shot?.data.surfaces]).toEqual([
    ['s2', 's3', 's4'],
    ['s0', 's1'],
  ]);
});
