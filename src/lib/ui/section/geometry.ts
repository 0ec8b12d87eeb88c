import type { Layer } from '#lib/job/systems.ts';
import { banded, covered, faceAt, facePoints, flat, type Face, type LegPoint } from './face.ts';

export interface Point {
  readonly x: number;
  readonly y: number;
}
export type Leg = 'wall' | 'floor';
export type Material = 'frame' | 'board' | 'liner' | 'tray' | 'mortar' | 'sheet' | 'band' | 'coat' | 'water' | 'guard';

/** What a layer is drawn of, from the outside inwards. A sheet is never without the bed it lies in. */
export const BEDS_OF: Readonly<Record<Layer, readonly Material[]>> = {
  behind: ['frame'],
  substrate: ['board'],
  liner: ['liner'],
  tray: ['mortar', 'tray'],
  sheets: ['mortar', 'sheet'],
  bands: ['band'],
  coat: ['coat'],
  flood: ['water'],
  protect: ['guard'],
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
  /** Strip at the top of the wall that no cell reaches into: there the break line cuts it. */
  readonly breakLine: number;
}

/** One item's share of a leg. `from` and `to` run along the leg: y on the wall, x on the floor; `points` leave a seam to the next. */
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
  /** Its room side and its open ends: what is drawn of a layer not begun, whose other side is the one before it. */
  readonly edge: readonly Point[];
  readonly beds: readonly Bed[];
  /** Lines between the beds. */
  readonly seams: readonly (readonly Point[])[];
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
  return input.layers.map((layer) => {
    const laid = layStratum(layer, room, input);
    room = laid.after;
    return laid.stratum;
  });
}

