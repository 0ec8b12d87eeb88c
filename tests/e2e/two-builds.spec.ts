import { execFile } from 'node:child_process';
import { cp, mkdir, readFile, rm, symlink, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { expect, type Page } from '@playwright/test';
import { ROOT } from '../../src/cli/ready.mjs';
import { photographs } from './film.ts';
import { serveBuild } from './serve.ts';
import { Site } from './site.ts';
import { test } from './test.ts';

const run = promisify(execFile);
const NEXT = join(ROOT, 'tests/.out/next-build');
const WORDS = 'src/lib/words/messages/en';
const NEXT_WORDS = 'Jobs open, next build';

/** The next build: these sources with two words changed, built as any build is but not packed. What uses such a word gets another file name. */
async function buildNext(): Promise<void> {
  await rm(NEXT, { recursive: true, force: true });
  await mkdir(NEXT, { recursive: true });
  for (const part of ['src', 'static', 'package.json', 'tsconfig.json', 'vite.config.ts']) {
    await cp(join(ROOT, part), join(NEXT, part), { recursive: true });
  }
  await symlink(join(ROOT, 'node_modules'), join(NEXT, 'node_modules'), 'junction');
  await change(`${WORDS}/screens.json`, '"Jobs open"', `"${NEXT_WORDS}"`);
  await change(`${WORDS}/trade.json`, '"Within"', '"Within it"');
  // Packing takes some eight seconds, and nothing here asks for a packed file.
  await change('vite.config.ts', "adapter({ out: 'build' })", "adapter({ out: 'build', precompress: false })");
  await run(process.execPath, ['src/lib/words/compile.mjs'], { cwd: NEXT });
  await run(process.execPath, ['node_modules/vite/bin/vite.js', 'build', '--logLevel=error'], { cwd: NEXT });
}

async function change(file: string, before: string, after: string): Promise<void> {
  const place = join(NEXT, file);
  const text = await readFile(place, 'utf8');
  if (!text.includes(before)) throw new Error(`${file} does not say ${before}`);
  await writeFile(place, text.replace(before, after));
}

const cachesOf = (page: Page) => page.evaluate(() => caches.keys());

test.describe.configure({ timeout: 150_000 });
test.beforeAll(async () => {
  // A whole build, beside another test on the other core.
  test.setTimeout(240_000);
  await buildNext();
});

test('a page open on one build goes on while the next is served, and takes it over when told, with its draft', async ({ browser }) => {
  let served = await serveBuild();
  const { port } = new URL(served.url);
  const context = await browser.newContext({ baseURL: served.url, viewport: { width: 390, height: 844 }, permissions: ['camera'] });
  try {
    const page = await context.newPage();
    const site = new Site(page);
    await page.goto('/icon.svg');
    await page.evaluate(() => caches.open('layerbook-two-builds-ago'));
    await site.openJobs();
    await site.untilOffline();
    await site.startJob({ name: 'Hall bath', surfaces: [{ name: 'Back wall', place: 'wall', system: 'sheet' }] });
    const [before, first] = await cachesOf(page);
    expect(before).toBe('layerbook-two-builds-ago');

    await served.stop();
    served = await serveBuild(NEXT, port);
    const other = new Site(await context.newPage());
    await other.openJobs();
    for (const one of [site, other]) await expect(one.page.getByText('A newer version is ready')).toBeVisible({ timeout: 30_000 });
    await other.button('Load it now').click();
    await expect(other.page.getByRole('heading', { name: NEXT_WORDS })).toBeVisible();
    await other.untilOffline();
    const kept = await cachesOf(other.page);
    expect(kept).toHaveLength(2);
    expect(kept[0]).toBe(first);

    // The first page has seen no other build: it loads the pages and workers it had not used yet from its own.
    await page.evaluate(() => document.body.setAttribute('data-first-build', ''));
    const late: string[] = [];
    page.on('response', (answer) => {
      if (answer.url().includes('/immutable/')) late.push(answer.url());
    });
    await site.startStep('scrape');
    await site.openFinder();
    await site.shoot('Back wall');
    await site.addFiles([photographs()[0]!], 'Back wall');
    await site.closeFinder();
    await site.stopStep();
    await site.link('Log').click();
    await expect(page.getByRole('img')).toHaveCount(2);
    await site.link('Back').click();
    await site.openRecordPage();
    await site.buildRecord();
    const archive = await (await site.writeArchive()).path();
    await site.link('Back').click();
    await site.link('Back').click();
    await site.link('Check an archive').click();
    expect(await site.check(archive)).toBe('as-written');
    await site.link('Back').click();
    await site.link('Settings').click();
    await site.link('Back').click();
    await expect(page.getByRole('heading', { name: 'Jobs open', exact: true })).toBeVisible();
    await expect(page.locator('[data-first-build]')).toHaveCount(1);
    // The server alone could not have given them any more.
    const answers = await Promise.all(late.map(async (url) => (await context.request.get(url)).status()));
    expect(answers.filter((status) => status === 404).length).toBeGreaterThan(3);

    await site.link('New job').click();
    await site.typeJob({ name: 'Guest bath', limits: [{ what: 'overlap', min: '2', source: 'crew', text: 'crew sheet' }] });
    await site.button('Load it now').click();
    await expect(page.locator('[data-first-build]')).toHaveCount(0);
    await expect(page.getByLabel('Name of the job', { exact: true })).toHaveValue('Guest bath');
    await expect(page.getByLabel('Page, edition', { exact: true })).toHaveValue('crew sheet');
    await site.link('Back').click();
    await expect(page.getByRole('heading', { name: NEXT_WORDS })).toBeVisible();
    await site.openJob('Hall bath');
  } finally {
    await context.close();
    await served.stop();
  }
});
