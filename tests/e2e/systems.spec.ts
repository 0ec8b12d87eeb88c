import { expect } from '@playwright/test';
import { known } from '#lib/record/kinds.ts';
import { SYSTEMS } from '#lib/record/kinds/setup.ts';
import { SYSTEM } from '#lib/words/codes.ts';
import { entriesOf, readStored } from './stored.ts';
import { test } from './test.ts';

// Offline is tried elsewhere; here its cache would only take room and time.
test.use({ serviceWorkers: 'block' });

test('a floor of each named system, from the page of a new job', async ({ site, page }) => {
  await site.openJobs();
  await site.startJob({
    name: 'Hall bath',
    surfaces: SYSTEMS.map((system) => ({ name: SYSTEM[system](), place: 'floor', system })),
  });
  const kept = entriesOf(await readStored(page))
    .map(known)
    .flatMap((view) => (view.kind === 'surface' ? [view.data.system] : []));
  expect(kept).toEqual(SYSTEMS);
});
