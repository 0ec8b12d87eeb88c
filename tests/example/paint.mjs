import { noise, ramp } from './noise.mjs';

/**
 * What surfaces are made of. A material writes colour (linear light), roughness and bump at (u, v) inches of its frame into `m`;
 * `px` is the size of a pixel there, so that nothing finer than a pixel is drawn. Tones are muted and our own.
 */

/** An sRGB colour `#rrggbb` as linear light. */
function tone(hex) {
  return [1, 3, 5].map((i) => {
    const c = parseInt(hex.slice(i, i + 2), 16) / 255;
    return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
  });
}

/** The tones of the example: near grey, none that stands for anyone's product. */
export const TONES = {
  board: tone('#b9b4ac'),
  mesh: tone('#cfccc6'),
  mortar: tone('#a9a5a1'),
  wetMortar: tone('#8d8985'),
  sand: tone('#a39d96'),
  sheet: tone('#bcb9c0'),
  band: tone('#9f9aa4'),
  piece: tone('#8b8692'),
  coat: tone('#c0b9af'),
  coatWet: tone('#b3aa9f'),
  steel: tone('#b4b6ba'),
  iron: tone('#77777c'),
  blade: tone('#e6e3da'),
  plastic: tone('#58565c'),
  pale: tone('#d3d1d0'),
  rubber: tone('#37353b'),
  wood: tone('#9c9285'),
  paint: tone('#dedcd6'),
  card: tone('#a8957d'),
  dark: tone('#1b191d'),
};

/** Sets the colour to `c`, `k` times as bright. */
export function put(m, c, k) {
  m.r = c[0] * k;
  m.g = c[1] * k;
  m.b = c[2] * k;
}

/** Lays `c`, `k` times as bright, over the colour: `share` 0 to 1 of it. */
export function over(m, c, k, share) {
  m.r += (c[0] * k - m.r) * share;
  m.g += (c[1] * k - m.g) * share;
  m.b += (c[2] * k - m.b) * share;
}

/** How much of a pattern with features of `size` inches is left at this pixel size. */
export const seen = (size, px) => ramp(1.1, 0.25, px / size);

/** A pencil line from (u0, v0) to (u1, v1), broken as graphite on a rough face is. */
export function pencil([u0, v0, u1, v1], u, v, px) {
  const length = Math.hypot(u1 - u0, v1 - v0);
  const along = ((u - u0) * (u1 - u0) + (v - v0) * (v1 - v0)) / length;
  if (along < 0 || along > length) return 0;
  const off = Math.abs((u - u0) * (v1 - v0) - (v - v0) * (u1 - u0)) / length;
  return ramp(0.03 + px, 0.01, off + 0.012 * noise(along * 2, 0, 8)) * (0.65 + 0.35 * noise(along * 7, off * 20, 9));
}
