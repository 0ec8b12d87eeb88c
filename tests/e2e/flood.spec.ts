import { expect, type Page } from '@playwright/test';
import { attempts } from '#lib/job/flood.ts';
import { project } from '#lib/job/project.ts';
import { verifyChains } from '#lib/record/chain.ts';
import { KNOWN } from '#lib/words/codes.ts';
import { CHOICE, fieldWord } from '#lib/words/fields.ts';
import * as m from '#lib/words/compiled/messages.js';
import { quantityText } from '#lib/words/number.ts';
import { job, limit, plantedSite, surface, type Planted } from './planted.ts';
import type { Site } from './site.ts';
import { entriesOf, readStored } from './stored.ts';
import { test } from './test.ts';

test.use({ serviceWorkers: 'block' });
// A busy machine is no fault of a test.
test.describe.configure({ mode: 'parallel', timeout: 240_000 });

const ID = 'hall-bath';
const feet = (value: string) => ({ text: value, value, unit: 'ft' as const });
const JOB: readonly Planted[] = [
  job('Hall bath'),
  surface('floor', 'Floor', 'floor', { width: feet('5'), height: feet('3') }),
  surface('back', 'Back wall', 'wall'),
  limit('before-flooding', '24', null, 'h'),
];

/** The job at the set-up of its first attempt, and a clock that can be moved on. */
async function atSetUp(site: Site): Promise<void> {
  await plantedSite(site, ID, JOB);
  await site.page.clock.install();
  await site.page.goto(`/job/${ID}/flood`);
  await group(site.page, m.flood_which_rule()).waitFor();
}

const group = (page: Page, name: string) => page.getByRole('group', { name, exact: true });
const choose = (page: Page, name: string, choice: string) => group(page, name).getByLabel(choice, { exact: true }).check();
const box = (page: Page, label: string) => page.getByRole('textbox', { name: label });

/** Everything prepared, with a ruler, on the floor. */
async function prepare(page: Page, { ruler, pan }: { ruler: 'in' | 'mm'; pan: boolean }): Promise<void> {
  await page.getByLabel('Floor', { exact: true }).check();
  await choose(page, m.flood_plug(), CHOICE['plug.below-flange']());
  await choose(page, m.flood_ceiling_before(), CHOICE['ceiling.dry']());
  for (const [name, yes] of [
    [m.flood_line(), true],
    [m.flood_dam(), false],
    [m.flood_soaked(), true],
    [m.flood_sign(), true],
    [m.flood_pan(), pan],
  ] as const) {
    await choose(page, name, yes ? KNOWN.yes() : KNOWN.no());
  }
  await choose(page, m.flood_ruler(), quantityText(ruler === 'in' ? { value: '0.0625', unit: 'in' } : { value: '0.5', unit: 'mm' }, 'en'));
}

async function fill(site: Site): Promise<void> {
  await site.button(m.flood_fill()).click();
  await site.link(m.flood_read()).waitFor();
}

async function look(site: Site, seen: 'no-leak' | 'leak'): Promise<void> {
  const { page } = site;
  await site.link(m.flood_look()).click();
  await page.getByLabel(CHOICE[`seen.${seen}`](), { exact: true }).check();
  await group(page, fieldWord('flood-look', 'ceiling')!({}))
    .getByLabel(CHOICE[seen === 'leak' ? 'ceiling.wet' : 'ceiling.dry'](), { exact: true })
    .check();
  await site.button(m.save()).click();
  await site.link(m.flood_read()).waitFor();
}

async function end(site: Site, result: 'passed' | 'failed' | 'void'): Promise<void> {
  const word = CHOICE[`result.${result}`]();
  await site.link(m.flood_end()).click();
  await site.page.getByLabel(word, { exact: true }).check();
  await site.button(m.flood_save_result({ result: word })).click();
}

async function state(page: Page) {
  const entries = entriesOf(await readStored(page));
  expect(verifyChains(entries)).toEqual([]);
  expect(entries.filter(({ body }) => body.kind === 'clock-jump')).toEqual([]);
  return project(entries).state;
}
const stands = (page: Page) => page.locator('[data-stand]').first();

