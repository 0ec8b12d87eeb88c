import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium, expect as patient, type BrowserContext, type Page } from '@playwright/test';
import { known } from '#lib/record/kinds.ts';
import * as m from '#lib/words/compiled/messages.js';
import { clip, wavFile } from '../speech/clips.ts';
import { launchOptions, withoutRecogniser } from './browser.ts';
import { job, limit, plantedSite, run, surface } from './planted.ts';
import { Site } from './site.ts';
import { entriesOf, readStored } from './stored.ts';
import { test } from './test.ts';

/** A busy machine is no fault of the book. */
const expect = patient.configure({ timeout: 60_000 });

const HALL = [
  surface('north', 'North wall', 'wall'),
  surface('floor', 'Shower floor', 'floor'),
  limit('wet-film', '18', '40', 'mil'),
  run('liquid-coat', ['north', 'floor'], { ago: 30, coat: 1 }),
];
const PAD = '/job/hall/read?what=wet-film&surface=floor&run=run-liquid-coat';
/** The false microphone plays from the moment it is opened, and a busy machine takes its time to the first sound that is recorded. */
const LEAD_S = 2.5;
const FAN = { noise: 'fan', snrDb: 20 } as const;

/** A browser whose microphone plays one made phrase, and that reaches no host but ours; it names every other one it asked for. */
async function phone(text: string, baseURL: string) {
  const folder = await mkdtemp(join(tmpdir(), 'layerbook-spoken-'));
  const sound = join(folder, 'said.wav');
  await writeFile(sound, wavFile(clip(text, 'slt', FAN, 1, LEAD_S)));
  const flags = ['--use-fake-device-for-media-stream', `--use-file-for-fake-audio-capture=${sound}%noloop`];
  const browser = await chromium.launch(launchOptions(flags));
  const context = await browser.newContext({
    baseURL,
    permissions: ['microphone'],
    viewport: { width: 390, height: 844 },
    hasTouch: true,
    locale: 'en-US',
  });
  await withoutRecogniser(context);
  const elsewhere: string[] = [];
  await context.route(
    (url) => url.host !== new URL(baseURL).host,
    (route) => {
      elsewhere.push(route.request().url());
      return route.abort();
    },
  );
  return {
    context,
    elsewhere,
    close: async () => {
      await browser.close();
      await rm(folder, { recursive: true, force: true });
    },
  };
}

async function atPad(context: BrowserContext): Promise<Site> {
  const site = new Site(await context.newPage());
  await plantedSite(site, 'hall', [job('Hall bath'), ...HALL]);
  await site.page.goto(PAD);
  await site.page.getByRole('button', { name: 'Shower floor', pressed: true }).waitFor();
  return site;
}

const talk = (site: Site) => site.button(site.say(m.sound_talk));

/** Holds the key as long as the phrase lasts. */
async function hold(site: Site, seconds: number): Promise<void> {
  const { x, y, width, height } = (await talk(site).boundingBox())!;
  await site.page.mouse.move(x + width / 2, y + height / 2);
  await site.page.mouse.down();
  await expect(site.page.locator('.panel .large')).toContainText(`:0${seconds}`);
  await site.page.mouse.up();
}

async function views(page: Page) {
  return entriesOf(await readStored(page))
    .filter(({ body }) => body.device !== 'phone-b')
    .map((entry) => ({ id: entry.body.id, ...known(entry) }));
}

test('held or hands-free, spoken, read back, confirmed: in the log with its clip, on the surface that was said; offline from the cache, nothing asked elsewhere', async ({
  baseURL,
}) => {
  const { context, elsewhere, close } = await phone('coat two north wall two two mils', baseURL!);
  try {
    const site = await atPad(context);
    await site.openJobs();
    await site.untilOffline();
    await site.page.goto(PAD);
    await site.page.getByRole('button', { name: 'Shower floor', pressed: true }).waitFor();
    // The page has read nothing of the recogniser so far; what the service worker keeps is fetched, not opened.
    const ofPages = await site.page.evaluate(() => performance.getEntriesByType('resource').map(({ name }) => name));
    expect(ofPages.filter((name) => /listener|\.wasm|\/voice\/en-us/.test(name))).toEqual([]);
    const listeners = () => site.page.workers().filter((worker) => worker.url().includes('listener'));
    expect(listeners()).toHaveLength(0);
    await context.setOffline(true);
    await site.page.reload();
    await site.page.getByRole('button', { name: 'Shower floor', pressed: true }).waitFor();
    await hold(site, 6);
    await expect(site.page.locator('.panel .value')).toHaveText('22–24 mil');
    await expect(site.page.locator('.panel')).toContainText('Wet at twenty-two, dry at twenty-four thousandths of an inch.');
    await expect(site.page.locator('.panel')).toContainText('Coat 2, North wall');
    expect(listeners()).toHaveLength(1);
    // The clip is kept, and no reading before it is confirmed.
    expect((await views(site.page)).map(({ kind }) => kind)).toContain('voice');
    expect((await views(site.page)).map(({ kind }) => kind)).not.toContain('reading');
    await site.button(site.say(m.spoken_save, { value: '22–24 mil' })).click();
    await expect(site.saved).toBeVisible();
    const all = await views(site.page);
    const note = all.find((one) => one.kind === 'voice');
    const reading = all.find((one) => one.kind === 'reading');
    expect(reading?.data).toMatchObject({
      what: 'wet-film',
      surface: 'north',
      coat: 2,
      how: 'comb',
      said: { text: 'coat two north wall two two mils', value: '22', to: '24', unit: 'mil' },
      heard: 'coat two north wall two two mils',
      confirmedHow: 'touch',
      clip: note!.id,
      clipHash: note!.data.sound.sha256,
    });

    // Hands-free, while the step is open: the same phrase, without a key held; nothing is kept that is not confirmed.
    await site.button(site.say(m.spoken_series)).click();
    await expect(site.page.locator('.panel .value')).toHaveText('22–24 mil');
    await site.button(site.say(m.spoken_series_end)).click();
    await expect(site.button(site.say(m.spoken_series))).toBeVisible();
    const kinds = (await views(site.page)).map(({ kind }) => kind);
    expect(kinds.filter((kind) => kind === 'voice').length).toBeGreaterThan(1);
    expect(kinds.filter((kind) => kind === 'reading')).toHaveLength(1);

    // Whose engine and model they are, without network too.
    await site.page.goto('/speaking');
    await site.button(site.say(m.speaking_licences_show)).click();
    await expect(site.page.locator('pre')).toContainText('Carnegie Mellon University');
    expect(elsewhere).toEqual([]);
  } finally {
    await close();
  }
});
