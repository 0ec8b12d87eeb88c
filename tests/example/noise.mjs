/** Chance with a memory: every number here follows from its arguments alone, so a picture drawn twice is the same picture. */

/** A whole-number lattice point and a seed to [0, 1). */
export function hash(ix, iy, seed) {
  let h = Math.imul(ix, 0x27d4eb2d) ^ Math.imul(iy, 0x165667b1) ^ Math.imul(seed + 1, 0x9e3779b1);
  h = Math.imul(h ^ (h >>> 15), 0x85ebca6b);
  h = Math.imul(h ^ (h >>> 13), 0xc2b2ae35);
  return ((h ^ (h >>> 16)) >>> 0) / 4_294_967_296;
}

/** Value noise, -1 to 1, one feature a unit. */
export function noise(x, y, seed) {
  const ix = Math.floor(x);
  const iy = Math.floor(y);
  const fx = x - ix;
  const fy = y - iy;
  const sx = fx * fx * (3 - 2 * fx);
  const sy = fy * fy * (3 - 2 * fy);
  const a = hash(ix, iy, seed);
  const b = hash(ix + 1, iy, seed);
  const c = hash(ix, iy + 1, seed);
  const d = hash(ix + 1, iy + 1, seed);
  return (a + (b - a) * sx + (c - a + (a - b - c + d) * sx) * sy) * 2 - 1;
}

/** Noise summed over octaves, each twice as fine and half as strong; about -1 to 1. */
export function fbm(x, y, octaves, seed) {
  let sum = 0;
  let weight = 0.5;
  for (let i = 0; i < octaves; i++) {
    sum += weight * noise(x, y, seed + i * 17);
    x = x * 2.03 + 11.7;
    y = y * 2.03 + 5.3;
    weight *= 0.5;
  }
  return sum;
}

/** Distance to the nearest of one point a cell, 0 to about 1.2: pits, grains, droplets. */
export function cells(x, y, seed) {
  const ix = Math.floor(x);
  const iy = Math.floor(y);
  let best = 9;
  for (let j = -1; j <= 1; j++) {
    for (let i = -1; i <= 1; i++) {
      const dx = ix + i + hash(ix + i, iy + j, seed) - x;
      const dy = iy + j + hash(ix + i, iy + j, seed + 5) - y;
      best = Math.min(best, dx * dx + dy * dy);
    }
  }
  return Math.sqrt(best);
}

/** 0 below `from`, 1 above `to`, smooth between; the other way round when `from` > `to`. */
export function ramp(from, to, x) {
  const t = Math.min(1, Math.max(0, (x - from) / (to - from)));
  return t * t * (3 - 2 * t);
}

/** A stream of numbers in [0, 1) from a seed (mulberry32). */
export function stream(seed) {
  let a = seed >>> 0;
  return () => {
    a = (a + 0x6d2b79f5) | 0;
    let t = Math.imul(a ^ (a >>> 15), 1 | a);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4_294_967_296;
  };
}
