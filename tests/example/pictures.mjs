import { houseFront, ceiling, cutting, stirredPail } from './around.mjs';
import { board } from './boards.mjs';
import { bandTape, combInFilm, combed, lamps, lapTape, LYING } from './close.mjs';
import { coat, sandBed, thinset } from './materials.mjs';
import { level, plug, trowel } from './props.mjs';
import { coated, fall, FLOOR, screws, sheets, shell } from './room.mjs';
import { cut, cylinder, placed, plane } from './shapes.mjs';
import { coatMended, coatMissed, lapWithCard } from './measured.mjs';
import { near, facing, wide, sheet, band, liner, tools } from './views.mjs';
import { peeled, rolling, miss, flange, flangeBonded, filled } from './work.mjs';

/**
 * The pictures of the example, in the order the work went. Each `scene()` is drawn by render.mjs and finished by develop.mjs.
 * What a tape or a comb shows is what the log says was read.
 */

export const PICTURES = [
  { file: '01-house-front.jpg', camera: { taken: '2026:03:06 07:41:09' }, scene: houseFront },
  { file: '02-boards-north.jpg', scene: () => wide([26, -44, 58], [31, 36, 30], [...shell(), ...tools]) },
  {
    file: '03-joint-north-screws.jpg',
    scene: () =>
      near([-0.4, -6, 8], [1, 0.2, 0], {
        shapes: [
          plane(LYING, board({ joints: [{ v: 0.5 }], dust: 0.3, seed: 11 })),
          ...[-2.2, 2.8].map((v) => screws(placed(LYING, 1.5, v), [-40, -1, 40, 1], 8)),
        ],
        ...lamps({ from: [-24, 18, 22] }),
      }),
  },
  { file: '04-valve-wall-east.jpg', scene: () => wide([8, 6, 52], [60, 19, 44], shell({ dust: 0.4 })) },
  { file: '05-boards-west.jpg', scene: () => wide([52, 6, 54], [0, 20, 40], shell({ dust: 0.3 })) },
  {
    file: '06-bed-floor-level.jpg',
    scene: () => wide([22, -16, 50], [31, 18, 0], [...shell(), ...level(placed(FLOOR, 24, 24, fall(24, 24) + 0.1, 14))]),
  },
  { file: '07-drain-floor-flange.jpg', scene: () => near([-2, -9, 12], [0.3, 0.3, 0], flange()) },
  { file: '08-boards-curb.jpg', scene: () => wide([16, -32, 30], [30, 0, 3], shell()) },
  { file: '09-cutting-sheets.jpg', camera: { taken: '2026:03:06 10:22:57' }, scene: () => near([-6, -26, 24], [1, 0, 0], cutting()) },
  {
    file: '10-dry-fit-north.jpg',
    scene: () =>
      wide([24, -42, 58], [32, 36, 31], [...shell(), ...sheets({ loose: true, print: 0, scuffs: 0.1, only: ['north'], lines: true })]),
  },
  {
    file: '11-lap-north-tape.jpg',
    scene: () =>
      near(
        [-1.7, -1.6, 6.8],
        [-0.1, 1.9, 0],
        lapTape({ lap: 2.6875, ground: board(), lower: sheet(71, { scuffs: 0.2 }), upper: sheet(99, { scuffs: 0.2 }) }),
      ),
  },
  { file: '45-lap-north-card.jpg', scene: lapWithCard },
  {
    file: '12-lap-east-tape.jpg',
    scene: () =>
      near(
        [0.6, -1.8, 6.6],
        [-0.4, 1.8, 0],
        lapTape({
          lap: 2.25,
          turn: 3,
          ground: board({ seed: 311 }),
          lower: sheet(171, { scuffs: 0.2 }),
          upper: sheet(199, { scuffs: 0.1 }),
          light: { from: [24, 26, 30] },
        }),
      ),
  },
  {
    file: '13-lap-floor-tape.jpg',
    scene: () =>
      near(
        [-2.4, -2.4, 6.4],
        [-0.2, 1.8, 0],
        lapTape({
          lap: 2.375,
          turn: -2,
          ground: sandBed(),
          lower: sheet(271),
          upper: sheet(299),
          light: { from: [-20, 14, 40], warm: 1.4 },
        }),
      ),
  },
  {
    file: '14-lap-curb-tape.jpg',
    scene: () =>
      near(
        [-0.4, -2.4, 6.2],
        [-0.4, 1.7, 0],
        lapTape({
          lap: 2.125,
          turn: -4,
          ground: board({ seed: 411 }),
          lower: sheet(371),
          upper: sheet(399),
          light: { from: [-8, 34, 26] },
        }),
      ),
  },
  {
    file: '15-ridges-north-trowel.jpg',
    scene: () =>
      near([3, -17, 13], [1, -3, 0], {
        shapes: [plane(LYING, board()), combed(LYING, [-40, -6.5, 40, 40], { seed: 5 }), ...trowel(placed(LYING, 1, -9, 0.02, 8))],
        ...lamps({ from: [-22, 18, 34], strength: 1.1, fill: 0.5 }),
      }),
  },
  { file: '16-peeled-north-back.jpg', scene: () => facing([-9, 16, 17], [-1.5, 1, 1.5], peeled()) },
  { file: '17-bonded-north.jpg', scene: () => wide([22, -42, 56], [33, 36, 29], [...shell(), ...sheets({ only: ['north'] }), ...tools]) },
  { file: '18-bonded-east.jpg', scene: () => wide([8, 4, 52], [60, 19, 42], [...shell(), ...sheets({ only: ['north', 'east'] })]) },
  {
    file: '19-ridges-floor.jpg',
    scene: () =>
      near([-9, -13, 13], [2, 1, 0], {
        ...flange(),
        shapes: [
          ...flange().shapes,
          cut(combed(LYING, [-40, -9, 40, 40], { seed: 15, angle: 18 }), cylinder(placed(LYING, 0, 0, -2), 5.2, 5, thinset())),
        ],
      }),
  },
  { file: '20-bonded-floor.jpg', scene: () => wide([27, -16, 56], [30, 18, 0], [...shell(), ...sheets()]) },
  { file: '21-drain-floor-bonded.jpg', scene: () => near([-2, -11, 14], [0.5, 0.5, 0], flangeBonded()) },
  { file: '22-bonded-curb.jpg', scene: () => wide([18, -32, 30], [31, 0, 3], [...shell(), ...sheets()]) },
  { file: '23-band-north-west-corner.jpg', scene: () => wide([18, 14, 46], [2, 34, 34], liner()) },
  { file: '24-corner-piece-north-east.jpg', scene: () => wide([46, 18, 17], [58.5, 34.5, 2], liner(), { from: [30, -10, 60] }) },
  {
    file: '25-band-north-tape.jpg',
    scene: () =>
      facing(
        [-1.4, 6.2, 6.4],
        [0, 1.5, 0],
        bandTape({ lap: 2.5, under: sheet(401, { smears: [{ box: [-40, 0, 40, 2.5], width: 0.5 }] }), band: band(801) }),
      ),
  },
  { file: '26-collar-east.jpg', scene: () => wide([44, 6, 31], [59, 18, 24], liner(), { from: [20, -14, 60] }) },
  { file: '27-banded-east.jpg', scene: () => wide([6, 2, 54], [60, 20, 34], liner()) },
  {
    file: '28-band-west-tape.jpg',
    scene: () =>
      facing(
        [1.6, 6, 6.2],
        [0.1, 1.5, 0],
        bandTape({ lap: 2.3125, turn: 3, under: board({ seed: 211 }), band: band(831), light: { from: [26, 24, 30] } }),
      ),
  },
  { file: '29-banded-west.jpg', scene: () => wide([50, 2, 54], [0, 22, 34], liner()) },
  { file: '30-banded-floor.jpg', scene: () => wide([32, -18, 58], [29, 17, 0], liner()) },
  { file: '31-banded-curb.jpg', scene: () => wide([22, 22, 24], [2, -2, 4], liner(), { from: [40, -30, 60] }) },
  {
    file: '32-band-east-tape.jpg',
    scene: () =>
      facing(
        [-0.6, 6.6, 6],
        [0, 1.5, 0],
        bandTape({ lap: 2.4375, turn: -3, under: sheet(501, { scuffs: 0.3 }), band: band(861), light: { from: [14, 24, 30] } }),
      ),
  },
  {
    file: '33-band-curb-tape.jpg',
    scene: () =>
      facing(
        [-1.8, 5.4, 5.8],
        [0, 1.3, 0],
        bandTape({ lap: 1.875, turn: 2, under: sheet(701), band: band(871), light: { from: [-14, 26, 26] } }),
      ),
  },
  { file: '34-coat-pail.jpg', scene: () => near([-3, -11, 19], [0.5, 0.8, 5], stirredPail()) },
  { file: '35-coat-north-roller.jpg', scene: () => near([1.5, -14, 15], [0.5, 1.2, 0], rolling()) },
  { file: '46-coat-north-miss.jpg', scene: coatMissed },
  { file: '47-coat-north-mended.jpg', scene: coatMended },
  { file: '36-coated-north.jpg', scene: () => wide([20, -32, 58], [33, 36, 38], [...liner(), coated({ wall: 'north' })]) },
  {
    file: '37-comb-north.jpg',
    scene: () =>
      near(
        [-0.5, -4.3, 2.5],
        [0, 0, 0.55],
        combInFilm({ wet: 4, under: sheet(401), cover: () => 1.1, seed: 91, light: { from: [-16, -22, 26] } }),
      ),
  },
  {
    file: '38-coated-west.jpg',
    scene: () =>
      wide([55, -26, 58], [10, 26, 36], [...liner(), coated({ wall: 'north' }), coated({ wall: 'west', seed: 95 })], {
        from: [56, -18, 62],
        work: 1.3,
        fill: 0.6,
        ceiling: 0.8,
      }),
  },
  {
    file: '39-coat-west-miss.jpg',
    scene: () =>
      near([-2, -11, 15], [0.5, 1.5, 0], {
        shapes: [plane(LYING, coat(thinset(0.25, 211), { cover: miss, seed: 97 }))],
        ...lamps({ from: [-26, 34, 26] }),
      }),
  },
  {
    file: '40-comb-west.jpg',
    scene: () =>
      near(
        [0.7, -4.2, 2.7],
        [0, 0, 0.55],
        combInFilm({ wet: 3, under: board({ seed: 211 }), cover: () => 1, seed: 98, turn: -6, light: { from: [16, -20, 30] } }),
      ),
  },
  {
    file: '41-coated-east.jpg',
    scene: () =>
      wide(
        [5, -26, 56],
        [50, 26, 36],
        [...liner(), coated({ wall: 'north', wet: 0.3 }), coated({ wall: 'west', wet: 0.3, seed: 95 }), coated({ wall: 'east', seed: 99 })],
        { from: [4, -18, 62], work: 1.3, fill: 0.6, ceiling: 0.8 },
      ),
  },
  {
    file: '42-plug-drain.jpg',
    camera: { taken: '2026:03:10 06:49:15' },
    scene: () => near([-3, -9, 11], [0.3, 0.2, 0], flangeBonded(plug(placed(LYING, 0, 0, 0)))),
  },
  { file: '43-water-ruler.jpg', camera: { taken: '2026:03:10 06:54:02' }, scene: filled },
  { file: '44-ceiling-below.jpg', portrait: true, camera: { taken: '2026:03:10 06:58:41' }, scene: ceiling },
];
