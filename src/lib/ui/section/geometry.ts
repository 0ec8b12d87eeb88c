import type { Layer } from '#lib/job/systems.ts';
import { banded, covered, faceAt, facePoints, flat, type Face, type LegPoint } from './face.ts';

export interface Point {
  readonly x: number;
  readonly y: number;
}
export type Leg = 'wall' | 'floor';
export type Material = 'board' | 'mortar' | 'sheet' | 'band' | 'coat' | 'water';

/** What a layer is drawn of, from the outside inwards. A sheet is never without the bed it lies in. */
const BEDS_OF: Readonly<Record<Layer, readonly Material[]>> = {
  substrate: ['board'],
  sheets: ['mortar', 'sheet'],
  bands: ['band'],
  coat: ['coat'],
  flood: ['water'],
};

export interface StrataInput {
  /** Size of the drawing in pixels. The outer corner of the section is its lower left. */
  readonly width: number;
  readonly height: number;
  /** Thickness of each material in pixels; for water its depth. */
  readonly thickness: Readonly<Record<Material, number>>;
  /** Layers from the outside inwards, with how many items each leg shows. A leg without items is not there. */
  readonly layers: readonly { readonly layer: Layer; readonly wall: number; readonly floor: number }[];
  /** Where a band ends: y on the wall, x on the floor. Null draws it over the whole leg. */
  readonly band: { readonly wallTop: number; readonly floorEnd: number } | null;
  /** Strip at the open end of a leg that no cell reaches into: the break line above, the screen's edge at the right. */
  readonly margin: number;
}

/** One item's share of a leg. `from` and `to` run along the leg: y on the wall, x on the floor. */
export interface Cell {
  readonly points: readonly Point[];
  readonly from: number;
  readonly to: number;
  /** The room side at its middle: x on the wall, y on the floor. */
  readonly face: number;
}

/** One material along one leg. The hatch is drawn in `hatched` pieces, each with the distance `v` of its base from the outside. */
export interface Bed {
  readonly material: Material;
  readonly leg: Leg;
  readonly points: readonly Point[];
  readonly hatched: readonly { readonly points: readonly Point[]; readonly v: number }[];
}

export interface Stratum {
  readonly layer: Layer;
  readonly outline: readonly Point[];
  readonly beds: readonly Bed[];
  /** The wall from the top down, the floor from the corner outwards: the order in which items are listed. */
  readonly wall: readonly Cell[];
  readonly floor: readonly Cell[];
  /** Its two sides on each leg, as distances from the outside; null where it has no such leg. */
  readonly sides: Readonly<Record<Leg, { readonly outer: Face; readonly inner: Face } | null>>;
}

interface Room {
  readonly wall: Face;
  readonly floor: Face;
}

/** The section's layers as nested strata: each lies on the faces the one before it left. */
export function strata(input: StrataInput): Stratum[] {
  let room: Room = { wall: flat(0), floor: flat(0) };
  return input.layers.map(({ layer, wall, floor }) => {
    const stages = [room];
    for (const material of BEDS_OF[layer]) stages.push(laid(stages.at(-1)!, material, { wall: wall > 0, floor: floor > 0 }, input));
    const before = room;
    const after = stages.at(-1)!;
    room = after;
    const has = { wall: wall > 0 && layer !== 'flood', floor: floor > 0 };
    const end = { wall: legEnd('wall', layer, input), floor: legEnd('floor', layer, input) };
    const strip = (leg: Leg, from: Room, to: Room) => legStrip(leg, from, to, end[leg], input.height);
    const beds = BEDS_OF[layer].flatMap((material, i) =>
      (['wall', 'floor'] as const)
        .filter((leg) => has[leg])
        .map((leg): Bed => ({ material, leg, points: strip(leg, stages[i]!, stages[i + 1]!), hatched: pieces(leg, stages[i]!, stages[i + 1]!, end[leg], input.height) })),
    );
    const sides = (leg: Leg) => (has[leg] ? { outer: before[leg], inner: after[leg] } : null);
    return {
      layer,
      outline: outline(has, before, after, end, input.height),
      beds,
      wall: has.wall ? cells('wall', wall, before, after, end.wall, input).reverse() : [],
      floor: has.floor ? cells('floor', floor, before, after, end.floor, input) : [],
      sides: { wall: sides('wall'), floor: sides('floor') },
    };
  });
}

/** Thickness of all strata near the corner, on one leg, water left out. */
export function buildUp(strata: readonly Stratum[], leg: Leg): number {
  return Math.max(0, ...strata.filter(({ layer }) => layer !== 'flood').map(({ sides }) => sides[leg]?.inner.near ?? 0));
}

/** Middle of a stratum's wall leg at height `y`: where its leader ends. Null without a wall leg. */
export function wallMiddle(stratum: Stratum, y: number, height: number): number | null {
  const sides = stratum.sides.wall;
  return sides === null ? null : (faceAt(sides.outer, height - y) + faceAt(sides.inner, height - y)) / 2;
}

