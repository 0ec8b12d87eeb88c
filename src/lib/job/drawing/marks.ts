import type { Draft } from '../../record/kinds.ts';
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
}

/** Kinds that are marked: what shows or states something of one place. */
const MARKED = ['shot', 'reading', 'deviation', 'repair', 'later-hole', 'note', 'coverage'] as const;

/** The marks of a room whose entries stand. */
export function marksIn(job: JobState, room: string, unit: 'in' | 'mm'): DrawnMark[] {
  const standing = new Set(job.lines.filter((line) => line.standing.state !== 'withdrawn').map((line) => line.entry.body.id));
  return job.facts.mark
    .filter(({ data, open }) => !open && data.room === room && standing.has(data.of))
    .flatMap(({ id, data }, i): DrawnMark[] => {
      const [x, y] = [signedParts(data.x, unit), signedParts(data.y, unit)];
      return x === null || y === null ? [] : [{ n: i + 1, id, of: data.of, spot: data.spot ?? null, wall: data.wall ?? null, x, y }];
    });
}

/** Coordinates may lie below zero, which no length does. */
function signedParts({ value, unit }: Quantity, of: 'in' | 'mm'): number | null {
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
): Result<Draft[], SetupFault[]> {
  if (of === null) return fail([{ field: 'of', code: 'none-chosen' }]);
  if (place === null || (place.wall !== null && shape.walls[place.wall] === undefined)) return fail([{ field: 'place', code: 'no-place' }]);
  const said = (parts: number): Quantity => {
    const value = String(Math.round(parts) / 10_000);
    return { text: value, value, unit };
  };
  const wall = place.wall === null ? {} : { wall: place.wall };
  const data = { of, room, ...wall, x: said(place.x), y: said(place.y), ...(spot === null ? {} : { spot }) };
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
