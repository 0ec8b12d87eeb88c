import { cells, fbm, hash, noise, ramp } from './noise.mjs';
import { over, put, seen, TONES } from './paint.mjs';

/** One colour, a little uneven. */
export function plain(c, { rough = 0.7, f0 = 0.04, metal = 0, uneven = 0.06, seed = 3 } = {}) {
  return (u, v, px, m) => {
    put(m, c, 1 + uneven * fbm(u * 1.7, v * 1.7, 3, seed));
    m.rough = rough + 0.06 * noise(u * 2, v * 2, seed + 1);
    m.f0 = f0;
    m.metal = metal;
  };
}

/** Brushed steel: fine lines along u, a few scratches. */
export function steel(c = TONES.steel, rough = 0.36) {
  return (u, v, px, m) => {
    const lines = noise(u * 2, v * 70, 5) * seen(0.02, px) + noise(u * 0.7, v * 18, 6);
    const scratch = ramp(0.02, 0, Math.abs(noise(u * 0.6 + v * 0.4, v * 0.9 - u * 0.2, 7))) * 0.25;
    put(m, c, 0.86 + 0.08 * lines + scratch);
    m.rough = rough + 0.06 * lines;
    m.f0 = 0.6;
    m.metal = 1;
  };
}

/** A sand and cement bed, trowelled: grains, sweeps of the float. */
export function sandBed(seed = 31) {
  const bump = (u, v) =>
    0.012 * fbm(u * 6, v * 6, 3, seed) +
    0.02 * noise(u * 0.5 + v * 0.2, v * 0.9, seed + 1) +
    0.012 * ramp(0.35, 0.05, cells(u * 7, v * 7, seed + 2));
  return (u, v, px, m) => {
    const grain = (hash(Math.floor(u * 40), Math.floor(v * 40), seed) - 0.5) * seen(0.03, px);
    const sweep = noise(u * 0.25 + Math.sin(v * 0.2) * 0.6, v * 0.6, seed + 3);
    put(m, TONES.sand, 0.9 + 0.28 * grain + 0.1 * sweep + 0.2 * fbm(u * 0.12, v * 0.12, 4, seed + 4));
    m.bump = bump;
  };
}

/** Thin-set mortar; `wet` 0 to 1 darkens it and gives it a sheen. */
export function thinset(wet = 0.7, seed = 51) {
  const bump = (u, v) =>
    0.018 * fbm(u * 5, v * 5, 3, seed) -
    0.022 * ramp(0.14, 0.03, cells(u * 3.1, v * 3.1, seed + 1)) +
    0.004 * noise(u * 28, v * 28, seed + 2);
  return (u, v, px, m) => {
    const grain = (hash(Math.floor(u * 55), Math.floor(v * 55), seed) - 0.5) * seen(0.02, px);
    put(m, TONES.mortar, 1 - 0.22 * wet + 0.16 * grain + 0.14 * fbm(u * 1.3, v * 1.3, 3, seed + 3));
    m.rough = 0.9 - 0.36 * wet;
    m.bump = bump;
  };
}

/**
 * A rolled liquid coat over `under`. `cover(u, v)` is how much of a full film lies there: below about 0.6 the tone beneath shows
 * through, near 0 it is a miss. Stipple of the roller in bump and sheen; `wet` 0 to 1.
 */
export function coat(under, { wet = 1, cover = () => 1, seed = 91 } = {}) {
  const film = (u, v) => cover(u, v) + 0.16 * fbm(u * 1.1, v * 1.1, 3, seed + 5) + 0.07 * noise(u * 1.4, v * 0.12, seed + 6);
  const bump = (u, v) => {
    const stipple = 0.011 * fbm(u * 5.5, v * 5, 2, seed) + 0.004 * noise(u * 15, v * 14, seed + 2);
    const lane = 0.02 * noise(u * 0.9, v * 0.07, seed + 3);
    const waves = 0.1 * fbm(u * 0.1, v * 0.1, 2, seed + 4);
    return (stipple + lane) * ramp(0.1, 0.5, film(u, v)) + waves;
  };
  return (u, v, px, m, w, side) => {
    under(u, v, px, m, w, side);
    const thick = film(u, v);
    const hides = ramp(0.12, 0.85, thick + 0.12 * noise(u * 9, v * 9, seed + 7) * seen(0.1, px));
    const stipple = fbm(u * 5.5, v * 5, 2, seed) * seen(0.15, px);
    const c = wet > 0.5 ? TONES.coatWet : TONES.coat;
    over(
      m,
      c,
      0.97 +
        0.05 * stipple +
        0.07 * fbm(u * 0.2, v * 0.2, 3, seed + 8) -
        0.05 * ramp(0.9, 1.5, thick) +
        0.05 * noise(u * 0.16, v * 0.03, seed + 9),
      hides * 0.97,
    );
    m.rough = 0.92 + (0.42 - 0.16 * wet - 0.92) * ramp(0.1, 0.5, thick);
    m.f0 = 0.045;
    m.bump = bump;
  };
}

/** Printed marks over a ground: `ink` is a raster of 0 to 1 with its own pixels an inch, its origin at (u0, v0). */
export function marked(ground, ink, [u0, v0], c = TONES.dark) {
  return (u, v, px, m, w, side) => {
    ground(u, v, px, m, w, side);
    if (side !== 0) return;
    const x = (u - u0) * ink.ppi;
    const y = ink.height - 1 - (v - v0) * ink.ppi;
    const k = Math.max(1, Math.round((px * ink.ppi) / 2));
    let sum = 0;
    for (const [dx, dy] of [
      [-k, -k],
      [k, -k],
      [-k, k],
      [k, k],
      [0, 0],
    ])
      sum += ink.at(x + dx / 2, y + dy / 2);
    over(m, c, 1, (sum / 5) * 0.92);
    if (sum > 2.5) m.metal = 0;
  };
}

/** Plywood: grain along u, rays, a football patch here and there. */
export function wood(seed = 111) {
  return (u, v, px, m) => {
    const ring = noise(u * 0.12, v * 1.1 + 1.8 * fbm(u * 0.07, v * 0.2, 3, seed), seed + 1);
    const grain = noise(u * 0.9, v * 22, seed + 2) * seen(0.05, px);
    put(m, TONES.wood, 0.85 + 0.17 * ring + 0.1 * grain);
    over(m, TONES.mortar, 1, 0.6 * ramp(0.1, 0.5, fbm(u * 0.15, v * 0.15, 4, seed + 3)));
  };
}

/** Rolled wall paint on a ceiling or a wall. */
export function paintwork(c = TONES.paint, seed = 121) {
  const bump = (u, v) => 0.006 * fbm(u * 4, v * 4, 3, seed) + 0.05 * fbm(u * 0.06, v * 0.06, 2, seed + 1);
  return (u, v, px, m) => {
    put(m, c, 0.97 + 0.03 * fbm(u * 0.3, v * 0.3, 3, seed + 2));
    m.rough = 0.8;
    m.bump = bump;
  };
}

/** The roller's nap, loaded: tufts matted with coat. */
export function nap(seed = 131) {
  const bump = (u, v) => 0.06 * fbm(u * 9, v * 9, 3, seed) + 0.03 * noise(u * 25, v * 25, seed + 1);
  return (u, v, px, m) => {
    put(m, TONES.coatWet, 0.95 + 0.24 * fbm(u * 8, v * 8, 3, seed));
    m.rough = 0.5;
    m.bump = bump;
  };
}
