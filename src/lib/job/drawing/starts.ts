import type { DrawingForm, Start, WallRow } from '../../record/drawing-drafts.ts';

/** A side of a starting shape: what it is, the turn at its end, and how long it is drawn while nobody has measured it, in inches. */
type Side = readonly [inches: number, as?: WallRow['as'], turn?: string];

/** Shapes to start from, our own: only their proportions are ours, every measure is typed. The walk begins by the way in, wall on the left hand. */
export const SHAPES: Readonly<Record<Start, readonly Side[]>> = {
  alcove: [[32], [60], [32], [60, 'curb']],
  'wing-walls': [[36], [60], [36], [14, 'full', '0'], [32, 'curb', '0'], [14]],
  'cut-corner': [[36], [36], [18, 'full', '45'], [25.5, 'curb', '45'], [18]],
  'open-side': [[40], [60], [40], [60, 'open']],
  'whole-room': [[60], [96], [60], [96]],
  ell: [[80], [60], [30], [24, 'full', '-90'], [50], [36]],
};

export function emptyWall(): WallRow {
  return { length: '', turn: '90', as: 'full', height: '', depth: '' };
}

export function startForm(room: string, start: Start): DrawingForm {
  const walls = SHAPES[start].map(([, as = 'full', turn = '90']) => ({ ...emptyWall(), as, turn }));
  return { room, start, height: '', walls, closing: '', givenTo: walls.length - 1, doorways: [], things: [] };
}
