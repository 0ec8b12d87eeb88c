import { board } from './boards.mjs';
import { lamps, LYING } from './close.mjs';
import { membrane } from './cloth.mjs';
import { coat, plain, sandBed, thinset } from './materials.mjs';
import { fbm, noise, ramp } from './noise.mjs';
import { TONES } from './paint.mjs';
import { drain, plug, roller, ruler } from './props.mjs';
import { CURB_IN, fall, FLOOR } from './room.mjs';
import { box, curl, cut, cylinder, frame, layer, placed, plane } from './shapes.mjs';
import { wide, sheet, liner } from './views.mjs';

/** Pictures of the work itself that need more than one surface. */

/** A bonded sheet peeled back: mortar on its back shows how well it took. */
export const peeled = () => {
  const arc = Array.from({ length: 18 }, (_, i) => {
    const a = -Math.PI / 2 + (i / 17) * Math.PI * 1.02;
    return [Math.cos(a) * 3.4, 3.6 + Math.sin(a) * 3.4];
  });
  const points = [[-24, 0.2], ...arc, [-7, 7.6]];
  const front = sheet(71, { print: 0.8 });
  const fleece = sheet(74);
  const back = (u, v, px, m) => {
    fleece(u, v, px, m);
    const ridge = 0.5 + 0.5 * Math.sin(v * 12.566 + 1.5 * noise(u * 0.5, v * 0.4, 5));
    const share = ramp(0.15, 0.6, ridge + 0.5 * fbm(u * 0.8, v * 0.8, 3, 6) + 0.25);
    const k = 0.82 + 0.16 * fbm(u * 4, v * 4, 3, 7);
    for (const [i, c] of ['r', 'g', 'b'].entries()) m[c] += (TONES.mortar[i] * k - m[c]) * share;
    m.bump = (a, b) =>
      0.045 * ramp(0.2, 0.8, 0.5 + 0.5 * Math.sin(b * 12.566 + 1.5 * noise(a * 0.5, b * 0.4, 5))) + 0.03 * fbm(a * 4, b * 4, 3, 8);
    m.rough = 0.62;
  };
  const material = (u, v, px, m, w, side) => (v < 24.2 ? front : back)(u, v, px, m, w, side);
  const pulled = (u, v) =>
    0.06 +
    0.1 * ramp(0.2, 0.8, 0.5 + 0.5 * Math.sin(v * 12.566 + 1.2 * noise(u * 0.5, v * 0.4, 5))) * (0.7 + 0.6 * noise(u * 2.4, v * 2.4, 6)) +
    0.03 * fbm(u * 5, v * 5, 3, 7);
  return {
    shapes: [
      plane(LYING, board()),
      layer(LYING, [-30, -2, 30, 30], 0.34, pulled, thinset(0.8, 55), { slack: 0.5 }),
      { ...curl(LYING, -9, 30, points, 0.04, material), wrap: true },
    ],
    ...lamps({ from: [-24, 26, 30] }),
  };
};

/** The wet edge of the coat and the roller that made it. */
export const rolling = () => {
  const edge = (u, v) => ramp(0.8, -1.6, u + 1.1 * fbm(u * 0.3, v * 0.4, 3, 4) + 0.5 * noise(u * 2, v * 2.4, 5)) * 1.15;
  return {
    shapes: [plane(LYING, coat(sheet(401, { scuffs: 0.3 }), { cover: edge, seed: 93 })), ...roller(placed(LYING, -2, 5, 0, 90))],
    ...lamps({ from: [-30, 34, 34], strength: 1.3 }),
  };
};

/** Cover with three misses and one starved lane. */
export const miss = (u, v) => {
  const hole = (a, b, r, s) => ramp(r, r * 0.35, Math.hypot((u - a) * 0.8, v - b) + 1.1 * fbm(u * 0.5, v * 0.5, 3, s));
  return (
    1.05 -
    1.05 * Math.max(hole(-1, 0.5, 2.8, 3), hole(6.5, 4.2, 1.3, 4), hole(-7, 5, 1.5, 6)) -
    0.35 * ramp(2, 0, Math.abs(u + v * 0.1 - 3 + fbm(0, v * 0.2, 2, 8)))
  );
};

/** The drain's bonding flange in the bare bed. */
export const flange = () => {
  const fitting = drain(placed(LYING, 0, 0, 0));
  return { shapes: [cut(plane(LYING, sandBed(31)), fitting.hole), ...fitting.solids], ...lamps({ from: [-20, 22, 26] }) };
};

/** The flange under sheet and patch. */
export const flangeBonded = (more = []) => {
  const fitting = drain(placed(LYING, 0, 0, 0));
  const hole = cylinder(placed(LYING, 0, 0, -2), 2.05, 6, plain(TONES.dark));
  const under = sheet(601, { print: 0.3, smears: [{ box: [-5.3, -5.3, 5.3, 5.3], width: 0.6 }] });
  const patch = membrane(TONES.piece, { seed: 611, weave: 0.3, smears: [] });
  const ring = layer(LYING, [-5.4, -5.4, 5.4, 5.4], 0.4, (u, v) => 0.26 + 0.02 * noise(u * 0.4, v * 0.4, 5), patch, { corner: 1.2 });
  return {
    shapes: [
      cut(
        layer(LYING, [-60, -60, 60, 60], 0.3, (u, v) => 0.18 + 0.02 * noise(u * 0.3, v * 0.3, 4), under),
        hole,
      ),
      cut(ring, hole),
      ...fitting.solids,
      ...more,
    ],
    ...lamps({ from: [-20, 22, 26] }),
  };
};

/** Water over the plug, a ruler in it, the line it was filled to on the curb. */
export const filled = () => {
  const mark = layer(CURB_IN, [22, 2.62, 52, 2.67], 0.3, () => 0.15, plain(TONES.dark, { rough: 0.9 }), { slack: 1 });
  const stand = ruler(frame([22, 3.4, fall(22, 3) + 0.3], [-1, 0, 0], [0, 0, 1], [0, 1, 0]));
  // A window across the room, out of the picture, whose light lies on the water.
  const pane = (u, v) =>
    box(placed(frame([0, -60, 0], [1, 0, 0], [0, 0, 1], [0, -1, 0]), u, v), [7, 11, 0.2], plain([15, 15.6, 16.8], { uneven: 0 }));
  return {
    ...wide(
      [17, 12.5, 5.6],
      [22.4, 1.6, 1.9],
      [...liner(), mark, ...stand, pane(22, 40), pane(38, 40), pane(22, 64), pane(38, 64), ...plug(placed(FLOOR, 30, 18, 0.2))],
      { from: [40, 30, 66], at: [20, -6, 90], work: 1.4 },
    ),
    water: { z: 2.1, box: [0, 0, 60, 36], ripple: 0.05, tint: [0.1, 0.07, 0.06] },
  };
};
