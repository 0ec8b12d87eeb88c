import type { LaunchOptions } from '@playwright/test';
import { chromiumPath } from '../packages.mjs';

export { chromiumPath };

/** Chromium without a sandbox (tests run as root on build machines) and without anything it would do on the network by itself. */
export const CHROMIUM_FLAGS = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
] as const;

/** How every test starts its browser. `more` flags come last, such as a fake camera. */
export function launchOptions(more: readonly string[] = []): LaunchOptions {
  const executablePath = chromiumPath();
  if (executablePath === null) throw new Error('No Chromium found; "npm test" installs one or names the package.');
  return { executablePath, headless: true, args: [...CHROMIUM_FLAGS, ...more] };
}
