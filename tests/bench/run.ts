// npm run bench: our figures beside those of a reference of a few lines that does the same work in the same run.
import { globSync } from 'node:fs';
import { ensureBuilt, ROOT } from '../../src/cli/ready.mjs';
import type { BenchRow } from './keep.bench.ts';

const COLUMNS = ['name', 'ref', 'ours', 'unit', 'ratio', 'spread', 'aim'] as const satisfies readonly (keyof BenchRow)[];

ensureBuilt();
const rows: BenchRow[] = [];
for (const file of globSync('tests/bench/*.bench.ts', { cwd: ROOT }).sort()) {
  const { run } = (await import(new URL(file, `file://${ROOT}`).href)) as { run: () => Promise<BenchRow[]> };
  rows.push(...(await run()));
}

const cells = [COLUMNS, ...rows.map((row) => COLUMNS.map((column) => String(row[column])))];
const widths = COLUMNS.map((_, i) => Math.max(...cells.map((line) => line[i]!.length)));
for (const line of cells)
  console.log(
    line
      .map((cell, i) => cell.padEnd(widths[i]!))
      .join('  ')
      .trimEnd(),
  );
