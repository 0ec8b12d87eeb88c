import { combInk, rulerInk, tapeInk } from './marks.mjs';
import { TONES } from './paint.mjs';
import { marked, nap, plain, steel, wood } from './materials.mjs';
import { fbm, noise } from './noise.mjs';
import { box, curl, cut, cylinder, frame, layer, leaning, placed, plate, rod, upright } from './shapes.mjs';

/** Tools and fittings, each a list of solids set down on a frame. */

const TAPE = { width: 0.75, length: 9 };
const tapeMarks = await tapeInk(TAPE.length, TAPE.width);

/** A tape's blade laid along u with its zero at the frame's origin; `rise(u)` is the height of what it lies on. */
export function tape(f, { rise = () => 0, length = TAPE.length } = {}) {
  const { width } = TAPE;
  const ground = marked(plain(TONES.blade, { rough: 0.42, uneven: 0.03 }), tapeMarks, [0, -width / 2]);
  const blade = layer(f, [0.02, -width / 2, length, width / 2], 0.4, (u, v) => 0.03 + rise(u) + 0.075 * (v / (width / 2)) ** 2, ground, {
    slack: 0.8,
  });
  const hook = box(placed(f, 0, 0, 0.02), [0.02, 0.3, 0.15], steel(), 0.01);
  const hookTop = box(placed(f, 0.32, 0, 0.075 + rise(0.3)), [0.33, 0.24, 0.012], steel(), 0.01);
  const rivets = [0.2, 0.48].map((u) => cylinder(placed(f, u, 0, 0.08 + rise(u)), 0.055, 0.03, steel(TONES.iron), { round: 0.015 }));
  const shell = box(placed(f, length + 1.1, 0, 1.1), [1.35, 0.62, 1.2], plain(TONES.plastic, { rough: 0.5 }), 0.42);
  return [blade, hook, hookTop, ...rivets, shell];
}

const RULER = { width: 1, length: 6 };
const rulerMarks = await rulerInk(RULER.length, RULER.width);

/** A steel ruler standing with its zero at the frame's origin, v upwards. */
export function ruler(f) {
  const face = marked(plain(TONES.pale, { rough: 0.45, f0: 0.08, uneven: 0.03 }), rulerMarks, [-0.5, 0]);
  return [box(placed(f, 0, 3, 0), [0.5, 3, 0.02], (u, v, ...rest) => face(u, v + 3, ...rest), 0.01)];
}

/** Teeth of one side of a gauge as in the standard's example, in mil; the two outer feet stand on what lies under the film. */
const TEETH = ['20', '22', '24', '26', '28', '30', '35'];
const COMB = { width: 2.9, height: 1.5, tooth: 0.24, pitch: 0.32 };
const centres = TEETH.map((_, i) => COMB.width / 2 + (i - 3) * COMB.pitch);
const combMarks = await combInk(TEETH, centres, COMB.width, COMB.height);

/** A comb gauge standing in the film, its teeth towards the frame's surface; film clings to the first `wet` teeth. */
export function comb(f, wet) {
  const half = COMB.width / 2;
  // Gaps are drawn half as large again as they are: at true size no picture of a phone shows them.
  const gap = (u) => {
    const i = Math.round(u / COMB.pitch + 3);
    if (i < 0 || i > 6) return 0;
    return Math.abs(u - (i - 3) * COMB.pitch) < COMB.tooth / 2 ? Number(TEETH[i]) * 0.0015 : 0.13;
  };
  const outline = (u, v) => {
    const body = Math.max(Math.abs(u) - half, -v, v - COMB.height);
    return Math.max(body, gap(u) - v) * 0.9;
  };
  const inked = marked(plain(TONES.pale, { rough: 0.42, f0: 0.08, uneven: 0.03 }), combMarks, [-half, 0]);
  const material = (u, v, px, m, w, side) => {
    inked(u, v, px, m, w, side);
    const i = Math.round(u / COMB.pitch + 3);
    const clings = i < 0 || i > 6 || i < wet;
    if (clings && v < 0.07 + 0.02 * noise(u * 9, 0, 4)) {
      [m.r, m.g, m.b] = TONES.coatWet;
      m.rough = 0.4;
    }
  };
  const holes = [-1.15, 1.15].map((u) => cylinder(placed(f, u, 1.2, -0.2), 0.09, 0.4, material));
  return [cut(plate(f, outline, [-half, 0, half, COMB.height], 0.018, material), ...holes)];
}

