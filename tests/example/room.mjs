import { board } from './boards.mjs';
import { membrane } from './cloth.mjs';
import { TONES } from './paint.mjs';
import { coat, paintwork, plain, sandBed, wood } from './materials.mjs';
import { fbm, hash, noise, ramp } from './noise.mjs';
import { drain, stub } from './props.mjs';
import { cut, cylinder, frame, lattice, layer, placed, plane } from './shapes.mjs';

/**
 * The shower: 60 in wide, 36 in deep, curb to the south, drain in the middle. x runs east, y north, z up, in inches.
 * On the north wall u runs east; on the west wall u runs north; on the east wall u runs south from the back corner.
 */
const NORTH = frame([0, 36, 0], [1, 0, 0], [0, 0, 1], [0, -1, 0]);
const WEST = frame([0, 0, 0], [0, 1, 0], [0, 0, 1], [1, 0, 0]);
const EAST = frame([60, 36, 0], [0, -1, 0], [0, 0, 1], [-1, 0, 0]);
export const FLOOR = frame([0, 0, 0], [1, 0, 0], [0, 1, 0], [0, 0, 1]);
export const CURB_IN = frame([60, 0, 0], [-1, 0, 0], [0, 0, 1], [0, 1, 0]);
const CURB_TOP = frame([0, -5, 5], [1, 0, 0], [0, 1, 0], [0, 0, 1]);
const CURB_OUT = frame([0, -5, 0], [1, 0, 0], [0, 0, 1], [0, -1, 0]);

/** Floor height over the drain: a quarter inch a foot to the drain. */
export const fall = (x, y) => (Math.min(Math.hypot(x - 30, y - 18), 34) * 0.25) / 12;

const WALL_TOP = 84;
const COURSE = 40;
const LAP = 2.6;

const screwHead = (u, v, w) => {
  const r = Math.hypot(u, v);
  return Math.max(r - 0.17, w - 0.03 + 0.5 * r * r, -w - 0.1);
};

/** A cross recess and the shine of the rim, drawn on. */
const bareScrew = plain(TONES.iron, { rough: 0.4, metal: 1, f0: 0.5 });
const screwFace = (u, v, px, m) => {
  bareScrew(u, v, px, m);
  const recess = Math.min(
    Math.max(Math.abs(u + v) - 0.03, Math.abs(u - v) - 0.13),
    Math.max(Math.abs(u - v) - 0.03, Math.abs(u + v) - 0.13),
  );
  if (recess < 0) {
    [m.r, m.g, m.b] = TONES.dark;
    m.metal = 0;
  }
};

/** Screws every 8 in on studs 16 in apart, a little off each time. */
export function screws(f, box, seed) {
  const shift = (i, j) => [(hash(i, j, seed) - 0.5) * 0.7, (hash(i, j, seed + 1) - 0.5) * 0.7];
  return lattice(f, [16, 8], shift, box, 0.05, screwHead, screwFace);
}

/** A shower wall's board, with painted wall beyond the shower (where `beyond(u)`) and above the boards. */
const walled = (inside, beyond) => {
  const wall = paintwork();
  return (u, v, px, m, w, side) => (beyond(u) || v > WALL_TOP + 6 ? wall : inside)(u, v, px, m, w, side);
};

