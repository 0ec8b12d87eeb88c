import { ok } from '../result.ts';
import { verdictOf } from './_range.ts';
import {
  choiceFault,
  firstFault,
  flagFault,
  listFault,
  missingFault,
  numberFault,
  orderFault,
  type Computed,
  type InputFault,
  type Span,
} from './input.ts';
import type { Verdict } from './limits.ts';

/** What is measured before anything is laid: flatness, heights, moisture. Falls have `slope.ts`. */

const GAP_MM: Span = [0, 200];
const EDGE_MM: Span = [50, 10_000];
const HEIGHT_MM: Span = [-10_000, 10_000];
const STEP_MM: Span = [0, 50];
const BUILD_UP_MM: Span = [0, 500];

/** A gap that a standard allows under a straightedge of the length it names. */
export interface Allowance {
  readonly gapMm: number;
  readonly overMm: number;
}

/** ANSI A108.02 for tile with an edge of 15 in or more: 1/8 in in 10 ft and 1/16 in in 2 ft, as a trade magazine quotes it. */
export const FLATNESS_LARGE_TILE: readonly Allowance[] = [
  { gapMm: 3.175, overMm: 3048 },
  { gapMm: 1.5875, overMm: 609.6 },
];

/** A straightedge of 3 m is one of 10 ft, and 0.6 m is 2 ft, as the standards themselves round. */
const SAME_LENGTH = 0.02;

/**
 * A gap under a straightedge against what is allowed under one of that length. A standard is not scaled: under another length nothing
 * is said (`no-limit`, `allowedMm` null). The gap may be off by half a step either way.
 * Errors: a gap outside 0 to 200 mm, an edge outside 50 mm to 10 m, a step outside 0 to 50 mm, no allowances, two for one length.
 * Source: the allowances are the caller's, with theirs; ANSI A108.02 in FLATNESS_LARGE_TILE.
 */
export function flatness(gap: {
  readonly gapMm: number;
  readonly stepMm: number;
  readonly edgeMm: number;
  readonly allowed: readonly Allowance[];
}): Computed<{ verdict: Verdict; allowedMm: number | null }> {
  const { gapMm, stepMm, edgeMm, allowed } = gap;
  const fault = firstFault([
    numberFault('gapMm', gapMm, GAP_MM),
    numberFault('stepMm', stepMm, STEP_MM),
    numberFault('edgeMm', edgeMm, EDGE_MM),
    ...allowanceFaults(allowed),
  ]);
  if (fault) return fault;
  const stated = allowed.find(({ overMm }) => sameLength(overMm, edgeMm));
  if (stated === undefined) return ok({ verdict: 'no-limit', allowedMm: null });
  return ok({ verdict: verdictOf(read(gapMm, stepMm), { min: null, max: stated.gapMm }), allowedMm: stated.gapMm });
}

/**
 * A height over a base, such as an upturn over the floor to come or a curb over the drain: heights of both over any one line, less what
 * will still be built on the base. Each may be off by half a step.
 * Errors: a height outside 10 m either way, a step outside 0 to 50 mm, a build-up outside 0 to 500 mm, bounds turned round.
 * Source: geometry; the bounds are the caller's, with theirs.
 */
export function heightOver(measured: {
  readonly topMm: number;
  readonly baseMm: number;
  readonly buildUpMm: number;
  readonly stepMm: number;
  readonly minMm: number | null;
  readonly maxMm: number | null;
}): Computed<{ heightMm: number; lowMm: number; highMm: number; verdict: Verdict }> {
  const { topMm, baseMm, buildUpMm, stepMm, minMm, maxMm } = measured;
  const fault = firstFault([
    numberFault('topMm', topMm, HEIGHT_MM),
    numberFault('baseMm', baseMm, HEIGHT_MM),
    numberFault('buildUpMm', buildUpMm, BUILD_UP_MM),
    numberFault('stepMm', stepMm, STEP_MM),
    minMm === null ? null : numberFault('minMm', minMm, HEIGHT_MM),
    maxMm === null ? null : numberFault('maxMm', maxMm, HEIGHT_MM),
    minMm === null || maxMm === null ? null : orderFault('maxMm', minMm, maxMm),
  ]);
  if (fault) return fault;
  const heightMm = topMm - baseMm - buildUpMm;
  const range = { low: heightMm - stepMm, high: heightMm + stepMm };
  return ok({ heightMm, lowMm: range.low, highMm: range.high, verdict: verdictOf(range, { min: minMm, max: maxMm }) });
}

