import { FARTHEST, fromTenThousandths } from '../../measure/exact.ts';
import { readLength } from '../../measure/length-text.ts';
import { turn, type Point } from '../../measure/plane.ts';
import type { PlanForm } from '../../record/drawing-drafts.ts';
import type { Draft } from '../../record/kinds.ts';
import { frozen, thawed } from '../../record/plan-result.ts';
import { fail, ok, type Result } from '../../result.ts';
import type { SetupFault } from '../setup-fields.ts';
import { FieldReader } from '../setup-fields.ts';
import { besideWall, distance, partsOf, type RoomShape, type ShapeThing } from './shape.ts';

/** What `layerbook plan` reads (docs/plan.md). */
export type PlanInput = Readonly<Record<string, unknown>>;

/** Positions and folds are its multiples, cuts are rounded up to it: an eighth of an inch, or 5 mm; common practice, no source. */
export const GAUGE = { in: 0.125, mm: 5 } as const;
/** Pieces with a longer cut are folded at least once: longer than a person spans with both arms. Common practice, no source. */
const WHOLE_MAX = { in: 48, mm: 1220 } as const;

/** Nothing is known of the roll before somebody says it. */
export const EMPTY_PLAN: PlanForm = {
  width: '',
  atHand: '',
  newLength: '',
  overlap: '',
  upturn: '',
  clear: '',
  direction: 'free',
  longest: '',
  reach: '',
  pins: '',
  taken: '',
  without: [],
};

/** The planner's input from a drawing and what was typed, or every field in the way. Curbs and open sides are ways in, along their whole length. */
export function planInput(form: PlanForm, shape: RoomShape): Result<PlanInput, SetupFault[]> {
  const { unit } = shape;
  const reader = new PlanReader(unit);
  const pins = lines(form.pins).flatMap((line) => (isZero(line) ? [0] : (reader.length('pins', line) ?? [])));
  const reach = reader.length('reach', form.reach);
  const clear = Math.round(reader.orZero('clear', form.clear) * 10_000);
  const input = {
    unit,
    gauge: GAUGE[unit],
    floor: shape.floor.map(({ x, y }) => [fromTenThousandths(x), fromTenThousandths(y)]),
    doorways: waysIn(shape),
    lowWalls: lowWalls(shape),
    keepOuts: shape.things.flatMap((thing) => keepOuts(thing, shape, clear)),
    ...reader.roll(form),
    upturn: reader.orZero('upturn', form.upturn),
    direction: form.direction === 'free' ? 'free' : Number(form.direction),
    wholeMax: WHOLE_MAX[unit],
    ...(reach === null ? {} : { reach }),
    ...(pins.length === 0 ? {} : { pins: pins.map((pin) => Math.round(pin / GAUGE[unit]) * GAUGE[unit]) }),
    ...takenOf(form.taken),
  };
  return reader.faults.length > 0 ? fail(reader.faults) : ok(input);
}

/** Reads what was typed of a plan, in the drawing's unit. A roll is longer than any wall: only what the planner cannot count with is too large. */
export class PlanReader extends FieldReader {
  readonly #unit: 'in' | 'mm';

  constructor(unit: 'in' | 'mm') {
    super();
    this.#unit = unit;
  }

