import { lamps, LYING } from './close.mjs';
import { paintwork, plain, wood } from './materials.mjs';
import { fbm, noise } from './noise.mjs';
import { TONES } from './paint.mjs';
import { knife, pail, roll } from './props.mjs';
import { box, cut, cylinder, frame, layer, placed, plane, rod } from './shapes.mjs';
import { sheet } from './views.mjs';

/** Pictures of what lies around the work. */

/** The front of the house with its number: the first picture of a job. */
export const houseFront = () => {
  const wall = frame([0, 0, 0], [1, 0, 0], [0, 0, 1], [0, -1, 0]);
  const siding = (u, v) => 0.6 * ((((v / 7) % 1) + 1) % 1 < 0.06 ? 0 : 1 - ((((v / 7) % 1) + 1) % 1));
  const clap = (u, v, px, m) => {
    const k = 0.92 + 0.05 * noise(u * 0.3, v * 3, 5) + 0.05 * fbm(u * 0.1, v * 0.1, 3, 6);
    [m.r, m.g, m.b] = TONES.board.map((c) => c * k);
    m.rough = 0.7;
  };
  const trim = plain(TONES.paint, { rough: 0.6, uneven: 0.03 });
  const at = (u, v) => [u, -1.25, v];
  const arc = Array.from({ length: 12 }, (_, i) =>
    at(-4 + 2 * Math.cos(Math.PI - (i / 11) * 3.5), 48 + 2 * Math.sin(Math.PI - (i / 11) * 3.5)),
  );
  const digits = plain(TONES.plastic, { rough: 0.4 });
  return {
    shapes: [
      layer(wall, [-80, -20, 14, 120], 0.7, siding, clap, { slack: 0.5 }),
      box(placed(wall, 14, 50, 0.4), [2.2, 70, 0.9], trim, 0.1),
      box(placed(wall, 36, 50, -0.6), [20, 70, 0.6], plain(TONES.iron, { rough: 0.5, uneven: 0.04 }), 0.1),
      ...[74, 30].map((v) =>
        cut(
          box(placed(wall, 29, v, 0.05), [7, 17, 0.3], plain(TONES.iron, { rough: 0.5 }), 0.25),
          box(placed(wall, 29, v, 0.3), [5.4, 15.4, 0.3], plain(TONES.iron), 0.2),
        ),
      ),
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

/** The ceiling of the room below, before any water stands above it. */
export const ceiling = () => {
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
    lamps: [
      { at: [12, 34, 60], rgb: [0.9, 0.86, 0.8], radius: 9 },
      { at: [-30, -20, 50], rgb: [2, 1.92, 1.84], radius: 9 },
    ],
    sky: [0.32, 0.33, 0.35],
    ground: [0.36, 0.34, 0.32],
  };
};

/** The roll, two pieces cut from it, straightedge and knife. */
export const cutting = () => ({
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

/** A pail of coat, stirred. */
export const stirredPail = () => ({
  shapes: [
    plane(LYING, wood(23)),
    ...pail(placed(LYING, 0, 0, 0), 5.6),
    rod(
      [
        [2.2, 1.4, 4],
        [5.2, 3.2, 11],
        [7.6, 4.6, 17],
      ],
      0.32,
      wood(9),
    ),
  ],
  ...lamps({ from: [-30, 24, 50], strength: 1.5 }),
});
