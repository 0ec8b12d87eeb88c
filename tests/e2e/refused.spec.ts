import { expect } from '@playwright/test';
import * as m from '#lib/words/compiled/messages.js';
import { wholeBrowser } from './browser.ts';
import { CAMERA_FLAGS } from './film.ts';
import { Site } from './site.ts';
import { entriesOf, readStored } from './stored.ts';
import { test } from './test.ts';

// What a person refused, only the whole browser remembers.
test.use({ launchOptions: wholeBrowser(CAMERA_FLAGS), permissions: ['camera', 'microphone'], serviceWorkers: 'block' });
test.describe.configure({ timeout: 90_000 });

const ROOM = { name: 'Hall bath', surfaces: [{ name: 'Back wall', place: 'wall', system: 'sheet' }] } as const;

test('camera and microphone refused: both are said, files remain as the other way, and nothing is kept that was not heard', async ({
  page,
}) => {
  const site = new Site(page);
  await site.openJobs();
  const job = await site.startJob(ROOM);
  await site.startStep('scrape');
  await site.refuse('camera');
  await site.link(site.say(m.take_photo)).click();
  await expect(site.fault('camera-refused')).toContainText(site.say(m.fault_camera_refused));
  await site.addFiles(['static/example/01-house-front.jpg'], 'Back wall');
  const before = await readStored(page);
  expect(entriesOf(before).at(-1)!.body.kind).toBe('shot');

  await page.goto(`/job/${job}/voice`);
  await site.refuse('microphone');
  const talk = site.button(site.say(m.sound_talk));
  await talk.click();
  await expect(site.fault('microphone-refused')).toContainText(site.say(m.fault_microphone_refused));
  expect(await readStored(page)).toEqual(before);
  await expect(talk).toBeEnabled();
});