  length(field: string, text: string): number | null {
    if (text.trim() === '') return null;
    const read = readLength(text);
    const parts = read.ok ? partsOf(read.value, this.#unit) : null;
    if (!read.ok) this.fault(field, read.fault);
    else if (parts === null || parts === 0) this.fault(field, 'not-a-length');
    else if (parts > FARTHEST * 10_000) this.fault(field, 'too-large');
    return parts === null ? null : fromTenThousandths(parts);
  }

  /** Zero is a length to leave out by: no upturn is none typed, but `0 in` is no fault of it. */
  orZero(field: string, text: string): number {
    return isZero(text) ? 0 : (this.length(field, text) ?? 0);
  }

  /** The roll, the laps and the cap on a piece. */
  roll({ width, atHand, newLength, overlap, longest }: PlanForm): object {
    const needed = (field: string, text: string): number => {
      if (text.trim() === '') this.fault(field, 'no-length');
      return this.length(field, text) ?? 0;
    };
    const [lengths, fresh] = [lines(atHand).flatMap((line) => this.length('atHand', line) ?? []), this.length('newLength', newLength)];
    if (lengths.length === 0 && fresh === null && this.faults.length === 0) this.fault('newLength', 'no-length');
    const roll = { width: needed('width', width), lengths, newLength: fresh };
    const minOverlap = needed('overlap', overlap);
    const most = this.length('longest', longest);
    return { roll, minOverlap, ...(most === null ? {} : { longestPiece: most }) };
  }
}

function lines(text: string): string[] {
  return text.split(/[\n;]/).filter((line) => line.trim() !== '');
}

function isZero(text: string): boolean {
  const read = readLength(text);
  return text.trim() === '0' || (read.ok && Number(read.value.value) === 0);
}

/** A remedy taken is a change of the input that the planner has tried. */
export function takenOf(json: string): object {
  if (json === '') return {};
  try {
    const taken: unknown = JSON.parse(json);
    return typeof taken === 'object' && taken !== null ? (thawed(taken) as object) : {};
  } catch {
    return {};
  }
}

/** A stretch of a wall of the room on the floor's outline, which benches have changed; null where no one edge holds it. */
function onEdge({ floor }: RoomShape, a: Point, b: Point): { wall: number; from: number; to: number } | null {
  for (const [wall, from] of floor.entries()) {
    const to = floor[(wall + 1) % floor.length]!;
    if (!isBetween(from, to, a) || !isBetween(from, to, b)) continue;
    const length = Math.floor(distance(from, to));
    const ends = [Math.round(distance(from, a)), Math.round(distance(from, b))].map((end) => Math.min(length, end));
    return { wall, from: Math.min(...ends), to: Math.max(...ends) };
  }
  return null;
}

/** On the line, or off it by less than rounding a slanted wall's places leaves. */
function isBetween(a: Point, b: Point, q: Point): boolean {
  const length = distance(a, b);
  const along = ((q.x - a.x) * (b.x - a.x) + (q.y - a.y) * (b.y - a.y)) / length;
  const off = Math.abs((b.x - a.x) * (q.y - a.y) - (b.y - a.y) * (q.x - a.x)) / length;
  return (turn(a, b, q) === 0 || off < 2) && along > -2 && along < length + 2;
}

function waysIn(shape: RoomShape): { wall: number; from: number; to: number }[] {
  const { walls, doorways } = shape;
  const doors = doorways.map(({ wall, along, width }) => ({ wall, along, width }));
  const open = walls.flatMap(({ as, length }, wall) => (as === 'curb' || as === 'open' ? [{ wall, along: 0, width: length }] : []));
  return [...doors, ...open].flatMap(({ wall, along, width }) => {
    const edge = onEdge(shape, besideWall(walls[wall]!, along, 0), besideWall(walls[wall]!, along + width, 0));
    return edge === null || edge.to <= edge.from
      ? []
      : [{ wall: edge.wall, from: fromTenThousandths(edge.from), to: fromTenThousandths(edge.to) }];
  });
}

function lowWalls(shape: RoomShape): number[] {
  const { walls, floor } = shape;
  const low = walls.filter(({ as }) => as === 'low');
  return floor.flatMap((from, wall) => {
    const to = floor[(wall + 1) % floor.length]!;
    return low.some((one) => isBetween(one.from, one.to, from) && isBetween(one.from, one.to, to)) ? [wall] : [];
  });
}

/** Discs that no overlap may meet: a line drain is covered with them, side by side along it. */
function keepOuts(thing: ShapeThing, { walls }: RoomShape, clear: number): { at: [number, number]; radius: number }[] {
  const wall = walls[thing.wall]!;
  const disc = (along: number, out: number, radius: number) => {
    const { x, y } = besideWall(wall, along, out);
    return {
      at: [fromTenThousandths(Math.round(x)), fromTenThousandths(Math.round(y))] as [number, number],
      radius: fromTenThousandths(Math.ceil(radius)),
    };
  };
  if (thing.thing === 'drain' || thing.thing === 'toilet-flange') return [disc(thing.along, thing.out, thing.width / 2 + clear)];
  if (thing.thing !== 'line-drain') return [];
  // A square of the drain's breadth lies in a disc of half its diagonal.
  const count = Math.max(1, Math.ceil(thing.width / Math.max(1, thing.depth)));
  const step = thing.width / count;
  return Array.from({ length: count }, (_, i) =>
    disc(thing.along + step * (i + 0.5), thing.out + thing.depth / 2, Math.hypot(step, thing.depth) / 2 + clear),
  );
}

/** The entry of a plan: what was asked and what came out. */
export function planDraft(room: string, drawing: string, input: PlanInput, result: object): Draft {
  return {
    kind: 'plan',
    refs: [drawing],
    data: { room, drawing, input: frozen(input) as Record<string, unknown>, result: frozen(result) as Record<string, unknown> },
  };
}