/** Boards, bed, curb and what lies around them, before any membrane. */
export function shell({ dust = 0.5 } = {}) {
  const north = walled(board({ joints: [{ v: 36 }, { u: 36 }], dust, seed: 11 }), () => false);
  const west = walled(board({ joints: [{ v: 36 }], dust, seed: 211 }), (u) => u < -5);
  const east = walled(board({ joints: [{ v: 36 }], dust, seed: 311 }), (u) => u > 41);
  const fittings = drain(placed(FLOOR, 30, 18, fall(30, 18)));
  const bed = sandBed(31);
  const subfloor = wood(19);
  const ground = (u, v, px, m, w, side) => (v < -5 ? subfloor : bed)(u, v, px, m, w, side);
  const floor = cut(
    plane(FLOOR, ground, (u, v) => (v < -4.9 ? -0.2 : fall(u, v))),
    fittings.hole,
  );
  const valveHole = cylinder(placed(EAST, 18, 46, -4), 2.3, 8, plain(TONES.dark));
  return [
    plane(NORTH, north),
    plane(WEST, west),
    cut(plane(EAST, east), valveHole),
    floor,
    plane(frame([0, 0, 96], [1, 0, 0], [0, -1, 0], [0, 0, -1]), paintwork()),
    layer(CURB_TOP, [0, 0, 60, 5], 0.02, () => 0, board({ dust: 0.2, seed: 411 }), { base: -5.2, slack: 1 }),
    screws(NORTH, [0, 0, 60, WALL_TOP], 3),
    screws(WEST, [0, 0, 36, WALL_TOP], 4),
    screws(EAST, [0, 0, 36, WALL_TOP], 5),
    ...fittings.solids,
    cylinder(placed(EAST, 18, 46, -3), 2.1, 3.1, plain(TONES.plastic, { rough: 0.4 }), { bore: 1.7 }),
    cylinder(placed(EAST, 18, 46, -2.5), 1.1, 4, plain(TONES.steel, { rough: 0.3, metal: 1, f0: 0.6 })),
    ...stub(placed(EAST, 18, 24), 0.45, 3.4),
    ...stub(placed(EAST, 18, 78), 0.45, 2.2),
  ];
}

const wavy = (s) => 0.04 * noise(s * 0.35, 0, 19) + 0.015 * noise(s * 1.6, 0, 20);
const flat =
  (thick, bow = 0.02) =>
  (u, v) =>
    thick + bow * (0.5 + 0.5 * noise(u * 0.2, v * 0.2, 21));
/** A layer's top where it steps over one whose edge is at v = `edge` and which lies below it. */
const stepping = (thick, edge) => (u, v) => thick + 0.05 * ramp(edge + 0.15, edge - 0.15, v) + 0.02 * noise(u * 0.2, v * 0.2, 22);

