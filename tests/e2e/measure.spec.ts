import { expect } from '@playwright/test';
import { readFile } from 'node:fs/promises';
import sharp from 'sharp';
import * as m from '#lib/words/compiled/messages.js';
import { EXAMPLE_JOB } from '#lib/job/example.ts';
import { FIELD } from '#lib/words/fields.ts';
import { unpack } from '#lib/record/unpack.ts';
import { EXAMPLE_DEVICE } from '../../src/cli/example/day.ts';
import { recomputePhotos } from '../../src/cli/recompute-photos.ts';
import { lapPicture, mortarPicture, WIDTH } from '../camera/pictures.ts';
import { coatTruth, lapTruth } from '../example/measured.mjs';
import { markArea, measureFile, tapPhoto, tapSharp, taughtOnDisk, teachCoat } from './measure.ts';
import { job, limit, plantedSite, run, surface, type Planted } from './planted.ts';
import type { Site } from './site.ts';
import { entriesOf, readStored } from './stored.ts';
import { test } from './test.ts';

// Offline is tried elsewhere; here its cache would only take room and time.
test.use({ serviceWorkers: 'block' });

const HALL: readonly Planted[] = [job('Hall bath', 'mm'), surface('floor', 'Shower floor', 'floor'), limit('overlap', '50', null, 'mm')];

async function onSite(site: Site, step: Planted): Promise<void> {
  await plantedSite(site, 'hall', [...HALL, step]);
  await site.openFinder();
}

const entries = async (site: Site) => entriesOf(await readStored(site.page)).filter(({ body }) => body.device !== 'phone-b');

/** What was added to the example, which is kept nowhere: read from its archive, its photo values computed again in another program. */
async function addedToExample(site: Site) {
  await site.link(site.say(m.part_back)).click();
  await site.openRecordPage();
  const archive = await site.writeArchive();
  const content = await unpack(new Blob([new Uint8Array(await readFile(await archive.path()))]));
  if (!content.ok) throw new Error(content.fault.code);
  const added = content.value.entries.filter(({ body }) => body.device !== EXAMPLE_DEVICE);
  return { added: added.map(({ body }) => body), again: await recomputePhotos(added, content.value.blob) };
}

test('a lap at the dry fit: card found, within its limit in six touches, confirmed, kept with all its points, computed again', async ({
  site,
  page,
}) => {
  await page.addInitScript(() => localStorage.setItem('layerbook-settings', JSON.stringify({ barMm: '100' })));
  await page.goto(`/job/${EXAMPLE_JOB}/log?entry=photo-45`);
  await site.link(site.say(m.measure_photo)).waitFor();
  await page.evaluate(() => {
    sessionStorage.setItem('touches', '0');
    const count = () => sessionStorage.setItem('touches', String(Number(sessionStorage.getItem('touches')) + 1));
    addEventListener('pointerdown', count, true);
  });
  await site.link(site.say(m.measure_photo)).click();
  await page.getByText(/^Card found/).waitFor();
  const { from, to, lengthMm } = lapTruth();
  await tapSharp(site, from, site.say(m.mark_end_1));
  await tapSharp(site, to, site.say(m.mark_end_2));
  await expect(page.getByTestId('length')).toContainText('95 %');
  await expect(page.getByText('Within')).toBeVisible();
  await page.getByRole('button', { name: /^Confirm \d/ }).click();
  await site.saved.waitFor();
  expect(await page.evaluate(() => Number(sessionStorage.getItem('touches')))).toBeLessThanOrEqual(6);

  await site.link(site.say(m.part_back)).click();
  await expect(page).toHaveURL(/log\?entry=photo-45$/);
  const { added, again } = await addedToExample(site);
  const reading = added.find(({ kind }) => kind === 'reading')!;
  const { photo, ...data } = reading.data as { photo: { low: string; high: string; width: number } };
  expect(data).toMatchObject({ what: 'overlap', how: 'photo', lap: 'both-edges', surface: 'north', confirmed: reading.by });
  expect(Number(photo.low)).toBeLessThan(lengthMm / 25.4);
  expect(Number(photo.high)).toBeGreaterThan(lengthMm / 25.4);
  expect(photo.width).toBe(1280);
  expect(again).toEqual([expect.objectContaining({ kind: 'reading', same: true })]);
});

test('a card cut off by the edge is refused with a remedy; a rectangle of known sides measures in its place; cancelled, nothing is lost', async ({
  site,
  page,
}) => {
  const { jpeg } = await lapPicture('cut');
  await onSite(site, run('pre-cut', ['floor']));
  await measureFile(site, jpeg);
  await site.fault('bar-not-measured').waitFor();
  // Key by key: the field must not go once 99 is a length.
  await page.getByLabel(site.say(m.bar_label)).pressSequentially('99.5');
  await site.fault('card-cut-off').waitFor();
  await expect(page.getByLabel(site.say(m.bar_label))).toHaveValue('99.5');
  const whole = await lapPicture();
  await page.goBack();
  await site.untilFinder();
  await measureFile(site, whole.jpeg);
  await page.getByRole('radio', { name: site.say(m.by_rectangle) }).check();
  await markArea(site, { quad: whole.truth.corners, widthMm: 140, heightMm: 90 });
  const { from, to } = whole.truth.segments[0]!;
  await tapSharp(site, from, site.say(m.mark_end_1));
  await tapSharp(site, to, site.say(m.mark_end_2));
  await page.getByTestId('length').waitFor();
  await expect(page.getByRole('button', { name: /^Confirm \d/ })).toBeEnabled();
  expect((await entries(site)).map(({ body }) => body.kind)).toEqual(['device', 'shot', 'shot']);
});

