import type { Glyph } from './blocks.ts';
import { INK, type Op, type Tag } from './page.ts';

interface Shape {
  readonly line?: string;
  readonly pen?: number;
  readonly dash?: readonly [number, number];
  readonly fill?: string;
  /** Struck through the fill in white. */
  readonly cut?: string;
}

/** States on a 16 grid, the shapes of the screens in ink alone: each can be told without colour. */
const SHAPES: Readonly<Record<Glyph, Shape>> = {
  within: { line: 'M1.2 1V15M14.8 1V15', pen: 1.6, fill: 'M3.6 8A4.4 4.4 0 1 0 12.4 8A4.4 4.4 0 1 0 3.6 8Z' },
  outside: { line: 'M3 1V15', pen: 1.6, fill: 'M6 3.5H15.4V12.5H6Z' },
  'not-proven': { line: 'M2.4 8A5.6 5.6 0 1 0 13.6 8A5.6 5.6 0 1 0 2.4 8ZM8 0V16', pen: 1.6, fill: 'M8 2.4A5.6 5.6 0 0 1 8 13.6Z' },
  'no-limit': { fill: 'M3.6 8A4.4 4.4 0 1 0 12.4 8A4.4 4.4 0 1 0 3.6 8Z' },
  owed: { line: 'M1.5 2.5H14.5V13.5H1.5Z', pen: 1.8, dash: [3.2, 2.2] },
  shown: { fill: 'M1 2H15V14H1Z', cut: 'M4.5 14L10.5 2M8.5 14L14.5 2' },
  'not-begun': { line: 'M1.5 2.5H14.5V13.5H1.5Z', pen: 1.3 },
  running: { line: 'M2 1V15', pen: 1.8, fill: 'M5 3L14.5 8L5 13Z' },
  'not-done': { line: 'M2 8H14', pen: 2.4 },
  deviation: { line: 'M2 2.5H14V13.5H2ZM2 13.5L14 2.5', pen: 1.6 },
  note: { line: 'M2 3.5H14M2 8H14M2 12.5H9', pen: 1.6 },
  wait: { line: 'M1 5H15V11H1Z', pen: 1.4, fill: 'M1 5H8V11H1Z' },
  ready: { line: 'M1 5H15V11H1Z', pen: 1.4, fill: 'M1 5H15V11H1Z' },
  // The level mark of a drawing: a triangle standing on the water line.
  'flood-open': { line: 'M3 3H13L8 10ZM2 13.5H14', pen: 1.5 },
  passed: { line: 'M2 13.5H14', pen: 1.8, fill: 'M2.4 2.5H13.6L8 10.5Z' },
  failed: { line: 'M3 3H13L8 10ZM2 13.5H14M1 11.5L13 0.5M3 15.5L15 4.5', pen: 1.5 },
  void: { line: 'M2.4 8A5.6 5.6 0 1 0 13.6 8A5.6 5.6 0 1 0 2.4 8ZM3 14L13 2', pen: 1.6 },
};

/** A glyph of `size` points with its upper left corner at (x, y). It repeats the word beside it, so it has no tag. */
export function glyphOps(glyph: Glyph, x: number, y: number, size: number, of: Tag | null = null): Op[] {
  const { line, pen = 1.6, dash, fill, cut } = SHAPES[glyph];
  const scale = size / 16;
  const at = { op: 'path' as const, tag: of, x, y, matrix: [scale, 0, 0, scale, 0, 0] as const };
  return [
    ...(fill === undefined ? [] : [{ ...at, d: fill, fill: INK }]),
    ...(line === undefined ? [] : [{ ...at, d: line, stroke: INK, pen, ...(dash && { dash }) }]),
    ...(cut === undefined ? [] : [{ ...at, d: cut, stroke: '#ffffff', pen: 1.1 }]),
  ];
}
