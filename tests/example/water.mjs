import { sub, unit } from './lens.mjs';
import { noise } from './noise.mjs';

/** Where a ray meets the water's level inside its pan, or -1. */
export function waterAt({ z, box: [x0, y0, x1, y1] }, o, d) {
  const t = (z - o[2]) / d[2];
  if (!(t > 0)) return -1;
  const x = o[0] + d[0] * t;
  const y = o[1] + d[1] * t;
  return x > x0 && x < x1 && y > y0 && y < y1 ? t : -1;
}

/** Still water: the bottom bent and dimmed, the room above thrown back, more of it the flatter one looks. */
export function lookWater(world, look, o, d, t, foot, out) {
  const p = [o[0] + d[0] * t, o[1] + d[1] * t, o[2] + d[2] * t];
  const { ripple, tint } = world.water;
  const e = 0.15;
  const h = (x, y) => ripple * (noise(x * 0.35, y * 0.35, 41) + 0.35 * noise(x * 1.3, y * 1.1, 42));
  const n = unit([(h(p[0], p[1]) - h(p[0] + e, p[1])) / e, (h(p[0], p[1]) - h(p[0], p[1] + e)) / e, 1]);
  const cos = Math.max(0.02, -(n[0] * d[0] + n[1] * d[1] + n[2] * d[2]));
  const eta = 1 / 1.333;
  const turn = eta * cos - Math.sqrt(1 - eta * eta * (1 - cos * cos));
  const bent = unit([0, 1, 2].map((i) => d[i] * eta + n[i] * turn));
  const back = unit([0, 1, 2].map((i) => d[i] + 2 * cos * n[i]));
  const under = { r: 0, g: 0, b: 0, t: 0, shape: -1 };
  const over = { r: 0, g: 0, b: 0, t: 0, shape: -1 };
  look(world, p, bent, foot, under, 1);
  look(world, [p[0], p[1], p[2] + 0.01], back, foot, over, 1);
  const share = 0.02 + 0.98 * (1 - cos) ** 5;
  // Ripples gather the lamp's light into bright threads on the bottom.
  const at = [0, 1].map((i) => p[i] + bent[i] * under.t);
  const fold = noise(at[0] * 0.5 + 0.8 * noise(at[0] * 0.4, at[1] * 0.4, 44), at[1] * 0.5 + 0.8 * noise(at[1] * 0.4, at[0] * 0.4, 45), 46);
  const threads = 0.96 + 0.2 * Math.max(0, 1 - Math.abs(fold) * 2.4) ** 2;
  const through = [0, 1, 2].map((i) => threads * Math.exp(-under.t * tint[i]) * (1 - share));
  let glint = 0;
  for (const lamp of world.lamps) {
    const l = unit(sub(lamp.at, p));
    glint += 60 * Math.max(0, back[0] * l[0] + back[1] * l[1] + back[2] * l[2]) ** 900 * share;
  }
  out.r = under.r * through[0] + over.r * share + glint;
  out.g = under.g * through[1] + over.g * share + glint;
  out.b = under.b * through[2] + over.b * share + glint;
  out.t = t;
  out.shape = 1000 + under.shape;
}
