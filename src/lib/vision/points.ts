import { fail, ok, type Result } from '../result.ts';
import type { Segment } from './length.ts';
import type { Point, Quad } from './raster.ts';
import type { Reference } from './reference.ts';
import type { Marked } from './surface.ts';

/** What a person tapped for a length, as docs/vision.md writes it down. */
export interface LengthPoints {
  readonly reference: Reference;
  readonly segments: readonly Segment[];
}

/** What a person tapped for the coverage of a coat. */
export interface CoveragePoints extends Marked {
  /** Places of good film and of bare substrate; bare ones may lie outside the area. */
  readonly film: readonly Point[];
  readonly bare: readonly Point[];
}

/** `field` is the path into the JSON. */
export interface PointsFault {
  readonly code: 'not-an-object' | 'not-a-point' | 'not-four-points' | 'not-a-list' | 'not-a-size' | 'unknown-kind';
  readonly field: string;
}

/** No surface of a room is larger; a typing error in a size is. */
const SIZE_MAX_MM = 20_000;

export function readLengthPoints(json: unknown): Result<LengthPoints, PointsFault> {
  return reading(() => {
    const { reference, segments } = objectAt(json, '');
    return {
      reference: referenceAt(reference),
      segments: listAt(segments, 'segments').map((each, i) => {
        const { from, to } = objectAt(each, `segments[${i}]`);
        return { from: pointAt(from, `segments[${i}].from`), to: pointAt(to, `segments[${i}].to`) };
      }),
    };
  });
}

export function readCoveragePoints(json: unknown): Result<CoveragePoints, PointsFault> {
  return reading(() => {
    const { quad, widthMm, heightMm, film, bare } = objectAt(json, '');
    const points = (value: unknown, field: string) => listAt(value, field).map((each, i) => pointAt(each, `${field}[${i}]`));
    return {
      quad: quadAt(quad, 'quad'),
      widthMm: sizeAt(widthMm, 'widthMm'),
      heightMm: sizeAt(heightMm, 'heightMm'),
      film: points(film, 'film'),
      bare: points(bare, 'bare'),
    };
  });
}

function referenceAt(value: unknown): Reference {
  const { kind, corners, barMm, widthMm, heightMm } = objectAt(value, 'reference');
  if (kind === 'card') {
    return {
      kind,
      corners: isAbsent(corners) ? undefined : quadAt(corners, 'reference.corners'),
      barMm: isAbsent(barMm) ? undefined : sizeAt(barMm, 'reference.barMm'),
    };
  }
  if (kind !== 'rectangle') throw new Wrong('unknown-kind', 'reference.kind');
  return {
    kind,
    widthMm: sizeAt(widthMm, 'reference.widthMm'),
    heightMm: sizeAt(heightMm, 'reference.heightMm'),
    corners: quadAt(corners, 'reference.corners'),
  };
}

/** Carries a fault out of the depth of the reading; it never leaves this file. */
class Wrong extends Error {
  readonly fault: PointsFault;

  constructor(code: PointsFault['code'], field: string) {
    super(code);
    this.fault = { code, field };
  }
}

function reading<T>(read: () => T): Result<T, PointsFault> {
  try {
    return ok(read());
  } catch (error) {
    if (error instanceof Wrong) return fail(error.fault);
    throw error;
  }
}

/** Programs that know no missing field write null. */
function isAbsent(value: unknown): boolean {
  return value === undefined || value === null;
}

function objectAt(value: unknown, field: string): Readonly<Record<string, unknown>> {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) throw new Wrong('not-an-object', field);
  return value as Record<string, unknown>;
}

function listAt(value: unknown, field: string): readonly unknown[] {
  if (!Array.isArray(value)) throw new Wrong('not-a-list', field);
  return value;
}

function sizeAt(value: unknown, field: string): number {
  if (typeof value !== 'number' || !(value > 0 && value <= SIZE_MAX_MM)) throw new Wrong('not-a-size', field);
  return value;
}

function pointAt(value: unknown, field: string): Point {
  if (!Array.isArray(value) || value.length !== 2) throw new Wrong('not-a-point', field);
  const [x, y] = value as unknown[];
  if (typeof x !== 'number' || typeof y !== 'number' || !Number.isFinite(x) || !Number.isFinite(y)) throw new Wrong('not-a-point', field);
  return [x, y];
}

function quadAt(value: unknown, field: string): Quad {
  const corners = listAt(value, field);
  if (corners.length !== 4) throw new Wrong('not-four-points', field);
  const [a, b, c, d] = corners.map((corner, i) => pointAt(corner, `${field}[${i}]`)) as [Point, Point, Point, Point];
  return [a, b, c, d];
}
