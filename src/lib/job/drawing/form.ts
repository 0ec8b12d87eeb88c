import { lengthNm } from '../../measure/quantity.ts';
import { readLength } from '../../measure/length-text.ts';
import type { Point } from '../../measure/plane.ts';
import type { DrawingForm, DoorwayRow, ThingRow, WallRow } from '../../record/drawing-drafts.ts';
import type { Drawing, DrawnThing } from '../../record/kinds/drawing.ts';
import type { Draft } from '../../record/kinds.ts';
import type { Quantity } from '../../record/kinds/reading.ts';
import { fail, ok, type Result } from '../../result.ts';
import { FieldReader, type SetupFault } from '../setup-fields.ts';
import { partsOf, shapeOf, type RoomShape } from './shape.ts';
import { SHAPES } from './starts.ts';
import { gapOf, walked, type Gap } from './walk.ts';

/** Measures that each thing is told by, besides where it is along its wall. */
export const THING_FIELDS = {
  drain: ['out', 'width'],
  'line-drain': ['out', 'width', 'depth'],
  'toilet-flange': ['out', 'width'],
  'floor-pipe': ['out', 'width'],
  valve: ['up', 'width'],
  pipe: ['up', 'width'],
  niche: ['up', 'width', 'height', 'depth'],
  bench: ['width', 'depth', 'height'],
} as const satisfies Readonly<Record<DrawnThing['thing'], readonly (keyof ThingRow)[]>>;

/** Of what goes through floor or wall the hole may stay untold: then none is cut for it. */
export function isHole(thing: DrawnThing['thing'], field: keyof ThingRow): boolean {
  return field === 'width' && (thing === 'floor-pipe' || thing === 'valve' || thing === 'pipe');
}

/** Turns that are offered; any other can be typed. */
export const TURNS = ['90', '-90', '45', '-45', '0'] as const;

/** A gap that a tape and a square leave anyway is spread without a question: a sixteenth of an inch, or 2 mm. Common practice, no source. */
const SMALL_GAP = { in: 625, mm: 20_000 } as const;

/** More than this of the way walked is a slip of a wall rather than of a tape: 1 in 100. Common practice, no source. */
const LARGE_SHARE = 0.01;

/** A degree with at most three decimals, more than -180 and less than 180. */
const TURN = /^-?\d{1,3}(?:\.\d{1,3})?$/;

/** A form as far as it can be drawn: walls that nobody has measured are as long as in the shape it began with. */
export interface Sketch {
  /** In ten-thousandths; one more than walls. */
  readonly corners: readonly Point[];
  /** Whether the wall's length was typed. */
  readonly measured: readonly boolean[];
  /** Null until every wall is measured. */
  readonly gap: (Gap & { readonly isSmall: boolean; readonly isLarge: boolean }) | null;
  /** The room with what is told of it so far, once its walls and height are. */
  readonly shape: RoomShape | null;
}

export function sketch(form: DrawingForm, unit: 'in' | 'mm'): Sketch {
  const lengths = form.walls.map(({ length }) => typedParts(length, unit));
  const typical = form.start === null ? [] : SHAPES[form.start].map(([inches]) => inches);
  // Unmeasured walls keep the proportion of the measured ones.
  const known = lengths.flatMap((length, i) => (length === null || typical[i] === undefined ? [] : [length / typical[i]]));
  const scale = known.length === 0 ? (unit === 'in' ? 10_000 : 254_000) : known.reduce((sum, one) => sum + one, 0) / known.length;
  const walls = form.walls.map(({ turn }, i) => ({
    length: lengths[i] ?? (typical[i] ?? 36) * scale,
    turn: isTurn(turn) ? Number(turn) : 90,
  }));
  const isMeasured = lengths.every((length) => length !== null);
  const gap = isMeasured ? gapOf(walls) : null;
  return {
    corners: walked(walls),
    measured: lengths.map((length) => length !== null),
    gap: gap === null ? null : { ...gap, isSmall: gap.length <= SMALL_GAP[unit], isLarge: gap.share > LARGE_SHARE },
    shape: shapeSoFar(form, unit),
  };
}

/** A drain half typed is left out, and keeps nothing else from being drawn. */
function shapeSoFar(form: DrawingForm, unit: 'in' | 'mm'): RoomShape | null {
  const read = drawingOf(form, unit);
  if (read.ok) {
    const shape = shapeOf(read.value);
    return shape.ok ? shape.value : null;
  }
  const isTold = (list: 'doorways' | 'things') => (_: unknown, i: number) =>
    !read.fault.some(({ field }) => field.startsWith(`${list}.${i}.`));
  const told = { ...form, doorways: form.doorways.filter(isTold('doorways')), things: form.things.filter(isTold('things')) };
  const isAll = told.doorways.length === form.doorways.length && told.things.length === form.things.length;
  return isAll ? null : shapeSoFar(told, unit);
}

