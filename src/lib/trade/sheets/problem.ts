// Words of this folder. A strip lies along x and its band runs across, along y; a room whose strips run along its own y comes here
// with its coordinates swapped. All lengths are whole ten-thousandths of the drawing's unit (measure/exact.ts).
import type { Point } from '#lib/measure/plane.ts';
import type { Trapezoids } from '#lib/measure/trapezoids.ts';

/** An open disc, such as a drain, that no seam may meet. */
export interface KeepOut {
  readonly at: Point;
  readonly radius: number;
}

/** What strips in one direction have to do. */
export interface StripProblem {
  readonly region: Trapezoids;
  /** Bands start at its multiples, and cut lengths are its multiples. */
  readonly gauge: number;
  /** Width of the roll. */
  readonly width: number;
  /** The least overlap of neighbours. */
  readonly overlap: number;
  /** How far a sheet goes up a wall at both ends of a piece, and beyond the outermost walls along the strips. */
  readonly upturn: number;
  /** The longest cut. */
  readonly longest: number;
  readonly keepOuts: readonly KeepOut[];
  /** Places where a band has to start, in ascending order: a seam that somebody dragged there. */
  readonly pins: readonly number[];
}

/** True while there is time. Whoever solves asks it now and then, and answers with the best so far when it says no. */
export type Budget = () => boolean;
