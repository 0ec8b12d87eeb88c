import { overlayOf } from '#lib/vision/overlay.ts';
import { project } from '#lib/vision/homography.ts';
import type { Quad } from '#lib/vision/raster.ts';
import { mapOf } from '#lib/vision/surface.ts';
import { describe, expect, test } from 'vitest';

/** An area of 100 x 50 mm seen askew in a photo of 400 x 300, and its map at 2 px a mm: a bare and a shining square of 20 mm. */
const QUAD: Quad = [
  [60, 40],
  [340, 70],
  [310, 260],
  [80, 220],
];
const MARKED = { quad: QUAD, widthMm: 100, heightMm: 50 };
const PHOTO = { width: 400, height: 300 };
const [BARE, SHINES] = [
  { x: 10, y: 10 },
  { x: 60, y: 20 },
];
const data = new Uint8Array(200 * 100);
for (const [what, { x, y }] of [[1, BARE] as const, [2, SHINES] as const])
  for (let row = 2 * y; row < 2 * y + 40; row++) data.fill(what, row * 200 + 2 * x, row * 200 + 2 * x + 40);
const MAP = { width: 200, height: 100, data, pxPerMm: 2 };

describe.each([1, 0.5])('over a copy of %f times the size', (scale) => {
  const over = overlayOf({ map: MAP }, MARKED, PHOTO, scale)!;
  const toPicture = mapOf(MARKED)!;
  /** Opacities in a square of 9 x 9 pixels about a place of the area. */
  const around = (xMm: number, yMm: number): number[] => {
    const [x, y] = project(toPicture, [xMm, yMm]).map((value) => Math.floor(value * scale)) as [number, number];
    return Array.from({ length: 81 }, (_, i) => over.rgba[4 * ((y - 4 + Math.floor(i / 9)) * over.width + x - 4 + (i % 9)) + 3]!);
  };

  test('it has the size of the copy, and nothing lies outside of the marked area', () => {
    expect([over.width, over.height]).toEqual([400 * scale, 300 * scale]);
    for (const [x, y] of [
      [5, 5],
      [395, 295],
      [50, 200],
      [330, 250],
    ])
      expect(over.rgba[4 * (Math.floor(y! * scale) * over.width + Math.floor(x! * scale)) + 3]).toBe(0);
  });

  test('what is bare is coloured whole, what shines in stripes, what is covered not at all', () => {
    expect(new Set(around(BARE.x + 10, BARE.y + 10))).toEqual(new Set([200]));
    const shining = around(SHINES.x + 10, SHINES.y + 10);
    expect(new Set(shining)).toEqual(new Set([0, 220]));
    const share = shining.filter((opacity) => opacity > 0).length / shining.length;
    expect(share).toBeGreaterThan(0.3);
    expect(share).toBeLessThan(0.7);
    expect(new Set(around(45, 40))).toEqual(new Set([0]));
  });
});

test('corners that cross give none', () => {
  expect(overlayOf({ map: MAP }, { ...MARKED, quad: [QUAD[0], QUAD[2], QUAD[1], QUAD[3]] }, PHOTO, 1)).toBeNull();
});
