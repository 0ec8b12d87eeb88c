import { chromium } from 'playwright';
import { launchOptions } from '../e2e/browser.ts';
import { serveBuild } from '../e2e/serve.ts';
import type { BenchRow } from './keep.bench.ts';

/** Script a phone loads before the example's section answers its first touch, in kB as transferred. The aim of the issue stands as reference. */
const AIM_KB = 100;

export async function run(): Promise<BenchRow[]> {
  const served = await serveBuild();
  const browser = await chromium.launch(launchOptions());
  try {
    // Without a service worker, which would fetch the rest of the book in the background.
    const context = await browser.newContext({ viewport: { width: 390, height: 844 }, hasTouch: true, serviceWorkers: 'block' });
    const page = await context.newPage();
    const scripts = new Map<string, number>();
    const network = await context.newCDPSession(page);
    await network.send('Network.enable');
    network.on('Network.responseReceived', ({ requestId, type }) => {
      if (type === 'Script') scripts.set(requestId, 0);
    });
    network.on('Network.loadingFinished', ({ requestId, encodedDataLength }) => {
      if (scripts.has(requestId)) scripts.set(requestId, encodedDataLength);
    });
    await page.goto(served.url);
    await page.locator('a[href^="/job/example"]').tap();
    const section = page.getByTestId('section');
    const closed = section.locator('button[aria-expanded="false"]').first();
    const layer = await closed.locator('b').innerText();
    await closed.tap();
    await section.locator('button[aria-expanded="true"]', { hasText: layer }).waitFor();
    const ours = [...scripts.values()].reduce((sum, bytes) => sum + bytes, 0) / 1000;
    return [
      {
        name: `script until the section answers (${scripts.size} files)`,
        ref: AIM_KB,
        ours: Number(ours.toFixed(1)),
        ratio: Number((ours / AIM_KB).toFixed(2)),
        unit: 'kB',
        spread: 'none',
        aim: `under ${AIM_KB} kB`,
      },
    ];
  } finally {
    await browser.close();
    await served.stop();
  }
}
