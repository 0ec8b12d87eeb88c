import { placesOver } from '#lib/trade/laying/standing.ts';
import { expect, it } from 'vitest';

it.each([
  [
    'a box',
    [
      [0, 0],
      [60, 0],
      [60, 60],
      [0, 60],
    ],
    true,
  ],
  // Its corners are those of its box: one stands beside its slope all the same. A part that ends in a point names it twice.
  [
    'a triangle',
    [
      [0, 0],
      [60, 0],
      [60, 60],
      [60, 60],
    ],
    false,
  ],
] as const)('%s stops whoever would stand on it', (_, corners, isStopped) => {
  const polygon = corners.map(([x, y]) => ({ x: x * 10_000, y: y * 10_000 }));
  // 40 in beside the diagonal, and in the middle of the lower right half.
  const places = {
    xs: Float64Array.of(100_000, 500_000),
    ys: Float64Array.of(100_000, 500_000),
    step: 400_000,
    open: new Uint8Array(4).fill(1),
    exits: [],
  };
  const [beside, within] = [2, 1];
  const met = [...placesOver(places, [polygon], 60_000)];
  expect(met).toContain(within);
  expect(met.includes(beside)).toBe(isStopped);
});
