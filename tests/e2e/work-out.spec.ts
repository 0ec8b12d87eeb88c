import { expect } from '@playwright/test';
import { known } from '#lib/record/kinds.ts';
import { job, plantedSite, surface } from './planted.ts';
import { entriesOf, readStored } from './stored.ts';
import { test } from './test.ts';

// Offline is tried elsewhere; here its cache would only take room and time.
test.use({ serviceWorkers: 'block' });

test('water for half a bag: worked out while it is typed, said where it cannot be, still there after a page thrown away, kept in the log', async ({
  site,
  page,
}) => {
  await plantedSite(site, 'hall', [job('Hall bath'), surface('floor', 'Shower floor', 'floor')]);
  await site.link('Work it out').click();
  await page.getByRole('link', { name: /^Water for part of a bag/ }).click();
  const field = (label: string) => page.getByLabel(label, { exact: true });
  await field('A whole bag (lb)').fill('50');
  await field('Water for a bag, least (qt)').fill('5');
  await field('Water for a bag, most (qt)').fill('6');
  await field('Powder, weighed (lb)').fill('60');
  await expect(page.getByText('Too large: at most 50 lb.')).toBeVisible();
  await expect(site.button('Keep in the log')).toBeDisabled();
  await field('Powder, weighed (lb)').fill('25');
  const water = page.getByRole('definition');
  await expect(water).toHaveText('2.5 to 3 qt');
  // In the other family of units, without leaving the page.
  await field('Powder, weighed (lb)').fill('11.34 kg');
  await expect(water).toHaveText('2.5 to 3 qt');

  await page.reload();
  await expect(field('Powder, weighed (lb)')).toHaveValue('11.34 kg');
  await expect(water).toHaveText('2.5 to 3 qt');
  await site.button('Keep in the log').click();
  await expect(site.saved).toBeVisible();
  const notes = entriesOf(await readStored(page))
    .map(known)
    .flatMap((view) => (view.kind === 'note' ? [view.data.words] : []));
  expect(notes).toEqual([
    [
      'Water for part of a bag',
      'A whole bag (lb): 50',
      'Water for a bag, least (qt): 5',
      'Water for a bag, most (qt): 6',
      'Powder, weighed (lb): 11.34 kg',
      'Water: 2.5 to 3 qt',
    ].join('\n'),
  ]);
});
