import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium } from 'playwright';
import { serveBlank } from '../e2e/blank-origin.ts';
import { launchOptions } from '../e2e/browser.ts';
import type { measure } from './keep-page.ts';

/** One line of the bench: medians of both, their ratio, and the quartiles of the ratio turn by turn. */
export interface BenchRow {
  readonly name: string;
  readonly ref: number;
  readonly ours: number;
  readonly ratio: number;
  readonly unit: string;
  readonly spread: string;
  readonly aim: string;
}

const SIZES_MB = [0.5, 4, 12] as const;
const TURNS = 15;

/** Bytes in hand to "saved" against a strict put of the same Blob, in one page of a real browser with its profile on a real disk. */
export async function run(): Promise<BenchRow[]> {
  const origin = await serveBlank('bench/keep-page.ts');
  const profile = await mkdtemp(join(tmpdir(), 'layerbook-bench-'));
  const context = await chromium.launchPersistentContext(profile, launchOptions());
  try {
    const page = await context.newPage();
    await page.goto(origin.url);
    const rows: BenchRow[] = [];
    for (const sizeMb of SIZES_MB) {
      const took = await page.evaluate(
        async ([size, turns]) => {
          const bundled = (await import(`${location.origin}/entry.js`)) as { measure: typeof measure };
          return bundled.measure(size, turns);
        },
        [sizeMb * 1_000_000, TURNS] as const,
      );
      const ratios = took.ours.map((ms, turn) => ms / took.ref[turn]!);
      rows.push({
        name: `keep a photo of ${sizeMb} MB`,
        ref: round(quantile(took.ref, 0.5), 1),
        ours: round(quantile(took.ours, 0.5), 1),
        ratio: round(quantile(took.ours, 0.5) / quantile(took.ref, 0.5), 2),
        unit: 'ms',
        spread: `${round(quantile(ratios, 0.25), 2)} to ${round(quantile(ratios, 0.75), 2)}`,
        aim: 'at most 1.3',
      });
    }
    return rows;
  } finally {
    await context.close();
    await origin.close();
    await rm(profile, { recursive: true, force: true });
  }
}

function quantile(values: readonly number[], share: number): number {
  const sorted = values.toSorted((a, b) => a - b);
  return sorted[Math.round(share * (sorted.length - 1))]!;
}

function round(value: number, digits: number): number {
  return Number(value.toFixed(digits));
}