test('a coat: misses found and drawn, one struck out, one added, a repair closes them, the photo after it is compared', async ({
  site,
  page,
}) => {
  const [before, after] = [coatTruth('before'), coatTruth('after')];
  await page.goto(`/job/${EXAMPLE_JOB}/log?entry=photo-46`);
  await site.link(site.say(m.measure_photo)).click();
  await teachCoat(site, before);
  // A page killed before anything is measured loses no tap.
  await expect.poll(() => taughtOnDisk(page)).toBe(before.filmTaps.length + before.bareTaps.length);
  await page.reload();
  await site.button(site.say(m.measure_now)).click();
  await page.getByTestId('coverage').waitFor();
  const strikes = site.button(site.say(m.miss_strike));
  await expect(strikes).toHaveCount(before.holes.length);
  await strikes.first().click();
  await expect(site.button(site.say(m.miss_put_back))).toHaveCount(1);
  await site.button(site.say(m.miss_add)).click();
  await tapPhoto(site, before.filmTaps[0]!);
  await expect(strikes).toHaveCount(before.holes.length);
  await site.button(site.say(m.confirm_word)).click();
  await site.saved.waitFor();
  await expect(site.button(site.say(m.confirm_word))).toBeDisabled();

  await site.link(site.say(m.mend_misses)).click();
  await page.getByLabel(site.say(FIELD.what), { exact: true }).fill('Rolled over');
  await page.getByRole('button', { name: /^Save/ }).click();
  await site.saved.waitFor();

  // The example is forgotten on leaving it: to the photo after the repair by links alone.
  await site.link(site.say(m.page_section)).click();
  await site.link(site.say(m.page_log)).click();
  await page.locator('[id="photo-47"]').getByRole('button').first().click();
  await site.link(site.say(m.measure_photo)).click();
  await teachCoat(site, after);
  await site.button(site.say(m.measure_now)).click();
  await page.getByTestId('coverage').waitFor();
  await page.getByRole('radio', { name: /^Compare with \d/ }).check();
  const compared = page.getByTestId('compared');
  // Of the four that stood and the one added, one was overlooked.
  await expect(compared).toContainText(site.say(m.compared_gone, { n: 4 }));
  await expect(compared).toContainText(site.say(m.compared_still, { n: 1 }));
  await site.button(site.say(m.confirm_word)).click();
  await site.saved.waitFor();

  await site.link(site.say(m.page_layers)).click();
  await page.getByTestId('layer').waitFor();
  await page.getByLabel(site.say(m.layers_swipe)).fill('0.5');
  expect(await page.getByTestId('layer').evaluate((canvas: HTMLCanvasElement) => canvas.width)).toBeGreaterThan(300);

  const { added, again } = await addedToExample(site);
  const [kept, last] = added.filter(({ kind }) => kind === 'coverage');
  for (const [{ data }, { coveredShare }] of [
    [kept!, before],
    [last!, after],
  ] as const) {
    expect(Number(data['low'])).toBeLessThanOrEqual(100 * coveredShare);
    expect(Number(data['high'])).toBeGreaterThanOrEqual(100 * coveredShare);
    expect(Math.abs(Number(data['covered']) - 100 * coveredShare)).toBeLessThan(1);
  }
  const misses = kept!.data['misses'] as object[];
  expect(misses.filter((miss) => 'struck' in miss)).toHaveLength(1);
  expect(misses.filter((miss) => 'added' in miss)).toHaveLength(1);
  expect(added.find(({ kind }) => kind === 'repair')!.data).toMatchObject({ of: [kept!.id], surfaces: ['north'] });
  expect(last!.data['before']).toBe(kept!.id);
  expect(again.map(({ same }) => same)).toEqual([true, true]);
});

test('mortar on a lifted sheet: share with its interval and the worst square', async ({ site, page }) => {
  const { jpeg, truth } = await mortarPicture();
  await onSite(site, run('bond-sheets', ['floor']));
  await measureFile(site, jpeg);
  await markArea(site, truth);
  await tapPhoto(site, truth.mortar);
  await tapPhoto(site, truth.sheet);
  await site.button(site.say(m.measure_now)).click();
  await page.getByTestId('transfer').waitFor();
  await site.button(site.say(m.confirm_word)).click();
  await site.saved.waitFor();
  const { share } = (await entries(site)).find(({ body }) => body.kind === 'transfer')!.body.data as { share: string };
  expect(Math.abs(Number(share) - 100 * truth.share)).toBeLessThan(4);
});

test('a photo of 12 million pixels: cancel ends the work, and it can be begun again', async ({ site, page }) => {
  const { jpeg } = await lapPicture();
  const large = await sharp(jpeg)
    .resize(3 * WIDTH)
    .jpeg({ quality: 90 })
    .toBuffer();
  await page.addInitScript(() => localStorage.setItem('layerbook-settings', JSON.stringify({ barMm: '100' })));
  await onSite(site, run('pre-cut', ['floor']));
  await site.addFiles([{ name: 'large.jpg', mimeType: 'image/jpeg', buffer: large }]);
  await site.link(site.say(m.measure_photo)).click();
  await site.button(site.say(m.in_photo_cancel)).click();
  await site.fault('photo-cancelled').waitFor();
  expect(page.workers().filter((worker) => worker.url().includes('measure'))).toEqual([]);
  await site.button(site.say(m.in_photo_again)).click();
  await page.getByText(/^Card found/).waitFor();
});
