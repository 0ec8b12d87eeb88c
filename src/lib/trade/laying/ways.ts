import type { Point } from '#lib/measure/plane.ts';
import { distanceTo, SAME, type Ground, type Segment } from './ground.ts';

/** A place that has to be reached; what it takes to get there round corners is worked out when it is first needed. */
export interface Target extends Point {
  rounds: Float64Array | null;
}

/** Shortest ways of an arm over the ground, past the ends of barriers. */
export interface Ways {
  target(at: Point): Target;
  /** Length of the shortest way from a place to a target; Infinity where it is longer than `most`. `key` names the place for ever. */
  distance(from: Point, key: number, target: Target, most: number): number;
}

/** An end of barriers that a way can bend round, and the directions from it, as an interval of angles, that a way past it can take. */
interface Bend extends Point {
  readonly from: number;
  readonly to: number;
}

/**
 * Ways between barriers. A shortest way is straight but for bends at ends of barriers, so the straight ones between bends are looked for once
 * and joined (Floyd and Warshall); the ends of a way are then joined to the bends they see. Exact, but for what doubles round.
 */
export function waysOver({ barriers }: Pick<Ground, 'barriers'>): Ways {
  const bends = bendsOf(barriers);
  const count = bends.length;
  const between = shortestBetween(bends, barriers);
  const seen = new Map<number, Float64Array>();
  /** Straight ways from a place to the bends it sees, Infinity to the others. */
  const straight = (at: Point) =>
    Float64Array.from(bends, (bend) => (leads(bend, at) && sees(barriers, at, bend) ? gap(at, bend) : Infinity));
  const roundsTo = (target: Target) => {
    const last = straight(target);
    return Float64Array.from(bends, (_, i) => {
      let least = Infinity;
      for (let k = 0; k < count; k++) least = Math.min(least, between[i * count + k]! + last[k]!);
      return least;
    });
  };
  return {
    target: ({ x, y }) => ({ x, y, rounds: null }),
    distance(from, key, target, most) {
      const direct = gap(from, target);
      if (direct > most) return Infinity;
      if (sees(barriers, from, target)) return direct;
      target.rounds ??= roundsTo(target);
      let first = seen.get(key);
      if (first === undefined) seen.set(key, (first = straight(from)));
      let least = Infinity;
      for (let i = 0; i < count; i++) least = Math.min(least, first[i]! + target.rounds[i]!);
      return least > most ? Infinity : least;
    },
  };
}

const gap = (a: Point, b: Point) => Math.sqrt((b.x - a.x) ** 2 + (b.y - a.y) ** 2);

/** Whether the straight way between two places crosses no barrier. It may touch one; passing an end exactly is left to the bends. */
function sees(barriers: readonly Segment[], from: Point, to: Point): boolean {
  const [dx, dy] = [to.x - from.x, to.y - from.y];
  for (const { a, b } of barriers) {
    const isLeft = dx * (a.y - from.y) - dy * (a.x - from.x) >= 0;
    if (isLeft === dx * (b.y - from.y) - dy * (b.x - from.x) >= 0) continue;
    const [ex, ey] = [b.x - a.x, b.y - a.y];
    const touch = SAME * Math.hypot(ex, ey);
    const start = ex * (from.y - a.y) - ey * (from.x - a.x);
    const end = ex * (to.y - a.y) - ey * (to.x - a.x);
    if ((start > touch && end < -touch) || (start < -touch && end > touch)) return false;
  }
  return true;
}

const TURN = 2 * Math.PI;
/** Angles nearer than this are one. */
const SAME_ANGLE = 1e-7;

function bendsOf(barriers: readonly Segment[]): Bend[] {
  const ends = new Map<string, { at: Point; angles: number[] }>();
  for (const { a, b } of barriers) {
    for (const [at, other] of [
      [a, b],
      [b, a],
    ] as const) {
      const key = `${Math.round(at.x)} ${Math.round(at.y)}`;
      const end = ends.get(key) ?? { at, angles: [] };
      end.angles.push(Math.atan2(other.y - at.y, other.x - at.x));
      ends.set(key, end);
    }
  }
  return [...ends.values()].flatMap(({ at, angles }) => {
    // Nothing passes where a barrier ends on another one.
    for (const through of barriers)
      if (isInside(through, at)) angles.push(...[through.a, through.b].map((end) => Math.atan2(end.y - at.y, end.x - at.x)));
    angles.sort((one, other) => one - other);
    // Only a gap of more than half a turn between barriers has something to bend round.
    const gaps = angles.map((from, i) => ({ from, to: angles[i + 1] ?? angles[0]! + TURN }));
    const wide = gaps.find(({ from, to }) => to - from > Math.PI + SAME_ANGLE);
    return wide === undefined ? [] : [{ ...at, ...wide }];
  });
}

/** Whether a place lies on a barrier, away from its ends. */
function isInside(barrier: Segment, at: Point): boolean {
  return distanceTo(barrier, at) < SAME && gap(barrier.a, at) > 2 * SAME && gap(barrier.b, at) > 2 * SAME;
}

/** Whether a way to or from a place leaves the bend on the side it bends on. */
function leads({ x, y, from, to }: Bend, at: Point): boolean {
  if (Math.abs(at.x - x) < SAME && Math.abs(at.y - y) < SAME) return true;
  const angle = Math.atan2(at.y - y, at.x - x);
  const past = angle < from - SAME_ANGLE ? angle + TURN : angle;
  return past <= to + SAME_ANGLE;
}

/** Whether a way between two bends can be on one side: one that runs along a barrier at both ends must not change sides on it. */
function staysOnSide(a: Bend, b: Bend): boolean {
  const [here, there] = [edgesOf(a, b), edgesOf(b, a)];
  const isAlong = (here.from || here.to) && (there.from || there.to);
  return !isAlong || (here.from && there.to) || (here.to && there.from);
}

/** At which ends of the gap of a bend a place lies. */
function edgesOf({ x, y, from, to }: Bend, at: Point): { from: boolean; to: boolean } {
  const angle = Math.atan2(at.y - y, at.x - x);
  const isAt = (edge: number) => Math.abs(Math.sin((angle - edge) / 2)) < SAME_ANGLE;
  return { from: isAt(from), to: isAt(to) };
}

function shortestBetween(bends: readonly Bend[], barriers: readonly Segment[]): Float64Array {
  const count = bends.length;
  const lengths = new Float64Array(count * count).fill(Infinity);
  // Past a third bend on the way it goes by that bend, which knows on which side.
  bends.forEach((a, i) => {
    bends.forEach((b, k) => {
      if (i === k) lengths[i * count + k] = 0;
      else if (leads(a, b) && leads(b, a) && staysOnSide(a, b) && !bends.some((via) => isInside({ a, b }, via)) && sees(barriers, a, b)) {
        lengths[i * count + k] = gap(a, b);
      }
    });
  });
  for (let via = 0; via < count; via++) {
    for (let i = 0; i < count; i++) {
      for (let k = 0; k < count; k++) {
        const length = lengths[i * count + via]! + lengths[via * count + k]!;
        if (length < lengths[i * count + k]!) lengths[i * count + k] = length;
      }
    }
  }
  return lengths;
}
