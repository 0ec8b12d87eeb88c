import { outlineFault, placeIn, type Point } from '#lib/measure/plane.ts';
import type { Result } from '#lib/result.ts';
import { fields, length, list, notNegative, orNull, point, positive, reading, rollFrom, unitOf, Wrong } from './_read.ts';
import type { KeepOut } from './problem.ts';
import type { Direction, SheetTask } from './plan.ts';

/** An opening in wall i, which joins corner i and the next, from and to so far from corner i. */
export interface Doorway {
  readonly wall: number;
  readonly from: number;
  readonly to: number;
}

/** A floor to be planned and laid. All lengths are whole ten-thousandths of its unit. */
export interface Room {
  readonly unit: 'in' | 'mm';
  readonly gauge: number;
  readonly floor: readonly Point[];
  readonly doorways: readonly Doorway[];
  readonly lowWalls: readonly number[];
  readonly keepOuts: readonly KeepOut[];
  readonly roll: SheetTask['roll'];
  readonly minOverlap: number;
  readonly upturn: number;
  readonly direction: SheetTask['direction'];
  readonly pins: readonly number[];
  readonly longestPiece: number | null;
  readonly reach: number;
  /** Across the place one kneels or stands on. */
  readonly foot: number;
  readonly maxStretches: number;
  /** Pieces with a longer cut are laid in two stretches at least. */
  readonly wholeMax: number | null;
  /** Ids of pieces that are laid first and have set before the rest goes on, group after group. */
  readonly sets: readonly (readonly string[])[];
}

export function sheetTask({ floor, ...room }: Room): SheetTask {
  return { ...room, rings: [floor] };
}

/** What is wrong with one field of the input; the path to it as it is written in JavaScript. */
export interface RoomFault {
  readonly field: string;
  readonly code: RoomFaultCode;
  /** Walls that the fault is about. */
  readonly walls?: readonly [number, number];
}

export type RoomFaultCode =
  | 'missing'
  | 'not-a-number'
  | 'too-many-places'
  | 'too-far'
  | 'negative'
  | 'not-positive'
  | 'not-a-count'
  | 'not-a-list'
  | 'not-an-object'
  | 'not-a-point'
  | 'not-a-unit'
  | 'not-a-direction'
  | 'few-corners'
  | 'many-corners'
  | 'zero-wall'
  | 'self-crossing'
  | 'self-touching'
  | 'islands'
  | 'misspelt'
  | 'no-such-wall'
  | 'doorway-turned'
  | 'doorway-too-long'
  | 'outside-floor'
  | 'roll-too-narrow'
  | 'no-roll'
  | 'off-gauge'
  | 'pins-need-direction'
  | 'no-such-piece'
  | 'no-outline'
  | 'hole-outside';

/** Room for a hall of any shape; ten times as many would keep the check of the outline busy for seconds. */
const CORNERS_MAX = 400;
const STRETCHES_MAX = 24;

/** 40 in: kneeling, lean, arm and knife; 12 in for the place one kneels on. Common practice, no source. */
const USUAL = { in: { reach: 40, foot: 12 }, mm: { reach: 1016, foot: 304.8 } } as const;

const NAMES: readonly string[] = [
  ...['unit', 'gauge', 'floor', 'doorways', 'lowWalls', 'keepOuts', 'roll', 'minOverlap', 'upturn', 'direction', 'reach', 'foot'],
  ...['maxStretches', 'wholeMax', 'pins', 'longestPiece', 'sets'],
];
/** Names under which islands are given elsewhere: a floor planned without them would be another floor. */
const ISLANDS: readonly string[] = ['islands', 'holes'];
/** A name as its letters, so that one not quite right is not passed over. */
const plain = (name: string) => name.toLowerCase().replace(/[^a-z]|s$/g, '');

/** Reads a room as `layerbook plan` takes it (docs/plan.md), and names the first thing that is wrong with it. */
export function readRoom(input: unknown): Result<Room, RoomFault> {
  return reading(() => roomFrom(input));
}

