import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { expect, type Page } from '@playwright/test';
import ICAL from 'ical.js';
import { known } from '#lib/record/kinds.ts';
import * as m from '#lib/words/compiled/messages.js';
import { startKillable } from './killable.ts';
import { job, limit, plant, plantedSite, run, surface } from './planted.ts';
import { Site } from './site.ts';
import { entriesOf, readStored } from './stored.ts';
import { test } from './test.ts';

const JOB = 'hall-bath';
const bonded = [
  job('Hall bath'),
  surface('floor', 'Shower floor', 'floor'),
  surface('north', 'North wall', 'wall'),
  limit('walk-on', '4', null, 'h'),
  limit('pot-life', null, '90', 'min'),
  run('bond-sheets', ['floor']),
];

test('a stated wait: begun by the stop, on the home, in the curing list and the calendar, held up and gone on early', async ({ page }) => {
  const site = new Site(page);
  await plantedSite(site, JOB, bonded);
  await page.getByRole('button', { name: /^Stop/ }).click();
  const line = page.getByRole('link', { name: /Walk-on wait, Shower floor/ });
  await expect(line).toContainText('left');
  await line.click();
  await expect(page.getByText('Data sheet: page 2, edition 7').first()).toBeVisible();
  const [download] = await Promise.all([page.waitForEvent('download'), site.button('Alarm in the calendar').click()]);
  const event = new ICAL.Component(ICAL.parse(await readFile(await download.path(), 'utf8')) as []).getFirstSubcomponent('vevent')!;
  const ready = new ICAL.Event(event).startDate.toJSDate().getTime();
  const { readyUtc } = await storedWait(page);
  expect(ready).toBe(Math.floor(Date.parse(readyUtc!) / 1000) * 1000);

  await site.link('Curing list').click();
  await expect(page.getByText('Hall bath')).toBeVisible();
  await expect(page.getByText(/North wall\. Can be worked on now/)).toBeVisible();

  await page.goto(`/job/${JOB}/start?step=band-seams`);
  const start = site.button('Start: Band seams');
  // Until somebody says why earlier, the button says till when, and shows what waits.
  await expect(start).toHaveCount(0);
  await page.getByRole('button', { name: /^Not ready till/ }).click();
  await expect(page.getByRole('heading', { name: 'Not ready yet' })).toBeInViewport();
  // A wall beside it is nobody's wait: only who kneels on the floor is bound.
  await page.getByLabel('Shower floor', { exact: true }).uncheck();
  await expect(start).toBeEnabled();
  await page.getByLabel('Shower floor', { exact: true }).check();
  await page.getByText('Go on early').click();
  await page.getByRole('radio', { name: 'Mortar does not shift or dent in the middle' }).check();
  await page.getByRole('group', { name: 'Why now?' }).getByRole('radio').first().check();
  await start.click();
  await page.getByTestId('section').waitFor();
  const kinds = entriesOf(await readStored(page)).map(known);
  expect(kinds.find((view) => view.kind === 'early')?.data).toMatchObject({ check: 'mortar-firm', held: true });
  expect(kinds.flatMap((view) => (view.kind === 'run-start' ? [view.data.step] : [])).toSorted()).toEqual(['band-seams', 'bond-sheets']);
});

test('a page that slept shows at its first look how much of a wait is left', async ({ page }) => {
  const site = new Site(page);
  await page.clock.install();
  await plantedSite(site, JOB, bonded);
  await page.getByRole('button', { name: /^Stop/ }).click();
  const line = page.getByRole('link', { name: /Walk-on wait, Shower floor/ });
  await expect(line).toContainText(/4 h left|3 h 59 min left/);
  // The page sleeps for an hour: its timers stand still, and the first look tells the truth.
  await page.clock.fastForward('01:00:00');
  await expect(line).toContainText(/3 h left|2 h 59 min left/);
});

test('every process of the browser asleep over the end of a wait: awake, it is over, and what is stored is what it was', async ({
  baseURL,
}) => {
  const profile = await mkdtemp(join(tmpdir(), 'layerbook-sleep-'));
  const phone = await startKillable(profile);
  try {
    const { page } = phone;
    await page.goto(baseURL!);
    const [from, ready] = [-24 * 60, 0.2].map((min) => new Date(Date.now() + min * 60_000).toISOString());
    await page.getByText(new Site(page).say(m.no_job_yet)).waitFor();
    await plant(page, JOB, [
      ...bonded.slice(0, 4),
      {
        kind: 'wait',
        ago: 30,
        data: { what: 'walk-on', surfaces: ['floor'], fromUtc: from!, readyUtc: ready!, latestUtc: null, limit: 'limit-walk-on' },
      },
    ]);
    await page.goto(`${baseURL}/job/${JOB}`);
    const before = await storedWait(page);
    const line = page.getByRole('link', { name: /Walk-on wait, Shower floor/ });
    await expect(line).toContainText('left');
    await phone.sleep(16_000);
    await expect(line).toContainText('Ready since');
    expect(await storedWait(page)).toEqual(before);
    expect(before.readyUtc).toBe(ready);
  } finally {
    await phone.kill();
    await rm(profile, { recursive: true, force: true });
  }
});

/** The wait that the stop began, as stored. */
async function storedWait(page: Page) {
  const view = entriesOf(await readStored(page))
    .map(known)
    .findLast((one) => one.kind === 'wait');
  if (view === undefined) throw new Error('no wait is stored');
  return view.data;
}
