import { findCard } from '#lib/vision/find-card.ts';
import type { Raster } from '#lib/vision/raster.ts';
import { expect, test } from 'vitest';

const [WIDTH, HEIGHT] = [800, 600];
const PX_PER_MM = 3;
const [PAPER, INK, GROUND] = [230, 25, 120];

/** Grey at a place in mm from the middle of the card, x along its long side. */
type Paint = (x: number, y: number) => number;

const inBox = (x: number, y: number, width: number, height: number) => Math.abs(x) < width / 2 && Math.abs(y) < height / 2;
/** Paper with a frame whose line is `line` mm wide, `right` on its right side. */
const framed =
  (line: number, right = line): Paint =>
  (x, y) => {
    if (!inBox(x, y, 150, 100)) return GROUND;
    return inBox(x, y, 140, 90) && !(Math.abs(y) < 45 - line && x > line - 70 && x < 70 - right) ? INK : PAPER;
  };

/** A picture that shows the paint with the middle of the card at (x, y) pixels, turned. */
function shown(paint: Paint, [atX, atY]: readonly [number, number], turnDeg: number): Raster {
  const [sin, cos] = [Math.sin((turnDeg * Math.PI) / 180), Math.cos((turnDeg * Math.PI) / 180)];
  const rgba = new Uint8Array(4 * WIDTH * HEIGHT).fill(255);
  for (let y = 0, at = 0; y < HEIGHT; y++) {
    for (let x = 0; x < WIDTH; x++, at += 4) {
      const [dx, dy] = [(x + 0.5 - atX) / PX_PER_MM, (y + 0.5 - atY) / PX_PER_MM];
      rgba.fill(paint(cos * dx + sin * dy, cos * dy - sin * dx), at, at + 3);
    }
  }
  return { width: WIDTH, height: HEIGHT, rgba };
}

const whole = framed(3);
const cases: [what: string, answer: 'found' | 'no-card' | 'card-cut-off', paint: Paint, middle: [number, number], turnDeg: number][] = [
  ['a whole frame', 'found', whole, [400, 300], 10],
  ['a frame of which two corners are in the picture, cut straight', 'card-cut-off', whole, [60, 300], 0],
  ['the same, turned', 'card-cut-off', whole, [60, 300], 25],
  ['two corners of a short side, cut by the corner of the picture', 'card-cut-off', whole, [690, 560], 38],
  ['three corners', 'card-cut-off', whole, [400, 440], 25],
  ['one corner, which a mitre of wood has too', 'no-card', whole, [0, 20], 10],
  ['a line from border to border', 'no-card', (_, y) => (Math.abs(y) < 1.5 ? INK : PAPER), [400, 300], 20],
  ['a line along a curve', 'no-card', (x, y) => (Math.abs(Math.hypot(x, y) - 80) < 1.5 ? INK : PAPER), [60, 300], 0],
  ['a dark board', 'no-card', (x, y) => (inBox(x, y, 140, 90) ? INK : PAPER), [60, 300], 25],
  [
    'a dark sheet with a darker edge',
    'no-card',
    (x, y) => (inBox(x, y, 140, 90) ? (inBox(x, y, 134, 84) ? 30 : INK) : PAPER),
    [60, 300],
    0,
  ],
  ['a frame as wide as a window has', 'no-card', framed(10), [60, 300], 25],
  ['a frame with one side three times as wide', 'no-card', framed(3, 9), [60, 300], 25],
];

test.each(cases)('%s: %s', (_, answer, paint, middle, turnDeg) => {
  const found = findCard(shown(paint, middle, turnDeg));
  expect(found.ok ? 'found' : found.fault).toBe(answer);
});