/** The stratum a touch on the drawing means: the one under it, else the nearest on that leg. */
export function stratumAt(strata: readonly Stratum[], { x, y }: Point, height: number): Stratum | null {
  const leg: Leg = x < height - y ? 'wall' : 'floor';
  const [s, v] = leg === 'wall' ? [height - y, x] : [x, height - y];
  const distances = strata.flatMap((stratum) => {
    const sides = stratum.sides[leg];
    return sides === null ? [] : [{ stratum, distance: Math.abs(v - (faceAt(sides.outer, s) + faceAt(sides.inner, s)) / 2) }];
  });
  return distances.sort((a, b) => a.distance - b.distance)[0]?.stratum ?? null;
}

function laid(room: Room, material: Material, has: Readonly<Record<Leg, boolean>>, { thickness, band, width, height }: StrataInput): Room {
  const t = thickness[material];
  if (material === 'water') return { wall: room.wall, floor: has.floor ? flat(room.floor.near + t) : room.floor };
  const ends = { wall: band === null ? height : height - band.wallTop, floor: band?.floorEnd ?? width };
  const over = (leg: Leg): Face => {
    if (!has[leg]) return room[leg];
    return material === 'band' && band !== null ? banded(room[leg], t, ends[leg]) : covered(room[leg], t);
  };
  return { wall: over('wall'), floor: over('floor') };
}

function legEnd(leg: Leg, layer: Layer, { width, height, band }: StrataInput): number {
  if (layer === 'bands' && band !== null) return leg === 'wall' ? height - band.wallTop : band.floorEnd;
  return leg === 'wall' ? height : width;
}

/** Where a leg begins at the corner: on the other leg. Outside and inside differ by the mitre where both legs are there. */
function corners(leg: Leg, before: Room, after: Room): { outer: number; inner: number } {
  const other = leg === 'wall' ? 'floor' : 'wall';
  return { outer: before[other].near, inner: leg === 'wall' && isWater(before, after) ? before.floor.near : after[other].near };
}

function isWater(before: Room, after: Room): boolean {
  return before.wall === after.wall && before.floor !== after.floor;
}

function legStrip(leg: Leg, before: Room, after: Room, end: number, height: number): Point[] {
  const start = corners(leg, before, after);
  return between(facePoints(before[leg], start.outer, end), facePoints(after[leg], start.inner, end), leg, height);
}

/** The parts of a strip that lie straight: a hatch is not bent over a step, the step is left plain. */
function pieces(leg: Leg, before: Room, after: Room, end: number, height: number): { points: Point[]; v: number }[] {
  const [outer, inner] = [before[leg], after[leg]];
  const start = corners(leg, before, after);
  const cut = (from: { outer: number; inner: number }, to: number, v: number) => ({
    points: between(facePoints(outer, from.outer, to), facePoints(inner, from.inner, to), leg, height),
    v,
  });
  if (outer.near === outer.far) return [cut(start, end, outer.near)];
  const low = Math.min(outer.from, inner.near === inner.far ? outer.from : inner.from);
  const high = Math.max(outer.to, inner.near === inner.far ? outer.to : inner.to);
  return [cut(start, low, outer.near), cut({ outer: high, inner: high }, end, outer.far)];
}

function cells(leg: Leg, count: number, before: Room, after: Room, end: number, { height, margin, width }: StrataInput): Cell[] {
  const start = corners(leg, before, after);
  const full = leg === 'wall' ? height : width;
  const length = Math.min(end, full - margin) - start.inner;
  return Array.from({ length: count }, (_, i): Cell => {
    const [s0, s1] = [start.inner + (length * i) / count, start.inner + (length * (i + 1)) / count];
    const outer = facePoints(before[leg], i === 0 ? start.outer : s0, s1);
    const face = faceAt(after[leg], (s0 + s1) / 2);
    const points = between(outer, facePoints(after[leg], s0, s1), leg, height);
    return leg === 'wall' ? { points, from: height - s1, to: height - s0, face } : { points, from: s0, to: s1, face: height - face };
  });
}

function outline(has: Readonly<Record<Leg, boolean>>, before: Room, after: Room, end: Readonly<Record<Leg, number>>, height: number): Point[] {
  if (!has.wall && !has.floor) return [];
  if (!has.wall) return legStrip('floor', before, after, end.floor, height);
  if (!has.floor) return legStrip('wall', before, after, end.wall, height);
  const side = (leg: Leg, room: Room) => facePoints(room[leg], room[leg === 'wall' ? 'floor' : 'wall'].near, end[leg]).map((point) => place(point, leg, height));
  return [...side('wall', before).reverse(), ...side('floor', before).slice(1), ...side('floor', after).reverse(), ...side('wall', after).slice(1)];
}

function between(outer: readonly LegPoint[], inner: readonly LegPoint[], leg: Leg, height: number): Point[] {
  return [...outer, ...[...inner].reverse()].map((point) => place(point, leg, height));
}

function place({ s, v }: LegPoint, leg: Leg, height: number): Point {
  return leg === 'wall' ? { x: v, y: height - s } : { x: s, y: height - v };
}
