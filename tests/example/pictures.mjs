import { bandTape, combInFilm, combed, lamps, lapTape, LYING } from './close.mjs';
import { board, coat, membrane, paintwork, plain, sandBed, thinset, TONES, wood } from './materials.mjs';
import { fbm, noise, ramp } from './noise.mjs';
import { drain, knife, level, pail, plug, roll, roller, ruler, trowel } from './props.mjs';
import { bands, coated, CURB_IN, fall, FLOOR, roomLight, screws, sheets, shell } from './room.mjs';
import { box, curl, cut, cylinder, frame, layer, placed, plane, rod } from './shapes.mjs';

/**
 * The pictures of the example, in the order the work went. Each `scene()` is drawn by render.mjs and finished by develop.mjs.
 * What a tape or a comb shows is what the log says was read.
 */

const near = (at, to, scene, develop = {}) => ({ ...scene, camera: { at, to, fov: 58, up: [0.04, 1, 0.2] }, develop: { focus: dist(at, to), ...develop } });
const facing = (at, to, scene) => ({ ...near(at, to, scene), camera: { at, to, fov: 56, up: [0.04, 0, 1] } });
const wide = (at, to, shapes, light = {}, develop = {}, roll = 0.02) => ({
  shapes,
  ...roomLight(light),
  camera: { at, to, fov: 66, up: [roll, 0, 1] },
  develop: { focus: dist(at, to), blur: 0.3, ...develop },
});
const dist = (a, b) => Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);

const sheet = (seed, more = {}) => membrane(TONES.sheet, { seed, ...more });
const band = (seed, more = {}) => membrane(TONES.band, { seed, weave: 0.6, ...more });
const liner = () => [...shell(), ...sheets({ banded: true }), ...bands()];
const tools = [...pail(placed(FLOOR, 50, -16, -0.2)), ...trowel(placed(FLOOR, 12, -14, -0.1, 20))];

const houseFront = () => {
  const wall = frame([0, 0, 0], [1, 0, 0], [0, 0, 1], [0, -1, 0]);
  const siding = (u, v) => 0.6 * ((((v / 7) % 1) + 1) % 1 < 0.06 ? 0 : 1 - ((((v / 7) % 1) + 1) % 1));
  const clap = (u, v, px, m) => {
    const k = 0.92 + 0.05 * noise(u * 0.3, v * 3, 5) + 0.05 * fbm(u * 0.1, v * 0.1, 3, 6);
    [m.r, m.g, m.b] = TONES.board.map((c) => c * k);
    m.rough = 0.7;
  };
  const trim = plain(TONES.paint, { rough: 0.6, uneven: 0.03 });
  const at = (u, v) => [u, -1.25, v];
  const arc = Array.from({ length: 12 }, (_, i) => at(-4 + 2 * Math.cos(Math.PI - (i / 11) * 3.5), 48 + 2 * Math.sin(Math.PI - (i / 11) * 3.5)));
  const digits = plain(TONES.plastic, { rough: 0.4 });
  return {
    shapes: [
      layer(wall, [-80, -20, 14, 120], 0.7, siding, clap, { slack: 0.5 }),
      box(placed(wall, 14, 50, 0.4), [2.2, 70, 0.9], trim, 0.1),
      box(placed(wall, 36, 50, -0.6), [20, 70, 0.6], plain(TONES.iron, { rough: 0.5, uneven: 0.04 }), 0.1),
      ...[74, 30].map((v) => cut(box(placed(wall, 29, v, 0.05), [7, 17, 0.3], plain(TONES.iron, { rough: 0.5 }), 0.25), box(placed(wall, 29, v, 0.3), [5.4, 15.4, 0.3], plain(TONES.iron), 0.2))),
      cylinder(placed(wall, 19, 48, 0), 1.1, 2.4, plain(TONES.steel, { metal: 1, f0: 0.6, rough: 0.3 }), { round: 0.4 }),
      box(placed(wall, -2.2, 47, 0.7), [6.4, 5, 0.35], plain(TONES.pale, { rough: 0.5 }), 0.15),
      rod([...arc, at(-6, 43.6), at(-2.2, 43.6)], 0.36, digits),
      rod([at(-0.2, 50), at(3.4, 50), at(0.9, 43.6)], 0.36, digits),
      box(placed(wall, -2, 66, 2.4), [2.6, 4, 2.2], plain(TONES.plastic, { rough: 0.4 }), 0.3),
      box(placed(wall, -2, 64.6, 2.6), [2, 2.2, 2.2], plain(TONES.paint, { rough: 0.2 }), 0.2),
    ],
    camera: { at: [-12, -52, 54], to: [3, 0, 49], fov: 60, up: [0.02, 0, 1] },
    develop: { focus: 54, blur: 0.3 },
    lamps: [{ at: [-120, -150, 190], rgb: [110, 104, 96], radius: 10 }],
    sky: [0.62, 0.68, 0.78],
    ground: [0.24, 0.23, 0.22],
  };
};

