import type { BrowserContext, LaunchOptions, Page } from '@playwright/test';
import { chromiumPath, shellPath } from '../packages.mjs';

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

/**
 * How a test starts its browser: the engine alone, which grants a camera or a microphone only by this flag. `more` flags come last, such as a
 * fake camera.
 */
export function launchOptions(more: readonly string[] = []): LaunchOptions {
  return options(shellPath(), ['--use-fake-ui-for-media-stream', ...more]);
}

/** The whole browser, for what the engine alone does not have: asking for permission, and granting that the store be kept. */
export function wholeBrowser(more: readonly string[] = []): LaunchOptions {
  return options(chromiumPath(), more);
}

function options(executablePath: string | null, more: readonly string[]): LaunchOptions {
  if (executablePath === null) throw new Error('No Chromium found; "npm test" installs one or names the package.');
  return { executablePath, headless: true, args: [...CHROMIUM_FLAGS, ...more] };
}

/** The engine alone has a recogniser's name and not the service behind it: a page that asks for it dies. */
export async function withoutRecogniser(of: Page | BrowserContext): Promise<void> {
  await of.addInitScript(() => {
    for (const name of ['SpeechRecognition', 'webkitSpeechRecognition']) Reflect.deleteProperty(globalThis, name);
  });
}
