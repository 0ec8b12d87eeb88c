import { randomBytes } from 'node:crypto';
import { expect, type Page } from '@playwright/test';
import sharp from 'sharp';
import { buildArchive } from '#lib/record/archive.ts';
import { verifyChains } from '#lib/record/chain.ts';
import { sha256Hex } from '#lib/record/hash.ts';
import { known } from '#lib/record/kinds.ts';
import { verify } from '#lib/record/verify.ts';
import * as messages from '#lib/words/compiled/messages.js';
import { rawZip } from '../fixtures/raw-zip.ts';
import { smallJob } from '../fixtures/small-job.ts';
import { Site, type PickedFile } from './site.ts';
import { entriesOf, readDraft, readStored, shotsOf, type Stored } from './stored.ts';
import { test } from './test.ts';

// Offline is tried elsewhere; here its cache would only take room and time.
test.use({ serviceWorkers: 'block' });

const ROOM = { name: 'Hall bath', surfaces: [{ name: 'Back wall', place: 'wall', system: 'sheet' }] } as const;

/** A job with a step running, at the viewfinder. */
async function atFinder(page: Page): Promise<Site> {
  const site = new Site(page);
  await site.openJobs();
  await site.startJob(ROOM);
  await site.startStep('scrape');
  await site.openFinder();
  return site;
}

/** The page says the message of a code, and the message has words of its own in both languages. */
async function says(site: Site, code: string, facts: object = {}, key = `fault_${code.replaceAll('-', '_')}`): Promise<void> {
  const message = (messages as unknown as Record<string, (facts: object, options: { locale: 'en' | 'es' }) => string>)[key]!;
  const [english, spanish] = (['en', 'es'] as const).map((locale) => message(facts, { locale }));
  await expect(site.fault(code)).toContainText(english!);
  expect(spanish).not.toBe(english);
}

/** What the store holds now, after what it held before: the same, or these entries and no other. */
async function expectGrown(page: Page, before: Stored, kinds: readonly string[]): Promise<Stored> {
  const after = await readStored(page);
  expect(after.raws.slice(0, before.raws.length)).toEqual(before.raws);
  const entries = entriesOf(after);
  expect(entries.slice(before.raws.length).map((entry) => entry.body.kind)).toEqual(kinds);
  expect(verifyChains(entries)).toEqual([]);
  expect(after.heads.map(({ hash }) => hash)).toEqual(entries.length === 0 ? [] : [entries.at(-1)!.hash]);
  // Each photo that an entry names, byte for byte, and nothing beside them. The same photo twice is kept once.
  expect(after.blobs).toEqual(Object.fromEntries(shotsOf(after).map((sha256) => [sha256, sha256])));
  return after;
}

const plain = (width: number, height: number) =>
  sharp({ create: { width, height, channels: 3, background: '#8a8f94' }, limitInputPixels: false });
const file = (name: string, mimeType: string, buffer: Buffer): PickedFile => ({ name, mimeType, buffer });

async function noise(side: number): Promise<PickedFile> {
  const raw = { width: side, height: side, channels: 3 } as const;
  return file(
    'noise.jpg',
    'image/jpeg',
    await sharp(randomBytes(side * side * 3), { raw })
      .jpeg({ quality: 95 })
      .toBuffer(),
  );
}

/** A picture in the container of HEIC, with its brands and its name for the coding: where it is not licensed, nothing decodes it. */
async function heic(): Promise<Buffer> {
  const avif = await plain(64, 48).heif({ compression: 'av1' }).toBuffer();
  return Buffer.from(
    avif
      .toString('latin1')
      .replaceAll(/avi[fs]/g, 'heic')
      .replaceAll('av01', 'hvc1'),
    'latin1',
  );
}

/** Red left, blue right, and the camera held sideways: upright, red is on top. */
async function sideways(): Promise<Buffer> {
  const half = (background: string) =>
    sharp({ create: { width: 60, height: 60, channels: 3, background } })
      .png()
      .toBuffer();
  const [red, blue] = await Promise.all([half('#d00000'), half('#0000d0')]);
  return plain(120, 60)
    .composite([
      { input: red, left: 0, top: 0 },
      { input: blue, left: 60, top: 0 },
    ])
    .withMetadata({ orientation: 6 })
    .jpeg()
    .toBuffer();
}