const peeled = () => {
  const arc = Array.from({ length: 18 }, (_, i) => {
    const a = -Math.PI / 2 + (i / 17) * Math.PI * 1.02;
    return [Math.cos(a) * 3.4, 3.6 + Math.sin(a) * 3.4];
  });
  const points = [[-24, 0.2], ...arc, [-7, 7.6]];
  const front = sheet(71, { print: 0.8 });
  const back = (u, v, px, m) => {
    sheet(74)(u, v, px, m);
    const ridge = 0.5 + 0.5 * Math.sin(v * 12.566 + 1.5 * noise(u * 0.5, v * 0.4, 5));
    const share = ramp(0.15, 0.6, ridge + 0.5 * fbm(u * 0.8, v * 0.8, 3, 6) + 0.25);
    const k = 0.82 + 0.16 * fbm(u * 4, v * 4, 3, 7);
    for (const [i, c] of ['r', 'g', 'b'].entries()) m[c] += (TONES.mortar[i] * k - m[c]) * share;
    m.bump = (a, b) => 0.045 * ramp(0.2, 0.8, 0.5 + 0.5 * Math.sin(b * 12.566 + 1.5 * noise(a * 0.5, b * 0.4, 5))) + 0.03 * fbm(a * 4, b * 4, 3, 8);
    m.rough = 0.62;
  };
  const material = (u, v, px, m, w, side) => (v < 24.2 ? front : back)(u, v, px, m, w, side);
  const pulled = (u, v) => 0.06 + 0.1 * ramp(0.2, 0.8, 0.5 + 0.5 * Math.sin(v * 12.566 + 1.2 * noise(u * 0.5, v * 0.4, 5))) * (0.7 + 0.6 * noise(u * 2.4, v * 2.4, 6)) + 0.03 * fbm(u * 5, v * 5, 3, 7);
  return {
    shapes: [
      plane(LYING, board()),
      layer(LYING, [-30, -2, 30, 30], 0.34, pulled, thinset(0.8, 55), { slack: 0.5 }),
      { ...curl(LYING, -9, 30, points, 0.04, material), wrap: true },
    ],
    ...lamps({ from: [-24, 26, 30] }),
  };
};

const cutting = () => ({
  shapes: [
    plane(LYING, wood(19)),
    ...roll(placed(LYING, -2, 9, 0, 4), 30, 3.2, sheet(81)),
    layer(placed(LYING, 6, -8, 0, -7), [-11, -5, 9, 4], 0.2, (u, v) => 0.07 + 0.05 * fbm(u * 0.2, v * 0.2, 2, 4), sheet(84), { corner: 0 }),
    layer(placed(LYING, -14, -7, 0, 12), [-5, -4, 5, 4], 0.2, () => 0.06, sheet(86)),
    ...knife(placed(LYING, 7, -8.5, 0.1, 32)),
    box(placed(LYING, 4, -4, 0.15, -7), [12, 0.8, 0.06], plain(TONES.pale, { rough: 0.35, metal: 1, f0: 0.6 }), 0.02),
  ],
  ...lamps({ from: [-40, 30, 44], strength: 1.5 }),
});

