import { expect, type Page } from '@playwright/test';
import sharp from 'sharp';
import { verifyChains } from '#lib/record/chain.ts';
import { known } from '#lib/record/kinds.ts';
import { job, plantedSite, run, surface } from './planted.ts';
import type { Site } from './site.ts';
import { entriesOf, readStored, shotsOf } from './stored.ts';
import { test } from './test.ts';

// Offline is tried elsewhere; here its cache would only take room and time.
test.use({ serviceWorkers: 'block' });
test.describe.configure({ mode: 'parallel' });

const HALL = [job('Hall bath'), surface('floor', 'Shower floor', 'floor'), run('band-seams', ['floor'])];

async function watching(site: Site, page: Page): Promise<void> {
  await page.clock.install();
  await plantedSite(site, 'hall', HALL);
  await page.goto('/job/hall/watch');
  await site.button('Start watching').click();
  await expect(page.getByText('1 photo', { exact: true })).toBeVisible({ timeout: 20_000 });
}

/** Half minutes pass, and each brings its frame. */
async function pass(page: Page, n: number, from: number): Promise<void> {
  for (let i = from + 1; i <= from + n; i++) {
    await page.clock.runFor(30_000);
    await expect(page.getByText(`${i} photos`, { exact: true })).toBeVisible();
  }
}

async function frames(page: Page) {
  const stored = await readStored(page);
  expect(verifyChains(entriesOf(stored))).toEqual([]);
  // Each frame byte for byte as it is named.
  for (const sha256 of shotsOf(stored)) expect(stored.blobs[sha256]).toBe(sha256);
  return entriesOf(stored).flatMap((entry) => {
    const view = known(entry);
    return view.kind === 'shot' ? [{ ...view.data, run: entry.body.run }] : [];
  });
}

test('a frame every half minute, small; the page killed in between loses none; those that count are ticked', async ({ site, page }) => {
  await watching(site, page);
  await pass(page, 3, 1);
  const before = await frames(page);
  expect(before.map(({ from, run: of }) => ({ from, of }))).toEqual(
    Array.from({ length: 4 }, () => ({ from: 'watch', of: 'run-band-seams' })),
  );

  const gone = page.waitForEvent('crash');
  const session = await page.context().newCDPSession(page);
  session.send('Page.crash').catch(() => undefined);
  await gone;
  const next = await page.context().newPage();
  await next.goto('/job/hall/watch');
  await expect(next.locator('[data-fault="watch-cut-off"]')).toContainText('4 photos from then are saved.');
  expect(await frames(next)).toEqual(before);
  await next.getByRole('button', { name: 'Understood' }).click();

  const tiles = next.getByRole('button', { name: /^Photo, / });
  await expect(tiles).toHaveCount(4);
  await expect(tiles.first().locator('img')).toBeVisible();
  for (const nth of [0, 2]) await tiles.nth(nth).click();
  await next.getByRole('button', { name: 'Shower floor', exact: true }).click();
  await next.getByRole('button', { name: 'Tag 2 photos' }).click();
  await expect(next.getByText('2 photos tagged.')).toBeVisible();
  // The rest stay as a strip.
  await expect(tiles).toHaveCount(2);
  const tags = entriesOf(await readStored(next))
    .map(known)
    .flatMap((view) => (view.kind === 'tag' ? [view.data] : []));
  expect(tags).toMatchObject([{ run: 'run-band-seams', surfaces: ['floor'] }]);
  expect(tags[0]?.shots).toHaveLength(2);
});

test('no frame is larger than 960 px, whatever the camera gives', async ({ site, page }) => {
  await watching(site, page);
  await site.button('Stop').click();
  await page.getByRole('button', { name: 'Start watching' }).waitFor();
  const bytes = await page.evaluate(async () => {
    const db = await new Promise<IDBDatabase>((resolve) => {
      const request = indexedDB.open('layerbook');
      request.onsuccess = () => resolve(request.result);
    });
    const parts = await new Promise<Blob[]>((resolve) => {
      const request = db.transaction('parts').objectStore('parts').getAll();
      request.onsuccess = () => resolve(request.result as Blob[]);
    });
    db.close();
    return [...new Uint8Array(await parts[0]!.arrayBuffer())];
  });
  const { width, height, format } = await sharp(Buffer.from(bytes)).metadata();
  expect([format, Math.max(width, height)]).toEqual(['jpeg', 960]);
});

/** Other things fill the phone, down to less than a frame. */
async function fill(page: Page): Promise<void> {
  await page.evaluate(async () => {
    const db = await new Promise<IDBDatabase>((resolve) => {
      const request = indexedDB.open('layerbook');
      request.onsuccess = () => resolve(request.result);
    });
    const taken = (bytes: number, key: string) =>
      new Promise<boolean>((resolve) => {
        const noise = new Uint8Array(bytes);
        for (let at = 0; at < bytes; at += 65_536) crypto.getRandomValues(noise.subarray(at, at + 65_536));
        const tx = db.transaction('caches', 'readwrite');
        tx.objectStore('caches').put(new Blob([noise]), ['noise', key]);
        tx.oncomplete = () => resolve(true);
        tx.onabort = tx.onerror = () => resolve(false);
      });
    for (const bytes of [500_000, 100_000, 20_000, 5_000]) for (let i = 0; i < 100 && (await taken(bytes, `${bytes} ${i}`)); i++);
    db.close();
  });
}

test('store full while watching: it is said, nothing kept is touched, and with room again the frames held are kept by themselves', async ({
  site,
  page,
  baseURL,
}) => {
  const quota = await page.context().newCDPSession(page);
  await quota.send('Storage.overrideQuotaForOrigin', { origin: baseURL!, quotaSize: 5_000_000 });
  await watching(site, page);
  const before = await readStored(page);
  await fill(page);
  await page.clock.runFor(30_000);
  await expect(site.fault('not-saved-full')).toContainText('What was saved before is safe');
  await page.clock.runFor(30_000);
  await expect(page.getByText('2 photos not saved')).toBeVisible();
  expect((await readStored(page)).raws).toEqual(before.raws);

  await quota.send('Storage.overrideQuotaForOrigin', { origin: baseURL! });
  await page.clock.runFor(30_000);
  await expect(page.getByText('4 photos', { exact: true })).toBeVisible();
  await expect(site.fault('not-saved-full')).toHaveCount(0);
  expect(await frames(page)).toHaveLength(4);
});
