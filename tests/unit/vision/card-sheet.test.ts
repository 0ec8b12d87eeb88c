import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { CARD, MARKER_CODES } from '#lib/vision/card.ts';
import { cardPdf, cardSvg } from '#lib/vision/card-sheet.ts';
import { findCard } from '#lib/vision/find-card.ts';
import { measureLengths } from '#lib/vision/length.ts';
import type { Raster } from '#lib/vision/raster.ts';
import sharp from 'sharp';
import { afterAll, expect, test } from 'vitest';
import { decode } from '../../camera/develop.ts';

const WORDS = { title: 'Card (150 x 100)', bar: 'Línea de 100 mm', howTo: ['One', 'Two'] };
const folder = mkdtempSync(join(tmpdir(), 'layerbook-card-'));
afterAll(() => rmSync(folder, { recursive: true }));

/** Measures the bar of a straight view, whose card's paper starts at a place in mm; the scan is of `pxPerMm`. */
function barOf(scan: Raster, pxPerMm: number, at: readonly [number, number]) {
  const y = (at[1] + CARD.margin + CARD.bar.y) * pxPerMm;
  const x = (at[0] + CARD.margin + CARD.bar.x) * pxPerMm;
  const { segments } = measureLengths(scan, { kind: 'card' }, [{ from: [x, y], to: [x + 100 * pxPerMm, y] }]);
  return segments[0]!;
}

test('the SVG, drawn by another program, is found and read, and its bar is 100 mm', async () => {
  const drawn = await sharp(Buffer.from(cardSvg(WORDS)), { density: 200 })
    .resize(900, 600)
    .toBuffer();
  const scan = await decode(await sharp(drawn).extend({ top: 90, bottom: 90, left: 120, right: 120, background: '#777' }).png().toBuffer());
  expect(findCard(scan)).toMatchObject({ ok: true, value: { marked: true } });
  const bar = barOf(scan, 6, [20, 15]);
  expect('lengthMm' in bar ? bar.lengthMm : bar.refused).toBeCloseTo(100, 1);
});

test.each([
  [1, 210, 'A4'],
  [2, 215.9, 'Letter'],
])('page %i of the PDF, drawn by another program: %d mm wide (%s), found and read, its bar is 100 mm', async (page, widthMm) => {
  writeFileSync(join(folder, 'card.pdf'), cardPdf(WORDS));
  const dpi = 152.4;
  const args = ['-r', String(dpi), '-f', String(page), '-l', String(page), '-png', 'card.pdf', `page${page}`];
  const drawn = spawnSync('pdftoppm', args, { cwd: folder, encoding: 'utf8' });
  expect(drawn.status).toBe(0);
  expect(drawn.stderr).toBe('');
  const scan = await decode(await readFile(join(folder, `page${page}-${page}.png`)));
  expect(Math.abs(scan.width - widthMm * 6)).toBeLessThanOrEqual(1);
  expect(findCard(scan)).toMatchObject({ ok: true, value: { marked: true } });
  const bar = barOf(scan, 6, [(widthMm - CARD.paper.width) / 2, 30]);
  expect('lengthMm' in bar ? bar.lengthMm : bar.refused).toBeCloseTo(100, 1);
});

test('PDF: another reader finds nothing to complain of', () => {
  writeFileSync(join(folder, 'checked.pdf'), cardPdf(WORDS));
  const checked = spawnSync('qpdf', ['--check', 'checked.pdf'], { cwd: folder, encoding: 'utf8' });
  expect({ status: checked.status, stderr: checked.stderr }).toEqual({ status: 0, stderr: '' });
});

test('no marker reads as another, nor as itself turned: 16 cells of 36 at least differ', () => {
  const cells = MARKER_CODES.map((rows) => rows.join(''));
  const turn = (code: string) => Array.from(code, (_, i) => code[(5 - (i % 6)) * 6 + Math.floor(i / 6)]!).join('');
  const off = (a: string, b: string) => Array.from(a).filter((cell, i) => cell !== b[i]).length;
  for (const [i, code] of cells.entries()) {
    const turns = [code, turn(code), turn(turn(code)), turn(turn(turn(code)))];
    for (const other of turns.slice(1)) expect(off(code, other)).toBeGreaterThanOrEqual(16);
    for (const [j, other] of cells.entries())
      if (j !== i) for (const turned of turns) expect(off(other, turned)).toBeGreaterThanOrEqual(16);
  }
});