/** A notched trowel lying face down, its teeth along one long edge. */
export function trowel(f) {
  const blade = plate(
    placed(f, 0, 0, 0.16),
    (u, v) => {
      const body = Math.max(Math.abs(u) - 5.5, Math.abs(v) - 2.1);
      const notch = Math.max(Math.abs(((((u + 50) % 0.5) + 0.5) % 0.5) - 0.25) - 0.125, v + 1.85);
      return Math.max(body, -notch) * 0.9;
    },
    [-5.5, -2.1, 5.5, 2.1],
    0.03,
    smeared(steel(TONES.iron, 0.45)),
  );
  const at = (u, v, w) => [0, 1, 2].map((i) => f.o[i] + f.U[i] * u + f.V[i] * v + f.W[i] * w);
  const stem = rod([at(-3.4, 0.1, 0.2), at(-3.6, 0.1, 1.9)], 0.22, steel(TONES.iron));
  const stem2 = rod([at(2.4, 0.1, 0.2), at(2.5, 0.1, 1.9)], 0.2, steel(TONES.iron));
  const spine = rod([at(-4.6, 0.1, 0.22), at(3.2, 0.1, 0.22)], 0.14, steel(TONES.iron));
  const handle = rod([at(-3.8, 0.1, 2), at(-1, 0.1, 2.2), at(2.9, 0.1, 2)], 0.52, wood(7));
  return [blade, stem, stem2, spine, handle];
}

function smeared(under) {
  return (u, v, px, m, w, side) => {
    under(u, v, px, m, w, side);
    if (v > -0.5 + 1.1 * fbm(u * 0.5, v * 0.6, 3, 5) + 0.2 * noise(u * 3, v * 3, 9)) return;
    const k = 0.9 + 0.2 * fbm(u * 3, v * 3, 3, 6);
    [m.r, m.g, m.b] = TONES.mortar.map((c) => c * k);
    m.metal = 0;
    m.rough = 0.7;
  };
}

/** A paint roller, nine inches, resting on the surface with its frame and grip. */
export function roller(f) {
  const axle = frame(
    [0, 1, 2].map((i) => f.o[i] - f.U[i] * 4.5 + f.W[i] * 1.02),
    f.V,
    f.W,
    f.U,
  );
  const at = (u, v, w) => [0, 1, 2].map((i) => f.o[i] + f.U[i] * u + f.V[i] * v + f.W[i] * w);
  const wrapped = { ...cylinder(axle, 1, 9, nap(), { round: 0.22 }) };
  const wire = rod([at(4.5, 0, 1.02), at(5.3, 0, 1.02), at(5.4, -2.4, 1.5), at(0.3, -4.2, 2.1), at(0.2, -6, 2.4)], 0.13, steel());
  const grip = rod([at(0.2, -6, 2.4), at(0.2, -10.5, 3.1)], 0.52, plain(TONES.plastic, { rough: 0.5 }));
  return [wrapped, wire, grip];
}

/** A pail of coat, seen into. */
export function pail(f, filled = 6) {
  const wall = cylinder(f, 5.6, 9, plain(TONES.pale, { rough: 0.45 }), { bore: 5.35 });
  const rim = cylinder(placed(f, 0, 0, 8.6), 5.85, 0.5, plain(TONES.pale, { rough: 0.45 }), { bore: 5.3, round: 0.12 });
  const goo = cylinder(f, 5.4, filled, (u, v, px, m) => {
    const k = 0.95 + 0.06 * fbm(u * 0.4, v * 0.4, 3, 8);
    [m.r, m.g, m.b] = TONES.coatWet.map((c) => c * k);
    m.rough = 0.24;
    m.bump = (a, b) => 0.05 * Math.sin(Math.hypot(a - 1, b + 0.5) * 2.2 + 2 * noise(a * 0.5, b * 0.5, 3)) * 0.3;
  });
  return [wall, rim, goo];
}

/** A utility knife with its blade out, lying along u. */
export function knife(f) {
  const body = box(placed(f, 0, 0, 0.3), [2.6, 0.42, 0.3], plain(TONES.plastic, { rough: 0.45 }), 0.2);
  const button = box(placed(f, 0.9, 0, 0.62), [0.4, 0.16, 0.08], plain(TONES.rubber), 0.05);
  const nose = box(placed(f, 2.5, 0.02, 0.3), [0.55, 0.34, 0.2], steel(TONES.iron), 0.08);
  const edge = plate(
    upright(placed(f, 3.3, 0, 0.3)),
    (u, v) => Math.max(Math.abs(u) - 0.6, Math.abs(v) - 0.22, (u - v * 0.9 - 0.42) * 0.74) * 0.95,
    [-0.6, -0.22, 0.6, 0.22],
    0.012,
    steel(),
  );
  return [body, button, nose, { ...edge, d: edge.d }];
}

