// Surfaces with holes, such as walls with a niche, planned and counted cell by cell: all plans are tried, on whole units.
import { planSurface, type SheetTask } from '#lib/trade/sheets/plan.ts';
import fc from 'fast-check';
import { expect, it } from 'vitest';

const PART = 10_000;

interface Wall {
  /** Height of each column of cells. */
  readonly tops: readonly number[];
  /** Left, right, bottom and top of each hole. */
  readonly holes: readonly (readonly [number, number, number, number])[];
  readonly keepOut: readonly [number, number, number] | null;
  readonly width: number;
  readonly overlap: number;
  readonly direction: 0 | 90;
}

const rectangle = ([l, r, b, t]: readonly [number, number, number, number]): [number, number][] => [
  [l, b],
  [r, b],
  [r, t],
  [l, t],
];

function outlineOf(tops: readonly number[]): [number, number][] {
  const steps = tops.flatMap((top, x): [number, number][] =>
    top === tops[x + 1]
      ? []
      : [
          [x + 1, top],
          [x + 1, tops[x + 1] ?? 0],
        ],
  );
  return [[0, 0], ...[[0, tops[0]!] as [number, number], ...steps].filter(([x, y]) => x > 0 || y > 0)];
}

function taskOf({ tops, holes, keepOut, width, overlap, direction }: Wall): SheetTask {
  const rings = [outlineOf(tops), ...holes.map(rectangle)].map((ring) => ring.map(([x, y]) => ({ x: x * PART, y: y * PART })));
  return {
    rings,
    gauge: PART,
    roll: { width: width * PART, atHand: [], newLength: 1000 * PART },
    minOverlap: overlap * PART,
    upturn: 0,
    direction,
    keepOuts: keepOut === null ? [] : [{ at: { x: keepOut[0] * PART, y: keepOut[1] * PART }, radius: keepOut[2] * PART }],
    pins: [],
    longestPiece: null,
  };
}

/** [pieces, cut, notched, seam, -overlap, ...positions] of the best plan. */
function bruteOf({ tops, holes, keepOut, width, overlap, direction }: Wall): number[] | null {
  const isIn = (x: number, y: number) => y < (tops[x] ?? 0) && !holes.some(([l, r, b, t]) => x >= l && x < r && y >= b && y < t);
  const cells = tops.flatMap((top, x) => Array.from({ length: top }, (_, y) => ({ x, y }))).filter(({ x, y }) => isIn(x, y));
  const [along, across] = direction === 0 ? (['x', 'y'] as const) : (['y', 'x'] as const);
  const between = (lo: number, hi: number) => cells.filter((cell) => cell[across] >= lo && cell[across] < hi);
  const end = Math.max(...cells.map((cell) => cell[across])) + 1;
  const costOf = (lo: number) => {
    const left = new Map(between(lo, lo + width).map((cell) => [`${cell.x} ${cell.y}`, cell]));
    const cost: [number, number, number] = [0, 0, 0];
    while (left.size > 0) {
      const [[first, start]] = left as unknown as [[string, { x: number; y: number }]];
      left.delete(first);
      const piece = [start];
      for (const { x, y } of piece) {
        for (const key of [`${x + 1} ${y}`, `${x - 1} ${y}`, `${x} ${y + 1}`, `${x} ${y - 1}`]) {
          const next = left.get(key);
          if (next !== undefined) piece.push(next);
          left.delete(key);
        }
      }
      const spread = (axis: 'x' | 'y') => Math.max(...piece.map((cell) => cell[axis])) - Math.min(...piece.map((cell) => cell[axis])) + 1;
      cost[0]++;
      cost[1] += spread(along);
      cost[2] += Number(spread('x') * spread('y') !== piece.length);
    }
    return cost;
  };
  const isMet = ({ x, y }: { x: number; y: number }) => {
    if (keepOut === null) return false;
    const [cx, cy, r] = keepOut;
    return Math.hypot(Math.max(x - cx, cx - x - 1, 0), Math.max(y - cy, cy - y - 1, 0)) < r;
  };
  let best: number[] | null = null;
  const walk = (path: readonly number[], cost: readonly number[], seam: number, least: number) => {
    const last = path.at(-1)!;
    if (last + width >= end) {
      const plan = [...cost, seam, path.length > 1 ? -least : 0, ...path];
      if (best === null || isLess(plan, best)) best = plan;
    }
    for (let next = last + 1; next <= last + width - overlap && next < end; next++) {
      const zone = between(next, last + width);
      const own = costOf(next);
      const pieces = cost[0]! + own[0];
      if (own[0] === 0 || zone.some(isMet) || (best !== null && pieces > best[0]!)) continue;
      const more = own.map((value, i) => value + cost[i]!);
      walk([...path, next], more, seam + new Set(zone.map((cell) => cell[along])).size, Math.min(least, last + width - next));
    }
  };
  for (let first = 1 - width; first <= 0; first++) if (costOf(first)[0] > 0) walk([first], costOf(first), 0, Infinity);
  return best;
}

function isLess(a: readonly number[], b: readonly number[]): boolean {
  const i = a.findIndex((value, k) => value !== b[k]);
  return i >= 0 && a[i]! < (b[i] ?? -Infinity);
}

const hole = (width: number, height: number) =>
  fc
    .tuple(fc.integer({ min: 1, max: width - 2 }), fc.integer({ min: 1, max: 4 }), fc.integer({ min: 1, max: height - 2 }), fc.nat(3))
    .map(([l, w, b, h]) => [l, Math.min(width - 1, l + w), b, Math.min(height - 1, b + h + 1)] as const);

const walls: fc.Arbitrary<Wall> = fc
  .record({
    tops: fc.array(fc.constantFrom(7, 7, 9), { minLength: 6, maxLength: 10 }),
    width: fc.integer({ min: 3, max: 6 }),
    overlap: fc.nat(1),
    direction: fc.constantFrom<0 | 90>(0, 90, 90),
    keepOut: fc.option(fc.tuple(fc.integer({ min: 1, max: 5 }), fc.integer({ min: 1, max: 6 }), fc.constantFrom(1, 1.5))),
  })
  .chain((wall) => fc.record({ ...constants(wall), holes: fc.array(hole(wall.tops.length, 7), { minLength: 1, maxLength: 2 }) }))
  // Holes lie apart.
  .filter(
    ({ holes: [one, other] }) =>
      one === undefined || other === undefined || one[1] < other[0] || other[1] < one[0] || one[3] < other[2] || other[3] < one[2],
  );

function constants<T extends object>(values: T): { [K in keyof T]: fc.Arbitrary<T[K]> } {
  return Object.fromEntries(Object.entries(values).map(([key, value]) => [key, fc.constant(value)])) as {
    [K in keyof T]: fc.Arbitrary<T[K]>;
  };
}

it('the plan of a wall with holes is the best of all its plans', () => {
  let planned = 0;
  fc.assert(
    fc.property(walls, (wall) => {
      const { plan } = planSurface(taskOf(wall), () => true);
      const ours =
        plan === null
          ? null
          : [
              plan.pieces.length,
              plan.totalCut / PART,
              plan.notched,
              Number(plan.seamLength.over) / Number(plan.seamLength.under) / PART,
              plan.smallestOverlap === null ? 0 : -plan.smallestOverlap / PART,
              ...plan.positions.map((position) => position / PART),
            ];
      expect(ours).toEqual(bruteOf(wall));
      if (plan !== null) planned++;
    }),
    { seed: 20260314, numRuns: 150 },
  );
  expect(planned).toBeGreaterThan(75);
});
