import { fbm, hash, noise, ramp } from './noise.mjs';
import { over, pencil, put, seen, TONES } from './paint.mjs';

/** Cement board: a rough skin over mesh, pits, cast streaks; `joints` are { u?, v? } lines taped and skimmed; `dust` 0 to 1. */
export function board({ joints = [], dust = 0.3, seed = 11, marks = [] } = {}) {
  const joint = (u, v) => joints.reduce((best, j) => Math.min(best, Math.abs(j.u === undefined ? v - j.v : u - j.u)), 99);
  const skimmed = (u, v, d) => ramp(2, 0.9, d + 0.7 * fbm(u * 0.5, v * 0.5, 3, seed + 9));
  const bump = (u, v) => {
    const d = joint(u, v);
    const skim = skimmed(u, v, d);
    const skin = 0.012 * fbm(u * 4, v * 4, 5, seed) - 0.03 * ramp(0.3, 0.05, pits(u, v, seed)) - 0.002 * mesh(u, v, 5.2);
    const pull = joints.some((one) => one.u !== undefined && Math.abs(u - one.u) < 2.5)
      ? fbm(u * 3.4, v * 0.3, 3, seed + 7)
      : fbm(u * 0.3, v * 3.4, 3, seed + 7);
    const wipes = 0.035 * pull + 0.012 * fbm(u * 5, v * 5, 3, seed + 8) - 0.005 * mesh(u, v, 8) * ramp(1.1, 0.9, d);
    return (
      skin * (1 - skim * 0.7) + skim * (0.03 + wipes) - 0.03 * ramp(0.1, 0.02, d + 0.05 * noise(u * 2, v * 2, seed)) * (1 - skim * 0.4)
    );
  };
  return (u, v, px, m) => {
    const grain = fbm(u * 7, v * 7, 4, seed + 1) * seen(0.12, px);
    const grit = (hash(Math.floor(u * 34), Math.floor(v * 34), seed) - 0.5) * seen(0.03, px);
    const cloud = fbm(u * 0.09, v * 0.16, 4, seed + 2);
    put(m, TONES.board, 0.92 + 0.2 * cloud + 0.26 * grain + 0.16 * grit + 0.05 * noise(u * 0.3, v * 6, seed + 3));
    over(m, TONES.mesh, 1, 0.09 * mesh(u, v, 5.2) * seen(0.06, px) * ramp(-0.2, 0.5, fbm(u * 0.5, v * 0.5, 3, seed + 21)));
    over(m, TONES.board, 0.45, 0.6 * ramp(0.3, 0.08, pits(u, v, seed)) * seen(0.08, px));
    const scratch =
      ramp(0.03, 0, Math.abs(noise(u * 0.35 + v * 0.2, v * 0.6 - u * 0.3, seed + 22))) * ramp(0, 0.4, noise(u * 0.5, v * 0.5, seed + 23));
    over(m, TONES.paint, 0.95, 0.35 * scratch * seen(0.06, px));
    over(m, TONES.paint, 0.9, dust * 0.6 * ramp(-0.35, 0.6, fbm(u * 0.22, v * 0.09, 4, seed + 5)));
    over(m, TONES.mortar, 1.05 + 0.14 * fbm(u * 3, v * 3, 3, seed), 0.75 * dabs(u, v, seed));
    const d = joint(u, v);
    over(m, TONES.mortar, 0.9 + 0.25 * fbm(u * 1.5, v * 1.5, 5, seed + 6) + 0.1 * grit, 0.92 * skimmed(u, v, d));
    over(
      m,
      TONES.mesh,
      1,
      0.22 * mesh(u, v, 8) * ramp(1.1, 0.9, d) * ramp(-0.1, 0.4, fbm(u * 0.4, v * 0.4, 3, seed + 24)) * seen(0.06, px),
    );
    over(m, TONES.wetMortar, 0.55, 0.6 * ramp(0.09, 0.03, d + 0.04 * noise(u * 2, v * 2, seed)) * (0.5 + 0.5 * noise(u, v, seed)));
    for (const line of marks) over(m, TONES.plastic, 0.7, pencil(line, u, v, px) * 0.6);
    m.bump = bump;
  };
}

/** Distance to the nearest pit in pits' own sizes: most cells have none, and no two are alike. */
function pits(u, v, seed) {
  const x = u * 1.9;
  const y = v * 1.9;
  let best = 9;
  for (let j = -1; j <= 1; j++) {
    for (let i = -1; i <= 1; i++) {
      const cx = Math.floor(x) + i;
      const cy = Math.floor(y) + j;
      const size = hash(cx, cy, seed + 30);
      if (size > 0.34) continue;
      const r = Math.hypot(cx + hash(cx, cy, seed + 4) - x, (cy + hash(cx, cy, seed + 9) - y) * (0.7 + 2 * size));
      best = Math.min(best, r / (0.25 + 2 * size));
    }
  }
  return best;
}

/** Mortar dabbed over screw heads, every 8 in on studs 16 in apart. */
function dabs(u, v, seed) {
  const i = Math.round(u / 16);
  const j = Math.round(v / 8);
  const r = Math.hypot(u - i * 16 + hash(i, j, seed + 31) - 0.5, (v - j * 8) * 0.7);
  return ramp(1.5, 0.9, r + 0.7 * fbm(u * 0.9, v * 0.9, 3, seed + 32)) * (hash(i, j, seed + 33) < 0.6 ? 1 : 0);
}

/** Threads of a mesh, `perInch` of them each way. */
function mesh(u, v, perInch) {
  const x = u * perInch + 0.25 * noise(u * 1.5, v * 1.5, 12);
  const y = v * perInch + 0.25 * noise(u * 1.5, v * 1.5, 13);
  return ramp(0.16, 0.04, Math.min(Math.abs(x - Math.floor(x) - 0.5), Math.abs(y - Math.floor(y) - 0.5)));
}