/** Sheets on north and east walls, floor and curb; the west wall takes liquid and has none. `loose` sheets stand off a little. */
export function sheets({
  loose = false,
  print = 0.5,
  scuffs = 0.6,
  only = ['north', 'east', 'floor', 'curb'],
  lines = false,
  banded = false,
} = {}) {
  const bow = loose ? 0.16 : 0.03;
  const course = (f, width, seed, hole) => {
    const squeezed = loose ? [] : [{ box: [0, COURSE - LAP, width, COURSE], width: 0.7 }, ...(banded ? bandEdges(width) : [])];
    const lower = membrane(TONES.sheet, {
      print,
      scuffs,
      seed,
      smears: squeezed,
      marks: lines ? [[1, COURSE - LAP, width - 1, COURSE - LAP + 0.05]] : [],
    });
    const upper = membrane(TONES.sheet, { print, scuffs, seed: seed + 40, smears: banded ? bandEdges(width) : [] });
    const away = hole === undefined ? [] : hole;
    return [
      cut(layer(f, [0, 1, width, COURSE], 0.4, flat(0.06, bow), lower, { wobble: wavy, slack: 0.8 }), ...away),
      cut(layer(f, [0, COURSE - LAP, width, 78], 0.4, stepping(0.06, COURSE), upper, { wobble: wavy, slack: 0.8 }), ...away),
    ];
  };
  const out = [];
  if (only.includes('north')) out.push(...course(NORTH, 60, 401));
  if (only.includes('east')) {
    const holes = [
      cylinder(placed(EAST, 18, 46, -1), 2.5, 3, plain(TONES.dark)),
      cylinder(placed(EAST, 18, 24, -1), 0.6, 3, plain(TONES.dark)),
      cylinder(placed(EAST, 18, 78, -1), 0.6, 3, plain(TONES.dark)),
    ];
    out.push(...course(EAST, 37, 501, holes));
  }
  if (only.includes('floor')) {
    const hole = cylinder(placed(FLOOR, 30, 18, -2), 2.02, 6, plain(TONES.dark));
    const rim = [
      [0, 36 - HALF, 60, 36],
      [0, 0, 60, HALF],
      [0, 0, HALF, 36],
      [60 - HALF, 0, 60, 36],
    ].map((box) => ({ box, width: 0.45 }));
    const floorSmears = [...(loose ? [] : [{ box: [36, 0, 38.4, 36], width: 0.6 }]), ...(banded ? rim : [])];
    const material = (seed) =>
      membrane(TONES.sheet, { print: print * 0.7, scuffs, seed, smears: floorSmears, marks: lines ? [[38.4, 1, 38.4, 35]] : [] });
    const low = (u, v) => fall(u, v) + 0.16 + bow * 0.4 * noise(u * 0.2, v * 0.2, 25);
    const high = (u, v) => fall(u, v) + 0.21 + 0.05 * ramp(38.5, 38.2, u) + bow * 0.4 * noise(u * 0.2, v * 0.2, 26);
    out.push(cut(layer(FLOOR, [0, 0, 38.4, 36], 1.3, low, material(601), { wobble: wavy, base: -0.5 }), hole));
    out.push(cut(layer(FLOOR, [36, 0, 60, 36], 1.3, high, material(641), { wobble: wavy, base: -0.5 }), hole));
  }
  if (only.includes('curb')) {
    const sheet = (seed) =>
      membrane(TONES.sheet, { print: 0, scuffs, seed, smears: loose ? [] : [{ box: [31.9, -1, 34, 7], width: 0.4 }] });
    out.push(...overCurb(0, 34, 0.06, sheet(701)), ...overCurb(31.9, 60, 0.11, sheet(741)));
  }
  return out;
}

/** A layer folded over the curb: inside face, top, outside face. */
function overCurb(u0, u1, thick, material) {
  return [
    layer(CURB_IN, [60 - u1, 0, 60 - u0, 5 + thick], 0.2, flat(thick), material, { slack: 0.9 }),
    layer(CURB_TOP, [u0, -thick, u1, 5 + thick], 0.2, flat(thick), material, { slack: 0.9 }),
    layer(CURB_OUT, [u0, 0, u1, 5 + thick], 0.2, flat(thick), material, { slack: 0.9 }),
  ];
}

const HALF = 2.6;

/** Where mortar is squeezed out beside the bands of a wall: along both sides and the foot. */
function bandEdges(width) {
  return [
    [0, 0, HALF, 78],
    [width - HALF, 0, width, 78],
    [0, 0, width, HALF + 0.6],
  ].map((box) => ({ box, width: 0.45 }));
}

