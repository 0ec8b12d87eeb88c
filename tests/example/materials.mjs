import { cells, fbm, hash, noise, ramp } from './noise.mjs';

/**
 * What surfaces are made of. A material writes colour (linear light), roughness and bump at (u, v) inches of its frame into `m`;
 * `px` is the size of a pixel there, so that nothing finer than a pixel is drawn. Tones are muted and our own.
 */

/** An sRGB colour `#rrggbb` as linear light. */
export function tone(hex) {
  return [1, 3, 5].map((i) => {
    const c = parseInt(hex.slice(i, i + 2), 16) / 255;
    return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
  });
}

export const TONES = {
  board: tone('#b9b4ac'),
  mesh: tone('#cfccc6'),
  mortar: tone('#a9a5a1'),
  wetMortar: tone('#8d8985'),
  sand: tone('#a39d96'),
  sheet: tone('#bcb9c0'),
  sheetBack: tone('#a8a4ac'),
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
  nap: tone('#d5cdbf'),
  card: tone('#a8957d'),
  dark: tone('#1b191d'),
};

function put(m, c, k) {
  m.r = c[0] * k;
  m.g = c[1] * k;
  m.b = c[2] * k;
}

function over(m, c, k, share) {
  m.r += (c[0] * k - m.r) * share;
  m.g += (c[1] * k - m.g) * share;
  m.b += (c[2] * k - m.b) * share;
}

/** How much of a pattern with features of `size` inches is left at this pixel size. */
const seen = (size, px) => ramp(1.1, 0.25, px / size);

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

/** Cement board: the mesh under the skin, pits, cast streaks; `joints` are { u?, v? } lines taped and skimmed; `dust` 0 to 1. */
export function board({ joints = [], dust = 0.3, seed = 11, marks = [] } = {}) {
  const joint = (u, v) => joints.reduce((best, j) => Math.min(best, Math.abs(j.u === undefined ? v - j.v : u - j.u)), 99);
  const bump = (u, v) => {
    const d = joint(u, v);
    const skim = ramp(2.1, 1.1, d + 0.5 * noise(u * 0.6, v * 0.6, seed + 9));
    const skin = 0.006 * fbm(u * 3, v * 3, 4, seed) - 0.02 * ramp(0.13, 0.02, pits(u, v, seed)) - 0.0025 * mesh(u, v);
    const wipes = 0.02 * noise(u * 0.5, v * 3.4, seed + 7) + 0.03 * noise(u * 1.4, v * 0.4, seed + 8);
    return skin * (1 - skim * 0.75) + skim * (0.03 + wipes) - 0.03 * ramp(0.1, 0.02, d) * (1 - skim * 0.5);
  };
  return (u, v, px, m) => {
    const grain = fbm(u * 9, v * 9, 3, seed + 1) * seen(0.1, px);
    const cloud = fbm(u * 0.09, v * 0.16, 4, seed + 2);
    put(m, TONES.board, 0.92 + 0.2 * cloud + 0.13 * grain + 0.05 * noise(u * 0.3, v * 6, seed + 3));
    over(m, TONES.mesh, 1, 0.1 * mesh(u, v) * seen(0.06, px) * ramp(-0.5, 0.4, noise(u * 0.4, v * 0.4, seed + 21)));
    over(m, TONES.board, 0.45, 0.6 * ramp(0.13, 0.04, pits(u, v, seed)) * seen(0.08, px));
    over(m, TONES.paint, 0.9, dust * 0.6 * ramp(-0.35, 0.6, fbm(u * 0.22, v * 0.09, 4, seed + 5)));
    over(m, TONES.mortar, 1.05 + 0.1 * noise(u * 3, v * 3, seed), 0.7 * dabs(u, v, seed));
    const d = joint(u, v);
    const skim = ramp(2.1, 1.1, d + 0.5 * noise(u * 0.6, v * 0.6, seed + 9));
    over(m, TONES.mortar, 0.92 + 0.18 * fbm(u * 2.5, v * 2.5, 3, seed + 6), 0.9 * skim);
    over(m, TONES.wetMortar, 0.6, 0.55 * ramp(0.09, 0.03, d) * (0.6 + 0.4 * noise(u, v, seed)));
    for (const line of marks) over(m, TONES.plastic, 0.7, pencil(line, u, v, px) * 0.6);
    m.bump = bump;
  };
}

/** Distance to the nearest pit, most cells of the lattice having none. */
function pits(u, v, seed) {
  return hash(Math.floor(u * 1.1), Math.floor(v * 1.1), seed + 30) < 0.3 ? cells(u * 2.2, v * 2.2, seed + 4) : 1;
}

/** Mortar dabbed over screw heads, every 8 in on studs 16 in apart. */
function dabs(u, v, seed) {
  const i = Math.round(u / 16);
  const j = Math.round(v / 8);
  const r = Math.hypot(u - i * 16 + hash(i, j, seed + 31) - 0.5, (v - j * 8) * 0.7);
  return ramp(1.5, 0.9, r + 0.7 * fbm(u * 0.9, v * 0.9, 3, seed + 32)) * (hash(i, j, seed + 33) < 0.6 ? 1 : 0);
}

function mesh(u, v) {
  const a = Math.abs(((u * 5.2) % 1 + 1) % 1 - 0.5);
  const b = Math.abs(((v * 5.2) % 1 + 1) % 1 - 0.5);
  return ramp(0.16, 0.04, Math.min(a, b));
}

