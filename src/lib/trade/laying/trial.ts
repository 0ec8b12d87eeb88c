import type { Point } from '#lib/measure/plane.ts';
import type { SheetPiece } from '../sheets/plan.ts';
import type { Room } from '../sheets/room.ts';
import { coveredBy, uncoverOn, type Covered } from './floor.ts';
import { equalStretches, stretchesAt, type Span } from './folds.ts';
import { fromApron, groundOf, type Ground } from './ground.ts';
import { isReached, patchesOf, reachAll, type Patch, type Reaching } from './reach.ts';
import { axisOf, cornersWithin, stretchOf } from './shapes.ts';
import { placeAt, placesOn, placesOver, type Places } from './standing.ts';
import { waysOver, type Target } from './ways.ts';

/** A floor with the pieces of a plan, to find an order of laying for. */
export interface LayingTask {
  readonly room: Room;
  readonly direction: 0 | 90;
  readonly pieces: readonly LayingPiece[];
}

/** A piece; `folds` where somebody dragged them, else it is folded in equal lengths as often as need be. */
export type LayingPiece = Pick<SheetPiece, 'id' | 'parts' | 'cutLength'> & Span & { readonly folds: readonly number[] | null };

/** A step: one stretch of a piece, stretch `i` of `of` from 0 in the order they are laid. */
export interface LayingStep {
  readonly piece: string;
  readonly stretch: Span & { readonly i: number; readonly of: number };
  readonly stands: readonly Point[];
  /** The doorway one gets out by. */
  readonly exit: number;
}

/** Tries pieces on a floor where others lie. */
export interface Trial {
  readonly places: Places;
  /** How fine the grid was meant to be. */
  readonly finestStep: number;
  readonly ground: Ground;
  /** The fewest stretches a piece may be laid in. */
  fewestStretches(piece: number): number;
  /** Distance of a piece from the nearest doorway. */
  fromDoor(piece: number): number;
  /** The floor when these pieces lie. */
  cover(pieces: readonly number[]): Covered;
  /** Lays a piece, last of those that `covered` counts, in `count` stretches. Null when it cannot be. */
  lay(piece: number, count: number, covered: Covered): LayingStep[] | null;
  /** A point of the piece that was not reached when it was last tried. */
  unreached(piece: number): Point | null;
}

/** Places to stand are looked for at most this far apart: 1 in, or 25 mm. */
const STEP = { in: 10_000, mm: 250_000 } as const;
/** Stretches are looked at in squares of four steps, divided down to a quarter of one. */
const PATCH_STEPS = 4;
const FINEST_STEPS = 0.25;

