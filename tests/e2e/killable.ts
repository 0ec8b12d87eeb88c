import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { readFile, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { chromium, type Page } from 'playwright';
import { launchOptions } from './browser.ts';

/** A Chromium that can be killed with all its processes at any moment, on a profile that outlives it. */
export interface Killable {
  readonly page: Page;
  /** SIGKILL to the whole process group: nothing gets to close a file. */
  kill(): Promise<void>;
  /** Every process stands still, as on a phone that sleeps, until the time is over. */
  sleep(ms: number): Promise<void>;
}

const PATIENCE_MS = 20_000;

/** Starts Chromium on a profile folder, also one whose last browser was killed. `more` are further flags, such as a fake camera. */
export async function startKillable(profile: string, more: readonly string[] = []): Promise<Killable> {
  // What a killed browser leaves behind makes the next one think that it still runs.
  const leftovers = ['SingletonLock', 'SingletonCookie', 'SingletonSocket', 'DevToolsActivePort'];
  await Promise.all(leftovers.map((name) => rm(join(profile, name), { force: true })));
  const { executablePath, args } = launchOptions(more);
  const flags = ['--headless', ...args!, '--remote-debugging-port=0', `--user-data-dir=${profile}`, 'about:blank'];
  const chromiumProcess = spawn(executablePath!, flags, { detached: true, stdio: 'ignore' });
  const kill = async () => {
    process.kill(-chromiumProcess.pid!, 'SIGKILL');
    if (chromiumProcess.signalCode === null) await once(chromiumProcess, 'exit');
  };
  const sleep = async (ms: number) => {
    process.kill(-chromiumProcess.pid!, 'SIGSTOP');
    await pause(ms);
    process.kill(-chromiumProcess.pid!, 'SIGCONT');
  };
  try {
    const browser = await chromium.connectOverCDP(`http://127.0.0.1:${await debuggingPort(profile)}`);
    const context = browser.contexts()[0]!;
    return { page: context.pages()[0] ?? (await context.newPage()), kill, sleep };
  } catch (error) {
    await kill();
    throw error;
  }
}

/**
 * Picks a file on the page's only file input. A browser reached over its debugging port is otherwise sent the bytes in one message, and one
 * of ten megabytes never arrives.
 */
export async function pickByPath(page: Page, file: string): Promise<void> {
  await page.locator('input[type=file]').waitFor({ state: 'attached' });
  const session = await page.context().newCDPSession(page);
  const { root } = await session.send('DOM.getDocument');
  const { nodeId } = await session.send('DOM.querySelector', { nodeId: root.nodeId, selector: 'input[type=file]' });
  await session.send('DOM.setFileInputFiles', { files: [file], nodeId });
  await session.detach();
}

async function debuggingPort(profile: string): Promise<string> {
  const until = Date.now() + PATIENCE_MS;
  while (Date.now() < until) {
    const text = await readFile(join(profile, 'DevToolsActivePort'), 'utf8').catch(() => '');
    if (text.includes('\n')) return text.split('\n')[0]!;
    await pause(50);
  }
  throw new Error(`Chromium named no debugging port within ${PATIENCE_MS / 1000} s`);
}