/** A roll of membrane lying along u, its free end running out on the surface. */
export function roll(f, width, radius, material) {
  const points = [];
  for (let i = 0; i <= 40; i++) points.push([radius * 0.2 + i * 0.35, 0.06]);
  points.reverse();
  for (let i = 0; i <= 96; i++) {
    const a = -Math.PI / 2 - (i / 96) * Math.PI * 1.9;
    points.push([Math.cos(a) * radius, radius + 0.06 + Math.sin(a) * radius]);
  }
  const core = frame(
    [0, 1, 2].map((i) => f.o[i] - (f.U[i] * width) / 2 + f.W[i] * (radius + 0.06)),
    f.V,
    f.W,
    f.U,
  );
  const ends = (u, v, px, m) => {
    const r = Math.hypot(u, v);
    const k = 0.62 + 0.34 * Math.abs(Math.sin(r * 26));
    [m.r, m.g, m.b] = (r < 1.6 ? TONES.card : TONES.sheet).map((c) => c * k);
  };
  return [
    { ...curl(f, -width / 2, width / 2, points, 0.04, material), wrap: true },
    cylinder(core, radius - 0.02, width, ends, { bore: 1.1 }),
    cylinder(core, 1.1, width, ends, { bore: 0.95 }),
  ];
}

/** A long box level with one vial, lying along u. */
export function level(f, length = 24) {
  const half = length / 2;
  const web = box(placed(f, 0, 0, 1.1), [half, 0.12, 1], plain(TONES.iron, { rough: 0.4 }), 0.03);
  const flanges = [0.16, 2.1].map((w) => box(placed(f, 0, 0, w), [half, 0.45, 0.13], steel(TONES.pale), 0.03));
  const ends = [-half, half].map((u) => box(placed(f, u, 0, 1.12), [0.25, 0.5, 1.12], plain(TONES.rubber), 0.08));
  const vial = box(placed(f, 0, 0, 1.95), [1, 0.3, 0.24], plain(TONES.pale, { rough: 0.2 }), 0.1);
  const bubble = box(placed(f, 0.05, 0, 2.2), [0.28, 0.16, 0.05], plain(TONES.coat, { rough: 0.2 }), 0.05);
  return [web, ...flanges, ...ends, vial, bubble];
}

/** A copper-free stub: a capped plastic pipe leaving the surface. */
export function stub(f, radius, length) {
  return [
    cylinder(f, radius, length, plain(TONES.pale, { rough: 0.4 })),
    cylinder(placed(f, 0, 0, length - 0.7), radius + 0.12, 0.75, plain(TONES.plastic, { rough: 0.5 }), { round: 0.06 }),
  ];
}

/** A drain's bonding flange with its throat, set flush in a floor; gives the solids and what to cut from the floor. */
export function drain(f, { flange = 5, throat = 1.95, clean = true } = {}) {
  const hole = cylinder(placed(f, 0, 0, -6), throat, 9, plain(TONES.dark));
  const ringMaterial = plain(clean ? TONES.plastic : TONES.sheet, { rough: 0.55 });
  const plateShape = cut(
    layer(f, [-flange, -flange, flange, flange], 0.14, () => 0.12, perforated(ringMaterial, flange), { corner: flange - 0.01, slack: 1 }),
    hole,
  );
  const lip = cylinder(placed(f, 0, 0, -5.5), throat + 0.18, 5.7, plain(TONES.plastic, { rough: 0.45 }), {
    bore: throat - 0.08,
    round: 0.05,
  });
  const well = cylinder(placed(f, 0, 0, -5.4), throat + 0.3, 0.3, plain(TONES.dark));
  return { solids: [plateShape, lip, well], hole };
}

function perforated(under, flange) {
  return (u, v, px, m, w, side) => {
    under(u, v, px, m, w, side);
    const r = Math.hypot(u, v);
    const a = Math.atan2(v, u);
    for (const [ring, count] of [
      [flange * 0.62, 18],
      [flange * 0.84, 26],
    ]) {
      const near = (((((a / (2 * Math.PI)) * count) % 1) + 1.5) % 1) - 0.5;
      const off = Math.hypot(r - ring, (near / count) * 2 * Math.PI * ring);
      if (off < 0.2) for (const c of ['r', 'g', 'b']) m[c] *= 0.25;
    }
  };
}

/** A rubber test plug with its wing nut. */
export function plug(f, radius = 1.9) {
  const rubber = cylinder(placed(f, 0, 0, -1.2), radius, 1.1, plain(TONES.rubber, { rough: 0.6 }), { round: 0.1 });
  const washer = cylinder(placed(f, 0, 0, -0.12), radius * 0.82, 0.12, steel(), { round: 0.02 });
  const thread = cylinder(f, 0.17, 1.05, steel(TONES.iron));
  const nut = cylinder(placed(f, 0, 0, 0.05), 0.36, 0.34, steel(TONES.iron), { round: 0.06 });
  const wings = [1, -1].map((s) => box(leaning(placed(f, 0.62 * s, 0, 0.42, 0), 90), [0.34, 0.28, 0.06], steel(TONES.iron), 0.05));
  return [rubber, washer, thread, nut, ...wings];
}
