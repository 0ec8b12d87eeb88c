/** A place in a photo, in pixels of the upright picture, the centre of the first at (0.5, 0.5). */
export type Place = readonly [x: number, y: number];

/** Something tapped in a photo. A `sharp` one is moved under the loupe, and counts only once it was. */
export interface Mark {
  readonly id: string;
  readonly name: string;
  readonly at: Place | null;
  readonly look: 'cross' | 'corner' | 'disc' | 'ring';
  readonly sharp: boolean;
  /** Moved under the loupe. */
  readonly fine: boolean;
}

/** A line over a photo. */
export interface Line {
  readonly points: readonly Place[];
  readonly closed: boolean;
  /** Found by us, not tapped. */
  readonly found: boolean;
}

/** A numbered place drawn around: `rx` in pixels of the picture. */
export interface Ring {
  readonly n: number;
  readonly at: Place;
  readonly rx: number;
  readonly struck: boolean;
}

/** How near to a mark, in CSS pixels, a touch takes it up again. */
const NEAR_PX = 22;
/** CSS pixels of the loupe to a pixel of the picture. */
export const LOUPE_BY = 2;

/** The mark that lies under the loupe when it is touched: the nearest sharp one, if one is near enough; `perPx`: pixels of the picture to a CSS pixel. */
function markNear(marks: readonly Mark[], [x, y]: Place, perPx: number): Mark | null {
  const near = marks
    .flatMap((mark) => (mark.at === null || !mark.sharp ? [] : [{ mark, off: Math.hypot(mark.at[0] - x, mark.at[1] - y) / perPx }]))
    .filter(({ off }) => off <= NEAR_PX)
    .sort((a, b) => a.off - b.off)[0];
  return near?.mark ?? null;
}

/** The mark that the next touch sets: the first without a place. */
function nextMark(marks: readonly Mark[]): Mark | null {
  return marks.find(({ at }) => at === null) ?? null;
}

/**
 * What a touch on the photo does: takes up a mark that lies near, or sets the next one there. Close beside the mark just moved under the loupe it sets
 * the next, as the two ends of a gap lie close together; corners of an area never do, so there a second touch is one too many.
 */
export function touched(marks: readonly Mark[], at: Place, perPx: number, held: string | null): { take: Mark } | { set: Mark } | null {
  const [near, next] = [markNear(marks, at, perPx), nextMark(marks)];
  const done = near !== null && near.id === held && near.fine && next !== null && next.look !== 'corner';
  if (near !== null && !done) return { take: near };
  return next === null ? null : { set: next };
}

/** Inside the picture. */
export function within([x, y]: Place, { width, height }: { readonly width: number; readonly height: number }): Place {
  return [Math.min(Math.max(x, 0), width), Math.min(Math.max(y, 0), height)];
}
