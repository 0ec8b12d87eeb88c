import fc from 'fast-check';
import { intersection } from 'polyclip-ts';
import type { BruteRoom } from './plan-brute.ts';

type XY = readonly [number, number];

/** A room with walls along the axes only: a rectangle out of whose edges rectangles are cut. */
export function squareRoom(size: number, cuts: number): fc.Arbitrary<XY[]> {
  const cut = fc.record({
    from: fc.nat(size - 2),
    length: fc.integer({ min: 1, max: size - 1 }),
    depth: fc.integer({ min: 1, max: size - 1 }),
    edge: fc.nat(3),
  });
  return fc
    .tuple(fc.integer({ min: 3, max: size }), fc.integer({ min: 3, max: size }), fc.array(cut, { maxLength: cuts }))
    .map(([width, height, all]) => outlineOf(width, height, all))
    .filter((outline): outline is XY[] => outline !== null);
}

interface Cut {
  readonly from: number;
  readonly length: number;
  readonly depth: number;
  readonly edge: number;
}

/** Cells of a grid less the cuts; null where what is left is not one simple outline. */
function outlineOf(width: number, height: number, cuts: readonly Cut[]): XY[] | null {
  const isFloor = (x: number, y: number) =>
    x >= 0 &&
    y >= 0 &&
    x < width &&
    y < height &&
    !cuts.some(({ from, length, depth, edge }) => {
      const [along, away] = [
        [x, y],
        [y, x],
        [x, height - 1 - y],
        [y, width - 1 - x],
      ][edge] as [number, number];
      return along >= from && along < from + length && away < depth;
    });
  // Edges with the floor on their left, by where they start; a corner with two of them is a point where floor touches floor.
  const steps = new Map<string, XY>();
  for (let x = 0; x < width; x++) {
    for (let y = 0; y < height; y++) {
      if (!isFloor(x, y)) continue;
      const edges: [XY, XY, boolean][] = [
        [[x, y], [x + 1, y], isFloor(x, y - 1)],
        [[x + 1, y], [x + 1, y + 1], isFloor(x + 1, y)],
        [[x + 1, y + 1], [x, y + 1], isFloor(x, y + 1)],
        [[x, y + 1], [x, y], isFloor(x - 1, y)],
      ];
      for (const [a, b, inner] of edges) {
        if (inner) continue;
        if (steps.has(a.join())) return null;
        steps.set(a.join(), b);
      }
    }
  }
  const first = steps.keys().next().value;
  if (first === undefined) return null;
  const ring: XY[] = [];
  let at = first;
  do {
    const next = steps.get(at)!;
    ring.push(at.split(',').map(Number) as unknown as XY);
    steps.delete(at);
    at = next.join();
  } while (at !== first);
  if (steps.size > 0) return null;
  return ring.filter((b, i) => {
    const a = ring[(i + ring.length - 1) % ring.length]!;
    const c = ring[(i + 1) % ring.length]!;
    return (a[0] === b[0]) !== (b[0] === c[0]);
  });
}

/** Any simple polygon on whole places: points joined in some order, with crossings undone until there are none. */
export function anyRoom(size: number, corners: number): fc.Arbitrary<XY[]> {
  const point = fc.tuple(fc.nat(size), fc.nat(size)) as fc.Arbitrary<XY>;
  return fc
    .uniqueArray(point, { minLength: 3, maxLength: corners, selector: (at) => at.join() })
    .map(untangled)
    .filter((ring): ring is XY[] => ring !== null);
}

/** The same, with corners moved a little to places of four decimals: slopes have large denominators then. */
export function crookedRoom(size: number, corners: number): fc.Arbitrary<XY[]> {
  const shift = fc.integer({ min: -999, max: 999 });
  return fc
    .tuple(anyRoom(size, corners), fc.array(fc.tuple(shift, shift), { minLength: corners, maxLength: corners }))
    .map(([ring, shifts]) => ring.map(([x, y], i): XY => [(x * 10_000 + shifts[i]![0]) / 10_000, (y * 10_000 + shifts[i]![1]) / 10_000]))
    .filter(isSimple);
}

