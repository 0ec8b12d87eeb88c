// Every plan of a small room, tried one by one. Shares no code and no method with the planner: it clips the outline itself, with fractions.

/** A fraction, `under` above zero. */
interface Fraction {
  readonly over: bigint;
  readonly under: bigint;
}

const of = (over: bigint, under = 1n): Fraction => (under < 0n ? { over: -over, under: -under } : { over, under });
const plus = (a: Fraction, b: Fraction) => of(a.over * b.under + b.over * a.under, a.under * b.under);
const less = (a: Fraction, b: Fraction) => of(a.over * b.under - b.over * a.under, a.under * b.under);
const times = (a: Fraction, b: Fraction) => of(a.over * b.over, a.under * b.under);
const by = (a: Fraction, b: Fraction) => of(a.over * b.under, a.under * b.over);
const cmp = (a: Fraction, b: Fraction) =>
  Number(a.over * b.under - b.over * a.under > 0n) - Number(a.over * b.under - b.over * a.under < 0n);
const low = (...all: Fraction[]) => all.reduce((a, b) => (cmp(a, b) <= 0 ? a : b));
const high = (...all: Fraction[]) => all.reduce((a, b) => (cmp(a, b) >= 0 ? a : b));

/** Four places of a JSON number, without a double in between. */
function read(value: number): Fraction {
  const [whole = '0', places = ''] = String(Math.abs(value)).split('.');
  return of((value < 0 ? -1n : 1n) * BigInt(whole + places.padEnd(4, '0')), 10_000n);
}

export const toNumber = ({ over, under }: Fraction) => Number((over * 10_000_000n) / under) / 10_000_000;

interface Spot {
  readonly x: Fraction;
  readonly y: Fraction;
}
type Ring = readonly Spot[];

/** What is wanted of a floor, as the terminal takes it. */
export interface BruteRoom {
  readonly gauge: number;
  readonly floor: readonly (readonly [number, number])[];
  readonly keepOuts: readonly { readonly at: readonly [number, number]; readonly radius: number }[];
  readonly roll: { readonly width: number; readonly lengths: readonly number[]; readonly newLength: number | null };
  readonly minOverlap: number;
  readonly upturn: number;
  readonly direction: 'free' | 0 | 90;
}

export interface BrutePlan {
  readonly direction: 0 | 90;
  readonly positions: readonly number[];
  readonly pieces: number;
  readonly cut: number;
  readonly notched: number;
  readonly seam: Fraction;
  readonly overlap: number | null;
}

/** The part of a simple ring on one side of a level line, as rings with connected interior. What lies on the line counts as beyond it. */
function half(ring: Ring, level: Fraction, above: boolean): Ring[] {
  const isIn = ring.map(({ y }) => (above ? cmp(y, level) > 0 : cmp(y, level) < 0));
  if (isIn.every(Boolean)) return [ring];
  const n = ring.length;
  const crossing = (inner: Spot, outer: Spot) => {
    const lean = by(less(inner.x, outer.x), less(inner.y, outer.y));
    return { x: plus(outer.x, times(less(level, outer.y), lean)), lean: above ? lean : less(of(0n), lean) };
  };
  interface Chain {
    readonly spots: Spot[];
    readonly enter: { x: Fraction; lean: Fraction };
    readonly leave: { x: Fraction; lean: Fraction };
  }
  const chains: Chain[] = [];
  for (let i = 0; i < n; i++) {
    if (!isIn[i] || isIn[(i + n - 1) % n]) continue;
    const spots: Spot[] = [];
    let k = i;
    for (; isIn[k % n]; k++) spots.push(ring[k % n]!);
    chains.push({ spots, enter: crossing(ring[i]!, ring[(i + n - 1) % n]!), leave: crossing(ring[(k - 1) % n]!, ring[k % n]!) });
  }
  // Along the line, a hair inside, the ring is entered and left in turn.
  const stops = chains.flatMap((chain, c) => [
    { ...chain.enter, c, enters: true },
    { ...chain.leave, c, enters: false },
  ]);
  stops.sort((a, b) => cmp(a.x, b.x) || cmp(a.lean, b.lean));
  const partner = new Map<number, number>();
  for (let i = 0; i < stops.length; i += 2) {
    const [a, b] = [stops[i]!, stops[i + 1]!];
    if (a.enters === b.enters) throw new Error('brute force: the ring is not simple');
    const [leaves, enters] = a.enters ? [b, a] : [a, b];
    partner.set(leaves.c, enters.c);
  }
  const done = new Set<number>();
  const rings: Ring[] = [];
  for (let c = 0; c < chains.length; c++) {
    if (done.has(c)) continue;
    const spots: Spot[] = [];
    for (let k = c; !done.has(k); k = partner.get(k)!) {
      done.add(k);
      const chain = chains[k]!;
      spots.push({ x: chain.enter.x, y: level }, ...chain.spots, { x: chain.leave.x, y: level });
    }
    rings.push(spots);
  }
  return rings;
}