function typedParts(text: string, unit: 'in' | 'mm'): number | null {
  const read = readLength(text);
  if (!read.ok) return null;
  const nm = lengthNm(read.value.value, read.value.unit);
  return nm.ok && nm.value > 0 ? partsOf(read.value, unit) : null;
}

function isTurn(text: string): boolean {
  return TURN.test(text) && Math.abs(Number(text)) < 180;
}

/** The entry of a drawing, or everything that stands in the way. */
export function drawingDrafts(form: DrawingForm, unit: 'in' | 'mm'): Result<Draft[], SetupFault[]> {
  const read = drawingOf(form, unit);
  if (!read.ok) return read;
  const shape = shapeOf(read.value);
  if (!shape.ok) {
    const { list, at, code } = shape.fault;
    return fail([{ field: `${list}.${at}`, code: code === 'not-closed' ? 'gap-open' : code }]);
  }
  return ok([{ kind: 'drawing', data: read.value }]);
}

function drawingOf(form: DrawingForm, unit: 'in' | 'mm'): Result<Drawing, SetupFault[]> {
  const reader = new FieldReader();
  const size = (field: string, text: string): Quantity => {
    const read = reader.size(field, text);
    if (text.trim() === '') reader.fault(field, 'no-length');
    return read ?? { text: '', value: '0', unit };
  };
  const some = <N extends string>(name: N, field: string, text: string) => (text.trim() === '' ? {} : { [name]: size(field, text) });
  const height = size('height', form.height);
  const last = form.walls.length - 1;
  const walls = form.walls.map(({ length, turn, as, ...row }, i): Drawing['walls'][number] => {
    const at = `walls.${i}`;
    if (i < last && !isTurn(turn)) reader.fault(`${at}.turn`, 'not-a-turn');
    const curb = as === 'curb' ? { height: size(`${at}.height`, row.height), depth: size(`${at}.depth`, row.depth) } : {};
    const low = as === 'low' ? { height: size(`${at}.height`, row.height) } : {};
    return { length: size(`${at}.length`, length), ...(i < last ? { turn } : {}), as, ...curb, ...low };
  });
  const doorways = form.doorways.map(({ wall, along, width, height: high }, i): Drawing['doorways'][number] => ({
    wall,
    along: size(`doorways.${i}.along`, along),
    width: size(`doorways.${i}.width`, width),
    ...some('height', `doorways.${i}.height`, high),
  }));
  const things = form.things.map((row, i): DrawnThing => {
    const told = THING_FIELDS[row.thing].filter((name) => !isHole(row.thing, name) || row[name].trim() !== '');
    const fields = told.map((name) => [name, size(`things.${i}.${name}`, row[name])]);
    const measures = Object.fromEntries(fields) as Partial<Record<'out' | 'up' | 'width' | 'height' | 'depth', Quantity>>;
    return { thing: row.thing, wall: row.wall, along: size(`things.${i}.along`, row.along), ...measures };
  });
  if (reader.faults.length > 0) return fail(reader.faults);
  const gap = gapOf(walls.map(({ length, turn = '0' }) => ({ length: partsOf(length, unit) ?? 0, turn: Number(turn) })));
  // What a slanted wall is rounded by.
  const isClosed = gap.length <= 2;
  const closing = isClosed ? 'exact' : form.closing === '' && gap.length <= SMALL_GAP[unit] ? 'spread' : form.closing;
  if (closing === '') return fail([{ field: 'closing', code: 'gap-open' }]);
  const given = closing === 'one-wall' ? { givenTo: Math.min(form.givenTo, last) } : {};
  return ok({ room: form.room, unit, height, walls, closing, ...given, doorways, things });
}

/** A drawing as a form, to be changed. */
export function drawingForm({ room, height, walls, closing, givenTo = 0, doorways, things }: Drawing): DrawingForm {
  const text = (said: Quantity | undefined) => said?.text ?? '';
  return {
    room,
    start: null,
    height: height.text,
    walls: walls.map((wall): WallRow => ({
      length: wall.length.text,
      turn: wall.turn ?? '90',
      as: wall.as,
      height: text(wall.height),
      depth: text(wall.depth),
    })),
    closing: closing === 'exact' ? '' : closing,
    givenTo,
    doorways: doorways.map(({ wall, along, width, height: high }): DoorwayRow => ({
      wall,
      along: along.text,
      width: width.text,
      height: text(high),
    })),
    things: things.map(({ thing, wall, along, out, up, width, height: high, depth }): ThingRow => ({
      thing,
      wall,
      along: along.text,
      out: text(out),
      up: text(up),
      width: text(width),
      height: text(high),
      depth: text(depth),
    })),
  };
}
