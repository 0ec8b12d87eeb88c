import { expect, it } from 'vitest';
import type { PhotoOverlay } from '#lib/report/blocks.ts';
import { overlayOps } from '#lib/report/overlay.ts';
import type { PathOp, Tag } from '#lib/report/page.ts';

/** A photo of 4000 x 3000 pixels, printed at a twentieth. */
const OVER: PhotoOverlay = {
  width: 4000,
  height: 3000,
  lines: [
    {
      points: [
        [400, 600],
        [1800, 600],
        [1800, 1500],
        [400, 1500],
      ],
      isClosed: true,
      look: 'found',
    },
    {
      points: [
        [2000, 1000],
        [2400, 1000],
      ],
      isClosed: false,
      look: 'measured',
    },
  ],
  taps: [
    [2000, 1000],
    [2400, 1000],
  ],
  rings: [
    { n: 1, at: [3000, 2000], radius: 200, isStruck: false },
    { n: 2, at: [3000, 2600], radius: 10, isStruck: true },
  ],
};
const ops = overlayOps(
  OVER,
  { width: 200, height: 150 },
  { width: 12, height: 10 },
  { type: 'Figure', kids: [] } as unknown as Tag,
  (text, _, size) => text.length * size,
);
const inked = ops.filter((op): op is PathOp & typeof op => op.op === 'path' && op.stroke !== undefined && op.stroke !== '#ffffff');

it('draws the frame that was found, what was measured, every tap as a cross and every miss as a ring, at their places in the print', () => {
  expect(inked.map(({ d }) => d)).toEqual([
    'M20 30L90 30L90 75L20 75Z',
    'M100 50L120 50',
    'M140 100a10 10 0 1 0 20 0a10 10 0 1 0 -20 0Z',
    // One too small to be seen is drawn larger, and one that the person struck out is crossed.
    'M146 130a4 4 0 1 0 8 0a4 4 0 1 0 -8 0ZM146 134L154 126',
    'M96 50h8M100 46v8',
    'M116 50h8M120 46v8',
  ]);
});

it('draws each line on a wider white one, and nothing beyond the picture', () => {
  const white = ops.filter((op): op is PathOp & typeof op => op.op === 'path' && op.stroke === '#ffffff');
  expect(white.map(({ d }) => d)).toEqual(inked.map(({ d }) => d));
  for (const [i, { pen, clip }] of white.entries()) {
    expect(pen).toBeGreaterThan(inked[i]!.pen!);
    expect(clip).toBe('M0 0H200V150H0Z');
  }
});

it('numbers the misses beside their rings', () => {
  const texts = ops.flatMap((op) => (op.op === 'text' ? [op] : []));
  expect(texts.map((op) => ('text' in op ? op.text : ''))).toEqual(['1', '2']);
  for (const { x } of texts) expect(x).toBeGreaterThan(154);
});
