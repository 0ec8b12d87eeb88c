import { spotsOf } from '#lib/vision/spots.ts';
import { expect, test } from 'vitest';

/** Area and middle of the spots in rows of pixels (`.` film, `o` bare, `*` glare), in pixels. */
function spotsIn(rows: readonly string[], pxPerMm: number) {
  const size = { width: rows[0]!.length, height: rows.length, pxPerMm };
  const pixels = [...rows.join('')];
  const { spots } = spotsOf(Float32Array.from(pixels, (pixel) => (pixel === 'o' ? 0 : 1)), Uint8Array.from(pixels, (pixel) => Number(pixel === '*')), size, 0.5); // prettier-ignore
  return spots.map(({ areaMm2, xMm }) => [areaMm2 * pxPerMm ** 2, xMm * pxPerMm]);
}

const ROOM = '.'.repeat(40);
const GROUND = 'o'.repeat(20);
const rows = (middle: string) => [...Array<string>(8).fill(ROOM), ...Array<string>(20).fill(middle), ...Array<string>(8).fill(ROOM)];

// A disc of 40 mm and more is ground: at 0.5 pixels a millimetre one of 20 pixels.
test.each([
  ['ground and a holiday beside it, apart by film', `${GROUND}....oooooo${'.'.repeat(10)}`, 0.5, [[400, 10], [120, 27]]],
  ['ground that glare cuts apart is one place, its middle that of both', `${GROUND}****oooooo${'.'.repeat(10)}`, 0.5, [[520, (400 * 10 + 120 * 27) / 520]]],
  ['glare and a holiday that it does not touch', `${GROUND}**..oooooo${'.'.repeat(10)}`, 0.5, [[400, 10], [120, 27]]],
  ['two holidays at one glare stay two', `${GROUND}****oooooo${'.'.repeat(10)}`, 1, [[400, 10], [120, 27]]],
] as const)('%s', (_, middle, pxPerMm, expected) => {
  const found = spotsIn(rows(middle), pxPerMm);
  expect(found).toHaveLength(expected.length);
  for (const [i, [areaPx, x]] of expected.entries()) {
    expect(found[i]![0]).toBeCloseTo(areaPx, 6);
    expect(found[i]![1]).toBeCloseTo(x, 6);
  }
}); // prettier-ignore
