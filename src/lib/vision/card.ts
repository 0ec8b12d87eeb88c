import type { Point } from './raster.ts';

/**
 * The scale card, in millimetres. Its own coordinates start at the outer corner of the frame, x along the long side: paper with a white
 * margin, a black frame that does the measuring, four square markers that tell the card from any other frame and its top from its
 * bottom, and a bar to check the printer by.
 */
export const CARD = {
  paper: { width: 150, height: 100 },
  margin: 5,
  frame: { width: 140, height: 90, line: 3 },
  markers: {
    side: 24,
    /** Top left corner of each. */
    at: [
      [9, 9],
      [107, 9],
      [107, 57],
      [9, 57],
    ],
  },
  bar: { length: 100, x: 20, y: 45 },
} as const;

/** Cells along a marker's side: one black cell around, and 6 x 6 inside. */
export const MARKER_CELLS = 8;

/**
 * What stands inside each marker, 1 is black: our own, found by a search. Each differs from every other, in every turn, and from itself
 * turned, in at least 16 of 36 cells.
 */
export const MARKER_CODES = [
  ['001110', '001100', '110001', '010100', '001101', '111111'],
  ['101000', '011110', '000110', '001011', '011001', '010111'],
  ['011011', '010000', '001100', '110101', '010101', '001110'],
  ['010010', '110101', '011111', '010000', '100011', '111011'],
] as const;

/** Whether a cell of a marker is black. */
export function isBlackCell(marker: number, column: number, row: number): boolean {
  const inside = column > 0 && row > 0 && column < MARKER_CELLS - 1 && row < MARKER_CELLS - 1;
  return !inside || MARKER_CODES[marker]![row - 1]![column - 1] === '1';
}

/** Middle of a marker's cell on the card. */
export function cellCentre(marker: number, column: number, row: number): Point {
  const [x, y] = CARD.markers.at[marker]!;
  const cell = CARD.markers.side / MARKER_CELLS;
  return [x + (column + 0.5) * cell, y + (row + 0.5) * cell];
}
