import { CARD, isBlackCell, MARKER_CELLS } from '#lib/vision/card.ts';
import { board } from './boards.mjs';
import { lamps, LYING } from './close.mjs';
import { seenAt } from './lens.mjs';
import { coat } from './materials.mjs';
import { noise, ramp } from './noise.mjs';
import { over, put, TONES } from './paint.mjs';
import { layer, placed, plane } from './shapes.mjs';
import { near, sheet } from './views.mjs';

/** Pictures to measure in, and what is true of them: where each point is seen in 1280 x 960 pixels, and what it measures on the surface. */

const MM = 25.4;
const { paper, frame, markers, bar } = CARD;
/** @returns {[x: number, y: number]} */
const pixel = (view, at) => seenAt(view.camera, 1280, 960, at);

/** What the tape of 11-lap-north-tape.jpg shows. */
const LAP = 2.6875;
const THICK = 0.03;
/** The card's paper, its middle at the origin, lying a little turned on the lower sheet. */
const CARD_LIES = placed(LYING, -0.7, -3.1, THICK, 5);

const card = (u, v, px, m) => {
  put(m, TONES.paint, 1);
  over(m, TONES.dark, 1, inkAt(u * MM + frame.width / 2, frame.height / 2 - v * MM, px * MM));
};

/** Black of the printed card at a place of it in mm, 0 to 1; its lines end over a pixel of `foot` mm. */
function inkAt(x, y, foot) {
  const inside = (depth) => Math.min(1, Math.max(0, depth / foot + 0.5));
  const out = Math.min(x, y, frame.width - x, frame.height - y);
  const ring = Math.min(inside(out), inside(frame.line - out));
  if (ring > 0 || out < frame.line) return ring;
  for (const [marker, [left, top]] of markers.at.entries()) {
    const [column, row] = [x - left, y - top].map((along) => Math.floor((along * MARKER_CELLS) / markers.side));
    if (Math.min(column, row) >= 0 && Math.max(column, row) < MARKER_CELLS) return isBlackCell(marker, column, row) ? 1 : 0;
  }
  return x > bar.x && x < bar.x + bar.length ? inside(0.5 - Math.abs(y - bar.y)) : 0;
}

/** The lap of the north wall at the dry fit, both edges in view, and the scale card on the lower sheet. */
export const lapWithCard = () =>
  near([0.5, -3.3, 12.6], [0, -0.95, 0], {
    shapes: [
      plane(LYING, board()),
      layer(LYING, [-40, -40, 40, LAP], 0.1, () => THICK, sheet(71, { scuffs: 0.2 })),
      layer(LYING, [0, 0, 40, 40], 0.1, (u, v) => THICK + THICK * ramp(LAP + 0.12, LAP - 0.1, v), sheet(99, { scuffs: 0.2 })),
      layer(
        CARD_LIES,
        [-1, -1, 1, 1].map((side, i) => (side * (i % 2 ? paper.height : paper.width)) / 2 / MM),
        0.1,
        () => 0.012,
        card,
      ),
    ],
    ...lamps(),
  });

export function lapTruth() {
  const view = lapWithCard();
  const corner = (x, y) => {
    const f = placed(CARD_LIES, ((x - 0.5) * frame.width) / MM, ((0.5 - y) * frame.height) / MM, 0.012);
    return pixel(view, f.o);
  };
  return {
    corners: [corner(0, 0), corner(1, 0), corner(1, 1), corner(0, 1)],
    from: pixel(view, [0, 0, 2 * THICK]),
    to: pixel(view, [0, LAP, THICK]),
    lengthMm: LAP * MM,
  };
}

/** The marked area, in inches: left, low, right, high. Its corners are marked with tape. */
const AREA = [-6.4, -4, 4.6, 4];
/** Misses: middle, diameter, lobes, and how far their outline swings. The last one is overlooked by whoever rolls over them. */
const MISSES = [
  [-4.2, 2.1, 1, 3, 0.16],
  [-1.2, -1.7, 0.65, 2, 0.12],
  [1.6, 1.3, 0.5, 4, 0.1],
  [2.7, -2.3, 0.75, 3, 0.18],
  [-3.6, -2.7, 0.42, 2, 0.1],
];

/** Inches inside the film at a place: the coat ends to the right of the area. */
const depthOf = (misses) => (u, v) =>
  misses.reduce(
    (least, [x, y, diameter, lobes, swing]) => {
      const radius = (diameter / 2) * (1 + swing * Math.sin(lobes * Math.atan2(v - y, u - x) + 9 * diameter));
      return Math.min(least, Math.hypot(u - x, v - y) - radius);
    },
    5.7 + 0.25 * noise(v * 0.7, 0, 5) + 0.08 * noise(v * 3, 0, 6) - u,
  );

/** Film of one thickness that ends within a millimetre. */
const cover = (misses) => {
  const depth = depthOf(misses);
  return (u, v) => Math.min(1.25, Math.max(-0.6, 0.48 + 40 * depth(u, v)));
};

/** Bits of tape outside the area, each with a corner at a corner of it. */
const taped = (under) => (u, v, px, m, w, side) => {
  under(u, v, px, m, w, side);
  const [left, low, right, high] = AREA;
  const [du, dv] = [Math.max(left - u, u - right), Math.max(low - v, v - high)];
  const off = Math.max(du, dv);
  if (off < 0 || off > 0.16 || Math.min(du, dv) < -0.6) return;
  put(m, TONES.card, 1);
  m.rough = 0.8;
  m.bump = null;
};

const coatOf = (misses, seed) =>
  near(
    [0.25, -0.9, 14.2],
    [0.1, 0, 0],
    {
      shapes: [plane(LYING, taped(coat(sheet(401, { scuffs: 0 }), { wet: 1, cover: cover(misses), seed })))],
      // Its reflection falls beside the picture.
      ...lamps({ from: [-46, 50, 48], strength: 2.4 }),
    },
    // Film and sheet are near grey: told apart where the picture is not pale.
    { grain: 0.5, exposure: 0.34 },
  );

export const coatMissed = () => coatOf(MISSES, 93);
export const coatMended = () => coatOf(MISSES.slice(-1), 93);

export function coatTruth(when) {
  const misses = when === 'before' ? MISSES : MISSES.slice(-1);
  const view = coatOf(misses, 93);
  const [left, low, right, high] = AREA;
  const at = (u, v) => pixel(view, [u, v, 0]);
  const depth = depthOf(misses);
  const STEP = 0.01;
  let [full, all] = [0, 0];
  for (let v = low + STEP / 2; v < high; v += STEP) for (let u = left + STEP / 2; u < right; u += STEP, all++) if (depth(u, v) > 0) full++;
  return {
    quad: [at(left, high), at(right, high), at(right, low), at(left, low)],
    widthMm: (right - left) * MM,
    heightMm: (high - low) * MM,
    unit: /** @type {const} */ ('in'),
    holes: misses.map(([u, v, diameter]) => ({ x: (u - left) * MM, y: (high - v) * MM, diameterMm: diameter * MM })),
    coveredShare: full / all,
    filmTaps: [at(-5.2, -0.4), at(0, 3), at(3.6, -0.4)],
    bareTaps: [at(6.7, 1), ...(when === 'before' ? [at(MISSES[0][0], MISSES[0][1])] : [])],
  };
}
