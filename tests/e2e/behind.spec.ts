import { expect } from '@playwright/test';
import { drawn, ALCOVE, q, thing } from '../fixtures/drawn.ts';
import { job, limit, plantedSite, room, run, surface, type Planted } from './planted.ts';
import { Site } from './site.ts';
import { test } from './test.ts';

const mark = (of: string, x: number, y: number): Planted => ({
  id: `mark-${of}`,
  kind: 'mark',
  refs: [of],
  data: { of, room: 'bath', wall: 1, x: q(x), y: q(y) },
});
const read = (id: string, run: string, what: string, value: string, unit: string, more = {}): Planted =>
  ({
    id,
    run,
    kind: 'reading',
    data: { what, surface: 'back', said: { text: value, value, unit }, how: 'tape', ...more },
  }) as Planted;

test('behind the tile: a place by name or by touch, what lies nearest, and its layers from the tile inwards', async ({ page }) => {
  const site = new Site(page);
  await plantedSite(site, 'behind', [
    { ...job('Hall bath'), ago: 90 },
    { ...room('bath', 'Hall bath'), ago: 89 },
    { ...surface('back', 'Back wall', 'wall', { room: 'bath' }), ago: 88 },
    { ...limit('wet-film', '20', '26', 'mil'), ago: 87 },
    { id: 'drawing', ago: 80, kind: 'drawing', data: drawn(ALCOVE, { things: [thing('valve', 1, [24, null, 40])] }) },
    run('liquid-coat', ['back'], { ago: 70, coat: 1 }),
    { ...read('film-near', 'run-liquid-coat', 'wet-film', '16', 'mil', { coat: 1 }), ago: 69 },
    { ...read('film-far', 'run-liquid-coat', 'wet-film', '22', 'mil', { coat: 1 }), ago: 68 },
    { ...mark('film-near', 24, 42), ago: 67 },
    { ...mark('film-far', 50, 60), ago: 66 },
  ]);
  await page.goto('/job/behind/behind');
  await expect(page.getByText('Touch the place on the drawing.')).toBeVisible();
  await page.getByLabel('Which place').selectOption('thing-0');
  await expect(page.getByRole('status')).toHaveText('Wall 2: 2 ft 0 in along, 3 ft 4 in up');
  const near = page.getByRole('listitem');
  await expect(near.first()).toContainText('right here');
  await expect(near.first()).toContainText('Shown by 1');
  const slabs = page.getByRole('listitem').getByRole('button');
  const names = await slabs.locator('b').allTextContents();
  expect(names.indexOf('Coat 1')).toBeGreaterThanOrEqual(0);
  expect(names.indexOf('Coat 1')).toBeLessThan(names.indexOf('Substrate'));
  await slabs.filter({ hasText: 'Coat 1' }).click();
  const open = page.getByRole('listitem').filter({ has: page.getByRole('button', { expanded: true }) });
  await expect(open).toContainText('Wet film 16 mil, 2 in from here');
  await expect(open).toContainText('Outside');
  // The address keeps the place.
  await page.reload();
  await expect(page.getByRole('status')).toHaveText('Wall 2: 2 ft 0 in along, 3 ft 4 in up');
  // A touch on a wall of the drawing goes there.
  await page
    .locator('svg[role=img]')
    .first()
    .click({ position: { x: 120, y: 60 } });
  await expect(page.getByRole('status')).not.toHaveText('Wall 2: 2 ft 0 in along, 3 ft 4 in up');
  await expect(page).toHaveURL(/wall=\d&x=\d+&y=\d+/);
});