function between(ring: Ring, lo: Fraction, hi: Fraction): Ring[] {
  return half(ring, lo, true).flatMap((part) => half(part, hi, false));
}

function isBox(ring: Ring): boolean {
  const xs = ring.map(({ x }) => x);
  const ys = ring.map(({ y }) => y);
  const box = times(less(high(...xs), low(...xs)), less(high(...ys), low(...ys)));
  const twice = ring.reduce((sum, a, i) => {
    const b = ring[(i + 1) % ring.length]!;
    return plus(sum, less(times(a.x, b.y), times(b.x, a.y)));
  }, of(0n));
  return cmp(times(twice, twice), times(of(4n), times(box, box))) === 0;
}

function upTo(value: Fraction, gauge: Fraction): Fraction {
  const parts = by(value, gauge);
  const whole = parts.over / parts.under + (parts.over % parts.under > 0n ? 1n : 0n);
  return times(of(whole), gauge);
}

/** The square of the distance of a point from a ring, 0 inside. */
function squareDistance(ring: Ring, at: Spot): Fraction {
  const crossed = ring.filter((a, i) => {
    const b = ring[(i + 1) % ring.length]!;
    if (cmp(a.y, at.y) > 0 === cmp(b.y, at.y) > 0) return false;
    return cmp(plus(a.x, by(times(less(at.y, a.y), less(b.x, a.x)), less(b.y, a.y))), at.x) > 0;
  });
  const squares = ring.flatMap((a, i) => {
    const b = ring[(i + 1) % ring.length]!;
    const [dx, dy] = [less(b.x, a.x), less(b.y, a.y)];
    const length = plus(times(dx, dx), times(dy, dy));
    if (length.over === 0n) return [];
    const along = by(plus(times(less(at.x, a.x), dx), times(less(at.y, a.y), dy)), length);
    const t = low(high(along, of(0n)), of(1n));
    const [ex, ey] = [less(at.x, plus(a.x, times(t, dx))), less(at.y, plus(a.y, times(t, dy)))];
    return [plus(times(ex, ex), times(ey, ey))];
  });
  return crossed.length % 2 === 1 ? of(0n) : low(...squares);
}

export interface Band {
  readonly pieces: number;
  readonly cut: number;
  readonly notched: number;
}

/** What bands and overlaps of a room cost in one direction. */
export interface BruteStrips {
  /** Multiples of the gauge at which a band holds floor. */
  readonly multiples: readonly number[];
  /** Null where a cut is longer than every roll. */
  band(m: number): Band | null;
  /** Null where the overlap of the bands at two multiples is too small or meets a keep-out, or they do not overlap. */
  seam(m: number, next: number): Fraction | null;
  canStart(m: number): boolean;
  canEnd(m: number): boolean;
  overlap(m: number, next: number): number;
}

