import { minus, ratio, type Ratio } from '#lib/measure/exact.ts';
import { meeting, outlineFault, placeIn, type Point } from '#lib/measure/plane.ts';
import type { Face } from '#lib/measure/rectangles.ts';
import type { Result } from '#lib/result.ts';
import { fields, list, notNegative, orNull, point, positive, reading, rollFrom, unitOf, Wrong } from './_read.ts';
import { newRoll, whyImpossible, type Impossible, type SheetRemedy } from './impossible.ts';
import { packRolls, type CutRoll } from './packing.ts';
import { pieceId, planSurface, type SheetPiece, type SheetTask, type SurfacePlan } from './plan.ts';
import type { Budget, KeepOut } from './problem.ts';
import type { RoomFault } from './room.ts';

/** A wall to be covered with strips that stand upright; x runs along it and y up. A doorway up to the top leaves it in two faces. */
export interface WallSurface {
  /** Its number in the drawing, from 0. */
  readonly wall: number;
  readonly faces: readonly Face[];
  /** Discs that no overlap may meet, around a valve or pipe. */
  readonly keepOuts: readonly KeepOut[];
}

/** The walls of a room, cut from the same rolls. All lengths are whole ten-thousandths of the unit. */
export interface Walls extends Pick<SheetTask, 'gauge' | 'roll' | 'minOverlap' | 'longestPiece'> {
  readonly unit: 'in' | 'mm';
  readonly walls: readonly WallSurface[];
}

/** The strips of one wall: each of its faces is planned by itself, and their strips are listed from left to right. */
export interface WallPlan extends SurfacePlan {
  readonly wall: number;
}

export type WallsPlan =
  | {
      readonly walls: readonly WallPlan[];
      /** `pieces` are indices over all walls, in their order. */
      readonly rolls: readonly CutRoll[];
      readonly proven: { readonly plan: boolean; readonly packing: boolean };
    }
  | { readonly impossible: Impossible; readonly wall: number | null };

const CORNERS_MAX = 400;

/** Reads walls as `layerbook plan` takes them (docs/plan.md), and names the first thing that is wrong with them. */
export function readWalls(input: unknown): Result<Walls, RoomFault> {
  return reading(() => {
    const all = fields(input, 'FILE');
    const minOverlap = notNegative(all['minOverlap'], 'minOverlap');
    const walls = list(all['walls'], 'walls', wallFrom);
    if (walls.every(({ faces }) => faces.length === 0)) throw new Wrong('walls', 'missing');
    return {
      unit: unitOf(all),
      gauge: positive(all['gauge'], 'gauge'),
      walls,
      roll: rollFrom(all['roll'], minOverlap),
      minOverlap,
      longestPiece: orNull(all['longestPiece'], 'longestPiece', positive),
    };
  });
}

function wallFrom(value: unknown, field: string): WallSurface {
  const all = fields(value, field);
  const wall = all['wall'];
  if (typeof wall !== 'number' || !Number.isInteger(wall) || wall < 0) throw new Wrong(`${field}.wall`, 'no-such-wall');
  const faces = list(all['faces'], `${field}.faces`, faceFrom);
  const keepOuts = list(all['keepOuts'] ?? [], `${field}.keepOuts`, (one, at) => {
    const disc = fields(one, at);
    const keepOut = { at: point(disc['at'], `${at}.at`), radius: notNegative(disc['radius'], `${at}.radius`) };
    if (!faces.some(({ outline }) => placeIn(outline, keepOut.at) >= 0)) throw new Wrong(`${at}.at`, 'outside-floor');
    return keepOut;
  });
  return { wall, faces, keepOuts };
}

function faceFrom(value: unknown, field: string): Face {
  const all = fields(value, field);
  const outline = ringFrom(all['outline'], `${field}.outline`);
  const holes = list(all['holes'] ?? [], `${field}.holes`, (one, at) => {
    const hole = ringFrom(one, at);
    if (hole.some((corner) => placeIn(outline, corner) < 1) || ringsMeet(outline, hole)) throw new Wrong(at, 'hole-outside');
    return hole;
  });
  holes.forEach((hole, i) => {
    const others = holes.slice(0, i);
    if (others.some((other) => ringsMeet(other, hole) || placeIn(other, hole[0]!) >= 0 || placeIn(hole, other[0]!) >= 0))
      throw new Wrong(`${field}.holes[${i}]`, 'hole-outside');
  });
  return { outline, holes };
}

function ringFrom(value: unknown, field: string): Point[] {
  const ring = list(value, field, point);
  if (ring.length > CORNERS_MAX || outlineFault(ring) !== null) throw new Wrong(field, 'no-outline');
  return ring;
}

function ringsMeet(a: readonly Point[], b: readonly Point[]): boolean {
  const edges = (ring: readonly Point[]) => ring.map((from, i) => [from, ring[(i + 1) % ring.length]!] as const);
  return edges(a).some(([p, q]) => edges(b).some(([r, s]) => meeting(p, q, r, s) !== null));
}

