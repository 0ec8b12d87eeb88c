// A floor on a raster, to replay an order of laying and to try all orders. Shares no code and no method with the planner: it walks from
// cell to cell in 32 directions, so that its ways are at most 1.5 % too long, and never too short.

export type XY = readonly [number, number];

export interface RasterRoom {
  readonly floor: readonly XY[];
  readonly doorways: readonly { readonly wall: number; readonly from: number; readonly to: number }[];
  readonly lowWalls: readonly number[];
  readonly reach: number;
  readonly foot: number;
}

/** A stretch of a piece: what of the floor lies in a box. */
export interface Sheet {
  /** The outline of the piece on the floor. */
  readonly ring: readonly XY[];
  readonly along: 0 | 1;
  readonly from: number;
  readonly to: number;
}

export interface Raster {
  readonly cell: number;
  readonly count: number;
  at(cell: number): XY;
  /** Cells nearest to places. */
  cellOf(at: XY): number;
  /** Cells where a disc of a radius is wholly on floor that no sheet covers, or on an apron; and can get out, with the doorway + 1. */
  standing(sheets: readonly Sheet[], radius: number): Uint8Array;
  /** Length of the shortest way from the marked cells, for all cells, as far as `most`. */
  ways(from: readonly number[], most: number): Float64Array;
  /** Cells of a sheet, at least so far from all walls. */
  under(sheet: Sheet, clear: number): number[];
}

const MOVES = Array.from({ length: 7 }, (_, i) => i - 3)
  .flatMap((dx) => Array.from({ length: 7 }, (_, i) => [dx, i - 3] as const))
  .filter(([dx, dy]) => gcd(Math.abs(dx), Math.abs(dy)) === 1);

function gcd(a: number, b: number): number {
  return b === 0 ? a : gcd(b, a % b);
}

export function isInRing(ring: readonly XY[], [x, y]: XY): boolean {
  let inside = false;
  for (let i = 0; i < ring.length; i++) {
    const [a, b] = [ring[i]!, ring[(i + 1) % ring.length]!];
    if (a[1] > y !== b[1] > y && x < a[0] + ((y - a[1]) / (b[1] - a[1])) * (b[0] - a[0])) inside = !inside;
  }
  return inside;
}

function gapTo([ax, ay]: XY, [bx, by]: XY, [x, y]: XY): number {
  const [dx, dy] = [bx - ax, by - ay];
  const square = dx * dx + dy * dy;
  const t = square === 0 ? 0 : Math.min(1, Math.max(0, ((x - ax) * dx + (y - ay) * dy) / square));
  return Math.hypot(x - ax - t * dx, y - ay - t * dy);
}

function lengthOf(floor: readonly XY[], wall: number): number {
  const [a, b] = [floor[wall]!, floor[(wall + 1) % floor.length]!];
  return Math.hypot(b[0] - a[0], b[1] - a[1]);
}

function crosses(a: XY, b: XY, c: XY, d: XY): boolean {
  const side = (p: XY, q: XY, r: XY) => (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0]);
  return side(a, b, c) * side(a, b, d) < 0 && side(c, d, a) * side(c, d, b) < 0;
}

