import * as z from 'zod/mini';
import { Hash, Id } from '../entry.ts';
import { Decimal } from './fields.ts';

/**
 * What was measured in a photo: the original's hash, every point that was tapped or found, and the method's version, so that anyone
 * can compute it again from the archive. Points are in pixels of the upright picture, the centre of the first at (0.5, 0.5).
 */
const Point = z.tuple([Decimal, Decimal]);
/** In order around: top left, top right, bottom right, bottom left. */
const Corners = z.tuple([Point, Point, Point, Point]);

/** The photo a value was computed in. Its size is that of the upright picture, in pixels. */
const Source = {
  sha256: Hash,
  width: z.int().check(z.minimum(1)),
  height: z.int().check(z.minimum(1)),
  /** Version of the method. */
  method: z.string().check(z.minLength(1), z.maxLength(60)),
  /** Scale at the middle of what it was measured by. */
  mmPerPx: Decimal,
};

/** What the length was measured by, its corners as tapped, if they were, and as found. `barMm`: what the card's bar measures on paper. */
const Reference = z.discriminatedUnion('kind', [
  z.looseObject({ kind: z.literal('card'), barMm: Decimal, tapped: z.optional(Corners), found: Corners }),
  z.looseObject({ kind: z.literal('rectangle'), widthMm: Decimal, heightMm: Decimal, tapped: Corners, found: Corners }),
]);

/** A length between two tapped ends, with its 95 % interval in the unit of the value. */
export const PhotoLength = z.looseObject({
  ...Source,
  reference: Reference,
  from: Point,
  to: Point,
  low: Decimal,
  high: Decimal,
  /**
   * What shows that the length lies in the plane of what it was measured by: two edges it runs across, parallel in that plane. Without,
   * nothing does, and the length proves nothing.
   */
  plane: z.optional(z.literal('edges')),
});
export type PhotoLength = z.infer<typeof PhotoLength>;

/** An area marked by its four corners in order around; `widthMm` is its first side. */
const PhotoArea = z.looseObject({ ...Source, corners: Corners, widthMm: Decimal, heightMm: Decimal });
export type PhotoArea = z.infer<typeof PhotoArea>;

export const MISS_KINDS = ['bare', 'thin'] as const;
/**
 * A place without film: its middle in mm from the area's first corner, x along its first side, and its diameter, if it was measured. One may be
 * `added` by the person, or `struck` out by them: what was found and what was said of it both stay.
 */
export const Miss = z.looseObject({
  x: Decimal,
  y: Decimal,
  diameter: z.optional(Decimal),
  kind: z.enum(MISS_KINDS),
  added: z.optional(z.literal(true)),
  struck: z.optional(z.literal(true)),
});
export type Miss = z.infer<typeof Miss>;

const Points = z.array(Point).check(z.maxLength(100));
/** Covered share of a marked area of a coat, in per cent with its 95 % interval, and the places it misses. */
export const Coverage = z.looseObject({
  surface: z.nullable(Id),
  coat: z.optional(z.int().check(z.minimum(1), z.maximum(20))),
  shot: Id,
  photo: PhotoArea,
  /** Places tapped as good film and as bare substrate. */
  film: Points,
  bare: Points,
  covered: Decimal,
  low: Decimal,
  high: Decimal,
  /** Share that shines too much to be judged. */
  unknown: Decimal,
  /** No miss above this diameter was found besides those named, in mm. */
  smallest: Decimal,
  misses: z.array(Miss).check(z.maxLength(500)),
  /** The entry of the same area before it was mended. */
  before: z.optional(Id),
  confirmed: z.optional(Id),
});
export type Coverage = z.infer<typeof Coverage>;

/** Share of a lifted sheet with mortar on it, in per cent, and the worst square of 100 mm: its share and first corner, in mm. */
export const Transfer = z.looseObject({
  surface: z.nullable(Id),
  shot: Id,
  photo: PhotoArea,
  /** A place tapped as mortar and one as bare sheet. */
  mortar: Point,
  sheet: Point,
  share: Decimal,
  low: Decimal,
  high: Decimal,
  worst: z.nullable(z.looseObject({ share: Decimal, x: Decimal, y: Decimal })),
  confirmed: z.optional(Id),
});
export type Transfer = z.infer<typeof Transfer>;
