import { measureTransfer } from '#lib/vision/transfer.ts';
import type { Quad } from '#lib/vision/raster.ts';
import { expect, test } from 'vitest';
import { photograph } from '../../camera/develop.ts';
import { mortarPhoto } from '../../camera/mortar.ts';
import { random } from '../../sim/random.ts';

async function measured(wishes: { sheet: readonly [number, number, number]; level: number; bareCornerMm?: number }, seed: number) {
  const chance = random(seed);
  const photo = mortarPhoto({ width: 1400, bareCornerMm: 10, ...wishes }, chance);
  const { raster } = await photograph(photo.camera, photo.scene, photo.film, chance);
  return { photo, raster, result: measureTransfer(raster, photo) };
}

const ORANGE = [0.5, 0.22, 0.05] as const;
const BLUE = [0.08, 0.2, 0.45] as const;
const PALE = [0.6, 0.6, 0.58] as const;
/** Nearly the grey of mortar. */
const GREY = [0.33, 0.32, 0.31] as const;

test.each([
  ['a saturated sheet, about half', ORANGE, 0, 1],
  ['another, nearly full', BLUE, 1, 2],
  ['a pale grey sheet, three quarters', PALE, 0.5, 3],
] as const)('%s: share within three points, and within its interval', async (_, sheet, level, seed) => {
  const { photo, result } = await measured({ sheet, level }, seed);
  if (!result.ok) throw new Error(result.fault);
  expect(Math.abs(result.value.share - photo.share)).toBeLessThan(0.03);
  expect(photo.share).toBeGreaterThanOrEqual(result.value.low);
  expect(photo.share).toBeLessThanOrEqual(result.value.high);
});

test('the worst tenth of a metre is the bare corner, and worse than the whole', async () => {
  const { result } = await measured({ sheet: ORANGE, level: 0.7, bareCornerMm: 90 }, 4);
  if (!result.ok) throw new Error(result.fault);
  const { worst, share } = result.value;
  expect(worst!.share).toBeLessThan(share - 0.2);
  expect(Math.max(worst!.xMm, worst!.yMm)).toBeLessThan(25);
});

test('mortar on a sheet of its own grey, a sheet all of one colour, corners that cross: refused', async () => {
  const { raster, photo, result } = await measured({ sheet: GREY, level: 0.5 }, 5);
  expect(result).toEqual({ ok: false, fault: 'no-pattern' });
  const plain = { ...raster, rgba: new Uint8Array(raster.rgba.length).fill(120) };
  expect(measureTransfer(plain, photo)).toEqual({ ok: false, fault: 'no-pattern' });
  const [a, b, c, d] = photo.quad;
  const crossed: Quad = [a, c, b, d];
  expect(measureTransfer(raster, { ...photo, quad: crossed })).toEqual({ ok: false, fault: 'not-a-rectangle' });
  expect(measureTransfer(raster, { ...photo, widthMm: 10 * photo.widthMm, heightMm: 10 * photo.heightMm })).toEqual({
    ok: false,
    fault: 'area-too-small',
  });
});