function roomFrom(input: unknown): Room {
  const all = fields(input, 'FILE');
  for (const name of Object.keys(all)) {
    if (ISLANDS.includes(name) && list(all[name] ?? [], name, (one) => one).length > 0) throw new Wrong(name, 'islands');
    if (!NAMES.includes(name) && NAMES.map(plain).includes(plain(name))) throw new Wrong(name, 'misspelt');
  }
  const unit = unitOf(all);
  const floor = outline(all['floor']);
  const gauge = positive(all['gauge'], 'gauge');
  const minOverlap = notNegative(all['minOverlap'], 'minOverlap');
  const direction = directionFrom(all['direction'] ?? 'free');
  return {
    unit,
    gauge,
    floor,
    doorways: list(all['doorways'] ?? [], 'doorways', (item, field) => doorway(item, field, floor)),
    lowWalls: list(all['lowWalls'] ?? [], 'lowWalls', (item, field) => wallIndex(item, field, floor)),
    keepOuts: list(all['keepOuts'] ?? [], 'keepOuts', (item, field) => keepOut(item, field, floor)),
    roll: rollFrom(all['roll'], minOverlap),
    minOverlap,
    upturn: notNegative(all['upturn'] ?? 0, 'upturn'),
    direction,
    pins: pinsFrom(all['pins'] ?? [], gauge, direction),
    longestPiece: orNull(all['longestPiece'], 'longestPiece', positive),
    reach: positive(all['reach'] ?? USUAL[unit].reach, 'reach'),
    foot: positive(all['foot'] ?? USUAL[unit].foot, 'foot'),
    maxStretches: count(all['maxStretches'] ?? 4, 'maxStretches'),
    wholeMax: orNull(all['wholeMax'], 'wholeMax', positive),
    sets: list(all['sets'] ?? [], 'sets', (group, field) => list(group, field, pieceName)),
  };
}

function count(value: unknown, field: string): number {
  if (typeof value !== 'number' || !Number.isInteger(value) || value < 1 || value > STRETCHES_MAX) throw new Wrong(field, 'not-a-count');
  return value;
}

function outline(value: unknown): Point[] {
  // A list of rings instead of one of corners: floors with islands are drawn so elsewhere.
  if (Array.isArray(value) && value.some((corner) => Array.isArray(corner) && Array.isArray(corner[0])))
    throw new Wrong('floor', 'islands');
  const corners = list(value, 'floor', point);
  if (corners.length > CORNERS_MAX) throw new Wrong('floor', 'many-corners');
  const fault = outlineFault(corners);
  if (fault === null) return corners;
  if (fault.code === 'few-corners') throw new Wrong('floor', fault.code);
  if (fault.code === 'zero-wall') throw new Wrong('floor', fault.code, [fault.wall, fault.wall]);
  throw new Wrong('floor', fault.code, [fault.wall, fault.other]);
}

function wallIndex(value: unknown, field: string, floor: readonly Point[]): number {
  if (typeof value !== 'number' || !Number.isInteger(value) || value < 0 || value >= floor.length) throw new Wrong(field, 'no-such-wall');
  return value;
}

function doorway(value: unknown, field: string, floor: readonly Point[]): Doorway {
  const all = fields(value, field);
  const wall = wallIndex(all['wall'], `${field}.wall`, floor);
  const from = notNegative(all['from'], `${field}.from`);
  const to = notNegative(all['to'], `${field}.to`);
  if (from >= to) throw new Wrong(field, 'doorway-turned');
  const [a, b] = [floor[wall]!, floor[(wall + 1) % floor.length]!];
  const [dx, dy] = [BigInt(b.x - a.x), BigInt(b.y - a.y)];
  if (BigInt(to) * BigInt(to) > dx * dx + dy * dy) throw new Wrong(field, 'doorway-too-long');
  return { wall, from, to };
}

function keepOut(value: unknown, field: string, floor: readonly Point[]): KeepOut {
  const all = fields(value, field);
  const at = point(all['at'], `${field}.at`);
  const radius = notNegative(all['radius'], `${field}.radius`);
  if (placeIn(floor, at) < 0) throw new Wrong(`${field}.at`, 'outside-floor');
  return { at, radius };
}

function directionFrom(value: unknown): 'free' | Direction {
  if (value !== 'free' && value !== 0 && value !== 90) throw new Wrong('direction', 'not-a-direction');
  return value;
}

function pinsFrom(value: unknown, gauge: number, direction: 'free' | Direction): number[] {
  const pins = list(value, 'pins', (item, field) => {
    const pin = length(item, field);
    if (pin % gauge !== 0) throw new Wrong(field, 'off-gauge');
    return pin;
  });
  if (pins.length > 0 && direction === 'free') throw new Wrong('pins', 'pins-need-direction');
  return [...new Set(pins)].sort((a, b) => a - b);
}

function pieceName(value: unknown, field: string): string {
  if (typeof value !== 'string') throw new Wrong(field, 'no-such-piece');
  return value;
}