export function bruteStrips(room: BruteRoom, direction: 0 | 90): BruteStrips {
  const spot = ([x, y]: readonly [number, number]): Spot => (direction === 0 ? { x: read(x), y: read(y) } : { x: read(y), y: read(x) });
  const floor = room.floor.map(spot);
  const [gauge, width, upturn, least] = [room.gauge, room.roll.width, room.upturn, room.minOverlap].map(read) as [
    Fraction,
    Fraction,
    Fraction,
    Fraction,
  ];
  const longest = high(...room.roll.lengths.map(read), read(room.roll.newLength ?? 0));
  const [bottom, top] = [low(...floor.map(({ y }) => y)), high(...floor.map(({ y }) => y))];
  const at = (m: number) => times(of(BigInt(m)), gauge);
  const end = (m: number) => plus(at(m), width);
  const first = Math.floor(toNumber(by(less(bottom, width), gauge))) - 1;
  const last = Math.ceil(toNumber(by(top, gauge))) + 1;
  const multiples = Array.from({ length: last - first + 1 }, (_, i) => first + i).filter(
    (m) => cmp(end(m), bottom) > 0 && cmp(at(m), top) < 0,
  );
  const bands = new Map<number, Band | null>();
  const seams = new Map<string, Fraction | null>();
  const overlap = (m: number, next: number) => less(end(m), at(next));
  return {
    multiples,
    overlap: (m, next) => toNumber(overlap(m, next)),
    canStart: (m) => cmp(at(m), less(bottom, upturn)) <= 0,
    canEnd: (m) => cmp(end(m), plus(top, upturn)) >= 0,
    band(m) {
      let known = bands.get(m);
      if (known === undefined) {
        const parts = between(floor, at(m), end(m));
        const cuts = parts.map((part) => {
          const xs = part.map(({ x }) => x);
          return upTo(plus(less(high(...xs), low(...xs)), times(of(2n), upturn)), gauge);
        });
        const fits = cuts.every((cut) => cmp(cut, longest) <= 0);
        const cut = toNumber(cuts.reduce(plus, of(0n)));
        known = fits ? { pieces: parts.length, cut, notched: parts.filter((part) => !isBox(part)).length } : null;
        bands.set(m, known);
      }
      return known;
    },
    seam(m, next) {
      const key = `${m} ${next}`;
      let known = seams.get(key);
      if (known === undefined) {
        known = cmp(overlap(m, next), least) < 0 ? null : seamOf(between(floor, at(next), end(m)));
        seams.set(key, known);
      }
      return known;
    },
  };

  function seamOf(parts: readonly Ring[]): Fraction | null {
    const isMet = room.keepOuts.some(({ at: centre, radius }) => {
      const r = read(radius);
      return radius > 0 && parts.some((part) => cmp(squareDistance(part, spot(centre)), times(r, r)) < 0);
    });
    if (isMet) return null;
    const spans = parts
      .map((part) => ({ from: low(...part.map(({ x }) => x)), to: high(...part.map(({ x }) => x)) }))
      .sort((a, b) => cmp(a.from, b.from));
    let sum = of(0n);
    let reached: Fraction | null = null;
    for (const { from, to } of spans) {
      const start = reached === null ? from : high(from, reached);
      if (cmp(to, start) > 0) sum = plus(sum, less(to, start));
      reached = reached === null ? to : high(reached, to);
    }
    return sum;
  }
}

/** The best plan of all, or null. Up to some tens of thousands of plans. */
export function brutePlan(room: BruteRoom): BrutePlan | null {
  let best: (BrutePlan & { readonly multiples: readonly number[] }) | null = null;
  for (const direction of room.direction === 'free' ? ([0, 90] as const) : [room.direction]) {
    const strips = bruteStrips(room, direction);
    const walk = (path: readonly number[], pieces: number, cut: number, notched: number, seam: Fraction, overlap: number) => {
      // More pieces than the best has are never better.
      if (best !== null && pieces > best.pieces) return;
      const m = path.at(-1)!;
      if (strips.canEnd(m)) {
        const plan = {
          direction,
          positions: path.map((k) => toNumber(times(of(BigInt(k)), read(room.gauge)))),
          multiples: path,
          pieces,
          cut,
          notched,
          seam,
          overlap: path.length > 1 ? overlap : null,
        };
        if (best === null || isBetter(plan, best)) best = plan;
      }
      for (const next of strips.multiples) {
        const zone = next > m ? strips.seam(m, next) : null;
        const band = zone === null ? null : strips.band(next);
        if (zone === null || band === null) continue;
        walk(
          [...path, next],
          pieces + band.pieces,
          cut + band.cut,
          notched + band.notched,
          plus(seam, zone),
          Math.min(overlap, strips.overlap(m, next)),
        );
      }
    };
    for (const m of strips.multiples) {
      const band = strips.canStart(m) ? strips.band(m) : null;
      if (band !== null) walk([m], band.pieces, band.cut, band.notched, of(0n), Infinity);
    }
  }
  return best;
}

function isBetter(a: BrutePlan & { multiples: readonly number[] }, b: BrutePlan & { multiples: readonly number[] }): boolean {
  const order = [
    a.pieces - b.pieces,
    Math.abs(a.cut - b.cut) < 1e-6 ? 0 : a.cut - b.cut,
    a.notched - b.notched,
    cmp(a.seam, b.seam),
    (b.overlap ?? 1e9) - (a.overlap ?? 1e9),
    a.direction - b.direction,
    ...a.multiples.map((m, i) => m - (b.multiples[i] ?? 0)),
  ];
  return (order.find((off) => off !== 0) ?? 0) < 0;
}
