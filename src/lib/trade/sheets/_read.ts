import { FARTHEST, tenThousandths } from '#lib/measure/exact.ts';
import type { Point } from '#lib/measure/plane.ts';
import { fail, ok, type Result } from '#lib/result.ts';
import type { RollStock } from './packing.ts';
import type { RoomFault, RoomFaultCode } from './room.ts';

/** Thrown by the readers below, and caught where the input was given. */
export class Wrong extends Error {
  readonly fault: RoomFault;
  constructor(field: string, code: RoomFaultCode, walls?: readonly [number, number]) {
    super(`${field}: ${code}`);
    this.fault = walls === undefined ? { field, code } : { field, code, walls };
  }
}

/** What a reader reads, or the first thing that is wrong with it. */
export function reading<T>(read: () => T): Result<T, RoomFault> {
  try {
    return ok(read());
  } catch (error) {
    if (error instanceof Wrong) return fail(error.fault);
    throw error;
  }
}

type Fields = Readonly<Record<string, unknown>>;

export function unitOf(all: Fields): 'in' | 'mm' {
  const unit = all['unit'];
  if (unit === undefined) throw new Wrong('unit', 'missing');
  if (unit !== 'in' && unit !== 'mm') throw new Wrong('unit', 'not-a-unit');
  return unit;
}

export function fields(value: unknown, field: string): Fields {
  if (value === undefined) throw new Wrong(field, 'missing');
  if (typeof value !== 'object' || value === null || Array.isArray(value)) throw new Wrong(field, 'not-an-object');
  return value as Fields;
}

export function list<T>(value: unknown, field: string, read: (item: unknown, field: string) => T): T[] {
  if (value === undefined) throw new Wrong(field, 'missing');
  if (!Array.isArray(value)) throw new Wrong(field, 'not-a-list');
  return value.map((item, i) => read(item, `${field}[${i}]`));
}

export function length(value: unknown, field: string): number {
  if (value === undefined) throw new Wrong(field, 'missing');
  if (typeof value !== 'number' || !Number.isFinite(value)) throw new Wrong(field, 'not-a-number');
  if (Math.abs(value) > FARTHEST) throw new Wrong(field, 'too-far');
  const parts = tenThousandths(value);
  if (parts === null) throw new Wrong(field, 'too-many-places');
  return parts;
}

export function notNegative(value: unknown, field: string): number {
  const parts = length(value, field);
  if (parts < 0) throw new Wrong(field, 'negative');
  return parts;
}

export function positive(value: unknown, field: string): number {
  const parts = length(value, field);
  if (parts <= 0) throw new Wrong(field, 'not-positive');
  return parts;
}

export function orNull<T>(value: unknown, field: string, read: (value: unknown, field: string) => T): T | null {
  return value === undefined || value === null ? null : read(value, field);
}

export function point(value: unknown, field: string): Point {
  if (!Array.isArray(value) || value.length !== 2) throw new Wrong(field, 'not-a-point');
  return { x: length(value[0], `${field}[0]`), y: length(value[1], `${field}[1]`) };
}

/** Rolls to cut from; one narrower than two overlaps makes no seam. */
export function rollFrom(value: unknown, minOverlap: number): RollStock & { readonly width: number } {
  const all = fields(value, 'roll');
  const width = positive(all['width'], 'roll.width');
  if (width < 2 * minOverlap) throw new Wrong('roll.width', 'roll-too-narrow');
  const atHand = list(all['lengths'] ?? [], 'roll.lengths', positive);
  const newLength = orNull(all['newLength'], 'roll.newLength', positive);
  if (atHand.length === 0 && newLength === null) throw new Wrong('roll', 'no-roll');
  return { width, atHand, newLength };
}
