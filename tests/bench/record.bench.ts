import { readFileSync } from 'node:fs';
import { chromium } from 'playwright';
import { serveBlank } from '../e2e/blank-origin.ts';
import { launchOptions } from '../e2e/browser.ts';
import type { BenchRow } from './keep.bench.ts';
import type { cold, Fonts, warm } from './record-page.ts';

const font = (weight: number) => readFileSync(new URL(`../../static/fonts/encode-sans-${weight}.woff`, import.meta.url)).toString('base64');
const FONTS: Fonts = { text: font(500), strong: font(700) };
const WARM = [60, 300, 1000] as const;
const COLD = 60;

/** A record of many photos: printing pictures made before against joining their bytes, making them first against making them alone, and memory. */
export async function run(): Promise<BenchRow[]> {
  const rows: BenchRow[] = [];
  const peaks: number[] = [];
  for (const count of WARM) {
    const { took, peakMb } = await inPage(count, 'warm');
    rows.push(row(`record of ${count} photos, made before (${Math.round(took.bytes / 1e6)} MB)`, took, 'aim 1.5'));
    peaks.push(peakMb);
  }
  const { took } = await inPage(COLD, 'cold');
  rows.push(row(`record of ${COLD} photos of 12 MP, made first`, took, 'aim 1.5'));
  const [at60, at300] = peaks as [number, number];
  const ratio = Number((at300 / at60).toFixed(2));
  rows.push({
    name: 'peak memory at 300 photos against 60',
    ref: at60,
    ours: at300,
    ratio,
    unit: 'MB',
    spread: 'once',
    aim: 'at most 1.3',
  });
  return rows;
}

function row(name: string, { ours, ref }: { ours: number; ref: number }, aim: string): BenchRow {
  return { name, ref: Math.round(ref), ours: Math.round(ours), ratio: Number((ours / ref).toFixed(2)), unit: 'ms', spread: 'once', aim };
}

/** In a browser of its own, so that the greatest memory of the page's process is that of this one record. */
async function inPage(count: number, way: 'warm' | 'cold') {
  const origin = await serveBlank('bench/record-page.ts');
  const browser = await chromium.launch(launchOptions());
  try {
    const page = await browser.newPage();
    await page.goto(origin.url);
    const took = await page.evaluate(
      async ([n, how, fonts]) => {
        const bundled = (await import(`${location.origin}/entry.js`)) as { warm: typeof warm; cold: typeof cold };
        return bundled[how](n, fonts);
      },
      [count, way, FONTS] as const,
    );
    const session = await browser.newBrowserCDPSession();
    const { processInfo } = await session.send('SystemInfo.getProcessInfo');
    const peaks = processInfo.filter(({ type }) => type === 'renderer').map(({ id }) => peakMb(id));
    return { took, peakMb: Math.max(...peaks) };
  } finally {
    await browser.close();
    await origin.close();
  }
}

/** The most memory a process ever held, in MB, as Linux tells it. */
function peakMb(pid: number): number {
  const kb = /VmHWM:\s+(\d+) kB/.exec(readFileSync(`/proc/${pid}/status`, 'utf8'))?.[1];
  return Math.round(Number(kb ?? NaN) / 1000);
}