test('model code: an early pass is refused, a failed attempt leads through its patch to a second one that passes', async ({ site }) => {
  const { page } = site;
  await atSetUp(site);

  await test.step('nothing is preset, and nothing is filled before all is said', async () => {
    await site.button(m.flood_fill()).click();
    await expect(page.locator('[data-fault="not-chosen"]').first()).toBeVisible();
    await expect(page.getByRole('radio', { checked: true })).toHaveCount(0);
    expect((await state(page)).facts['flood-fill']).toEqual([]);
  });

  await test.step('weight and smallest loss are said before the water', async () => {
    await choose(page, m.flood_which_rule(), CHOICE['profile.ipc-312.9']());
    await prepare(page, { ruler: 'in', pan: false });
    await box(page, m.flood_deepest({ unit: 'in' })).fill('2 3/4');
    await expect(page.getByTestId('load')).toContainText('14 lb/ft²');
    await expect(page.getByTestId('shows')).toContainText('15 min');
    await box(page, m.flood_deepest({ unit: 'in' })).fill('4 1/2');
    await expect(page.getByTestId('load')).toContainText(m.flood_engineer());
    await fill(site);
  });

  await test.step('depth, a leak, and no pass before its time', async () => {
    await expect(page.getByTestId('hold')).toContainText(m.flood_stays_till());
    await site.link(m.flood_read()).click();
    await site.touchInches(2, 4);
    await site.saveReading('2 1/4 in');
    await site.link(m.part_back()).click();
    await expect(page.getByRole('img', { name: m.flood_drawing({ depth: '2 1/4 in' }) })).toBeVisible();
    await look(site, 'leak');
    await expect(page.getByRole('region', { name: m.flood_seen() })).toContainText(m.flood_seen_leak());
    await end(site, 'passed');
    await expect(site.fault('hold-not-over')).toContainText(/\b1[45] min/);
    expect((await state(page)).facts['flood-end']).toEqual([]);
    await page.getByLabel(CHOICE['result.failed'](), { exact: true }).check();
    await site.button(m.flood_save_result({ result: CHOICE['result.failed']() })).click();
    await expect(stands(page)).toHaveAttribute('data-stand', 'failed');
    expect((await state(page)).runs.every(({ stopUtc }) => stopUtc !== null)).toBe(true);
  });

  await test.step('patched, cured, filled again', async () => {
    await site.link(m.flood_then_patch()).click();
    await expect(page.getByRole('checkbox', { checked: true })).toHaveCount(2);
    await box(page, fieldWord('repair', 'what')!({})).fill('Corner piece set anew');
    await site.button(m.save()).click();
    await page.locator('[data-kept]').waitFor();
    await page.goto(`/job/${ID}/flood`);
    await expect(page.getByText(m.flood_then_cure_till({ time: '' }).trim())).toBeVisible();
    await page.clock.fastForward('25:00:00');
    await page.reload();
    await expect(page.getByText(m.flood_then_cured())).toBeVisible();
    await site.link(m.flood_then_refill({ n: 2 })).click();
    await expect(group(page, m.flood_which_rule()).getByLabel(CHOICE['profile.ipc-312.9'](), { exact: true })).toBeChecked();
    await prepare(page, { ruler: 'in', pan: false });
    await fill(site);
    await site.link(m.flood_read()).click();
    await expect(group(page, m.flood_which_reading()).getByLabel(m.flood_reading_depth(), { exact: true })).toBeChecked();
    await site.link(m.part_back()).click();
    await page.clock.fastForward('15:05');
    await look(site, 'no-leak');
    await end(site, 'passed');
    await expect(stands(page)).toHaveAttribute('data-stand', 'passed');
    expect(attempts(await state(page)).map(({ n, stand }) => [n, stand])).toEqual([
      [1, 'failed'],
      [2, 'passed'],
    ]);
  });
});

test('UPC family: to the threshold, no time of ours; void at any time', async ({ site }) => {
  const { page } = site;
  await atSetUp(site);
  await choose(page, m.flood_which_rule(), CHOICE['profile.upc-408.7.5']());
  await prepare(page, { ruler: 'mm', pan: false });
  await expect(page.getByTestId('shows')).toContainText(m.flood_shows_no_time());
  await fill(site);
  await expect(page.getByTestId('hold')).toContainText(m.flood_no_hold());
  await end(site, 'void');
  await expect(stands(page)).toHaveAttribute('data-stand', 'void');
  const { facts } = await state(page);
  expect(facts['flood-fill'][0]!.data).toMatchObject({
    profile: 'upc-408.7.5',
    depth: null,
    holdMin: '0',
    dam: false,
    ruler: { value: '0.5', unit: 'mm' },
  });
});

test('contract: a day with a control pan; what was seen and what the levels show are two statements', async ({ site }) => {
  const { page } = site;
  const read = async (which: string, value: string) => {
    await choose(page, m.flood_which_reading(), which);
    for (const key of value) await site.button(key).click();
    await site.saveReading(`${value} mm`);
  };
  await atSetUp(site);
  await choose(page, m.flood_which_rule(), CHOICE['profile.contract']());
  await box(page, m.flood_hold_hours()).fill('24');
  await box(page, m.flood_depth_at({ unit: 'in' })).fill('2 1/4');
  await box(page, m.flood_loss({ unit: 'in' })).fill('1/8');
  await prepare(page, { ruler: 'mm', pan: true });
  await fill(site);
  const levels = page.getByRole('region', { name: m.flood_levels() });
  await expect(levels).toContainText(m.flood_no_level_text());
  await site.link(m.flood_read()).click();
  await read(m.flood_reading_test(), '57.5');
  await read(m.flood_reading_control(), '60');
  await page.clock.fastForward('24:00:00');
  await read(m.flood_reading_test(), '55.5');
  await read(m.flood_reading_control(), '58');
  await page.goto(`/job/${ID}/flood`);
  await expect(levels).toContainText(m.flood_conclusive_none());
  await expect(page.getByRole('region', { name: m.flood_seen() })).toContainText(m.flood_not_looked());
  await expect(page.getByRole('region', { name: m.flood_seen() })).toContainText(m.flood_not_tested({ surfaces: 'Back wall' }));
  await look(site, 'no-leak');
  await end(site, 'passed');
  await expect(stands(page)).toHaveAttribute('data-stand', 'passed');
  const [attempt] = attempts(await state(page));
  expect([attempt!.stand, attempt!.levels.length, attempt!.control.length]).toEqual(['passed', 2, 2]);
});