/** The best plan of each wall, and the pieces of all of them on rolls together. Proven unless the time runs out. */
export function planWalls(all: Walls, budget: Budget, remedies: Budget): WallsPlan {
  const planned = planEach(all, budget);
  if ('rolls' in planned) return planned;
  const { wall, impossible } = reasonOf(all, planned, remedies);
  const helps = impossible.remedies.flatMap((remedy) => helped(all, wall, remedy, budget));
  return { wall, impossible: { ...impossible, remedies: helps } };
}

/** The first wall in the way, or the cuts that the rolls are too short for. */
interface Stuck {
  readonly stuck: { readonly task: SheetTask; readonly wall: number } | { readonly cuts: readonly number[] };
  readonly isProven: boolean;
}

function planEach(all: Walls, budget: Budget): Extract<WallsPlan, { rolls: unknown }> | Stuck {
  const walls: WallPlan[] = [];
  let isProven = true;
  for (const surface of all.walls) {
    const faces: SurfacePlan[] = [];
    for (const task of tasksOf(all, surface)) {
      const answer = planSurface(task, budget);
      isProven &&= answer.isProven;
      if (answer.plan === null) return { stuck: { task, wall: surface.wall }, isProven: answer.isProven };
      faces.push(answer.plan);
    }
    if (faces.length > 0) walls.push({ wall: surface.wall, ...joined(faces, surface.wall) });
  }
  const cuts = walls.flatMap(({ pieces }) => pieces.map(({ cutLength }) => cutLength));
  const packing = packRolls(cuts, all.roll, budget);
  if (packing.rolls === null) return { stuck: { cuts }, isProven: packing.isProven };
  return { walls, rolls: packing.rolls, proven: { plan: isProven, packing: packing.isProven } };
}

function tasksOf({ gauge, roll, minOverlap, longestPiece }: Walls, { faces, keepOuts }: WallSurface): SheetTask[] {
  return faces.map(({ outline, holes }) => ({
    rings: [outline, ...holes],
    gauge,
    roll,
    minOverlap,
    upturn: 0,
    direction: 90,
    keepOuts: keepOuts.filter(({ at }) => placeIn(outline, at) >= 0),
    pins: [],
    longestPiece,
  }));
}

/** The faces of a wall as one, named by the number that people see on the wall: `2A` is the first piece of the second wall. */
function joined(faces: readonly SurfacePlan[], wall: number): SurfacePlan {
  const sorted = faces.toSorted((a, b) => a.positions[0]! - b.positions[0]!);
  const strips = sorted.map((_, i) => sorted.slice(0, i).reduce((sum, { positions }) => sum + positions.length, 0));
  const pieces = sorted
    .flatMap((face, i) => face.pieces.map((piece): SheetPiece => ({ ...piece, strip: piece.strip + strips[i]! })))
    .map((piece, i) => ({ ...piece, id: `${wall + 1}${pieceId(i)}` }));
  const overlaps = sorted.flatMap(({ smallestOverlap }) => smallestOverlap ?? []);
  const totalCut = sorted.reduce((sum, face) => sum + face.totalCut, 0);
  return {
    direction: 90,
    positions: sorted.flatMap(({ positions }) => positions),
    pieces,
    totalCut,
    notched: sorted.reduce((sum, { notched }) => sum + notched, 0),
    seamLength: sorted.map(({ seamLength }) => seamLength).reduce(plus),
    smallestOverlap: overlaps.length === 0 ? null : Math.min(...overlaps),
    upturnMissing: [],
    gap: totalCut / sorted.reduce((sum, face) => sum + face.totalCut / (1 + face.gap), 0) - 1,
  };
}

function plus(a: Ratio, b: Ratio): Ratio {
  return minus(a, minus(ratio(0), b));
}

function reasonOf(all: Walls, { stuck, isProven }: Stuck, budget: Budget): { impossible: Impossible; wall: number | null } {
  if ('task' in stuck) return { wall: stuck.wall, impossible: whyImpossible(stuck.task, { kind: 'none', isProven }, budget) };
  const remedies = isProven ? [newRoll(all, stuck.cuts)] : [];
  return { wall: null, impossible: { code: isProven ? 'rolls-too-short' : 'no-time', piece: null, keepOuts: [], remedies, isProven } };
}

/** A remedy that makes all walls possible: where another wall is in the way in the same manner, it is made larger. Strips stay upright. */
function helped(all: Walls, wall: number | null, remedy: SheetRemedy, budget: Budget): SheetRemedy[] {
  if (remedy.kind === 'direction' || remedy.kind.includes('keep-out')) return [];
  const { roll = all.roll, longestPiece = all.longestPiece, gauge = all.gauge } = remedy.change;
  const changed = { ...all, roll, longestPiece, gauge };
  const planned = planEach(changed, budget);
  if ('rolls' in planned) return [remedy];
  const again = reasonOf(changed, planned, budget);
  if (!budget() || (again.wall !== null && wall !== null && again.wall <= wall)) return [];
  const next = again.impossible.remedies.find(({ kind }) => kind === remedy.kind);
  return next === undefined ? [] : helped(changed, again.wall, { ...next, change: { ...remedy.change, ...next.change } }, budget);
}