/** A pencil line from (u0, v0) to (u1, v1), broken as graphite on a rough face is. */
function pencil([u0, v0, u1, v1], u, v, px) {
  const length = Math.hypot(u1 - u0, v1 - v0);
  const along = ((u - u0) * (u1 - u0) + (v - v0) * (v1 - v0)) / length;
  if (along < 0 || along > length) return 0;
  const off = Math.abs((u - u0) * (v1 - v0) - (v - v0) * (u1 - u0)) / length;
  return ramp(0.03 + px, 0.01, off + 0.012 * noise(along * 2, 0, 8)) * (0.65 + 0.35 * noise(along * 7, off * 20, 9));
}

/** A sand and cement bed, trowelled: grains, sweeps of the float. */
export function sandBed(seed = 31) {
  const bump = (u, v) => 0.012 * fbm(u * 6, v * 6, 3, seed) + 0.02 * noise(u * 0.5 + v * 0.2, v * 0.9, seed + 1) + 0.012 * ramp(0.35, 0.05, cells(u * 7, v * 7, seed + 2));
  return (u, v, px, m) => {
    const grain = (hash(Math.floor(u * 40), Math.floor(v * 40), seed) - 0.5) * seen(0.03, px);
    const sweep = noise(u * 0.25 + Math.sin(v * 0.2) * 0.6, v * 0.6, seed + 3);
    put(m, TONES.sand, 0.9 + 0.28 * grain + 0.1 * sweep + 0.2 * fbm(u * 0.12, v * 0.12, 4, seed + 4));
    m.bump = bump;
  };
}

/** Thin-set mortar; `wet` 0 to 1 darkens it and gives it a sheen. */
export function thinset(wet = 0.7, seed = 51) {
  const bump = (u, v) => 0.018 * fbm(u * 5, v * 5, 3, seed) - 0.022 * ramp(0.14, 0.03, cells(u * 3.1, v * 3.1, seed + 1)) + 0.004 * noise(u * 28, v * 28, seed + 2);
  return (u, v, px, m) => {
    const grain = (hash(Math.floor(u * 55), Math.floor(v * 55), seed) - 0.5) * seen(0.02, px);
    put(m, TONES.mortar, 1 - 0.22 * wet + 0.16 * grain + 0.14 * fbm(u * 1.3, v * 1.3, 3, seed + 3));
    m.rough = 0.9 - 0.36 * wet;
    m.bump = bump;
  };
}

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
    return cloth * (1 - 0.8 * squeezed) + waves + print * 0.008 * ramp(-0.3, 0.5, fbm(u * 0.1, v * 0.1, 2, seed + 22)) * Math.sin(v * 12.566 + 4 * noise(u * 0.12, v * 0.2, seed + 14)) + squeezed * 0.035 * (1 + 0.6 * noise(u * 3, v * 3, seed + 15));
  };
  return (u, v, px, m) => {
    const fibre = fleece(u, v, seed) * seen(0.05, px);
    const speck = (hash(Math.floor(u * 60), Math.floor(v * 60), seed) - 0.5) * seen(0.02, px);
    put(m, c, 0.95 + 0.13 * fibre + 0.12 * speck + 0.09 * fbm(u * 0.15, v * 0.15, 3, seed + 16));
    if (weave > 0) over(m, c, 0.72, weave * ramp(0.3, 0.1, Math.abs(((u * 8) % 1 + 1) % 1 - 0.5)) * seen(0.06, px) * 0.5);
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

/**
 * A rolled liquid coat over `under`. `cover(u, v)` is how much of a full film lies there: below about 0.6 the tone beneath shows
 * through, near 0 it is a miss. Stipple of the roller in bump and sheen; `wet` 0 to 1.
 */
export function coat(under, { wet = 1, cover = () => 1, seed = 91, lanes = 'v' } = {}) {
  const film = (u, v) => cover(u, v) + 0.16 * fbm(u * 1.1, v * 1.1, 3, seed + 5) + 0.07 * noise((lanes === 'v' ? u : v) * 1.4, (lanes === 'v' ? v : u) * 0.12, seed + 6);
  const bump = (u, v) => {
    const stipple = 0.011 * fbm(u * 5.5, v * 5, 2, seed) + 0.004 * noise(u * 15, v * 14, seed + 2);
    const lane = 0.02 * noise((lanes === 'v' ? u : v) * 0.9, (lanes === 'v' ? v : u) * 0.07, seed + 3);
    const waves = 0.1 * fbm(u * 0.1, v * 0.1, 2, seed + 4);
    return (stipple + lane) * ramp(0.1, 0.5, film(u, v)) + waves;
  };
  return (u, v, px, m, w, side) => {
    under(u, v, px, m, w, side);
    const thick = film(u, v);
    const hides = ramp(0.12, 0.85, thick + 0.12 * noise(u * 9, v * 9, seed + 7) * seen(0.1, px));
    const stipple = fbm(u * 5.5, v * 5, 2, seed) * seen(0.15, px);
    const c = wet > 0.5 ? TONES.coatWet : TONES.coat;
    over(m, c, 0.97 + 0.05 * stipple + 0.07 * fbm(u * 0.2, v * 0.2, 3, seed + 8) - 0.05 * ramp(0.9, 1.5, thick) + 0.05 * noise((lanes === 'v' ? u : v) * 0.16, (lanes === 'v' ? v : u) * 0.03, seed + 9), hides * 0.97);
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
    for (const [dx, dy] of [[-k, -k], [k, -k], [-k, k], [k, k], [0, 0]]) sum += ink.at(x + dx / 2, y + dy / 2);
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

/** The same surface, `wetness` darker where damp. */
export function damp(under, wetness) {
  return (u, v, px, m, w, side) => {
    under(u, v, px, m, w, side);
    const k = 1 - 0.42 * wetness(u, v, w);
    m.r *= k;
    m.g *= k;
    m.b *= k;
    m.rough -= 0.35 * wetness(u, v, w);
  };
}