/** Bands over every corner, with inside-corner pieces where three meet, a collar at each stub and a ring at the drain. */
export function bands() {
  const wide = membrane(TONES.band, { seed: 801, scuffs: 0.5, weave: 0.6 });
  const piece = membrane(TONES.piece, { seed: 851, scuffs: 0.4, weave: 0.3 });
  const t = 0.13;
  const on = (f, box, material = wide, thick = t) => layer(f, box, thick + 0.12, flat(thick, 0.02), material, { wobble: wavy, slack: 0.8 });
  const floor = (box, material = wide, thick = 0.3) =>
    layer(FLOOR, box, 1.6, (u, v) => fall(u, v) + thick, material, { wobble: wavy, base: -0.5 });
  const sides = [
    on(NORTH, [60 - HALF, 0, 60, 78]),
    on(EAST, [0, 0, HALF, 78]),
    on(NORTH, [0, 0, HALF, 78]),
    on(WEST, [36 - HALF, 0, 36, 78]),
  ];
  const foot = [
    on(NORTH, [0, 0, 60, HALF + 0.6]),
    on(EAST, [0, 0, 36, HALF + 0.6]),
    floor([0, 36 - HALF, 60, 36]),
    floor([60 - HALF, 0, 60, 36]),
    floor([0, 0, 60, HALF]),
    on(CURB_IN, [0, 0, 60, HALF + 0.6], wide, 0.12),
  ];
  const westFoot = [on(WEST, [0, 0, 36, HALF + 0.6]), floor([0, 0, HALF, 36])];
  const curbEnds = [
    [0, HALF],
    [60 - HALF, 60],
  ].flatMap(([a, b]) => overCurb(a, b, 0.17, wide));
  const curbSides = [on(WEST, [-5.6, 0, 2.6, 7.4], piece, 0.15), on(EAST, [33.4, 0, 41.6, 7.4], piece, 0.15)];
  const corners = [
    on(NORTH, [0, 0, 3.6, 4], piece, 0.2),
    on(NORTH, [56.4, 0, 60, 4], piece, 0.2),
    on(WEST, [32.4, 0, 36, 4], piece, 0.2),
    on(EAST, [0, 0, 3.6, 4], piece, 0.2),
    floor([0, 32.4, 3.6, 36], piece, 0.37),
    floor([56.4, 32.4, 60, 36], piece, 0.37),
  ];
  const collars = [24, 78].map((v) =>
    cut(
      layer(placed(EAST, 18, v), [-2.6, -2.6, 2.6, 2.6], 0.5, (u, w) => 0.13 + 0.32 * ramp(1.0, 0.5, Math.hypot(u, w)), piece, {
        corner: 0.4,
      }),
      cylinder(placed(EAST, 18, v, -1), 0.44, 4, piece),
    ),
  );
  const valve = cut(
    layer(placed(EAST, 18, 46), [-4.5, -4.5, 4.5, 4.5], 0.4, flat(0.13), piece, { corner: 0.5 }),
    cylinder(placed(EAST, 18, 46, -1), 2.3, 4, piece),
  );
  return [...sides, ...foot, ...westFoot, ...curbEnds, ...curbSides, ...corners, ...collars, valve];
}

/** A rolled coat over walls already sheeted and banded: one skin that follows the bands' edges. */
export function coated({ wall, wet = 1, seed = 91 }) {
  const f = { north: NORTH, east: EAST, west: WEST }[wall];
  const width = { north: 60, east: 36, west: 36 }[wall];
  const under = wall === 'west' ? board({ joints: [{ v: 36 }], dust: 0.1, seed: 211 }) : membrane(TONES.sheet, { seed: 401, scuffs: 0.3 });
  const edges = wall === 'north' ? (u) => Math.min(u, 60 - u) : wall === 'west' ? (u) => 36 - u : (u) => u;
  const height = (u, v) => {
    const band = Math.max(ramp(HALF + 0.25, HALF - 0.1, edges(u)), ramp(HALF + 0.85, HALF + 0.5, v));
    const course = wall === 'west' ? 0 : ramp(COURSE - LAP - 0.12, COURSE - LAP + 0.12, v);
    return 0.1 + 0.09 * band + 0.05 * course;
  };
  return layer(f, [0, 0, width, 78], 0.4, height, coat(under, { wet, seed }), {
    wobble: (s) => 0.2 * fbm(s * 0.5, 0, 3, seed),
    slack: 0.8,
  });
}

/** A bathroom's own light: a ceiling lamp, and a work lamp standing outside the shower. */
export function roomLight({ ceiling = 1, at = [30, 8, 92], work = 1, from = [6, -46, 66], fill = 1 } = {}) {
  return {
    lamps: [
      { at, rgb: [2.1 * ceiling, 2.02 * ceiling, 1.86 * ceiling], radius: 5 },
      { at: from, rgb: [2.3 * work, 2.26 * work, 2.2 * work], radius: 5 },
    ],
    sky: [0.3 * fill, 0.3 * fill, 0.31 * fill],
    ground: [0.19 * fill, 0.18 * fill, 0.17 * fill],
  };
}
