import { expect } from '@playwright/test';
import { known } from '#lib/record/kinds.ts';
import { readPlan } from '#lib/record/plan-result.ts';
import { ALCOVE, drawn, thing } from '../fixtures/drawn.ts';
import { job, plantedSite, room, surface } from './planted.ts';
import { entriesOf, readStored } from './stored.ts';
import { test } from './test.ts';

// Offline is tried elsewhere; here its cache would only take room and time.
test.use({ serviceWorkers: 'block' });

test('the sheets of a drawn shower: a trap and its remedy, a plan kept as it came out, its cut list and the mixing card', async ({
  site,
  page,
}) => {
  await plantedSite(site, 'hall', [
    { ...job('Hall bath'), ago: 90 },
    { ...room('bath', 'Hall bath'), ago: 89 },
    { ...surface('floor', 'Shower floor', 'floor', { room: 'bath' }), ago: 88 },
    { ago: 50, kind: 'drawing', data: drawn(ALCOVE, { things: [thing('drain', 1, [30, 16, null, 6])] }) },
  ]);
  await site.link('Drawing').click();
  await site.link('Sheet plan').click();
  const field = (label: string) => page.getByLabel(label, { exact: true });
  await site.button('Plan the sheets').click();
  await expect(page.getByText('Not ready', { exact: false }).or(page.locator('[aria-invalid="true"]').first())).toBeVisible();
  await field('Width of the roll').fill('1 m');
  await field('Length of a new roll').fill('10 m');
  await field('Least overlap').fill('2 in');
  await field('How far one reaches, kneeling').fill('15 in');
  await site.button('Plan the sheets').click();
  await expect(page.getByText('No order: somebody would be shut in')).toBeVisible();
  await page.getByRole('button', { name: /^Reach further/ }).click();
  await expect(page.getByText('Order of laying')).toBeVisible();
  await expect(page.getByRole('listitem').first()).toContainText('Lay A');
  await expect(page.getByRole('listitem').first()).toContainText('Way out: Wall 4');
  await page.reload();
  await expect(field('Least overlap')).toHaveValue('2 in');
  await site.button('Plan the sheets').click();
  await site.button('Keep this plan').click();
  // Kept once: what comes next is its cut list, not the same plan again.
  await expect(site.saved).toBeVisible();
  await expect(site.link('Cut list')).toBeVisible();
  await expect(page.getByRole('button', { name: /plan/i })).toHaveCount(0);
  const plan = entriesOf(await readStored(page)).map(known).findLast((one) => one.kind === 'plan'); // prettier-ignore
  const sheets = readPlan((plan as { data: { result: unknown } }).data.result)?.sheets;
  // 60 in on a roll of 39: one strip, one piece, one cut.
  expect(sheets).toMatchObject({ direction: '0', totalCut: '60', pieces: [{ id: 'A', cutLength: '60' }] });

  await site.link('Cut list').click();
  await expect(page.getByRole('heading', { level: 1, name: 'Cut list' })).toBeVisible();
  await expect(page.getByRole('listitem')).toHaveText(/^A\s*5 ft 0 in\s*Roll 1/);
  await site.link('Back').click();
  await site.link('Walls').click();
  // Cut from the floor's roll, which nobody types again.
  await expect(field('Width of the roll')).toHaveValue('1 m');
  await site.button('Plan the sheets').click();
  await site.button('Keep this plan').click();
  await site.link('Cut list').click();
  // The floor's piece, one for each wall of 32 in, two for the one of 60.
  await expect(page.getByRole('listitem')).toHaveText([/^A/, /^1A/, /^2A/, /^2B.*Wall 2, edge of the strip/, /^3A/]);
  await site.link('Back').click();
  await site.link('Mixing card').click();
  const mortar = page.getByRole('region', { name: 'Mortar' });
  const typed = {
    'A whole bag (lb)': '50',
    'A bag covers (sq ft)': '80',
    'Water for a bag, least (qt)': '5',
    'Water for a bag, most (qt)': '6',
  };
  const pace = { 'Laid in an hour (sq ft)': '20', 'Open time (min)': '30', 'Pot life (min)': '60', 'Loss (%)': '10' };
  for (const [label, text] of Object.entries({ ...typed, ...pace })) await mortar.getByLabel(label, { exact: true }).fill(text);
  // 13.33 sq ft at 10 sq ft in the open time are two batches of 6.67 sq ft, half of 9.17 lb each.
  await expect(mortar.getByRole('definition').nth(2)).toHaveText('2');
  await expect(mortar.getByRole('definition').nth(3)).toHaveText('4.58 lb');
  await site.button('Keep in the log').click();
  await expect(site.saved).toBeVisible();
});
