import { readFile } from 'node:fs/promises';
import { chromium, type Browser } from 'playwright';
import sharp from 'sharp';
import { sha256Hex } from '#lib/record/hash.ts';
import * as m from '#lib/words/compiled/messages.js';
import { lapPicture } from '../camera/pictures.ts';
import { launchOptions } from '../e2e/browser.ts';
import { job, plantedSite, run as step, surface, type PlantedShot } from '../e2e/planted.ts';
import { serveBuild } from '../e2e/serve.ts';
import { Site } from '../e2e/site.ts';
import type { BenchRow } from './keep.bench.ts';

const WIDTH = 4032;
const TURNS = 3;
/** What is called a long task (W3C, Long Tasks API), and what a phone of the cheapest kind can spare. */
const LONG_MS = 50;
const SPARE_MB = 300;

/** A photo of 12 million pixels opened in a browser until its card is found: what the page itself is held up by, and the memory at its peak. */
export async function run(): Promise<BenchRow[]> {
  const { jpeg } = await lapPicture();
  const large = await sharp(jpeg).resize(WIDTH).jpeg({ quality: 90 }).toBuffer();
  const served = await serveBuild();
  const browser = await chromium.launch(launchOptions());
  try {
    const opened: Opened[] = [];
    for (let turn = 0; turn < TURNS; turn++) opened.push(await open(browser, served.url, large));
    const middle = (of: (one: Opened) => number) => opened.map(of).sort((a, b) => a - b)[TURNS >> 1]!;
    const row = (name: string, ref: number, of: (one: Opened) => number, unit: string, aim: string): BenchRow => {
      const all = opened.map(of);
      const ours = Math.round(middle(of));
      const ratio = Number((ours / ref).toFixed(2));
      return { name, ref, ours, unit, ratio, spread: `${Math.round(Math.min(...all))}-${Math.round(Math.max(...all))}`, aim };
    };
    return [
      row('photo of 12 MP: longest task of the page, its own time', LONG_MS, ({ ownMs }) => ownMs, 'ms', 'under 50'),
      row('photo of 12 MP: the same with waiting for a busy machine (0: none over 50)', LONG_MS, ({ longestMs }) => longestMs, 'ms', '-'),
      row('photo of 12 MP: memory more than before, at its peak', SPARE_MB, ({ peakMb }) => peakMb, 'MB', 'under 300'),
      row('photo of 12 MP: touch of Cancel to the page at rest', 1000, ({ cancelMs }) => cancelMs, 'ms', 'under 1 s'),
    ];
  } finally {
    await browser.close();
    await served.stop();
  }
}

type Opened = Awaited<ReturnType<typeof open>>;

async function open(browser: Browser, baseURL: string, large: Buffer) {
  const context = await browser.newContext({ baseURL, viewport: { width: 390, height: 844 }, hasTouch: true, serviceWorkers: 'block' });
  const page = await context.newPage();
  await page.addInitScript(() => {
    localStorage.setItem('layerbook-settings', JSON.stringify({ barMm: '100' }));
    const tasks: number[][] = [];
    Object.assign(globalThis, { tasks });
    new PerformanceObserver((list) => {
      for (const { startTime, duration } of list.getEntries()) tasks.push([startTime, duration]);
    }).observe({ type: 'longtask', buffered: true });
  });
  const site = new Site(page);
  await plantedSite(
    site,
    'hall',
    [job('Hall bath', 'mm'), surface('floor', 'Shower floor', 'floor'), step('pre-cut', ['floor'])],
    [lapShot(large)],
  );
  await browser.startTracing(page, { categories: ['toplevel', 'disabled-by-default-devtools.timeline', '__metadata'] });
  const before = await memoryMb(browser, 'VmRSS');
  await page.goto(`/job/hall/measure?shot=lap`);
  const cancel = site.button(site.say(m.in_photo_cancel));
  await cancel.waitFor();
  const from = await page.evaluate(() => performance.now());
  await page.getByText(/^Card found/).waitFor();
  const tasks = await page.evaluate(() => (globalThis as unknown as { tasks: number[][] }).tasks);
  const ownMs = longestTaskMs(await browser.stopTracing());
  const peakMb = (await memoryMb(browser, 'VmHWM')) - before;
  // Again, and this time ended while it works.
  await page.reload();
  await cancel.waitFor();
  const touched = performance.now();
  await cancel.click();
  await site.fault('photo-cancelled').waitFor();
  const cancelMs = performance.now() - touched;
  await context.close();
  return { longestMs: Math.max(0, ...tasks.flatMap(([at, took]) => (at! > from ? [took!] : []))), ownMs, peakMb, cancelMs };
}

function lapShot(bytes: Buffer): PlantedShot {
  const blob = { sha256: sha256Hex(bytes), body: new Blob([new Uint8Array(bytes)], { type: 'image/jpeg' }), bytes };
  const picture = { sha256: blob.sha256, bytes: bytes.length, type: 'image/jpeg' };
  return { draft: { id: 'lap', ago: 5, kind: 'shot', run: 'run-pre-cut', data: { picture, from: 'file', surface: 'floor' } }, blob };
}

interface Trace {
  readonly traceEvents: readonly {
    readonly name: string;
    readonly pid: number;
    readonly tid: number;
    /** Microseconds of the processor. */
    readonly tdur?: number;
    readonly args: { readonly name?: string };
  }[];
}

/** Time of the processor that the longest task of a page's main thread took. */
function longestTaskMs(trace: Buffer): number {
  const { traceEvents } = JSON.parse(trace.toString()) as Trace;
  const threadOf = ({ pid, tid }: Trace['traceEvents'][number]) => `${pid} ${tid}`;
  const mains = new Set(traceEvents.filter(({ name, args }) => name === 'thread_name' && args.name === 'CrRendererMain').map(threadOf));
  const tasks = traceEvents.filter((event) => event.name === 'RunTask' && mains.has(threadOf(event)));
  if (tasks.length === 0) throw new Error('no task was traced');
  return Math.max(...tasks.map(({ tdur = 0 }) => tdur)) / 1000;
}

/** Resident memory of the process that holds the page and its workers, now (VmRSS) or at its peak (VmHWM), in MB; of the largest there is. */
async function memoryMb(browser: Browser, line: 'VmRSS' | 'VmHWM'): Promise<number> {
  const session = await browser.newBrowserCDPSession();
  const { processInfo } = await session.send('SystemInfo.getProcessInfo');
  await session.detach();
  const pages = processInfo.filter(({ type }) => type === 'renderer');
  const all = await Promise.all(pages.map(({ id }) => readFile(`/proc/${id}/status`, 'utf8').catch(() => '')));
  return Math.max(0, ...all.map((status) => Number(new RegExp(`${line}:\\s+(\\d+) kB`).exec(status)?.[1] ?? 0) / 1000));
}