/** Scales of moisture meters, which cannot be turned into each other, and what each can show. */
const SCALE = {
  wood: [4, 100],
  relative: [0, 1000],
  carbide: [0, 20],
  'rh-in-hole': [1, 100],
} as const satisfies Readonly<Record<string, Span>>;
export type MoistureScale = keyof typeof SCALE;
const SCALES = Object.keys(SCALE) as readonly MoistureScale[];

/** Why a moisture reading was held against no limit. */
export type Unjudged = 'no-limit' | 'other-scale' | 'through-tile' | 'no-reference';

/**
 * A moisture reading against a limit in the same meter's scale. Through tile it is held against no limit: only against a dry place of the
 * same tile and meter, as `aboveReference`. The reading may be off by half a step.
 * Errors: an unknown scale, a reading outside what the scale can show, a step outside 0 to 50, a through-tile that is no yes or no.
 * Source: common practice, no source: readings of one scale say nothing in another, nor through a tile.
 */
export function moisture(meter: {
  readonly scale: MoistureScale;
  readonly reading: number;
  readonly step: number;
  readonly throughTile: boolean;
  readonly dryReference: number | null;
  readonly limit: { readonly scale: MoistureScale; readonly max: number } | null;
}): Computed<{ verdict: Verdict; aboveReference: number | null; unjudged: Unjudged | null }> {
  const { scale, reading, step, throughTile, dryReference, limit } = meter;
  const scaleFault = firstFault([choiceFault('scale', scale, SCALES)]);
  if (scaleFault) return scaleFault;
  const fault = firstFault([
    numberFault('reading', reading, SCALE[scale]),
    numberFault('step', step, STEP_MM),
    flagFault('throughTile', throughTile),
    dryReference === null ? null : numberFault('dryReference', dryReference, SCALE[scale]),
    ...moistureLimitFaults(limit),
  ]);
  if (fault) return fault;
  const aboveReference = dryReference === null ? null : reading - dryReference;
  const unjudged = throughTile
    ? dryReference === null
      ? 'no-reference'
      : 'through-tile'
    : limit === null
      ? 'no-limit'
      : limit.scale === scale
        ? null
        : 'other-scale';
  if (unjudged !== null || limit === null) return ok({ verdict: 'no-limit', aboveReference, unjudged });
  return ok({ verdict: verdictOf(read(reading, step), { min: null, max: limit.max }), aboveReference, unjudged });
}

/** A reading may be off by half a step either way. */
function read(value: number, step: number): { low: number; high: number } {
  return { low: value - step / 2, high: value + step / 2 };
}

function sameLength(one: number, other: number): boolean {
  return Math.abs(one - other) <= SAME_LENGTH * Math.max(one, other);
}

function allowanceFaults(allowed: readonly Allowance[]): (InputFault | null)[] {
  const list = listFault('allowed', allowed, 1);
  if (list) return [list];
  return allowed.flatMap(({ gapMm, overMm }, at) => [
    numberFault(`allowed[${at}].gapMm`, gapMm, GAP_MM),
    numberFault(`allowed[${at}].overMm`, overMm, EDGE_MM),
    allowed.slice(0, at).some((other) => sameLength(other.overMm, overMm))
      ? { code: 'twice', field: `allowed[${at}].overMm`, bound: null }
      : null,
  ]);
}

function moistureLimitFaults(limit: { readonly scale: MoistureScale; readonly max: number } | null): (InputFault | null)[] {
  if (limit === null) return [];
  const missing = missingFault('limit', limit) ?? choiceFault('limit.scale', limit.scale, SCALES);
  return [missing ?? numberFault('limit.max', limit.max, SCALE[limit.scale])];
}
