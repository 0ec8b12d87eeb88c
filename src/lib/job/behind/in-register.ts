import type { Corners, MarkedArea } from '../drawing/marks.ts';
import type { TouchedPlace } from './strata.ts';

type Mm = readonly [x: number, y: number];

/** Four places of a plane in mm, y downwards as in a picture, and the same four in the photo, in pixels. */
export interface CornersKnown {
  readonly onPlane: Corners<Mm>;
  readonly inPhoto: Corners<Mm>;
}

/** How much of the plane is seen around a place, in mm: 30 in, wider than a band with what it joins. Common sense, no source. */
const SEEN_MM = { width: 760, height: 570 } as const;

const MM = { in: 25.4 / 10_000, mm: 1 / 10_000 } as const;

/** By what a photo is laid straight on its plane; null where its corners were not tapped in it. */
export function cornersKnown({ corners, inPhoto }: MarkedArea, unit: 'in' | 'mm'): CornersKnown | null {
  if (inPhoto === null) return null;
  const [a, b, c, d] = corners.map(({ x, y }): Mm => [x * MM[unit], 0 - y * MM[unit]]) as unknown as Corners<Mm>;
  return { onPlane: [a, b, c, d], inPhoto: inPhoto.corners };
}

/** The part of the plane that is shown of every layer, the place in its middle. */
export function partAround({ x, y, unit }: TouchedPlace): { xMm: number; yMm: number; widthMm: number; heightMm: number } {
  const { width, height } = SEEN_MM;
  return { xMm: x * MM[unit] - width / 2, yMm: 0 - y * MM[unit] - height / 2, widthMm: width, heightMm: height };
}
