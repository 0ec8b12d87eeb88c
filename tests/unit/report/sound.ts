import { readFileSync } from 'node:fs';
import { expect } from 'vitest';
import { tool } from './tool.ts';

interface Box {
  readonly page: number;
  readonly text: string;
  readonly x1: number;
  readonly y1: number;
  readonly x2: number;
  readonly y2: number;
}

function boxesOf(file: string): { boxes: Box[]; sizes: { width: number; height: number }[] } {
  const boxes: Box[] = [];
  const sizes: { width: number; height: number }[] = [];
  for (const line of tool('pdftotext', '-bbox-layout', file, '-').split('\n')) {
    const page = /<page width="([\d.]+)" height="([\d.]+)"/.exec(line);
    if (page !== null) sizes.push({ width: Number(page[1]), height: Number(page[2]) });
    const word = /<word xMin="([-\d.]+)" yMin="([-\d.]+)" xMax="([-\d.]+)" yMax="([-\d.]+)">(.*)<\/word>/.exec(line);
    if (word === null) continue;
    const [x1, y1, x2, y2] = word.slice(1, 5).map(Number) as [number, number, number, number];
    boxes.push({ page: sizes.length, text: word[5]!, x1, y1, x2, y2 });
  }
  return { boxes, sizes };
}

/** Half a point: less than the gap between two words. */
const SLACK = 0.5;

/**
 * What holds for every PDF of ours: clean to qpdf, both cuts of the face embedded and mapped, no word off its page or over another,
 * structure and language there, and a text for each figure.
 */
export function expectSound(file: string): void {
  expect(tool('qpdf', '--check', file)).toContain('No syntax or stream encoding errors found');
  const fonts = tool('pdffonts', file).trim().split('\n').slice(2);
  expect(fonts).toHaveLength(2);
  for (const font of fonts) expect(font).toMatch(/ yes yes yes +\d+ +\d+$/);
  const { boxes, sizes } = boxesOf(file);
  expect(boxes.length).toBeGreaterThan(50);
  expect(
    boxes.filter(({ page, x1, y1, x2, y2 }) => x1 < 0 || y1 < 0 || x2 > sizes[page - 1]!.width || y2 > sizes[page - 1]!.height),
  ).toEqual([]);
  const overlapping = [...Map.groupBy(boxes, (box) => box.page).values()].flatMap((page) =>
    page.filter((a, i) =>
      page.slice(i + 1).some((b) => a.x1 < b.x2 - SLACK && b.x1 < a.x2 - SLACK && a.y1 < b.y2 - SLACK && b.y1 < a.y2 - SLACK),
    ),
  );
  expect(overlapping).toEqual([]);
  const raw = readFileSync(file, 'latin1');
  const count = (mark: RegExp) => (raw.match(mark) ?? []).length;
  // Booleans and counts: a mismatch must not print the file.
  expect({ marked: raw.includes('/Marked true'), lang: /\/Lang \((en|es)\)/.test(raw) }).toEqual({ marked: true, lang: true });
  expect(count(/\/S \/Figure\b/g)).toBe(count(/\/Alt \(/g));
}
