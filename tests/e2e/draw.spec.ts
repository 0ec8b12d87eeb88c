import { expect } from '@playwright/test';
import { known, type DataOf, type Kind } from '#lib/record/kinds.ts';
import { job, plantedSite, room, surface } from './planted.ts';
import { entriesOf, readStored } from './stored.ts';
import type { Page } from '@playwright/test';
import { test } from './test.ts';

// Offline is tried elsewhere; here its cache would only take room and time.
test.use({ serviceWorkers: 'block' });

async function lastOf<K extends Kind>(page: Page, kind: K): Promise<DataOf<K>> {
  const view = entriesOf(await readStored(page)).map(known).findLast((one) => one.kind === kind); // prettier-ignore
  return (view as unknown as { data: DataOf<K> }).data;
}

test('a shower is walked with a tape: drawn while it is typed, still there after a page thrown away, its gap settled, and a note marked on it', async ({
  site,
  page,
}) => {
  const errors: string[] = [];
  page.on('console', (one) => (one.type() === 'error' ? errors.push(one.text()) : null));
  await plantedSite(site, 'hall', [
    job('Hall bath'),
    room('bath', 'Hall bath'),
    surface('floor', 'Shower floor', 'floor', { room: 'bath' }),
    { id: 'crack', kind: 'note', data: { words: 'Hairline crack', surfaces: [] } },
  ]);
  await site.link('Drawing').click();
  await site.link('Draw the room').click();
  const wall = (n: number) => page.getByRole('region', { name: `Wall ${n}`, exact: true });
  const length = (n: number) => wall(n).getByLabel('Length', { exact: true });
  const drawing = page.getByRole('img', { name: 'The floor from above' });
  await length(1).fill(`2' 8"`);
  await expect(drawing).toContainText('2 ft 8 in');
  await length(2).fill('60');
  // A number without its unit is asked about, not guessed at.
  await site.button('60 in').click();
  await length(3).fill('32 in');
  await page.reload();
  await expect(length(2)).toHaveValue('60 in');
  await length(4).fill('60 1/2 in');
  await wall(4).getByLabel('High', { exact: true }).fill('4 in');
  await wall(4).getByLabel('Across its top', { exact: true }).fill('5 in');
  await page.getByLabel('Height of the walls', { exact: true }).fill('8 ft');
  await expect(page.getByText('The walls miss each other by 1/2 in, 1 in 369.')).toBeVisible();
  await site.button('Save').click();
  await expect(site.fault('gap')).toContainText('Say what becomes of the gap.');
  await page.getByLabel('Given to one wall', { exact: true }).check();
  await site.button('Add a drain, pipe or built-in').click();
  const drain = page.getByRole('region', { name: 'Drain 1' });
  await drain.getByLabel('In or from which wall').selectOption('Wall 2');
  await drain.getByLabel('Along the wall to its middle').fill('30 in');
  await drain.getByLabel('Out from the wall').fill('16 in');
  await drain.getByLabel('Wide').fill('6 in');
  await site.button('Save').click();
  await expect(page.getByRole('heading', { name: 'What follows from it' })).toBeVisible();
  expect(await lastOf(page, 'drawing')).toMatchObject({
    room: 'bath',
    closing: 'one-wall',
    givenTo: 3,
    things: [{ thing: 'drain', wall: 1 }],
  });
  // A floor of 60 by 32, a curb, and its two upper edges run against the walls.
  const rows = page.getByRole('definition');
  await expect(rows.filter({ hasText: '13.3 sq ft' })).toBeVisible();

  await site.link('Add a mark').click();
  await page.getByLabel('Which place').selectOption('Corner 4, curb top inside');
  await site.button('Save').click();
  await expect(page.getByRole('listitem').filter({ hasText: 'Corner 4, curb top inside' })).toBeVisible();
  expect(await lastOf(page, 'mark')).toMatchObject({ of: 'crack', spot: 'corner-3-top-in', x: { value: '60' }, y: { value: '0' } });
  // A page that is left has no width for a moment: nothing is drawn with less than none.
  expect(errors).toEqual([]);
});