const rolling = () => {
  const edge = (u, v) => ramp(0.8, -1.6, u + 1.1 * fbm(u * 0.3, v * 0.4, 3, 4) + 0.5 * noise(u * 2, v * 2.4, 5)) * 1.15;
  return {
    shapes: [plane(LYING, coat(sheet(401, { scuffs: 0.3 }), { cover: edge, seed: 93 })), ...roller(placed(LYING, -2, 5, 0, 90))],
    ...lamps({ from: [-30, 34, 34], strength: 1.3 }),
  };
};

const miss = (u, v) => {
  const hole = (a, b, r, s) => ramp(r, r * 0.35, Math.hypot((u - a) * 0.8, v - b) + 1.1 * fbm(u * 0.5, v * 0.5, 3, s));
  return 1.05 - 1.05 * Math.max(hole(-1, 0.5, 2.8, 3), hole(6.5, 4.2, 1.3, 4), hole(-7, 5, 1.5, 6)) - 0.35 * ramp(2, 0, Math.abs(u + v * 0.1 - 3 + fbm(0, v * 0.2, 2, 8)));
};

const flange = () => {
  const fitting = drain(placed(LYING, 0, 0, 0));
  return { shapes: [cut(plane(LYING, sandBed(31)), fitting.hole), ...fitting.solids], ...lamps({ from: [-20, 22, 26] }) };
};

const flangeBonded = (more = []) => {
  const fitting = drain(placed(LYING, 0, 0, 0));
  const hole = cylinder(placed(LYING, 0, 0, -2), 2.05, 6, plain(TONES.dark));
  const under = sheet(601, { print: 0.3, smears: [{ box: [-5.3, -5.3, 5.3, 5.3], width: 0.6 }] });
  const patch = membrane(TONES.piece, { seed: 611, weave: 0.3, smears: [] });
  const ring = layer(LYING, [-5.4, -5.4, 5.4, 5.4], 0.4, (u, v) => 0.26 + 0.02 * noise(u * 0.4, v * 0.4, 5), patch, { corner: 1.2 });
  return {
    shapes: [
      cut(layer(LYING, [-60, -60, 60, 60], 0.3, (u, v) => 0.18 + 0.02 * noise(u * 0.3, v * 0.3, 4), under), hole),
      cut(ring, hole),
      ...fitting.solids,
      ...more,
    ],
    ...lamps({ from: [-20, 22, 26] }),
  };
};

const pail2 = () => ({
  shapes: [plane(LYING, wood(23)), ...pail(placed(LYING, 0, 0, 0), 5.6), rod([[2.2, 1.4, 4], [5.2, 3.2, 11], [7.6, 4.6, 17]], 0.32, wood(9))],
  ...lamps({ from: [-30, 24, 50], strength: 1.5 }),
});

