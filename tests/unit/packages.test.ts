import { afterEach, expect, it, vi } from 'vitest';
import { chromiumPath } from '../packages.mjs';

afterEach(() => vi.unstubAllEnvs());

it('CHROMIUM_PATH goes before every other browser', () => {
  vi.stubEnv('CHROMIUM_PATH', process.execPath);
  expect(chromiumPath()).toBe(process.execPath);
});

it('a CHROMIUM_PATH that names no file is an error, not another browser', () => {
  vi.stubEnv('CHROMIUM_PATH', '/no/such/browser');
  expect(() => chromiumPath()).toThrow('/no/such/browser');
});
