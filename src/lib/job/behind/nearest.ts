import { spotsOf, type Spot } from '../drawing/joints.ts';
import { distanceTo, marksIn, nearestOn } from '../drawing/marks.ts';
import type { RoomShape } from '../drawing/shape.ts';
import type { Point } from '../../measure/plane.ts';
import { judgeReading, type Judged } from '../judged.ts';
import type { JobState, Measured } from '../state.ts';
import type { TouchedPlace } from './strata.ts';

/** What of the membrane lies near a place: a seam of the plan, a joint, a corner piece, or a collar. */
export interface Feature {
  readonly is: 'seam' | 'joint' | Spot['kind'];
  /** A spot's id; of a seam or joint its own: `seam-0`, `floor`, `corner-2`, `wall-3`. */
  readonly id: string;
  /** In ten-thousandths; 0 on it. */
  readonly away: number;
  /** From the place to its nearest point. */
  readonly to: Point;
  /** Entries marked for it, or on it within an inch. */
  readonly shownBy: readonly string[];
  /** The lap read last on it, of a seam the sheets' and else the band's, and how it stands. */
  readonly lap: { readonly reading: Measured; readonly judged: Judged } | null;
}

/** Within this an entry's mark is on a feature: the width of a thumb on a phone's drawing. Common sense, no source. */
const ON = { in: 20_000, mm: 500_000 } as const;

/** What lies near a place, the nearest first. */
export function featuresNear(job: JobState, shape: RoomShape, at: TouchedPlace): Feature[] {
  const marks = marksIn(job, at.room, at.unit).filter(({ wall }) => wall === at.wall);
  const feature = (is: Feature['is'], id: string, to: Point, touches: (mark: Point) => number): Feature => {
    const own = marks.filter((mark) => mark.spot === id || (mark.spot === null && mark.area === null && touches(mark) <= ON[at.unit]));
    const measured = is === 'seam' ? 'overlap' : 'band-lap';
    const lap = job.readings.findLast((one) => one.what === measured && own.some(({ of }) => of === one.id || of === one.shot));
    return {
      is,
      id,
      away: Math.hypot(to.x - at.x, to.y - at.y),
      to,
      shownBy: own.map(({ of }) => of),
      lap: lap === undefined ? null : { reading: lap, judged: judgeReading(lap, job.limits) },
    };
  };
  const spots = spotsOf(shape)
    .filter(({ wall }) => wall === at.wall)
    .map((spot) => feature(spot.kind, spot.id, spot, (mark) => Math.hypot(mark.x - spot.x, mark.y - spot.y)));
  const lines = [...jointsBeside(shape, at.wall), ...seamsOf(job, shape, at)].map(({ is, id, a, b }) =>
    feature(is, id, nearestOn(a, b, at), (mark) => distanceTo(a, b, mark)),
  );
  return [...spots, ...lines].sort((x, y) => x.away - y.away);
}

interface Line {
  readonly is: 'seam' | 'joint';
  readonly id: string;
  readonly a: Point;
  readonly b: Point;
}

/** The joints at the edges of a plane: of a wall its foot and its two ends, of the floor the foot of every wall. */
function jointsBeside({ walls }: RoomShape, wall: number | null): Line[] {
  if (wall === null)
    return walls.flatMap((one, i) => (one.as === 'open' ? [] : [{ is: 'joint' as const, id: `wall-${i}`, a: one.from, b: one.to }]));
  const one = walls[wall];
  if (one === undefined) return [];
  const before = walls[(wall + walls.length - 1) % walls.length]!;
  const foot: Line = { is: 'joint', id: 'floor', a: { x: 0, y: 0 }, b: { x: one.length, y: 0 } };
  const end = (i: number, x: number): Line => ({ is: 'joint', id: `corner-${i}`, a: { x, y: 0 }, b: { x, y: one.height } });
  return [foot, ...(before.corner === 0 ? [] : [end(wall, 0)]), ...(one.corner === 0 ? [] : [end((wall + 1) % walls.length, one.length)])];
}

/** The seams of the plan that was kept last for this plane: the middle of each overlap, over the whole plane. */
function seamsOf(job: JobState, { outline, walls }: RoomShape, at: TouchedPlace): Line[] {
  const plan = job.facts.plan.findLast(({ data, open }) => !open && data.room === at.room && (data.wall ?? null) === at.wall);
  if (plan === undefined) return [];
  const { positions, direction } = plan.data.result as { positions?: unknown; direction?: unknown };
  const width = Number((plan.data.input['roll'] as { width?: unknown } | undefined)?.width);
  if (!Array.isArray(positions) || !Number.isFinite(width)) return [];
  const starts = positions.map((p) => Math.round(Number(p) * 10_000));
  if (starts.some((p) => !Number.isFinite(p))) return [];
  const of =
    at.wall === null
      ? outline
      : [
          { x: 0, y: 0 },
          { x: walls[at.wall]?.length ?? 0, y: walls[at.wall]?.height ?? 0 },
        ];
  const [xs, ys] = [of.map(({ x }) => x), of.map(({ y }) => y)];
  return starts.slice(1).flatMap((next, k): Line[] => {
    // Beside a doorway up to the top of a wall two strips do not meet.
    if (next > starts[k]! + Math.round(width * 10_000)) return [];
    const middle = (next + starts[k]! + Math.round(width * 10_000)) / 2;
    const along = Number(direction) === 0;
    return [
      {
        is: 'seam',
        id: `seam-${k}`,
        a: along ? { x: Math.min(...xs), y: middle } : { x: middle, y: Math.min(...ys) },
        b: along ? { x: Math.max(...xs), y: middle } : { x: middle, y: Math.max(...ys) },
      },
    ];
  });
}