function layStratum(
  { layer, wall, floor }: StrataInput['layers'][number],
  before: Room,
  input: StrataInput,
): { stratum: Stratum; after: Room } {
  // Water stands on the floor against whatever the wall shows.
  const has = { wall: wall > 0 && layer !== 'flood', floor: floor > 0 };
  const legs = (['wall', 'floor'] as const).filter((leg) => has[leg]);
  const end = { wall: legEnd('wall', layer, input), floor: legEnd('floor', layer, input) };
  const stages = [before];
  for (const material of BEDS_OF[layer]) {
    const last = stages.at(-1)!;
    const next = (leg: Leg) => (has[leg] ? nextFace(last[leg], material, end[leg], full(leg, input), input.thickness) : last[leg]);
    stages.push({ wall: next('wall'), floor: next('floor') });
  }
  const after = stages.at(-1)!;
  const stripOf =
    (before: Room, after: Room) =>
    (leg: Leg): Strip => ({ leg, before, after, end: end[leg], height: input.height });
  const leaf = stripOf(before, after);
  const beds = BEDS_OF[layer].flatMap((material, i) =>
    legs.map((leg): Bed => {
      const strip = stripOf(stages[i]!, stages[i + 1]!)(leg);
      return { material, leg, points: stripPoints(strip), hatched: straightPieces(strip) };
    }),
  );
  const sides = (leg: Leg) => (has[leg] ? { outer: before[leg], inner: after[leg] } : null);
  const outside = faceLine(legs, leaf, 'outer');
  const inside = faceLine(legs, leaf, 'inner');
  const ends = layer === 'flood' ? [] : [outside.at(0), outside.at(-1)].filter((end) => end !== undefined);
  const stratum = {
    layer,
    outline: [...outside, ...inside.toReversed()],
    edge: [...ends.slice(0, 1), ...inside, ...ends.slice(1)],
    beds,
    seams: stages.slice(1, -1).map((stage) => faceLine(legs, stripOf(before, stage), 'inner')),
    wall: has.wall ? cells(leaf('wall'), wall, input.height - input.breakLine).reverse() : [],
    floor: has.floor ? cells(leaf('floor'), floor, input.width) : [],
    sides: { wall: sides('wall'), floor: sides('floor') },
  };
  // Water is let out again: what protects the membrane lies on the membrane.
  return { stratum, after: layer === 'flood' ? before : after };
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

/** One bed of a layer along one leg, between the faces before and after it. */
interface Strip {
  readonly leg: Leg;
  readonly before: Room;
  readonly after: Room;
  readonly end: number;
  readonly height: number;
}

function full(leg: Leg, { width, height }: StrataInput): number {
  return leg === 'wall' ? height : width;
}

function legEnd(leg: Leg, layer: Layer, input: StrataInput): number {
  if (layer !== 'bands' || input.band === null) return full(leg, input);
  return leg === 'wall' ? input.height - input.band.wallTop : input.band.floorEnd;
}

function nextFace(face: Face, material: Material, end: number, full: number, thickness: StrataInput['thickness']): Face {
  const t = thickness[material];
  if (material === 'water') return flat(face.near + t);
  return material === 'band' && end < full ? banded(face, t, end) : covered(face, t);
}

/** Where a leg begins at the corner: on the other leg. Outside and inside differ, by the mitre, where both legs are there. */
function corner({ leg, before, after }: Strip): { outer: number; inner: number } {
  const other = leg === 'wall' ? 'floor' : 'wall';
  return { outer: before[other].near, inner: after[other].near };
}

function cut(strip: Strip, from: { outer: number; inner: number }, to: number): Point[] {
  const outer = facePoints(strip.before[strip.leg], from.outer, to);
  const inner = facePoints(strip.after[strip.leg], from.inner, to);
  return [...outer, ...inner.reverse()].map((point) => place(point, strip));
}

function stripPoints(strip: Strip): Point[] {
  return cut(strip, corner(strip), strip.end);
}

/** The parts of a strip that lie straight: a hatch is not bent over a step, the step is left plain. Water has no step to follow. */
function straightPieces(strip: Strip): Bed['hatched'] {
  const outer = strip.before[strip.leg];
  const inner = strip.after[strip.leg];
  if (outer.near === outer.far || inner.near === inner.far) return [{ points: stripPoints(strip), v: outer.near }];
  const low = Math.min(outer.from, inner.from);
  const high = Math.max(outer.to, inner.to);
  return [
    { points: cut(strip, corner(strip), low), v: outer.near },
    { points: cut(strip, { outer: high, inner: high }, strip.end), v: outer.far },
  ];
}

/** Pixels kept free at both ends of a cell, so that neighbouring gaps stay two. */
const SEAM = 2;

/** The leg divided evenly along its room side; the cell at the corner takes the mitre with it. */
function cells(strip: Strip, count: number, reach: number): Cell[] {
  const { leg, height, after } = strip;
  const start = corner(strip);
  const length = Math.min(strip.end, reach) - start.inner;
  return Array.from({ length: count }, (_, i): Cell => {
    const s0 = start.inner + (length * i) / count;
    const s1 = start.inner + (length * (i + 1)) / count;
    const seam = Math.min(SEAM, length / count / 4);
    const points = cut(strip, { outer: (i === 0 ? start.outer : s0) + seam, inner: s0 + seam }, s1 - seam);
    const face = faceAt(after[leg], (s0 + s1) / 2);
    return leg === 'wall' ? { points, from: height - s1, to: height - s0, face } : { points, from: s0, to: s1, face: height - face };
  });
}

/** One side of the layer as a line, from the top of the wall around the corner to the end of the floor. */
function faceLine(legs: readonly Leg[], leaf: (leg: Leg) => Strip, side: 'outer' | 'inner'): Point[] {
  const lines = legs.map((leg) => {
    const strip = leaf(leg);
    const face = strip[side === 'outer' ? 'before' : 'after'][leg];
    const points = facePoints(face, corner(strip)[side], strip.end).map((point) => place(point, strip));
    return leg === 'wall' ? points.reverse() : points;
  });
  // Both legs begin at the same corner.
  return lines.flatMap((line, i) => (i === 0 ? line : line.slice(1)));
}

function place({ s, v }: LegPoint, { leg, height }: Strip): Point {
  return leg === 'wall' ? { x: v, y: height - s } : { x: s, y: height - v };
}
