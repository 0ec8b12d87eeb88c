import { invertHomography } from './homography.ts';
import { homographyOf, originOf, type View } from './plane.ts';

/** Focal lengths that a camera may have, in those taken for the view: from the widest of a phone to a far one. */
const FOCALS = Array.from({ length: 24 }, (_, i) => 0.45 * 1.1 ** i);

/**
 * How far a view is from one that a camera can have of a plane whose two axes are equally long and square to each other: the logarithm
 * of their ratio and the cosine between them, as one length, at the focal length that makes it least (Zhang, "A flexible new technique
 * for camera calibration", 2000, equations 3 and 4). Sides that were exchanged or are not those of the rectangle show here.
 */
export function offProportion(view: View): number {
  const [a, b, , d, e, , g, h] = invertHomography(homographyOf(view));
  // The horizon is told from the lens's axis.
  const [x, y] = originOf(view);
  const along = [a + x * g, d + y * g, g] as const;
  const across = [b + x * h, e + y * h, h] as const;
  return Math.min(
    ...FOCALS.map((focal) => {
      const dot = (p: typeof along, q: typeof along) => (p[0] * q[0] + p[1] * q[1]) / (focal * focal) + p[2] * q[2];
      const [longer, other] = [dot(along, along), dot(across, across)];
      return Math.hypot(Math.log(longer / other) / 2, dot(along, across) / Math.sqrt(longer * other));
    }),
  );
}
