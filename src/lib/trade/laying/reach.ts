import type { Point } from '#lib/measure/plane.ts';
import { SAME } from './ground.ts';
import { boxOf, clip, cornersWithin, type Convex } from './shapes.ts';
import { forPlacesIn, nearestPlace, placeAt, type Places } from './standing.ts';
import type { Target, Ways } from './ways.ts';

/** A small convex part of a stretch. */
export interface Patch {
  readonly corners: readonly Target[];
  readonly polygon: Convex;
  readonly size: number;
}

/** Everything one has to know to reach for something. */
export interface Reaching {
  readonly places: Places;
  readonly ways: Ways;
  readonly reach: number;
  /** Sides of the squares a stretch is looked at in, and below which a square is no further divided. */
  readonly patch: number;
  readonly finest: number;
}

/** The places from which a stretch is reached, or a point of it that nobody reaches. */
export type Reached = { readonly stands: readonly number[] } | { readonly unreached: Target };

/** Share of the reach that is easy. Where more than that is not needed no more is used. */
const EASY = 0.9;

/** A stretch cut into patches. */
export function patchesOf(parts: readonly Convex[], ways: Ways, size: number): Patch[] {
  return parts.flatMap((part) => {
    const { x1, y1, x2, y2 } = boxOf(part);
    const [columns, rows] = [Math.ceil((x2 - x1) / size), Math.ceil((y2 - y1) / size)];
    const patches: Patch[] = [];
    for (let column = 0; column < columns; column++) {
      const strip = clip(part, 'x', x1 + ((x2 - x1) * column) / columns, x1 + ((x2 - x1) * (column + 1)) / columns);
      for (let row = 0; strip !== null && row < rows; row++) {
        const polygon = clip(strip, 'y', y1 + ((y2 - y1) * row) / rows, y1 + ((y2 - y1) * (row + 1)) / rows);
        if (polygon !== null) patches.push({ polygon, size, corners: cornersWithin(polygon).map((corner) => ways.target(corner)) });
      }
    }
    return patches;
  });
}

/** Whether a point is within reach of a place marked in `exit`. */
export function isReached(target: Target, { places, ways, reach }: Reaching, exit: Uint16Array): boolean {
  const most = reach + SAME;
  const nearest = nearestPlace(places, target, most, exit);
  if (nearest < 0) return false;
  if (ways.distance(placeAt(places, nearest), nearest, target, most) < Infinity) return true;
  return placesNear(target, places, most, exit).some((place) => ways.distance(placeAt(places, place), place, target, most) < Infinity);
}

/**
 * Whether every point of a stretch is within reach of a place marked in `exit`, and a few such places. A way grows by no more than its end
 * moves, and is longest at a corner of a convex patch: where one place reaches all corners it reaches the patch. A patch that no place
 * reaches alone is divided, down to the finest, where each corner within reach is taken for all.
 */
export function reachAll(patches: readonly Patch[], reaching: Reaching, exit: Uint16Array): Reached {
  const { places, ways, reach } = reaching;
  const stands: number[] = [];
  const covers = (place: number, { corners }: Patch, most: number) => {
    const from = placeAt(places, place);
    return corners.every((corner) => ways.distance(from, place, corner, most + SAME) < Infinity);
  };
  const open = [...patches].reverse();
  while (open.length > 0) {
    const patch = open.pop()!;
    if (stands.some((place) => covers(place, patch, reach * EASY))) continue;
    const { x1, y1, x2, y2 } = boxOf(patch.polygon);
    const middle = { x: (x1 + x2) / 2, y: (y1 + y2) / 2 };
    const nearest = nearestPlace(places, middle, reach, exit);
    if (nearest >= 0 && covers(nearest, patch, reach * EASY)) {
      stands.push(nearest);
      continue;
    }
    // A place already taken that just reaches is as good as another that just reaches.
    if (stands.some((place) => covers(place, patch, reach))) continue;
    const best = nearest < 0 ? undefined : placesNear(middle, places, reach, exit).find((place) => covers(place, patch, reach));
    if (best !== undefined) {
      stands.push(best);
      continue;
    }
    const unreached = patch.corners.find((corner) => !isReached(corner, reaching, exit));
    if (unreached !== undefined) return { unreached };
    if (patch.size > reaching.finest) open.push(...patchesOf([patch.polygon], ways, patch.size / 2));
    else
      for (const corner of patch.corners)
        stands.push(
          ...placesNear(corner, places, reach, exit)
            .filter((place) => covers(place, { ...patch, corners: [corner] }, reach))
            .slice(0, 1),
        );
  }
  return { stands: needed(patches, stands, covers, reach) };
}

/** Leaves out places that are not missed, later ones first. */
function needed(
  patches: readonly Patch[],
  stands: readonly number[],
  covers: (place: number, patch: Patch, most: number) => boolean,
  reach: number,
): number[] {
  const all = [...new Set(stands)];
  const loneOf = (kept: readonly number[], most: number) =>
    patches.filter((patch) => !kept.some((place) => covers(place, patch, most))).length;
  const hard = loneOf(all, reach * EASY);
  const fully = loneOf(all, reach);
  // Patches that no single place covers were divided: whoever serves them stays.
  if (fully > 0) return all;
  return all.reduceRight((kept, place) => {
    const without = kept.filter((one) => one !== place);
    return without.length > 0 && loneOf(without, reach * EASY) <= hard && loneOf(without, reach) === 0 ? without : kept;
  }, all);
}

/** Places marked in `exit` within a distance of a point, nearest first. */
function placesNear(at: Point, { xs, ys }: Places, within: number, exit: Uint16Array): number[] {
  const found: { place: number; gap: number }[] = [];
  forPlacesIn(xs, ys, { x1: at.x - within, y1: at.y - within, x2: at.x + within, y2: at.y + within }, (place, x, y) => {
    if (exit[place] === 0) return;
    const gap = Math.sqrt((x - at.x) ** 2 + (y - at.y) ** 2);
    if (gap <= within) found.push({ place, gap });
  });
  return found.sort((a, b) => a.gap - b.gap).map(({ place }) => place);
}