const ceiling = () => {
  const up = frame([0, 0, 96], [1, 0, 0], [0, -1, 0], [0, 0, -1]);
  const paint = paintwork();
  return {
    shapes: [
      plane(up, paint),
      plane(frame([0, 70, 0], [1, 0, 0], [0, 0, 1], [0, -1, 0]), paintwork(TONES.mesh, 124)),
      plane(frame([64, 0, 0], [0, -1, 0], [0, 0, 1], [-1, 0, 0]), paintwork(TONES.mesh, 125)),
      cylinder(placed(up, 12, -34), 3.4, 0.3, plain(TONES.paint, { rough: 0.5 }), { bore: 2.7, round: 0.1 }),
      cylinder(placed(up, 12, -34, -0.02), 2.7, 0.1, plain([1.4, 1.36, 1.28], { rough: 0.5, uneven: 0 })),
      cylinder(placed(up, 38, -48), 2.7, 1.4, plain(TONES.paint, { rough: 0.5 }), { round: 0.4 }),
      cylinder(placed(up, 38, -48), 1.2, 1.6, plain(TONES.mesh, { rough: 0.5 }), { round: 0.2 }),
      box(placed(up, -8, -60, 0.1), [7, 3, 0.25], plain(TONES.paint, { rough: 0.5 }), 0.05),
      ...[-2, -1, 0, 1, 2].map((i) => box(placed(up, -8, -60 + i, 0.35), [6.2, 0.16, 0.08], plain(TONES.board, { rough: 0.5 }), 0.05)),
    ],
    camera: { at: [10, -16, 60], to: [14, 44, 97], fov: 54, up: [0.03, 0, 1] },
    develop: { focus: 60, blur: 0.3 },
    lamps: [{ at: [12, 34, 60], rgb: [0.9, 0.86, 0.8], radius: 9 }, { at: [-30, -20, 50], rgb: [2, 1.92, 1.84], radius: 9 }],
    sky: [0.32, 0.33, 0.35],
    ground: [0.36, 0.34, 0.32],
  };
};

const filled = () => {
  const mark = layer(CURB_IN, [22, 2.62, 52, 2.67], 0.3, () => 0.15, plain(TONES.dark, { rough: 0.9 }), { slack: 1 });
  const stand = ruler(frame([22, 3.4, fall(22, 3) + 0.3], [-1, 0, 0], [0, 0, 1], [0, 1, 0]));
  // A window across the room, out of the picture, whose light lies on the water.
  const pane = (u, v) => box(placed(frame([0, -60, 0], [1, 0, 0], [0, 0, 1], [0, -1, 0]), u, v), [7, 11, 0.2], plain([15, 15.6, 16.8], { uneven: 0 }));
  return {
    ...wide([17, 12.5, 5.6], [22.4, 1.6, 1.9], [...liner(), mark, ...stand, pane(22, 40), pane(38, 40), pane(22, 64), pane(38, 64), ...plug(placed(FLOOR, 30, 18, 0.2))], { from: [40, 30, 66], at: [20, -6, 90], work: 1.4 }),
    water: { z: 2.1, box: [0, 0, 60, 36], ripple: 0.05, tint: [0.1, 0.07, 0.06] },
  };
};