const FILES: [what: string, make: () => Promise<PickedFile>, kept: boolean, code: string | null][] = [
  [
    'not an image',
    async () => file('offer.jpg', 'image/jpeg', Buffer.from('<svg xmlns="http://www.w3.org/2000/svg"/>')),
    false,
    'not-an-image',
  ],
  ['0 bytes', async () => file('empty.jpg', 'image/jpeg', Buffer.alloc(0)), false, 'empty-file'],
  [
    'a truncated JPEG',
    async () => file('cut.jpg', 'image/jpeg', (await plain(640, 480).jpeg().toBuffer()).subarray(0, -400)),
    true,
    'truncated-image',
  ],
  ['HEIC the browser cannot show', async () => file('photo.heic', 'image/heic', await heic()), true, 'heic-not-shown'],
  ['100 megapixels', async () => file('large.jpg', 'image/jpeg', await plain(10_000, 10_000).jpeg().toBuffer()), true, 'too-many-pixels'],
  ['sideways by its tag', async () => file('side.jpg', 'image/jpeg', await sideways()), true, null],
];

test.describe.configure({ mode: 'parallel' });

test.describe('a file of bad luck', () => {
  test.describe.configure({ mode: 'serial' });
  let site: Site;
  test.beforeAll(async ({ browser, baseURL }) => {
    site = await atFinder(
      await browser.newPage({ baseURL: baseURL!, serviceWorkers: 'block', viewport: { width: 390, height: 844 }, permissions: ['camera'] }),
    );
  });
  test.afterAll(() => site.page.context().close());

  for (const [what, make, kept, code] of FILES) {
    test(what, async () => {
      const picked = await make();
      const before = await readStored(site.page);
      if (kept) await site.addFiles([picked], 'Back wall');
      else await site.pickFiles([picked]);
      if (code !== null) await says(site, code);
      const after = await expectGrown(site.page, before, kept ? ['shot'] : []);
      if (!kept) return;
      expect(after.blobs).toHaveProperty(sha256Hex(picked.buffer));
    });
  }

  test('in the log each shows as far as it can, and upright', async () => {
    await site.closeFinder();
    await site.link('Log').click();
    const rows = site.page.getByRole('listitem').filter({ hasText: 'From a file' });
    // The newest comes first: sideways, 100 megapixels, HEIC, cut short.
    await expect(rows).toHaveCount(4);
    await expect(rows.nth(0).getByRole('img')).toBeVisible();
    for (const nth of [1, 2]) await expect(rows.nth(nth)).toContainText('Not shown here');
    const top = await rows
      .nth(0)
      .getByRole('img')
      .evaluate(async (img: HTMLImageElement) => {
        await img.decode();
        const canvas = new OffscreenCanvas(img.naturalWidth, img.naturalHeight);
        const context = canvas.getContext('2d')!;
        context.drawImage(img, 0, 0);
        const [red = 0, , blue = 0] = context.getImageData(canvas.width / 2, canvas.height * 0.2, 1, 1).data;
        return { upright: canvas.height > canvas.width, redder: red > blue };
      });
    expect(top).toEqual({ upright: true, redder: true });
  });
});

test('storage full: nothing of the photo is kept, the page holds it, and it is kept once there is room', async ({ page, baseURL }) => {
  const quota = await page.context().newCDPSession(page);
  await quota.send('Storage.overrideQuotaForOrigin', { origin: baseURL!, quotaSize: 10_000_000 });
  const site = await atFinder(page);
  let before = await readStored(page);
  const photos = await Promise.all(Array.from({ length: 8 }, () => noise(1100)));
  for (const photo of photos) {
    await site.pickFiles([photo]);
    await expect(site.saved.or(site.fault('not-saved-full')).and(page.locator(':not([data-read])'))).toBeVisible();
    if (await site.fault('not-saved-full').isVisible()) break;
    before = await expectGrown(page, before, ['shot']);
    await site.saved.evaluate((notice) => notice.setAttribute('data-read', ''));
  }
  await says(site, 'not-saved-full');
  await expectGrown(page, before, []);

  await quota.send('Storage.overrideQuotaForOrigin', { origin: baseURL! });
  await site.button('Save again').click();
  await expect(site.saved).toBeVisible();
  await expectGrown(page, before, ['shot']);
});

