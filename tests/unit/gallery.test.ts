import { globSync } from 'node:fs';
import { dirname } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { SCREENS } from '../gallery/screens.ts';

const pages = globSync('**/+page.svelte', { cwd: fileURLToPath(new URL('../../src/routes', import.meta.url)) }).map(dirname);

test('the gallery shows every page of the router, and no page that is not there', () => {
  expect(new Set(SCREENS.map(({ route }) => route))).toEqual(new Set(pages));
});

test('each screen has a name of its own', () => {
  expect(new Set(SCREENS.map(({ name }) => name)).size).toBe(SCREENS.length);
});
