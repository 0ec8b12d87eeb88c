import { expect } from '@playwright/test';
import { test } from './test.ts';
import { Site } from './site.ts';

test('a job is found by a misspelt address, a name and a person, as it is typed, without network; a recalled lot lists its jobs', async ({
  page,
}) => {
  const site = new Site(page);
  await site.openJobs();
  for (const [name, address] of [
    ['Hall bath', '12 Weatherfield Street'],
    ['Guest bath', '40 Oak Lane'],
  ] as const) {
    await site.startJob({ name, address, person: 'Ines Robles' });
    await site.link('Back').click();
  }
  const results = page.getByRole('listitem');
  await site.link('Find a job').click();
  const field = page.getByLabel('Address, name, lot, person, or words of a note');
  const find = async (words: string, names: readonly string[]) => {
    await field.fill(words);
    await expect(results).toHaveCount(names.length);
    for (const [i, name] of names.entries()) await expect(results.nth(i)).toContainText(name);
  };
  await find('', ['Guest bath', 'Hall bath']);
  await find('weath', ['Hall bath']);
  await find('wetherfeild', ['Hall bath']);
  await expect(page.getByText('In: address')).toBeVisible();
  await find('bath oak', ['Guest bath']);
  await find('ines', ['Guest bath', 'Hall bath']);
  await find('nowhere', []);
  await expect(page.getByText('No job on this phone has these words.')).toBeVisible();
  // The example is found like any other, and says what it is; the way back leads to what was asked.
  await find('fernholow row', ['Hall bath shower']);
  await results.first().click();
  await expect(page.getByTestId('section')).toBeVisible();
  await page.goBack();
  await expect(field).toHaveValue('fernholow row');
  await expect(results).toHaveCount(1);

  // A lot that was recalled: every job that carries it.
  await field.fill('b0912');
  await page
    .getByRole('link', { name: /^All jobs with lot / })
    .first()
    .click();
  await expect(page.getByRole('heading', { name: /^Jobs with lot .*: 1$/ })).toBeVisible();
  await expect(results).toContainText('Hall bath shower');
});