test('evicted while open: nothing is written in its place, and the loss is named at the next start', async ({ page }) => {
  const site = await atFinder(page);
  await site.shoot('Back wall');
  const { raws } = await readStored(page);
  await site.clearStore();
  await site.shutter.click();
  await says(site, 'not-saved-gone');
  expect(await readStored(page)).toEqual({ raws: [], heads: [], blobs: {} });

  const next = new Site(await page.context().newPage());
  await next.openJobs();
  await says(next, 'loss-at-start', { n: raws.length });
});

/** The renderer is gone, as when a phone runs short of memory; a fresh page of the same phone. */
async function crashed(page: Page): Promise<Page> {
  const gone = page.waitForEvent('crash');
  const session = await page.context().newCDPSession(page);
  session.send('Page.crash').catch(() => undefined);
  await gone;
  return page.context().newPage();
}

test('page crashed with the camera open: the first page says so and leads back', async ({ page }) => {
  const site = await atFinder(page);
  await site.shoot('Back wall');
  const before = await readStored(page);
  const next = new Site(await crashed(page));
  await next.openJobs();
  await says(next, 'shooting-cut-off', { job: ROOM.name, n: 1 }, 'shooting_cut_off_text');
  await expectGrown(next.page, before, []);
  await next.link('Take it again').click();
  await next.untilFinder();
  await expect(next.button('Back wall')).toHaveAttribute('aria-pressed', 'true');
  await next.shoot();
  await expectGrown(next.page, before, ['shot']);
  await next.closeFinder();
  await next.openJobs();
  await expect(next.fault('shooting-cut-off')).toHaveCount(0);
});

test('page crashed after any field: the form comes back complete, and so does a value on the pad', async ({ page }) => {
  const typed: [label: string, value: string, nth?: number][] = [
    ['Name of the job', 'Hall bath'],
    ['Address', '12 Elm Street'],
    ['Your name', 'Ines Robles'],
    ['Surface', 'Niche', 1],
    ['Place', 'curb', 1],
    ['System', 'liquid', 1],
    ['At least (in)', '2 1/4'],
    ['From', 'standard'],
    ['Page, edition', 'page 2'],
    ['At most (mil)', '28'],
  ];
  let site = new Site(page);
  await page.goto('/new');
  await site.unfold();
  const field = (label: string, nth = 0) => site.page.getByLabel(label, { exact: true }).nth(nth);
  for (const [i, [label, value, nth]] of typed.entries()) {
    if (['Place', 'System', 'From'].includes(label)) await field(label, nth).selectOption(value);
    else await field(label, nth).fill(value);
    await expect.poll(() => readDraft(site.page, ['new-job'])).toContain(JSON.stringify(value));
    // On disk it is after each; back it comes by one way for all, tried after every third.
    if (i % 3 !== 0) continue;
    site = new Site(await crashed(site.page));
    await site.page.goto('/new');
    await site.unfold();
    for (const [label, value, nth] of typed.slice(0, i + 1)) await expect(field(label, nth)).toHaveValue(value);
  }
  expect((await readStored(site.page)).raws).toEqual([]);

  await field('At most (mil)').fill('');
  await site.button('Start the job').click();
  await site.startStep('pre-cut');
  await site.openPad();
  await site.touchInches(2, 11);
  const job = site.page.url().split('/')[4]!;
  await expect.poll(() => readDraft(site.page, ['reading', job, 'overlap'])).toContain('43');
  const before = await readStored(site.page);
  site = new Site(await crashed(site.page));
  await site.page.goto(`/job/${job}`);
  await site.openPad();
  await site.saveReading('2 11/16 in');
  await expectGrown(site.page, before, ['reading']);
});

test('two pages on one chain, 30 photos each at once: one chain, none lost', async ({ page }) => {
  const first = await atFinder(page);
  const second = new Site(await page.context().newPage());
  await second.page.goto(page.url());
  await second.untilFinder();
  const before = await readStored(page);
  const photos = await Promise.all(Array.from({ length: 60 }, () => noise(32)));
  await Promise.all([first.pickFiles(photos.slice(0, 30)), second.pickFiles(photos.slice(30))]);
  await expect.poll(async () => (await readStored(page)).raws.length).toBe(before.raws.length + 60);
  const after = await expectGrown(page, before, Array<string>(60).fill('shot'));
  expect(shotsOf(after).toSorted()).toEqual(photos.map(({ buffer }) => sha256Hex(buffer)).toSorted());
  for (const site of [first, second]) await expect(site.saved).toBeVisible();
});

