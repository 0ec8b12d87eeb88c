import { expect, type Page } from '@playwright/test';
import axe from 'axe-core';
import { PHONE, SCREENS, showTheme, THEMES } from '../gallery/screens.ts';
import { withoutRecogniser } from './browser.ts';
import { Site } from './site.ts';
import { test } from './test.ts';

const softly = expect.configure({ soft: true });

test.describe.configure({ mode: 'parallel', timeout: 420_000 });

/** Spanish is the language with the longer words; `npm run gallery` walks the same screens in both. */
const READ = 'es';

test('every screen of the gallery, light and dark: no violation, and none wider than a phone of 320 px', async ({ browser, baseURL }) => {
  const page = await browser.newPage({ ...PHONE[READ], baseURL: baseURL!, serviceWorkers: 'block' });
  await withoutRecogniser(page);
  const site = new Site(page, READ);
  for (const { name, show } of SCREENS) {
    await test.step(name, async () => {
      await show(site);
      for (const theme of THEMES) {
        await showTheme(page, theme);
        // Only colours differ between the themes: all rules are read in the first.
        softly(await violations(page, theme === THEMES[0] ? undefined : ['color-contrast']), `${name}, ${theme}`).toEqual([]);
      }
      await page.setViewportSize({ width: 320, height: 640 });
      // What is drawn follows the width a moment later.
      await softly.poll(() => tooWide(page), `${name} at 320 px`).toEqual([]);
      await page.setViewportSize({ width: 390, height: 844 });
    });
  }
  await page.context().close();
});

test('a picture without words and grey on grey are found', async ({ page }) => {
  await page.setContent(
    '<html lang="en"><title>A</title><main><h1>A</h1><img src="a.jpg"><p style="color:#aaa;background:#fff">Hard to read</p></main>',
  );
  expect(await violations(page)).toEqual(['color-contrast: p', 'image-alt: img']);
});

/** Only what is wrong is brought out of the page: all that is right takes ten times as long to write down. */
async function violations(page: Page, rules?: string[]): Promise<string[]> {
  if (!(await page.evaluate(() => 'axe' in window))) await page.evaluate(axe.source);
  return page.evaluate(async (only) => {
    const { violations } = await (window as unknown as { axe: typeof axe }).axe.run({
      resultTypes: ['violations'],
      iframes: false,
      ...(only !== undefined && { runOnly: only }),
    });
    return violations.flatMap(({ id, nodes }) => nodes.map(({ target }) => `${id}: ${target.join(' ')}`));
  }, rules);
}

/** What reaches beyond the sides of the screen, unless it lies in a strip that is made to be pushed sideways. */
async function tooWide(page: Page): Promise<string[]> {
  return page.evaluate(() => {
    const clipped = (one: Element): boolean => {
      for (let up = one.parentElement; up !== null; up = up.parentElement) if (getComputedStyle(up).overflowX !== 'visible') return true;
      return false;
    };
    const outside = [...document.body.querySelectorAll('*')].filter((one) => {
      const { left, right, width } = one.getBoundingClientRect();
      return (
        width > 0 && (left < -1 || right > innerWidth + 1) && !(one instanceof SVGElement && one.ownerSVGElement !== null) && !clipped(one)
      );
    });
    const page = document.documentElement.scrollWidth > innerWidth ? [`the page: ${document.documentElement.scrollWidth}`] : [];
    return [...page, ...outside.map((one) => `${one.tagName} ${one.className} ${one.textContent.trim().slice(0, 40)}`)];
  });
}

/** Least height in CSS pixels of what is touched with a glove on, by its name; 44 for everything else. */
const MAIN = /^(New job|Start the job|Start a step|Start: .*|Stop.*|Take a photo|Save( .*)?)$/;
const KEY = /^\d$|^A sixteenth (less|more)$|^One tooth (less|more)$/;

interface Target {
  readonly name: string;
  readonly height: number;
  readonly width: number;
  /** Of its centre and near its four corners, how many places a touch there does not reach it. */
  readonly missed: number;
}

test('on the way from the first page to a saved reading every target is as large as it must be, and is hit where it shows', async ({
  page,
}) => {
  const site = new Site(page);
  const shown: Record<string, Target[]> = {};
  const look = async (screen: string) => (shown[screen] = await targets(page));
  await site.openJobs();
  await look('jobs');
  await site.startJob({ name: 'Hall bath', limits: [{ what: 'overlap', min: '2', source: 'data-sheet', text: 'page 2' }] });
  await look('section');
  await site.link('Start a step').click();
  await page.getByText('Which step?').waitFor();
  await look('start');
  await site.link('Back').click();
  await site.startStep('pre-cut');
  await look('section, running');
  await site.openFinder();
  await look('shoot');
  await site.shoot('Back wall');
  await look('shoot, saved');
  await site.openPad();
  await site.touchInches(2, 11);
  await look('read');
  await site.saveReading('2 11/16 in');
  await look('read, saved');
  await site.link('Back').click();
  await site.stopStep();
  await site.startStep('liquid-coat');
  await site.openPad();
  await site.touchTooth('26 mil');
  await look('comb');

  for (const [screen, all] of Object.entries(shown)) {
    softly(all.length, screen).toBeGreaterThan(2);
    for (const target of all) {
      const least = MAIN.test(target.name) ? 96 : KEY.test(target.name) ? 64 : 44;
      const fits = target.height >= least && target.width >= 44 && target.missed === 0;
      softly(fits, `${screen}: "${target.name}" is ${target.width} x ${target.height}, least ${least}, missed ${target.missed}`).toBe(true);
    }
  }
  expect(
    Object.values(shown)
      .flat()
      .filter(({ name }) => MAIN.test(name)),
  ).toHaveLength(10);
});

/** Everything on the screen that can be touched. Scrolled into sight first where it lies below. */
async function targets(page: Page): Promise<Target[]> {
  const found: Target[] = [];
  const all = page.locator(
    'a[href], button:enabled, [role="slider"], label:has(input:is([type="radio"], [type="checkbox"], [type="file"]))',
  );
  for (const one of await all.all()) {
    await one.evaluate((element) => element.scrollIntoView({ block: 'center' }));
    const target = await one.evaluate((element) => {
      const { left, top, width, height } = element.getBoundingClientRect();
      // The main action has one corner cut off, 14 px along each side.
      const inset = 8;
      const places = [
        [left + width / 2, top + height / 2],
        ...[left + inset, left + width - inset].flatMap((x) => [top + inset, top + height - inset].map((y) => [x, y])),
      ] as [number, number][];
      const missed = places.filter(([x, y]) => !element.contains(document.elementFromPoint(x, y))).length;
      const name = element.getAttribute('aria-label') ?? element.textContent.trim().replaceAll(/\s+/g, ' ');
      return { name, width: Math.round(width), height: Math.round(height), missed };
    });
    found.push(target);
  }
  return found;
}