export function rasterOf(room: RasterRoom, cell: number): Raster {
  const { floor, doorways, lowWalls, reach } = room;
  const area = floor.reduce((sum, [x, y], i) => sum + x * floor[(i + 1) % floor.length]![1] - floor[(i + 1) % floor.length]![0] * y, 0);
  const before = ({ wall, from, to }: { wall: number; from: number; to: number }) => {
    const [a, b] = [floor[wall]!, floor[(wall + 1) % floor.length]!];
    const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
    const [ux, uy] = [(b[0] - a[0]) / length, (b[1] - a[1]) / length];
    const [nx, ny] = area > 0 ? [uy, -ux] : [-uy, ux];
    const corner = (s: number, t: number): XY => [a[0] + s * ux + t * nx, a[1] + s * uy + t * ny];
    return {
      ring: [corner(from, 0), corner(to, 0), corner(to, reach), corner(from, reach)],
      wall,
      sill: [corner(from, 0), corner(to, 0)] as const,
    };
  };
  const aprons = doorways.map(before);
  // Over a low wall an arm comes to what lies beyond it, as wide as the wall and as deep as the reach.
  const beyond = lowWalls.map((wall) => before({ wall, from: 0, to: lengthOf(floor, wall) }));
  const walls = floor.flatMap((a, i) => {
    const b = floor[(i + 1) % floor.length]!;
    const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
    const at = (d: number): XY => [a[0] + ((b[0] - a[0]) * d) / length, a[1] + ((b[1] - a[1]) * d) / length];
    const cuts = [
      0,
      ...doorways
        .filter(({ wall }) => wall === i)
        .sort((one, other) => one.from - other.from)
        .flatMap(({ from, to }) => [from, to]),
      length,
    ];
    return cuts.flatMap((from, k) =>
      k % 2 === 0 && cuts[k + 1]! - from > 1e-9 ? [{ a: at(from), b: at(cuts[k + 1]!), low: lowWalls.includes(i) }] : [],
    );
  });
  // The sides of an apron hold nobody where they run over the floor, behind a wall, or over another apron.
  const sidesOf = (all: typeof aprons) =>
    all.flatMap(({ ring }, k) =>
      [1, 2, 3].flatMap((i) => {
        const [a, b] = [ring[i]!, ring[(i + 1) % 4]!];
        const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
        const bits = Math.ceil(length / (cell / 4));
        // A hair away from the apron: where two touch nothing is between them.
        const hair = (area > 0 ? -1e-4 : 1e-4) / length;
        const spot = (t: number, off = 0): XY => [
          a[0] + (b[0] - a[0]) * t - (b[1] - a[1]) * off,
          a[1] + (b[1] - a[1]) * t + (b[0] - a[0]) * off,
        ];
        return Array.from({ length: bits }, (_, n) => ({
          a: spot(n / bits),
          b: spot((n + 1) / bits),
          off: spot((n + 0.5) / bits, -hair),
        })).filter(({ off }) => !isInRing(floor, off) && !all.some((other, m) => m !== k && isInRing(other.ring, off)));
      }),
    );
  const edges = [...walls, ...sidesOf(aprons)];
  const stops = [...walls.filter(({ low }) => !low), ...sidesOf([...aprons, ...beyond])];
  const all = [...floor, ...[...aprons, ...beyond].flatMap(({ ring }) => ring)];
  const [x1, x2] = [Math.min(...all.map(([x]) => x)) - cell * 1.37, Math.max(...all.map(([x]) => x)) + cell];
  const [y1, y2] = [Math.min(...all.map(([, y]) => y)) - cell * 1.43, Math.max(...all.map(([, y]) => y)) + cell];
  const columns = Math.ceil((x2 - x1) / cell) + 1;
  const rows = Math.ceil((y2 - y1) / cell) + 1;
  const count = columns * rows;
  const at = (i: number): XY => [x1 + (i % columns) * cell, y1 + Math.floor(i / columns) * cell];
  const inFloor = new Uint8Array(count);
  const inAprons = new Uint8Array(count);
  const clearance = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    inFloor[i] = Number(isInRing(floor, at(i)));
    aprons.forEach(({ ring }, k) => {
      if (inAprons[i] === 0 && isInRing(ring, at(i))) inAprons[i] = k + 1;
    });
    clearance[i] = inFloor[i] === 0 && inAprons[i] === 0 ? 0 : Math.min(...edges.map(({ a, b }) => gapTo(a, b, at(i))));
  }
  const canWalk = (i: number) => inFloor[i] === 1 || inAprons[i] !== 0 || beyond.some(({ ring }) => isInRing(ring, at(i)));
  const boxed = stops.map(({ a, b }) => ({
    a,
    b,
    l: Math.min(a[0], b[0]),
    r: Math.max(a[0], b[0]),
    d: Math.min(a[1], b[1]),
    u: Math.max(a[1], b[1]),
  }));
  const moves = new Map<number, Uint8Array>();
  const movesFrom = (i: number): Uint8Array => {
    let known = moves.get(i);
    if (known === undefined) {
      const [column, row] = [i % columns, Math.floor(i / columns)];
      const from = at(i);
      const near = boxed.filter(
        ({ l, r, d, u }) => l <= from[0] + 3 * cell && r >= from[0] - 3 * cell && d <= from[1] + 3 * cell && u >= from[1] - 3 * cell,
      );
      known = Uint8Array.from(MOVES, ([dx, dy]) => {
        const [c, r] = [column + dx, row + dy];
        if (c < 0 || r < 0 || c >= columns || r >= rows || !canWalk(r * columns + c)) return 0;
        const to = at(r * columns + c);
        return Number(!near.some(({ a, b }) => crosses(from, to, a, b)));
      });
      moves.set(i, known);
    }
    return known;
  };
  const covers = ({ ring, along, from, to }: Sheet, p: XY) => p[along] >= from && p[along] <= to && isInRing(ring, p);
  const gapToSheet = (sheet: Sheet, p: XY): number => {
    if (covers(sheet, p)) return 0;
    const { ring, along, from, to } = sheet;
    let least = Infinity;
    for (let i = 0; i < ring.length; i++) {
      let [a, b] = [ring[i]!, ring[(i + 1) % ring.length]!];
      if (a[along] > b[along]) [a, b] = [b, a];
      if (b[along] < from || a[along] > to) continue;
      const cut = (value: number): XY => {
        const t = b[along] === a[along] ? 0 : (value - a[along]) / (b[along] - a[along]);
        return [a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])];
      };
      least = Math.min(least, gapTo(a[along] < from ? cut(from) : a, b[along] > to ? cut(to) : b, p));
    }
    // The fold itself: the nearest point on it, if it is in the piece.
    for (const fold of [from, to]) {
      if (Math.abs(p[along] - fold) > room.foot) continue;
      for (let d = 0; d <= room.foot / 2 + 2; d += 0.5) {
        for (const sign of [1, -1]) {
          const q: [number, number] = [p[0], p[1]];
          q[along] = fold;
          q[1 - along] = p[1 - along]! + sign * d;
          if (
            isInRing(ring, [
              q[0] + (along === 0 ? (fold === from ? 1e-6 : -1e-6) : 0),
              q[1] + (along === 1 ? (fold === from ? 1e-6 : -1e-6) : 0),
            ])
          ) {
            least = Math.min(least, Math.hypot(q[0] - p[0], q[1] - p[1]));
          }
        }
      }
    }
    return least;
  };
  const gaps = new Map<string, Float64Array>();
  const gapsOf = (sheet: Sheet): Float64Array => {
    const key = JSON.stringify(sheet);
    let known = gaps.get(key);
    if (known === undefined) {
      const [ring, far] = [sheet.ring, room.foot];
      const [l, r] = [Math.min(...ring.map(([x]) => x)) - far, Math.max(...ring.map(([x]) => x)) + far];
      const [b, t] = [Math.min(...ring.map(([, y]) => y)) - far, Math.max(...ring.map(([, y]) => y)) + far];
      known = Float64Array.from({ length: count }, (_, i) => {
        const [x, y] = at(i);
        return x < l || x > r || y < b || y > t || clearance[i] === 0 ? Infinity : gapToSheet(sheet, at(i));
      });
      gaps.set(key, known);
    }
    return known;
  };
  return {
    cell,
    count,
    at,
    cellOf: ([x, y]) => Math.round((y - y1) / cell) * columns + Math.round((x - x1) / cell),
    standing(sheets, radius) {
      const free = Uint8Array.from({ length: count }, (_, i) => Number(clearance[i]! >= radius));
      for (const sheet of sheets)
        gapsOf(sheet).forEach((gap, i) => {
          if (gap < radius) free[i] = 0;
        });
      const out = new Uint8Array(count);
      const queue: number[] = [];
      for (let i = 0; i < count; i++) {
        if (free[i] === 0 || inAprons[i] === 0) continue;
        // Wholly in the apron, in front of its door with no wall between.
        const apron = aprons[inAprons[i]! - 1]!;
        if (apron.ring.some((a, k) => gapTo(a, apron.ring[(k + 1) % 4]!, at(i)) < radius)) continue;
        const [s, e] = apron.sill;
        const length = Math.hypot(e[0] - s[0], e[1] - s[1]);
        const d = ((at(i)[0] - s[0]) * (e[0] - s[0]) + (at(i)[1] - s[1]) * (e[1] - s[1])) / length;
        const foot: XY = [s[0] + ((e[0] - s[0]) * d) / length, s[1] + ((e[1] - s[1]) * d) / length];
        if (walls.some(({ a, b }) => crosses(foot, at(i), a, b))) continue;
        out[i] = inAprons[i]!;
        queue.push(i);
      }
      for (let q = 0; q < queue.length; q++) {
        const i = queue[q]!;
        for (const next of [i - 1, i + 1, i - columns, i + columns]) {
          if (free[next] === 1 && out[next] === 0) {
            out[next] = out[i]!;
            queue.push(next);
          }
        }
      }
      return out;
    },
    ways(from, most) {
      const length = new Float64Array(count).fill(Infinity);
      // Lengths in hundredths of a cell, cells of one length in one bucket.
      const buckets: number[][] = [];
      const put = (i: number, d: number) => {
        if (d >= length[i]! || d > most) return;
        length[i] = d;
        (buckets[Math.floor((d / cell) * 100)] ??= []).push(i);
      };
      for (const i of from) put(i, 0);
      for (let b = 0; b < buckets.length; b++) {
        for (const i of buckets[b] ?? []) {
          if (Math.floor((length[i]! / cell) * 100) !== b) continue;
          const open = movesFrom(i);
          MOVES.forEach(([dx, dy], k) => {
            if (open[k] === 1) put(i + dy * columns + dx, length[i]! + Math.hypot(dx, dy) * cell);
          });
        }
      }
      return length;
    },
    under: (sheet, clear) =>
      Array.from({ length: count }, (_, i) => i).filter((i) => inFloor[i] === 1 && clearance[i]! > clear && covers(sheet, at(i))),
  };
}
