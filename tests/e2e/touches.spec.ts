import { expect, type Locator, type Page } from '@playwright/test';
import * as m from '#lib/words/compiled/messages.js';
import { STRIP, xOf } from '#lib/ui/reading/ruler.ts';
import { OWED } from '#lib/words/codes.ts';
import { job, limit, looseShots, plantedSite, run, surface, type Planted } from './planted.ts';
import type { Site } from './site.ts';
import { entriesOf, readStored } from './stored.ts';
import { test } from './test.ts';
import { countTouches, touches } from './touch-count.ts';

// Offline is tried elsewhere; here its cache would only take room and time.
test.use({ serviceWorkers: 'block' });
test.describe.configure({ mode: 'serial' });

/** Kinds of the entries this phone wrote. */
async function kinds(page: Page): Promise<string[]> {
  return entriesOf(await readStored(page))
    .filter(({ body }) => body.device !== 'phone-b')
    .map(({ body }) => body.kind);
}

const JOB: readonly Planted[] = [
  job('Hall bath'),
  surface('north', 'Back wall', 'wall'),
  surface('floor', 'Shower floor', 'floor'),
  limit('overlap', '2', null, 'in'),
  limit('wet-film', '20', '26', 'mil'),
];
const both = ['north', 'floor'];

/** What is owed in the open layer, on one surface. */
function owed(site: Site, rule: keyof typeof OWED, on: string): Locator {
  const name = new RegExp(`${site.say(OWED[rule])}.*${on}`);
  return site.page.getByTestId('section').getByRole('button', { name });
}

interface Task {
  readonly name: string;
  readonly most: number;
  readonly step: Planted;
  /** Photos in the tray. */
  readonly tray?: number;
  /** What this phone has written when it is done. */
  readonly writes: readonly string[];
  readonly act: (site: Site) => Promise<void>;
}

/** From the job's home, as a thumb would go about it. */
const TASKS: readonly Task[] = [
  {
    name: 'a photo',
    most: 2,
    step: run('scrape', both),
    writes: ['device', 'shot'],
    act: async (site) => {
      await site.link(site.say(m.take_photo)).tap();
      await site.untilFinder();
      await site.shutter.tap();
      await site.saved.waitFor();
    },
  },
  {
    name: 'a film reading with its photo',
    most: 4,
    step: run('liquid-coat', both),
    writes: ['device', 'shot', 'reading'],
    act: async (site) => {
      await owed(site, 'film', 'Shower floor').tap();
      await site.button('24 mil').tap();
      await site.link(site.say(m.photo)).tap();
      await site.untilFinder();
      await site.shutter.tap();
      await site.saved.filter({ hasText: '24–26 mil' }).waitFor();
    },
  },
  {
    name: 'an overlap with its photo',
    most: 5,
    step: run('pre-cut', both),
    writes: ['device', 'shot', 'reading'],
    act: async (site) => {
      await owed(site, 'overlap', 'Shower floor').tap();
      await site.button('2').tap();
      const strip = site.page.getByRole('slider', { name: site.say(m.pad_sixteenths) });
      const { width, height } = (await strip.boundingBox())!;
      await strip.tap({ position: { x: (xOf(11) / STRIP.width) * width, y: height / 2 } });
      await site.link(site.say(m.photo)).tap();
      await site.untilFinder();
      await site.shutter.tap();
      await site.saved.filter({ hasText: '2 11/16 in' }).waitFor();
    },
  },
  {
    name: '12 photos of the tray to two surfaces',
    most: 6,
    step: run('band-seams', both),
    tray: 12,
    writes: ['device', 'tag'],
    act: async (site) => {
      await site.page.locator('a[href$="/tray"]').first().tap();
      await site.button(site.say(m.tray_take, { n: 12 })).tap();
      for (const name of ['Back wall', 'Shower floor']) await site.button(name).tap();
      await site.button(site.say(m.tray_tag, { n: 12 })).tap();
      await site.saved.waitFor();
    },
  },
  {
    name: 'the curing list',
    most: 1,
    step: run('bond-sheets', both),
    writes: [],
    act: async (site) => {
      await site.page.locator('a[href="/curing"]').tap();
      await site.page.getByRole('heading', { level: 2 }).waitFor();
    },
  },
];

const table: { task: string; touches: number; most: number }[] = [];

for (const { name, most, step, tray = 0, writes, act } of TASKS) {
  test(`${name} takes at most ${most} touches from the job's home`, async ({ page, site }) => {
    await countTouches(page);
    await plantedSite(site, 'hall-bath', [...JOB, step], await looseShots(tray, 2));
    const before = await touches(page);
    await act(site);
    const taken = (await touches(page)) - before;
    table.push({ task: name, touches: taken, most });
    expect(await kinds(page)).toEqual(writes);
    expect(taken).toBeLessThanOrEqual(most);
    // Every touch was felt: a count of none would pass any bound.
    expect(taken).toBeGreaterThan(0);
  });
}

test.afterAll(() => {
  const line = (cells: readonly (string | number)[]) =>
    `  ${cells.map((cell, i) => String(cell).padEnd(i === 0 ? 42 : 8)).join('')}`.trimEnd();
  console.log(
    ['', line(['from the job’s home', 'touches', 'at most']), ...table.map((row) => line([row.task, row.touches, row.most]))].join('\n'),
  );
});
