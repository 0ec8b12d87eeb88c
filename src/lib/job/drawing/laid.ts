import type { PlannedSheets, PlannedStrips, PlannedWalls } from '../../record/plan-result.ts';
import type { Point } from '../../measure/plane.ts';
import type { Fact, JobState } from '../state.ts';
import { readPlan, readStrips } from '../../record/plan-result.ts';
import type { RoomShape } from './shape.ts';

/** A piece as a rectangle of its strip, in ten-thousandths; the floor's outline cuts it. */
export interface LaidPiece {
  readonly id: string;
  readonly strip: number;
  readonly corners: readonly Point[];
  readonly cut: number;
  readonly notched: boolean;
  /** The roll it is cut from, from 0. */
  readonly roll: number;
}

const PARTS = 10_000;
const parts = (decimal: string) => Math.round(Number(decimal) * PARTS);

/** The pieces of a plan where they lie. `width` is the roll's. */
export function laidPieces(plan: Pick<PlannedStrips, 'direction' | 'positions' | 'pieces' | 'rolls'>, width: number): LaidPiece[] {
  const isAlongX = plan.direction === '0';
  return plan.pieces.map(({ id, strip, from, to, cutLength, notched }) => {
    const low = parts(plan.positions[Number(strip)] ?? '0');
    const [start, end] = [parts(from), parts(to)];
    const at = (along: number, across: number): Point => (isAlongX ? { x: along, y: across } : { x: across, y: along });
    return {
      id,
      strip: Number(strip),
      corners: [at(start, low), at(end, low), at(end, low + width), at(start, low + width)],
      cut: parts(cutLength),
      notched,
      roll: plan.rolls.findIndex(({ pieces }) => pieces.includes(id)),
    };
  });
}

/** Where one strip lies on the next: from the upper one's edge to the lower one's, across the strips. `seam`: its number, from 0. */
export interface Overlap {
  readonly seam: number;
  readonly from: number;
  readonly to: number;
}

/** Strips that do not meet, beside a doorway up to the top of a wall, have none. */
export function overlaps({ positions }: Pick<PlannedStrips, 'positions'>, width: number): Overlap[] {
  return positions.slice(1).flatMap((position, k) => {
    const [from, to] = [parts(position), parts(positions[k]!) + width];
    return from > to ? [] : [{ seam: k, from, to }];
  });
}

/** The wall of the room that a doorway of the planner's input stands in: the way out by it. */
export function exitWall({ walls }: Pick<RoomShape, 'walls'>, input: Readonly<Record<string, unknown>>, exit: number): number | null {
  const door = (input['doorways'] as { wall: number | string; from: number | string; to: number | string }[] | undefined)?.[exit];
  const edge = door === undefined ? null : edgeOf(input, Number(door.wall));
  if (door === undefined || edge === null) return null;
  const { a, b } = edge;
  const share = ((Number(door.from) + Number(door.to)) / 2) * PARTS;
  const length = Math.hypot(b.x - a.x, b.y - a.y);
  const middle = { x: a.x + ((b.x - a.x) * share) / length, y: a.y + ((b.y - a.y) * share) / length };
  const off = walls.map((wall) => awayFrom(wall.from, wall.to, middle));
  return off.indexOf(Math.min(...off));
}

/** The wall of the room along an edge of the planner's floor; null where a bench stands there, or where the input is another version's. */
export function edgeWall({ walls }: Pick<RoomShape, 'walls'>, input: Readonly<Record<string, unknown>>, edge: number): number | null {
  const ends = edgeOf(input, edge);
  if (ends === null) return null;
  const middle = { x: (ends.a.x + ends.b.x) / 2, y: (ends.a.y + ends.b.y) / 2 };
  // Off it by less than rounding a slanted wall's places leaves.
  const wall = walls.findIndex(({ from, to }) => awayFrom(from, to, middle) < 2);
  return wall < 0 ? null : wall;
}

/** An edge of the floor that the planner was given. */
function edgeOf(input: Readonly<Record<string, unknown>>, edge: number): { a: Point; b: Point } | null {
  const floor = input['floor'] as [number | string, number | string][] | undefined;
  const [from, to] = [floor?.[edge], floor?.[(edge + 1) % (floor.length || 1)]];
  if (from === undefined || to === undefined) return null;
  const [a, b] = [from, to].map(([x, y]) => ({ x: Number(x) * PARTS, y: Number(y) * PARTS })) as [Point, Point];
  return { a, b };
}

function awayFrom(a: Point, b: Point, q: Point): number {
  const square = (b.x - a.x) ** 2 + (b.y - a.y) ** 2;
  const share = Math.min(1, Math.max(0, ((q.x - a.x) * (b.x - a.x) + (q.y - a.y) * (b.y - a.y)) / square));
  return Math.hypot(q.x - a.x - share * (b.x - a.x), q.y - a.y - share * (b.y - a.y));
}

/** The plan of a room's floor that was kept last, as it was frozen; null where none fits this version. */
export interface KeptPlan {
  readonly fact: Fact<'plan'>;
  readonly sheets: PlannedSheets;
  /** Width of the roll, in ten-thousandths. */
  readonly width: number;
  /** The room was drawn anew since. */
  readonly isStale: boolean;
}

export function keptPlan(job: JobState, room: string): KeptPlan | null {
  const fact = job.facts.plan.findLast(({ data, open }) => !open && data.room === room && data.wall === undefined) ?? null;
  const sheets = fact === null ? null : (readPlan(fact.data.result)?.sheets ?? null);
  if (fact === null || sheets === null) return null;
  const width = rollWidth(fact.data.input);
  if (width === null) return null;
  return { fact, sheets, width, isStale: !job.drawings.some(({ id }) => id === fact.data.drawing) };
}

/** The walls of a room as they were planned together last, in the order of the walk. */
export interface KeptWalls {
  /** The entry of the first of them. */
  readonly fact: Fact<'plan'>;
  readonly sheets: PlannedWalls;
  readonly width: number;
  readonly isStale: boolean;
}

export function keptWalls(job: JobState, room: string): KeptWalls | null {
  const all = job.facts.plan.filter(({ data, open }) => !open && data.room === room && data.wall !== undefined);
  const last = all.at(-1);
  const asked = JSON.stringify(last?.data.input);
  const together = all.filter(({ data }) => JSON.stringify(data.input) === asked && data.drawing === last?.data.drawing);
  const latest = new Map(together.map((fact) => [fact.data.wall!, fact]));
  const walls = [...latest].sort(([a], [b]) => a - b).map(([wall, fact]) => ({ wall, fact, strips: readStrips(fact.data.result) }));
  const width = last === undefined ? null : rollWidth(last.data.input);
  const first = walls[0];
  if (first?.strips == null || width === null || walls.some(({ strips }) => strips === null)) return null;
  const { unit, rolls, proven } = first.strips;
  return {
    fact: first.fact,
    sheets: { unit, rolls, proven, walls: walls.map(({ wall, strips }) => ({ ...strips!, wall: String(wall) })) },
    width,
    isStale: !job.drawings.some(({ id }) => id === first.fact.data.drawing),
  };
}

export function rollWidth(input: Readonly<Record<string, unknown>>): number | null {
  const roll = input['roll'] as { width?: number | string } | undefined;
  const width = Number(roll?.width);
  return Number.isFinite(width) && width > 0 ? Math.round(width * PARTS) : null;
}
