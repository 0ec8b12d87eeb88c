import { rectangleOf, type DrawnPlace, type MarkedArea, type MarkedPhoto } from '#lib/job/drawing/marks.ts';
import type { RoomShape } from '#lib/job/drawing/shape.ts';
import type { Shot } from '#lib/job/state.ts';
import { Measuring } from '#lib/state/measuring.svelte.ts';
import type { OpenJob } from '#lib/state/job.svelte.ts';
import { Corners } from '../../measure/taps.svelte.ts';

/** An area of one plane: two opposite corners touched on the drawing, and the four tapped in the photo that shows it. */
export class AreaOnDrawing {
  readonly taps: Corners;
  readonly measuring: Measuring;
  #touched: readonly DrawnPlace[] = $state.raw([]);

  constructor(job: OpenJob, shot: Shot) {
    this.taps = new Corners(job.state.units);
    this.measuring = new Measuring(() => job.blob(shot.picture.sha256));
  }

  /** A third touch, or one on another plane, begins anew. */
  touch(place: DrawnPlace): void {
    const [first] = this.#touched;
    this.#touched = first?.wall === place.wall && this.#touched.length === 1 ? [first, place] : [place];
  }

  /** A wall from corner to corner, or the box around the floor. */
  whole(shape: RoomShape, wall: number | null): void {
    const one = wall === null ? undefined : shape.walls[wall];
    const [xs, ys] =
      one === undefined
        ? [shape.outline.map(({ x }) => x), shape.outline.map(({ y }) => y)]
        : [
            [0, one.length],
            [0, one.height],
          ];
    this.#touched = [
      { wall, x: Math.min(...xs), y: Math.min(...ys) },
      { wall, x: Math.max(...xs), y: Math.max(...ys) },
    ];
  }

  /** What the drawing shows by numbers: the first touch, then the four corners in order around. */
  readonly marks = $derived.by(() => {
    const [first] = this.#touched;
    const corners = this.#corners;
    const places = corners ?? (first === undefined ? [] : [first]);
    return places.map((at, i) => ({ n: i + 1, wall: first?.wall ?? null, at }));
  });

  /** Its middle; null until both corners are touched. */
  readonly place = $derived.by((): DrawnPlace | null => {
    const [a, b] = this.#touched;
    if (a === undefined || b === undefined) return null;
    return { wall: a.wall, x: Math.round((a.x + b.x) / 2), y: Math.round((a.y + b.y) / 2) };
  });

  readonly area = $derived.by((): MarkedArea | null => {
    const corners = this.#corners;
    return corners === null ? null : { corners, inPhoto: this.#inPhoto };
  });

  get #corners() {
    const [a, b] = this.#touched;
    return a === undefined || b === undefined || a.x === b.x || a.y === b.y ? null : rectangleOf(a, b);
  }

  get #inPhoto(): MarkedPhoto | null {
    const { photo } = this.measuring;
    const { quad } = this.taps;
    return photo === null || quad === null ? null : { width: photo.width, height: photo.height, corners: quad };
  }
}