export const PICTURES = [
  { file: '01-house-front.jpg', camera: { taken: '2026:03:06 07:41:09' }, scene: houseFront },
  { file: '02-boards-north.jpg', scene: () => wide([26, -40, 58], [31, 36, 36], [...shell(), ...tools]) },
  { file: '03-joint-north-screws.jpg', scene: () => near([-0.4, -6, 8], [1, 0.2, 0], { shapes: [plane(LYING, board({ joints: [{ v: 0.5 }], dust: 0.3, seed: 11 })), ...[-2.2, 2.8].map((v) => screws(placed(LYING, 1.5, v), [-40, -1, 40, 1], 8))], ...lamps({ from: [-24, 18, 22] }) }) },
  { file: '04-valve-wall-east.jpg', scene: () => wide([8, 6, 52], [60, 19, 44], shell({ dusty: 0.4 })) },
  { file: '05-boards-west.jpg', scene: () => wide([52, 6, 54], [0, 20, 40], shell({ dusty: 0.3 })) },
  { file: '06-bed-floor-level.jpg', scene: () => wide([22, -16, 50], [31, 18, 0], [...shell(), ...level(placed(FLOOR, 24, 24, fall(24, 24) + 0.1, 14))]) },
  { file: '07-drain-floor-flange.jpg', scene: () => near([-2, -9, 12], [0.3, 0.3, 0], flange()) },
  { file: '08-boards-curb.jpg', scene: () => wide([16, -32, 30], [30, 0, 3], shell()) },
  { file: '09-cutting-sheets.jpg', camera: { taken: '2026:03:06 10:22:57' }, scene: () => near([-6, -26, 24], [1, 0, 0], cutting()) },
  { file: '10-dry-fit-north.jpg', scene: () => wide([24, -38, 58], [32, 36, 36], [...shell(), ...sheets({ loose: true, print: 0, scuffs: 0.1, only: ['north'], lines: true })]) },
  { file: '11-lap-north-tape.jpg', scene: () => near([-1.7, -1.6, 6.8], [-0.1, 1.9, 0], lapTape({ lap: 2.6875, ground: board(), lower: sheet(71, { scuffs: 0.2 }), upper: sheet(99, { scuffs: 0.2 }) })) },
  { file: '12-lap-east-tape.jpg', scene: () => near([0.6, -1.8, 6.6], [-0.4, 1.8, 0], lapTape({ lap: 2.25, turn: 3, ground: board({ seed: 311 }), lower: sheet(171, { scuffs: 0.2 }), upper: sheet(199, { scuffs: 0.1 }), light: { from: [24, 26, 30] } })) },
  { file: '13-lap-floor-tape.jpg', scene: () => near([-2.4, -2.4, 6.4], [-0.2, 1.8, 0], lapTape({ lap: 2.375, turn: -2, ground: sandBed(), lower: sheet(271), upper: sheet(299), light: { from: [-20, 14, 40], warm: 1.4 } })) },
  { file: '14-lap-curb-tape.jpg', scene: () => near([-0.4, -2.4, 6.2], [-0.4, 1.7, 0], lapTape({ lap: 2.125, turn: -4, ground: board({ seed: 411 }), lower: sheet(371), upper: sheet(399), light: { from: [-8, 34, 26] } })) },
  { file: '15-ridges-north-trowel.jpg', scene: () => near([3, -17, 13], [1, -3, 0], { shapes: [plane(LYING, board()), combed(LYING, [-40, -6.5, 40, 40], { seed: 5 }), ...trowel(placed(LYING, 1, -9, 0.02, 8))], ...lamps({ from: [-22, 18, 34], strength: 1.1, fill: 0.5 }) }) },
  { file: '16-peeled-north-back.jpg', scene: () => facing([-9, 16, 17], [-1.5, 1, 1.5], peeled()) },
  { file: '17-bonded-north.jpg', scene: () => wide([22, -36, 56], [33, 36, 34], [...shell(), ...sheets({ only: ['north'] }), ...tools]) },
  { file: '18-bonded-east.jpg', scene: () => wide([8, 4, 52], [60, 19, 42], [...shell(), ...sheets({ only: ['north', 'east'] })]) },
  { file: '19-ridges-floor.jpg', scene: () => near([-9, -13, 13], [2, 1, 0], { ...flange(), shapes: [...flange().shapes, cut(combed(LYING, [-40, -9, 40, 40], { seed: 15, angle: 18 }), cylinder(placed(LYING, 0, 0, -2), 5.2, 5, thinset()))] }) },
  { file: '20-bonded-floor.jpg', scene: () => wide([27, -16, 56], [30, 18, 0], [...shell(), ...sheets()]) },
  { file: '21-drain-floor-bonded.jpg', scene: () => near([-2, -11, 14], [0.5, 0.5, 0], flangeBonded()) },
  { file: '22-bonded-curb.jpg', scene: () => wide([18, -32, 30], [31, 0, 3], [...shell(), ...sheets()]) },
  { file: '23-band-north-west-corner.jpg', scene: () => wide([18, 14, 46], [2, 34, 34], liner()) },
  { file: '24-corner-piece-north-east.jpg', scene: () => wide([46, 18, 17], [58.5, 34.5, 2], liner(), { from: [30, -10, 60] }) },
  { file: '25-band-north-tape.jpg', scene: () => facing([-1.4, 6.2, 6.4], [0, 1.5, 0], bandTape({ lap: 2.5, under: sheet(401, { smears: [{ box: [-40, 0, 40, 2.5], width: 0.5 }] }), band: band(801) })) },
  { file: '26-collar-east.jpg', scene: () => wide([44, 6, 31], [59, 18, 24], liner(), { from: [20, -14, 60] }) },
  { file: '27-banded-east.jpg', scene: () => wide([6, 2, 54], [60, 20, 34], liner()) },
  { file: '28-band-west-tape.jpg', scene: () => facing([1.6, 6, 6.2], [0.1, 1.5, 0], bandTape({ lap: 2.3125, turn: 3, under: board({ seed: 211 }), band: band(831), light: { from: [26, 24, 30] } })) },
  { file: '29-banded-west.jpg', scene: () => wide([50, 2, 54], [0, 22, 34], liner()) },
  { file: '30-banded-floor.jpg', scene: () => wide([32, -18, 58], [29, 17, 0], liner()) },
  { file: '31-banded-curb.jpg', scene: () => wide([22, 22, 24], [2, -2, 4], liner(), { from: [40, -30, 60] }) },
  { file: '32-band-east-tape.jpg', scene: () => facing([-0.6, 6.6, 6], [0, 1.5, 0], bandTape({ lap: 2.4375, turn: -3, under: sheet(501, { scuffs: 0.3 }), band: band(861), light: { from: [14, 24, 30] } })) },
  { file: '33-band-curb-tape.jpg', scene: () => facing([-1.8, 5.4, 5.8], [0, 1.3, 0], bandTape({ lap: 1.875, turn: 2, under: sheet(701), band: band(871), light: { from: [-14, 26, 26] } })) },
  { file: '34-coat-pail.jpg', scene: () => near([-3, -11, 19], [0.5, 0.8, 5], pail2()) },
  { file: '35-coat-north-roller.jpg', scene: () => near([1.5, -14, 15], [0.5, 1.2, 0], rolling()) },
  { file: '36-coated-north.jpg', scene: () => wide([20, -32, 58], [33, 36, 38], [...liner(), coated({ wall: 'north' })]) },
  { file: '37-comb-north.jpg', scene: () => near([-0.5, -4.3, 2.5], [0, 0, 0.55], combInFilm({ wet: 4, under: sheet(401), cover: () => 1.1, seed: 91, light: { from: [-16, -22, 26] } })) },
  { file: '38-coated-west.jpg', scene: () => wide([55, -26, 58], [10, 26, 36], [...liner(), coated({ wall: 'north' }), coated({ wall: 'west', seed: 95 })], { from: [56, -18, 62], work: 1.3, fill: 0.6, ceiling: 0.8 }) },
  { file: '39-coat-west-miss.jpg', scene: () => near([-2, -11, 15], [0.5, 1.5, 0], { shapes: [plane(LYING, coat(board({ seed: 211, joints: [{ v: 9 }] }), { cover: miss, seed: 97 }))], ...lamps({ from: [-26, 34, 26] }) }) },
  { file: '40-comb-west.jpg', scene: () => near([0.7, -4.2, 2.7], [0, 0, 0.55], combInFilm({ wet: 3, under: board({ seed: 211 }), cover: () => 1, seed: 98, turn: -6, light: { from: [16, -20, 30] } })) },
  { file: '41-coated-east.jpg', scene: () => wide([5, -26, 56], [50, 26, 36], [...liner(), coated({ wall: 'north', wet: 0.3 }), coated({ wall: 'west', wet: 0.3, seed: 95 }), coated({ wall: 'east', seed: 99 })], { from: [4, -18, 62], work: 1.3, fill: 0.6, ceiling: 0.8 }) },
  { file: '42-plug-drain.jpg', camera: { taken: '2026:03:10 06:49:15' }, scene: () => near([-3, -9, 11], [0.3, 0.2, 0], flangeBonded(plug(placed(LYING, 0, 0, 0)))) },
  { file: '43-water-ruler.jpg', camera: { taken: '2026:03:10 06:54:02' }, scene: filled },
  { file: '44-ceiling-below.jpg', portrait: true, camera: { taken: '2026:03:10 06:58:41' }, scene: ceiling },
];