test('an upgrade blocked by an old page is said, and passes once that page is closed', async ({ page }) => {
  const site = await atFinder(page);
  await site.shoot('Back wall');
  await site.closeFinder();
  const before = await readStored(page);

  // A page of a build that knows nothing of upgrades: it holds the store, and a newer build waits for it.
  const old = await page.context().newPage();
  await old.route('**/old-build', (route) => route.fulfill({ contentType: 'text/html', body: '<title>old build</title>' }));
  await old.goto('/old-build');
  await old.evaluate(async () => {
    await new Promise((opened) => (indexedDB.open('layerbook').onsuccess = opened));
  });
  await page.close();
  const newer = await page.context().newPage();
  await newer.route('**/newer-build', (route) => route.fulfill({ contentType: 'text/html', body: '<title>newer build</title>' }));
  await newer.goto('/newer-build');
  await newer.evaluate(async () => {
    const request = indexedDB.open('layerbook', 2);
    // It gives the upgrade up again, so that this build can go on.
    request.onupgradeneeded = () => request.transaction!.abort();
    await new Promise((blocked) => (request.onblocked = blocked));
  });

  const next = new Site(await page.context().newPage());
  await next.openJobs();
  await says(next, 'closed-blocked');
  await old.close();
  await next.button('Load again').click();
  await expect(next.page.getByText('Hall bath')).toBeVisible();
  await expectGrown(next.page, before, []);

  // The other way round: this page is the old one, and lets go.
  await next.page.getByText('Hall bath').click();
  await newer.evaluate(() => new Promise((opened) => (indexedDB.open('layerbook', 2).onsuccess = opened)));
  await says(next, 'closed-newer');
  await expectGrown(newer, before, []);
});

test('clock set back: the move is an entry of its own, said, and the order stands', async ({ page }) => {
  const site = await atFinder(page);
  await site.shoot('Back wall');
  const before = await readStored(page);
  await page.clock.setSystemTime(Date.now() - 2 * 3_600_000);
  await site.shoot();
  await says(site, 'clock-moved');
  const [jump] = entriesOf(await expectGrown(page, before, ['clock-jump', 'shot'])).slice(-2);
  const view = known(jump!);
  expect(view.kind === 'clock-jump' ? Math.round(view.data.wallDeltaMs / 60_000) : null).toBe(-120);
  await site.closeFinder();
  await site.link('Log').click();
  await expect(site.page.getByText('Clock was moved')).toBeVisible();
});

test('archives of bad luck: what is wrong is named, and nothing of them reaches the book', async ({ page }) => {
  const site = await atFinder(page);
  await site.shoot('Back wall');
  const before = await readStored(page);
  const { raws, blob, blobs } = await smallJob();
  const built = await buildArchive({ raws, blob, date: '2026-03-02' });
  if (!built.ok) throw new Error(built.fault.code);
  const whole = Buffer.from(await built.value.blob.arrayBuffer());
  const photo = Buffer.from(await [...blobs.values()][0]!.arrayBuffer());
  const changed = Buffer.from(whole);
  changed[whole.indexOf(photo) + 3]! ^= 1;
  const bag = { name: 'bag/bagit.txt' };

  await page.goto('/check');
  for (const [name, archive, verdict, code] of [
    ['whole.zip', built.value.blob, 'as-written', null],
    ['one-byte.zip', new Blob([changed]), 'changed', 'changed-file'],
    ['up.zip', rawZip([bag, { name: '../../etc/x.txt' }]), 'unreadable', 'bad-name'],
    ['bomb.zip', rawZip([bag, { name: 'bag/a.txt', body: new Uint8Array(80 * 1024 * 1024), deflate: true }]), 'unreadable', 'too-big'],
  ] as const) {
    expect(await site.check(file(name, 'application/zip', Buffer.from(await archive.arrayBuffer()))), name).toBe(verdict);
    const [finding] = (await verify(archive)).findings;
    expect(finding?.code ?? null).toBe(code);
    if (finding !== undefined) await says(site, finding.code, finding);
    await expect(page.locator('[data-fault]')).toHaveCount(finding === undefined ? 0 : 1);
  }
  await expectGrown(page, before, []);
});
