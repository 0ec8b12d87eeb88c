import { test as base } from '@playwright/test';
import { launchOptions } from './browser.ts';
import { CAMERA_FLAGS, makeFilm } from './film.ts';
import { Site } from './site.ts';

/** A test on a phone whose camera sees the film, and may be used. */
export const test = base.extend<{ site: Site }>({
  launchOptions: [
    // The runner reads what a fixture needs from this pattern.
    // eslint-disable-next-line no-empty-pattern
    async ({}, use) => {
      await makeFilm();
      await use(launchOptions(CAMERA_FLAGS));
    },
    { scope: 'worker' },
  ],
  permissions: ['camera'],
  site: async ({ page }, use) => use(new Site(page)),
});
