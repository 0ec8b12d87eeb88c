import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium, type BrowserContext } from 'playwright';
import { serveBlank } from '../e2e/blank-origin.ts';
import { launchOptions } from '../e2e/browser.ts';
import type { BookTimes, coldStart, measureBook, plant } from './book-page.ts';
import type { BenchRow } from './keep.bench.ts';

/** Jobs of the book: the smallest is the reference, what the others take is told beside it. 20,000 are a hundred years of a crew. */
const SIZES = [200, 2_000, 20_000] as const;
const TURNS = 8;
const STARTS = 5;
/** What the page can be asked for. */
interface Tasks {
  readonly plant: typeof plant;
  readonly measureBook: typeof measureBook;
  readonly coldStart: typeof coldStart;
}
type Times = Record<'search' | 'open' | 'spot' | 'start', number[]>;

const NAMES: Readonly<Record<keyof Times, { readonly name: string; readonly share: number; readonly aim: string }>> = {
  search: { name: 'search as typed (95 %)', share: 0.95, aim: 'under 50 ms' },
  open: { name: 'open a job', share: 0.5, aim: 'does not grow' },
  spot: { name: 'look behind a spot', share: 0.5, aim: 'does not grow' },
  start: { name: 'cold start', share: 0.5, aim: 'does not grow' },
};

/** The ten-year book and its smaller and larger kin, in a real browser with its profile on a real disk: `ref` is the book of 200 jobs, `ratio` the growth. */
export async function run(): Promise<BenchRow[]> {
  const origin = await serveBlank('bench/book-page.ts');
  const profile = await mkdtemp(join(tmpdir(), 'layerbook-bench-'));
  const context = await chromium.launchPersistentContext(profile, launchOptions());
  try {
    const times: Times[] = [];
    for (const jobs of SIZES) times.push(await timesOf(context, origin.url, jobs));
    return (Object.keys(NAMES) as (keyof Times)[]).flatMap((what) => rowsOf(what, times));
  } finally {
    await context.close();
    await origin.close();
    await rm(profile, { recursive: true, force: true });
  }
}

async function timesOf(context: BrowserContext, url: string, jobs: number): Promise<Times> {
  const inPage = async <T>(task: keyof Tasks): Promise<T> => {
    const page = await context.newPage();
    page.setDefaultTimeout(0);
    await page.goto(url);
    const done = await page.evaluate(
      async ([name, size, turns]) => {
        const bundled = (await import(`${location.origin}/entry.js`)) as Tasks;
        return bundled[name](size, turns);
      },
      [task, jobs, TURNS] as const,
    );
    await page.close();
    return done as T;
  };
  await inPage('plant');
  const measured = await inPage<BookTimes>('measureBook');
  const start: number[] = [];
  for (let turn = 0; turn < STARTS; turn++) start.push(await inPage<number>('coldStart'));
  return { ...measured, start };
}

function rowsOf(what: keyof Times, all: readonly Times[]): BenchRow[] {
  const { name, share, aim } = NAMES[what];
  const [ref, ...larger] = all.map((times) => quantile(times[what], share)) as [number, ...number[]];
  return larger.map((ours, i): BenchRow => {
    const values = all[i + 1]![what];
    return {
      name: `${name}, ${SIZES[i + 1]!.toLocaleString('en')} jobs`,
      ref: round(ref),
      ours: round(ours),
      ratio: round(ours / ref),
      unit: 'ms',
      spread: `${round(quantile(values, 0.25))} to ${round(quantile(values, 0.75))} ms`,
      aim,
    };
  });
}

function quantile(values: readonly number[], share: number): number {
  const sorted = values.toSorted((a, b) => a - b);
  return sorted[Math.round(share * (sorted.length - 1))]!;
}

function round(value: number): number {
  return Number(value.toFixed(2));
}