function isSimple(ring: readonly XY[]): boolean {
  const n = ring.length;
  return ring.every((a, i) => {
    const b = ring[(i + 1) % n]!;
    return ring.every((c, k) => {
      const d = ring[(k + 1) % n]!;
      const apart = k === i || (k + 1) % n === i || (i + 1) % n === k;
      return apart || side(a, b, c) * side(a, b, d) > 0 || side(c, d, a) * side(c, d, b) > 0;
    });
  });
}

const side = (a: XY, b: XY, c: XY) => Math.sign((b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]));
const onto = (a: XY, b: XY, q: XY) =>
  side(a, b, q) === 0 &&
  q[0] >= Math.min(a[0], b[0]) &&
  q[0] <= Math.max(a[0], b[0]) &&
  q[1] >= Math.min(a[1], b[1]) &&
  q[1] <= Math.max(a[1], b[1]);

function untangled(points: readonly XY[]): XY[] | null {
  let ring = [...points];
  const n = ring.length;
  for (let turn = 0; turn < 60; turn++) {
    let crossed = false;
    for (let i = 0; i < n && !crossed; i++) {
      for (let k = i + 2; k < n && !crossed; k++) {
        const [a, b, c, d] = [ring[i]!, ring[i + 1]!, ring[k]!, ring[(k + 1) % n]!];
        if (side(a, b, c) * side(a, b, d) < 0 && side(c, d, a) * side(c, d, b) < 0) {
          ring = [...ring.slice(0, i + 1), ...ring.slice(i + 1, k + 1).reverse(), ...ring.slice(k + 1)];
          crossed = true;
        }
      }
    }
    if (!crossed) break;
    if (turn === 59) return null;
  }
  for (let i = 0; i < n; i++) {
    const [a, b] = [ring[i]!, ring[(i + 1) % n]!];
    for (let k = 0; k < n; k++) if (k !== i && k !== (i + 1) % n && onto(a, b, ring[k]!)) return null;
  }
  return ring;
}

/** The rest of a room small enough to try every plan of it, anywhere about zero and in either sense. */
export function smallTask(floor: fc.Arbitrary<XY[]>): fc.Arbitrary<BruteRoom> {
  return fc
    .record({
      floor,
      shift: fc.constantFrom([0, 0], [0, 0], [-4, -9], [-3.7, 0.3], [0.0001, -4.9999]),
      isTurned: fc.boolean(),
      gauge: fc.constantFrom(1, 0.5, 1.5, 0.7),
      width: fc.constantFrom(3, 4, 4.25, 5, 6, 2.5, 10),
      minOverlap: fc.constantFrom(0, 0.5, 1, 1.25),
      upturn: fc.constantFrom(0, 0, 0.5, 1, 0.3),
      direction: fc.constantFrom<'free' | 0 | 90>('free', 0, 90),
      newLength: fc.constantFrom(null, 30, 12, 9, 7.25),
      lengths: fc.array(fc.constantFrom(4, 6.3, 8, 9.9999, 20), { maxLength: 3 }),
      keepOuts: fc.array(
        fc.record({ where: fc.nat(1000), near: fc.tuple(fc.nat(4), fc.nat(4)), radius: fc.constantFrom(0, 0.5, 0.75, 1, 1.5) }),
        { maxLength: 2 },
      ),
    })
    .filter(({ lengths, newLength }) => newLength !== null || lengths.length > 0)
    .filter(({ width, minOverlap }) => width >= 2 * minOverlap)
    .map(({ floor: drawn, shift, isTurned, keepOuts, lengths, newLength, width, ...rest }) => {
      const moved = drawn.map(([x, y]): XY => [fourPlaces(x + shift[0]), fourPlaces(y + shift[1])]);
      const ring = isTurned ? moved.toReversed() : moved;
      return {
        ...rest,
        floor: ring,
        roll: { width, lengths, newLength },
        keepOuts: keepOuts.flatMap(({ where, near, radius }) => keepOutIn(ring, where, near, radius)),
      };
    });
}

/** A disc around a place on or near a corner, when that place is in the floor. */
function keepOutIn(ring: readonly XY[], where: number, near: readonly number[], radius: number) {
  const corner = ring[where % ring.length]!;
  const at: XY = [fourPlaces(corner[0] + near[0]! - 2), fourPlaces(corner[1] + near[1]! - 2)];
  return isIn(ring, at) ? [{ at, radius }] : [];
}

