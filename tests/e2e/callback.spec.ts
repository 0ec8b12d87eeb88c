import { expect, type Page } from '@playwright/test';
import { EXAMPLE_JOB } from '#lib/job/example.ts';
import * as m from '#lib/words/compiled/messages.js';
import { tool } from '../unit/report/tool.ts';
import type { Site } from './site.ts';
import { test } from './test.ts';
import { countTouches, touches } from './touch-count.ts';

// The store is opened once; offline is tried elsewhere.
test.use({ serviceWorkers: 'block' });

const spot = (page: Page) => page.getByRole('status').filter({ hasText: 'On the floor' });
/** Touches the drawing of the floor where the seam runs by the back wall: 24 in across, 28 in up. */
async function touchFloor({ page }: Site): Promise<void> {
  const floor = page.getByRole('img', { name: m.draw_picture() });
  await floor.scrollIntoViewIfNeeded();
  const outline = floor.locator('path.floor');
  const [of, box] = [(await floor.boundingBox())!, (await outline.boundingBox())!];
  await floor.tap({ position: { x: box.x - of.x + (24 / 60) * box.width, y: box.y - of.y + (1 - 28 / 31) * box.height } });
}

test('a callback on the example job: found by a misspelt address, behind a touched spot layer by layer, where to look, and an answer', async ({
  page,
  site,
}) => {
  await countTouches(page);
  await site.openJobs();

  // From home to the photo of the band under a spot.
  await page.locator(`a[href="/job/${EXAMPLE_JOB}"]`).tap();
  await page.locator('a[href$="/behind"]').tap();
  await touchFloor(site);
  await page.getByRole('listitem').getByRole('button', { name: /Bands/ }).tap();
  await expect(page.getByTestId('in-register')).toHaveAttribute('data-layer', /^bands/);
  const taken = await touches(page);
  console.log(`  from home to the photo of the band under a spot: ${taken} touches, at most 6`);
  expect(taken).toBeGreaterThan(0);
  expect(taken).toBeLessThanOrEqual(6);

  // The same by a misspelt address.
  await page.goto('/find?q=fernholow');
  await page.getByRole('listitem').getByRole('link').first().tap();
  await page.getByTestId('section').waitFor();

  // What the person says.
  await page.goto(`/job/${EXAMPLE_JOB}/write?kind=callback`);
  await page.getByRole('textbox', { name: m.field_complaint() }).fill('The ceiling under the bath is wet');
  await page.getByRole('radio', { name: m.choice_shows_room_below() }).check();
  await page.getByRole('radio', { name: m.choice_stand_open() }).check();
  await site.button(m.save()).tap();
  await page.locator('[data-kept]').getByRole('link', { name: m.page_callback() }).tap();

  // The example is forgotten on leaving it: from here on by links alone.
  await page.getByRole('link', { name: m.callback_touch() }).tap();
  await touchFloor(site);
  await expect(spot(page)).toContainText('2 ft');
  const near = page.getByRole('listitem').first();
  await expect(near).toContainText(m.spot_seam({ n: 1 }));
  await expect(near).toContainText(m.behind_lap({ value: '2 3/8 in' }));

  // In order, from the tile inwards, and in register: each layer's photo around the same spot, of one size.
  const slabs = page.getByRole('listitem').getByRole('button').locator('b');
  const names = await slabs.allTextContents();
  const at = ['Coat 1', 'Bands and corners', 'Sheets', 'Substrate'].map((name) => names.indexOf(name));
  expect(at).not.toContain(-1);
  expect(at).toEqual(at.toSorted((a, b) => a - b));
  const canvas = page.getByTestId('in-register');
  const seen: string[] = [];
  for (const layer of ['bands', 'sheets', 'substrate']) {
    await expect(canvas).toHaveAttribute('data-layer', new RegExp(`^${layer}`));
    seen.push(await canvas.evaluate((one: HTMLCanvasElement) => `${one.width} x ${one.height}`));
    if (layer !== 'substrate') await site.button(m.behind_deeper()).tap();
  }
  expect(new Set(seen).size).toBe(1);
  await site.button(m.callback_mark()).tap();
  await page.getByText(m.callback_marked()).waitFor();
  await page.getByRole('status').getByRole('link', { name: m.page_callback() }).tap();

  // A leak test begun and looked at: it got wetter with the pan full.
  const list = page.getByTestId('where-to-look').getByRole('listitem');
  await expect(list.first()).toContainText(m.look_supply());
  await page.getByRole('link', { name: m.callback_begin() }).tap();
  await page.getByRole('radio', { name: m.choice_test_pan() }).check();
  await page.getByRole('radio', { name: m.choice_ceiling_dry(), exact: true }).check();
  await site.button(m.save()).tap();
  await page.locator('[data-kept]').getByRole('link', { name: m.page_callback() }).tap();
  await page.getByRole('link', { name: m.callback_look() }).tap();
  await page.getByRole('radio', { name: m.choice_ceiling_wet(), exact: true }).check();
  await site.button(m.save()).tap();
  await page.locator('[data-kept]').getByRole('link', { name: m.page_callback() }).tap();
  await expect(list.first()).toContainText(m.reason_got_wetter());
  await expect(page.getByText(m.callback_where_note())).toBeVisible();

  await site.button(m.callback_answer_build()).tap();
  const save = page.getByRole('link', { name: m.record_save() });
  await save.waitFor({ timeout: 30_000 });
  const [download] = await Promise.all([page.waitForEvent('download'), save.tap()]);
  const text = tool('pdftotext', '-layout', await download.path(), '-');
  expect(text.trimStart().startsWith(m.tonight_open())).toBe(true);
  const bare = text.replaceAll(/\s+/g, ' ');
  for (const said of ['The ceiling under the bath is wet', 'Pan plugged and filled', 'got wetter below', 'Seam 1', 'Lap 2 3/8 in'])
    expect(bare).toContain(said);
});
