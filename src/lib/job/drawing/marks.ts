import { placeIn, type Point } from '../../measure/plane.ts';
import type { DataOf, Draft } from '../../record/kinds.ts';
import type { Quantity } from '../../record/kinds/reading.ts';
import { fail, ok, type Result } from '../../result.ts';
import { standing } from '../misses.ts';
import type { SetupFault } from '../setup-fields.ts';
import type { Fact, JobState } from '../state.ts';
import { partsOf, type RoomShape } from './shape.ts';

/** A place on the drawing, in ten-thousandths; `wall` null on the floor. */
export interface DrawnPlace {
  readonly wall: number | null;
  readonly x: number;
  readonly y: number;
}

export interface DrawnMark extends DrawnPlace {
  /** From 1, in the order in which they were made: the number in its circle. */
  readonly n: number;
  readonly id: string;
  readonly of: string;
  readonly spot: string | null;
  readonly area: MarkedArea | null;
}

/** Four corners in order around. */
export type Corners<P> = readonly [P, P, P, P];

/** An area of one plane that a photo shows. */
export interface MarkedArea {
  /** On the drawing, in ten-thousandths. */
  readonly corners: Corners<Point>;
  /** The same in the photo, in pixels; null where nobody tapped them. */
  readonly inPhoto: MarkedPhoto | null;
}
export interface MarkedPhoto {
  readonly width: number;
  readonly height: number;
  readonly corners: Corners<readonly [number, number]>;
}

/** Kinds that are marked: what shows or states something of one place. */
const MARKED = ['shot', 'reading', 'deviation', 'repair', 'later-hole', 'note', 'callback', 'coverage'] as const;

/** The marks of a room whose entries stand. */
export function marksIn(job: JobState, room: string, unit: 'in' | 'mm'): DrawnMark[] {
  const standing = new Set(job.lines.filter((line) => line.standing.state !== 'withdrawn').map((line) => line.entry.body.id));
  return job.facts.mark
    .filter(({ data, open }) => !open && data.room === room && standing.has(data.of))
    .flatMap(({ id, data }, i): DrawnMark[] => {
      const [x, y] = [signedParts(data.x, unit), signedParts(data.y, unit)];
      if (x === null || y === null) return [];
      return [{ n: i + 1, id, of: data.of, spot: data.spot ?? null, wall: data.wall ?? null, x, y, area: areaOf(data, unit) }];
    });
}

function areaOf({ corners, inPhoto, x: { unit } }: DataOf<'mark'>, of: 'in' | 'mm'): MarkedArea | null {
  if (corners === undefined) return null;
  const placed = each(corners, ([x, y]) => ({ x: signedParts({ value: x, unit }, of), y: signedParts({ value: y, unit }, of) }));
  if (placed.some(({ x, y }) => x === null || y === null)) return null;
  const tapped = (one: NonNullable<typeof inPhoto>) => ({
    ...one,
    corners: each(one.corners, ([x, y]) => [Number(x), Number(y)] as const),
  });
  return { corners: placed as Corners<Point>, inPhoto: inPhoto === undefined ? null : tapped(inPhoto) };
}

function each<P, Q>([a, b, c, d]: Corners<P>, of: (one: P) => Q): [Q, Q, Q, Q] {
  return [of(a), of(b), of(c), of(d)];
}

/** The corners of a rectangle between two that lie opposite: its upper left first, then with the clock, as it is seen from inside the room. */
export function rectangleOf(a: Point, b: Point): Corners<Point> {
  const [left, right, low, high] = [Math.min(a.x, b.x), Math.max(a.x, b.x), Math.min(a.y, b.y), Math.max(a.y, b.y)];
  return [
    { x: left, y: high },
    { x: right, y: high },
    { x: right, y: low },
    { x: left, y: low },
  ];
}

/** In an area: 0. Else from the place to the nearest of its edges. */
export function distanceToArea({ corners }: MarkedArea, at: Point): number {
  const whole = corners.map(({ x, y }) => ({ x: Math.round(x), y: Math.round(y) }));
  if (placeIn(whole, { x: Math.round(at.x), y: Math.round(at.y) }) >= 0) return 0;
  return Math.min(...corners.map((corner, i) => distanceTo(corner, corners[(i + 1) % 4]!, at)));
}

