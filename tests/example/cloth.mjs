import { fbm, hash, noise, ramp } from './noise.mjs';
import { over, pencil, put, seen, TONES } from './paint.mjs';

/** Loose fibres pressed flat, lying every way: -1 to 1. */
function fleece(u, v, seed) {
  let sum = 0;
  for (let i = 0; i < 4; i++) {
    const c = Math.cos(i * 0.83 + 0.3);
    const s = Math.sin(i * 0.83 + 0.3);
    sum += 1 - 2.4 * Math.abs(noise((u * c + v * s) * 2.6 + i * 9, (v * c - u * s) * 17, seed + i));
  }
  return sum / 4;
}

/**
 * A membrane with a fleece face. `smears` are boxes { box, width } whose edge has mortar squeezed out along it; `print` is mortar
 * ridges telling through from behind (0 to 1); `scuffs` marks of hands and knees; `line` a pencil line to lay by.
 */
export function membrane(c = TONES.sheet, { smears = [], print = 0, scuffs = 0.5, seed = 71, marks = [], weave = 0 } = {}) {
  const bump = (u, v) => {
    const cloth = 0.007 * fleece(u, v, seed) + 0.0035 * noise(u * 40, v * 40, seed + 11);
    const waves = 0.1 * fbm(u * 0.11, v * 0.11, 2, seed + 12) + 0.02 * noise(u * 0.6, v * 0.6, seed + 13);
    const squeezed = smears.reduce((most, one) => Math.max(most, smear(one, u, v, seed)), 0);
    return (
      cloth * (1 - 0.8 * squeezed) +
      waves +
      print *
        0.008 *
        ramp(-0.3, 0.5, fbm(u * 0.1, v * 0.1, 2, seed + 22)) *
        Math.sin(v * 12.566 + 4 * noise(u * 0.12, v * 0.2, seed + 14)) +
      squeezed * 0.035 * (1 + 0.6 * noise(u * 3, v * 3, seed + 15))
    );
  };
  return (u, v, px, m) => {
    const fibre = fleece(u, v, seed) * seen(0.05, px);
    const speck = (hash(Math.floor(u * 60), Math.floor(v * 60), seed) - 0.5) * seen(0.02, px);
    put(m, c, 0.95 + 0.13 * fibre + 0.12 * speck + 0.09 * fbm(u * 0.15, v * 0.15, 3, seed + 16));
    if (weave > 0) over(m, c, 0.72, weave * ramp(0.3, 0.1, Math.abs(((((u * 8) % 1) + 1) % 1) - 0.5)) * seen(0.06, px) * 0.5);
    const worn = ramp(0.12, 0.5, fbm(u * 0.22 + 4, v * 0.3, 4, seed + 17));
    over(m, TONES.mortar, 0.95, scuffs * 0.55 * worn * ramp(-0.3, 0.5, noise(u * 3, v * 3, seed + 18)));
    const squeezed = smears.reduce((most, one) => Math.max(most, smear(one, u, v, seed)), 0);
    over(m, TONES.mortar, 0.95 + 0.12 * fbm(u * 3, v * 3, 3, seed + 19), 0.94 * squeezed);
    for (const line of marks) over(m, TONES.plastic, 0.6, pencil(line, u, v, px) * 0.75);
    m.rough = 0.92;
    m.bump = bump;
  };
}

function smear({ box: [u0, v0, u1, v1], width }, u, v, seed) {
  const du = Math.max(u0 - u, u - u1);
  const dv = Math.max(v0 - v, v - v1);
  const side = Math.max(du, dv) > 0 ? Math.hypot(Math.max(du, 0), Math.max(dv, 0)) : 0;
  const reach = width * (0.55 + 0.9 * fbm(u * 0.7, v * 0.7, 3, seed + 20) + 0.25 * noise(u * 4, v * 4, seed + 21));
  if (reach < 0.06) return 0;
  return side > 0 || Math.max(du, dv) > -0.05 ? ramp(reach, reach * 0.72 - 0.02, side) : 0;
}