export function trialOf({ room, direction, pieces }: LayingTask): Trial {
  const axis = axisOf(direction);
  const ground = groundOf(room);
  const radius = room.foot / 2;
  const step = STEP[room.unit];
  const foldings = pieces.map((piece) => foldingsOf(piece, room));
  const stretches = pieces.map(({ parts }, p) =>
    [...foldings[p]!.values()].flat().flatMap(({ from, to }) => stretchOf(parts, axis, from, to)),
  );
  const places = placesOn(ground, radius, step, stretches.flat());
  const reaching: Reaching = { places, ways: waysOver(ground), reach: room.reach, patch: PATCH_STEPS * step, finest: FINEST_STEPS * step };
  const whole = pieces.map(({ parts }) => placesOver(places, parts, radius));
  const uncover = uncoverOn(places);
  const patches = new Map<string, Patch[]>();
  const corners = new Map<string, Target[]>();
  const missed = new Map<string, Target>();
  const lastMissed = new Map<number, Point>();

  const once = <T>(known: Map<string, T>, key: string, make: () => T): T => {
    const value = known.get(key) ?? make();
    known.set(key, value);
    return value;
  };
  const stopped = new Map<string, Int32Array>();
  const stoppedBy = (p: number, from: number, to: number) =>
    once(stopped, `${p} ${from} ${to}`, () => placesOver(places, stretchOf(pieces[p]!.parts, axis, from, to), radius));

  /** Lays the stretches of a piece one after the other from one of its ends. */
  const layFrom = (p: number, spans: readonly Span[], isFromLow: boolean, covered: Covered): LayingStep[] | null => {
    const { id, from, to, parts } = pieces[p]!;
    const steps: LayingStep[] = [];
    for (const [i, span] of spans.entries()) {
      const isLast = i === spans.length - 1;
      const exit = isLast
        ? covered.exit
        : uncover(covered, whole[p]!, isFromLow ? stoppedBy(p, from, span.to) : stoppedBy(p, span.from, to));
      const key = `${p} ${spans.length} ${isFromLow} ${i}`;
      const miss = missed.get(key);
      if (miss !== undefined && !isReached(miss, reaching, exit)) return null;
      // Its own corners, the furthest from the doors first, are the hardest to reach: where one is not, the rest need not be looked at.
      const hardest = once(corners, `${p} ${span.from} ${span.to}`, () => {
        const all = stretchOf(parts, axis, span.from, span.to).flatMap(cornersWithin);
        return all
          .map((at) => ({ at: reaching.ways.target(at), gap: nearest(ground, [at]) }))
          .sort((a, b) => b.gap - a.gap)
          .map(({ at }) => at);
      });
      const corner = hardest.find((at) => !isReached(at, reaching, exit));
      if (corner !== undefined) {
        missed.set(key, corner);
        lastMissed.set(p, corner);
        return null;
      }
      const squares = once(patches, `${p} ${span.from} ${span.to}`, () =>
        patchesOf(stretchOf(parts, axis, span.from, span.to), reaching.ways, reaching.patch),
      );
      const reached = reachAll(squares, reaching, exit);
      if ('unreached' in reached) {
        missed.set(key, reached.unreached);
        lastMissed.set(p, reached.unreached);
        return null;
      }
      const { stands } = reached;
      steps.push({
        piece: id,
        stretch: { i, of: spans.length, from: span.from, to: span.to },
        stands: stands.map((place) => placeAt(places, place)),
        exit: exit[stands[0]!]! - 1,
      });
    }
    return steps;
  };

  /** From the end further from the doors first: that is how one would start. */
  const isLowFurther = (p: number) => {
    const { from, to, parts } = pieces[p]!;
    const middle = (from + to) / 2;
    return nearest(ground, stretchOf(parts, axis, from, middle).flat()) >= nearest(ground, stretchOf(parts, axis, middle, to).flat());
  };

  return {
    places,
    finestStep: step,
    ground,
    fewestStretches: (p) => Math.min(...foldings[p]!.keys()),
    fromDoor: (p) => nearest(ground, pieces[p]!.parts.flat()),
    cover: (laid) =>
      coveredBy(
        places,
        laid.map((p) => whole[p]!),
      ),
    lay(p, count, covered) {
      const spans = foldings[p]!.get(count);
      if (spans === undefined) return null;
      const down = [...spans].reverse();
      if (count === 1) return layFrom(p, spans, true, covered);
      const isLowFirst = isLowFurther(p);
      return layFrom(p, isLowFirst ? spans : down, isLowFirst, covered) ?? layFrom(p, isLowFirst ? down : spans, !isLowFirst, covered);
    },
    unreached: (p) => lastMissed.get(p) ?? null,
  };
}

/** Ways to fold a piece, by the number of stretches, from low to high. */
function foldingsOf(piece: LayingPiece, { maxStretches, wholeMax, gauge }: Room): Map<number, Span[]> {
  const foldings = new Map<number, Span[]>();
  const fewest = wholeMax !== null && piece.cutLength > wholeMax ? 2 : 1;
  const counts = piece.folds === null ? Array.from({ length: maxStretches }, (_, i) => i + 1) : [piece.folds.length + 1];
  for (const count of counts) {
    const spans = piece.folds === null ? equalStretches(piece, count, gauge) : stretchesAt(piece, piece.folds);
    if (spans !== null && count >= fewest) foldings.set(count, spans);
  }
  return foldings;
}

function nearest({ aprons }: Ground, points: readonly Point[]): number {
  const gaps = aprons.flatMap((apron) =>
    points.map((at) => {
      const { far, out } = fromApron(apron, at);
      return Math.hypot(far - Math.min(apron.width, Math.max(0, far)), Math.min(0, out));
    }),
  );
  return Math.min(Infinity, ...gaps);
}