/** The point of a segment nearest to p. */
export function nearestOn(a: Point, b: Point, p: Point): Point {
  const [x, y] = [b.x - a.x, b.y - a.y];
  const length2 = x * x + y * y;
  const t = length2 === 0 ? 0 : Math.min(1, Math.max(0, ((p.x - a.x) * x + (p.y - a.y) * y) / length2));
  return { x: a.x + t * x, y: a.y + t * y };
}

export function distanceTo(a: Point, b: Point, p: Point): number {
  const to = nearestOn(a, b, p);
  return Math.hypot(to.x - p.x, to.y - p.y);
}

/** Coordinates may lie below zero, which no length does. */
function signedParts({ value, unit }: Pick<Quantity, 'value' | 'unit'>, of: 'in' | 'mm'): number | null {
  const size = partsOf({ value: value.replace('-', ''), unit }, of);
  return size === null ? null : value.startsWith('-') ? 0 - size : size;
}

/** What can be marked, newest first: the entries of those kinds that stand, without the frames of a watch. */
export function markable(job: JobState): string[] {
  const frames = new Set(job.shots.filter(({ from, sorted }) => from === 'watch' && !sorted).map(({ id }) => id));
  return job.lines
    .filter(
      ({ entry, standing }) =>
        standing.state !== 'withdrawn' && (MARKED as readonly string[]).includes(entry.body.kind) && !frames.has(entry.body.id),
    )
    .map(({ entry }) => entry.body.id)
    .toReversed();
}

/** The entry of a mark; a fault where nothing or no place was chosen, or one that the drawing does not hold. */
export function markDrafts(
  of: string | null,
  { unit, room, shape }: { readonly unit: 'in' | 'mm'; readonly room: string; readonly shape: RoomShape },
  place: DrawnPlace | null,
  spot: string | null,
  area: MarkedArea | null = null,
): Result<Draft[], SetupFault[]> {
  if (of === null) return fail([{ field: 'of', code: 'none-chosen' }]);
  if (place === null || (place.wall !== null && shape.walls[place.wall] === undefined)) return fail([{ field: 'place', code: 'no-place' }]);
  const said = (parts: number): Quantity => {
    const value = String(Math.round(parts) / 10_000);
    return { text: value, value, unit };
  };
  const wall = place.wall === null ? {} : { wall: place.wall };
  const corners = area === null ? {} : { corners: each(area.corners, ({ x, y }): [string, string] => [said(x).value, said(y).value]) };
  const tapped = area?.inPhoto ?? null;
  const pixels = ([x, y]: readonly [number, number]): [string, string] => [
    String(Math.round(x * 10) / 10),
    String(Math.round(y * 10) / 10),
  ];
  const inPhoto = tapped === null ? {} : { inPhoto: { ...tapped, corners: each(tapped.corners, pixels) } };
  const named = spot === null ? {} : { spot };
  const data = { of, room, ...wall, x: said(place.x), y: said(place.y), ...named, ...corners, ...inPhoto };
  return ok([{ kind: 'mark', refs: [of], data }]);
}

/** More misses than this are not marked one by one: the largest are. */
const MISSES_MARKED = 40;

/**
 * The marks of a coat's misses: the area they were measured in has its first corner, and hangs straight below its first side, at a place of a
 * wall. On the floor nothing says how the area lies: it gets one mark.
 */
export function missDrafts(
  coverage: Pick<Fact<'coverage'>, 'id' | 'data'>,
  on: { readonly unit: 'in' | 'mm'; readonly room: string; readonly shape: RoomShape },
  corner: DrawnPlace | null,
): Result<Draft[], SetupFault[]> {
  const one = markDrafts(coverage.id, on, corner, null);
  const misses = standing(coverage.data).slice(0, MISSES_MARKED);
  if (!one.ok || corner === null || corner.wall === null || misses.length === 0) return one;
  const parts = (mm: string) => (Number(mm) * 10_000) / (on.unit === 'in' ? 25.4 : 1);
  const marked = misses.map((miss) =>
    markDrafts(coverage.id, on, { wall: corner.wall, x: corner.x + parts(miss.x), y: corner.y - parts(miss.y) }, null),
  );
  return ok(marked.flatMap((drafts) => (drafts.ok ? drafts.value : [])));
}
