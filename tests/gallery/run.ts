// npm run gallery [-- --docs]: a screenshot of every screen, both languages and themes, into tests/.out/gallery. With --docs also
// the four pictures of the README.
import { execFileSync } from 'node:child_process';
import { copyFileSync, mkdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { chromium, type Browser } from 'playwright';
import { ensureBuilt, ROOT } from '../../src/cli/ready.mjs';
import { launchOptions, withoutRecogniser } from '../e2e/browser.ts';
import { CAMERA_FLAGS, makeFilm } from '../e2e/film.ts';
import { serveBuild } from '../e2e/serve.ts';
import { Site, type Lang } from '../e2e/site.ts';
import { LANGS, PHONE, SCREENS, showTheme, THEMES } from './screens.ts';

const OUT = join(ROOT, 'tests/.out/gallery');
const DOCS = join(ROOT, 'docs/pictures');

process.chdir(ROOT);
ensureBuilt();
await makeFilm();
rmSync(OUT, { recursive: true, force: true });
const served = await serveBuild();
const browser = await chromium.launch(launchOptions(CAMERA_FLAGS));
try {
  await Promise.all(LANGS.map((lang) => walk(browser, served.url, lang)));
  if (process.argv.includes('--docs')) docs();
} finally {
  await browser.close();
  await served.stop();
}

async function walk(browser: Browser, baseURL: string, lang: Lang): Promise<void> {
  for (const theme of THEMES) mkdirSync(join(OUT, `${lang}-${theme}`), { recursive: true });
  const page = await browser.newPage({ ...PHONE[lang], baseURL });
  await withoutRecogniser(page);
  const site = new Site(page, lang);
  for (const [i, { name, show }] of SCREENS.entries()) {
    await show(site).catch((error: unknown) => {
      throw new Error(`${name} (${lang}) was not reached`, { cause: error });
    });
    for (const theme of THEMES) {
      await showTheme(page, theme);
      await page.screenshot({ path: join(OUT, `${lang}-${theme}`, `${String(i + 1).padStart(2, '0')}-${name}.png`) });
    }
  }
  await page.context().close();
}

/** Three screens, and the first page of the example's record as it is printed. */
function docs(): void {
  for (const [picture, name] of [
    ['jobs', 'jobs'],
    ['section', 'example-section'],
    ['comb', 'comb-not-proven'],
  ] as const) {
    const number = String(SCREENS.findIndex((screen) => screen.name === name) + 1).padStart(2, '0');
    copyFileSync(join(OUT, 'en-light', `${number}-${name}.png`), join(DOCS, `${picture}.png`));
  }
  const [zip, pdf] = [join(OUT, 'example.zip'), join(OUT, 'example.pdf')];
  for (const args of [
    ['src/cli/layerbook.ts', 'example', '--out', zip],
    ['src/cli/layerbook.ts', 'report', zip, '--out', pdf],
  ]) {
    execFileSync(process.execPath, args);
  }
  execFileSync('pdftoppm', ['-png', '-singlefile', '-r', '60', pdf, join(DOCS, 'record')]);
}
