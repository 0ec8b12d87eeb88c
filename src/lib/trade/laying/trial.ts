import type { Point } from '#lib/measure/plane.ts';
import type { SheetPiece } from '../sheets/plan.ts';
import type { Room } from '../sheets/room.ts';
import { coveredBy, uncoverOn, waysOut, type Covered } from './floor.ts';
import { equalStretches, stretchesAt, type Span } from './folds.ts';
import { fromApron, groundOf, type Ground } from './ground.ts';
import { isReached, patchesOf, reachAll, type Patch, type Reaching } from './reach.ts';
import { axisOf, cornersWithin, stretchOf } from './shapes.ts';
import { nearestPlace, placeAt, placesOn, placesOver, type Places } from './standing.ts';
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
  /** The doorway one gets out by: from all places, or else from the first. */
  readonly exit: number;
}

/** Tries pieces on a floor where others lie. */
export interface Trial {
  readonly places: Places;
  /** A coarser grid proves nothing. */
  readonly coarsestStep: number;
  readonly ground: Ground;
  /** The fewest stretches a piece may be laid in. */
  fewestStretches(piece: number): number;
  /** Distance of a piece from the nearest doorway. */
  fromDoor(piece: number): number;
  /** The floor when these pieces lie. */
  cover(pieces: readonly number[]): Covered;
  /** Whether it may help to fold a piece, last of those that `covered` counts: all its corners are reached while nothing of it lies. */
  canBeFolded(piece: number, covered: Covered): boolean;
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
/** Places of a piece of which nothing lies. */
const NOTHING = new Int32Array(0);

export function trialOf({ room, direction, pieces }: LayingTask): Trial {
  const axis = axisOf(direction);
  const ground = groundOf(room);
  const radius = room.foot / 2;
  const step = STEP[room.unit];
  const foldings = pieces.map((piece) => foldingsOf(piece, room));
  const ends = foldings.flatMap((folding) => [...folding.values()].flat().flatMap(({ from, to }) => [from, to]));
  const sides = pieces.flatMap(({ parts }) => parts.flat().map((corner) => corner[axis === 'x' ? 'y' : 'x']));
  const places = placesOn(ground, radius, step, axis === 'x' ? { x: ends, y: sides } : { x: sides, y: ends });
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
  const stoppedBy = (p: number, { from, to }: Span) =>
    once(stopped, `${p} ${from} ${to}`, () => placesOver(places, stretchOf(pieces[p]!.parts, axis, from, to), radius));
  const cornersOf = (p: number, { from, to }: Span) =>
    once(corners, `${p} ${from} ${to}`, () =>
      stretchOf(pieces[p]!.parts, axis, from, to)
        .flatMap(cornersWithin)
        .map((at) => ({ at: reaching.ways.target(at), gap: nearest(ground, [at]) }))
        .sort((a, b) => b.gap - a.gap)
        .map(({ at }) => at),
    );

  /** The corners furthest from the doors come first: where one is not reached, the rest need not be looked at. */
  const isNearBare = (p: number, covered: Covered): boolean => {
    const exit = uncover(covered, whole[p]!, NOTHING);
    const corner = cornersOf(p, pieces[p]!).find((at) => !isReached(at, reaching, exit));
    if (corner !== undefined) lastMissed.set(p, { x: corner.x, y: corner.y });
    return corner === undefined;
  };
  let bare: { covered: Covered | null; isNear: Map<number, boolean> } = { covered: null, isNear: new Map() };
  const canBeFolded = (p: number, covered: Covered): boolean => {
    if (bare.covered !== covered) bare = { covered, isNear: new Map() };
    const isNear = bare.isNear.get(p) ?? isNearBare(p, covered);
    bare.isNear.set(p, isNear);
    return isNear;
  };

  /** Where one kneels for a stretch when one gets about as `exit` says. `key` names the stretch and how it is laid. */
  const standsFor = (p: number, span: Span, key: string, exit: Uint16Array): readonly number[] | null => {
    const miss = (at: Target) => {
      missed.set(key, at);
      lastMissed.set(p, { x: at.x, y: at.y });
      return null;
    };
    const before = missed.get(key);
    if (before !== undefined && !isReached(before, reaching, exit)) return miss(before);
    const corner = cornersOf(p, span).find((at) => !isReached(at, reaching, exit));
    if (corner !== undefined) return miss(corner);
    const squares = once(patches, `${p} ${span.from} ${span.to}`, () =>
      patchesOf(stretchOf(pieces[p]!.parts, axis, span.from, span.to), reaching.ways, reaching.patch),
    );
    if (squares.length === 0) {
      // A sliver too thin to be looked at in squares: whoever reaches its tip lays it.
      const tip = pieces[p]!.parts.flat().reduce((a, b) => (Math.abs(b[axis] - span.from) < Math.abs(a[axis] - span.from) ? b : a));
      const place = nearestPlace(places, tip, reaching.reach, exit);
      return place < 0 ? miss(reaching.ways.target(tip)) : [place];
    }
    const reached = reachAll(squares, reaching, exit);
    return 'unreached' in reached ? miss(reached.unreached) : (withOneWayOut(squares, reached.stands, exit) ?? reached.stands);
  };

  /** Where one kneels for a stretch with the same way out from all places; null where it takes several. */
  const withOneWayOut = (squares: readonly Patch[], stands: readonly number[], exit: Uint16Array): readonly number[] | null => {
    if (stands.every((place) => exit[place] === exit[stands[0]!])) return stands;
    const ways = waysOut(places.xs.length, exit);
    for (const way of new Set(stands.map((place) => ways.get(exit[place]!)!))) {
      const reached = reachAll(
        squares,
        reaching,
        exit.map((mark) => (ways.get(mark) === way ? mark : 0)),
      );
      if ('stands' in reached) return reached.stands;
    }
    return null;
  };

  /** Lays the stretches of a piece one after the other from one of its ends. */
  const layFrom = (p: number, spans: readonly Span[], isFromLow: boolean, covered: Covered): LayingStep[] | null => {
    const { id, from, to } = pieces[p]!;
    const of = spans.length;
    const steps: LayingStep[] = [];
    // The last stretch is looked at first: most pieces that cannot be laid fail with it, and the floor is as it is then already.
    for (const i of [of - 1, ...spans.slice(1).keys()]) {
      const span = spans[i]!;
      const lies = isFromLow ? { from, to: span.to } : { from: span.from, to };
      const exit = i === of - 1 ? covered.exit : uncover(covered, whole[p]!, stoppedBy(p, lies));
      const stands = standsFor(p, span, `${p} ${of} ${isFromLow} ${i}`, exit);
      if (stands === null) return null;
      const stretch = { i, of, from: span.from, to: span.to };
      steps.push({ piece: id, stretch, stands: stands.map((place) => placeAt(places, place)), exit: exit[stands[0]!]! - 1 });
    }
    return [...steps.slice(1), steps[0]!];
  };

  /** From the end further from the doors first: that is how one would start. */
  const isLowFurther = (p: number) => {
    const { from, to, parts } = pieces[p]!;
    const middle = (from + to) / 2;
    return nearest(ground, stretchOf(parts, axis, from, middle).flat()) >= nearest(ground, stretchOf(parts, axis, middle, to).flat());
  };

  return {
    places,
    coarsestStep: step,
    ground,
    fewestStretches: (p) => Math.min(...foldings[p]!.keys()),
    fromDoor: (p) => nearest(ground, pieces[p]!.parts.flat()),
    cover: (laid) =>
      coveredBy(
        places,
        laid.map((p) => whole[p]!),
      ),
    canBeFolded,
    lay(p, count, covered) {
      const spans = foldings[p]!.get(count);
      if (spans === undefined) return null;
      const down = [...spans].reverse();
      if (count === 1) return layFrom(p, spans, true, covered);
      if (!canBeFolded(p, covered)) return null;
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