const fourPlaces = (value: number) => Math.round(value * 10_000) / 10_000;

function isIn(ring: readonly XY[], at: XY): boolean {
  let inside = false;
  for (let i = 0; i < ring.length; i++) {
    const [a, b] = [ring[i]!, ring[(i + 1) % ring.length]!];
    if (onto(a, b, at)) return true;
    if (a[1] > at[1] !== b[1] > at[1] && side(a, b, at) * (b[1] - a[1]) > 0) inside = !inside;
  }
  return inside;
}

/** Rooms of a foot or so to the unit of the outline, with a doorway somewhere in a wall. */
export const layingRooms = fc
  .record({
    floor: fc.oneof(squareRoom(7, 2), squareRoom(7, 1), crookedRoom(7, 6)),
    size: fc.constantFrom(9, 11, 13),
    wall: fc.nat(40),
    where: fc.double({ min: 0, max: 1, noNaN: true }),
    width: fc.constantFrom(28, 36),
    roll: fc.constantFrom(16, 20, 24, 36),
    reach: fc.constantFrom(36, 40, 48),
    maxStretches: fc.constantFrom(1, 3, 4),
    wholeMax: fc.constantFrom(null, null, 60),
    low: fc.option(fc.nat(40)),
    shift: fc.constantFrom(0, 0, -100, -33.3),
    isTurned: fc.boolean(),
  })
  .map(({ floor, size, wall, where, width, roll, low, shift, isTurned, ...rest }) => {
    const drawn = floor.map(([x, y]) => [fourPlaces(x * size + shift), fourPlaces(y * size)] as const);
    const big = isTurned ? drawn.toReversed() : drawn;
    const i = wall % big.length;
    const [a, b] = [big[i]!, big[(i + 1) % big.length]!];
    const length = Math.floor(Math.hypot(b[0] - a[0], b[1] - a[1]));
    const from = Math.floor(where * Math.max(0, length - width));
    return {
      ...rest,
      unit: 'in',
      gauge: 0.25,
      floor: big,
      doorways: [{ wall: i, from, to: Math.min(length, from + width) }],
      lowWalls: low === null || low % big.length === i ? [] : [low % big.length],
      keepOuts: [],
      roll: { width: roll, lengths: [], newLength: 600 },
      minOverlap: 2,
      upturn: 0,
      direction: 'free' as const,
      foot: 12,
    };
  })
  .filter((room) => isPlain(room.floor, room.doorways[0]!));

/** Corners of 40 degrees or more, so that a raster has cells in them, and nothing of the floor in front of the doorway, where a wall would stand. */
function isPlain(floor: readonly (readonly [number, number])[], { wall, from, to }: { wall: number; from: number; to: number }): boolean {
  const n = floor.length;
  const isSharp = floor.some(([x, y], i) => {
    const [a, b] = [floor[(i + n - 1) % n]!, floor[(i + 1) % n]!];
    const turn = Math.abs(Math.atan2(a[1] - y, a[0] - x) - Math.atan2(b[1] - y, b[0] - x));
    return Math.min(turn, 2 * Math.PI - turn) < (40 * Math.PI) / 180;
  });
  const [a, b] = [floor[wall]!, floor[(wall + 1) % n]!];
  const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
  const [ux, uy] = [(b[0] - a[0]) / length, (b[1] - a[1]) / length];
  const isLeft = floor.reduce((sum, [x, y], i) => sum + x * floor[(i + 1) % n]![1] - floor[(i + 1) % n]![0] * y, 0) > 0;
  const [nx, ny] = isLeft ? [uy, -ux] : [-uy, ux];
  const corner = (s: number, t: number) => [a[0] + s * ux + t * nx, a[1] + s * uy + t * ny] as [number, number];
  const apron = [corner(from, 0.01), corner(to, 0.01), corner(to, 150), corner(from, 150)];
  return !isSharp && intersection([floor.map(([x, y]) => [x, y] as [number, number])], [apron]).length === 0;
}
