import type { Candidates } from './candidates.ts';
import { compareAt, follows, type Fewest } from './fewest.ts';
import type { Budget } from './problem.ts';
import type { SeamMeter } from './seams.ts';

/** Least seam length from a band on, and the largest smallest overlap that goes with it. */
interface Rest {
  /** In the meter's unit. */
  readonly seam: Float64Array;
  /** Whether `seam` is exact whatever the meter's blur. */
  readonly isExact: Uint8Array;
  /** The band that follows on one way of that length, -1 at the end. */
  readonly next: Int32Array;
  readonly narrowest: Float64Array;
}

/**
 * Of the plans of fewest pieces, least cut and fewest notched pieces the one of least seam length, then of the largest smallest
 * overlap, then of the lexicographically smallest starts; as indices of bands. Null when the time is up.
 */
export function finest(
  bands: Candidates,
  width: number,
  best: Fewest & { on: Uint8Array },
  meter: SeamMeter,
  budget: Budget,
): number[] | null {
  const rest = restOf(bands, width, best, meter, budget);
  if (rest === null) return null;
  const exact = exactTotals(bands.at, width, rest, meter);
  const starts: number[] = [];
  for (let i = 0; i <= bands.firstUpTo; i++) {
    if (best.on[i] !== 1 || compareAt(best.toEnd, i, best.toEnd, best.start) !== 0) continue;
    const off = starts.length === 0 ? -1 : compareTotals(rest, meter, exact, i, starts[0]!);
    if (off < 0) starts.length = 0;
    if (off <= 0) starts.push(i);
  }
  const widest = Math.max(...starts.map((i) => rest.narrowest[i]!));
  let i = starts.find((start) => rest.narrowest[start]! >= widest)!;
  const plan = [i];
  while (rest.next[i]! >= 0) {
    if (!budget()) return null;
    i = smallestNext(bands, width, best, rest, meter, exact, i, widest);
    plan.push(i);
  }
  return plan;
}

function restOf(bands: Candidates, width: number, best: Fewest & { on: Uint8Array }, meter: SeamMeter, budget: Budget): Rest | null {
  const { at, cost, after, before, lastFrom } = bands;
  const { on, toEnd } = best;
  const count = at.length;
  const rest: Rest = {
    seam: new Float64Array(count),
    isExact: new Uint8Array(count).fill(1),
    next: new Int32Array(count).fill(-1),
    narrowest: new Float64Array(count).fill(Infinity),
  };
  const exact = exactTotals(at, width, rest, meter);
  let work = 0;
  for (let i = Math.min(count, lastFrom) - 1; i >= 0; i--) {
    if (on[i] !== 1) continue;
    const top = at[i]! + width;
    const zones = meter.sweep(top);
    let next = -1;
    let least = Infinity;
    let leastExact = true;
    let narrowest = 0;
    for (let k = before[i]!; k >= after[i]!; k--) {
      if (++work % 8192 === 0 && !budget()) return null;
      if (on[k] !== 1 || !follows(toEnd, cost, i, k)) continue;
      const total = zones.down(at[k]!) + rest.seam[k]!;
      const isExact = zones.isExact && rest.isExact[k] === 1;
      let off = total - least;
      if (next >= 0 && off <= meter.blur && off >= -meter.blur && !(isExact && leastExact)) {
        // Rounded lengths this near to each other say nothing.
        const difference = meter.exact(at[k]!, top) + exact(k) - meter.exact(at[next]!, top) - exact(next);
        off = difference < 0n ? -1 : difference > 0n ? 1 : 0;
      }
      const overlap = Math.min(top - at[k]!, rest.narrowest[k]!);
      if (off < 0) narrowest = overlap;
      else if (off === 0) narrowest = Math.max(narrowest, overlap);
      if (off > 0 || (off === 0 && leastExact)) continue;
      next = k;
      least = total;
      leastExact = isExact;
    }
    rest.seam[i] = least;
    rest.isExact[i] = Number(leastExact);
    rest.next[i] = next;
    rest.narrowest[i] = narrowest;
  }
  return rest;
}

/** Exact seam lengths from a band on, each worked out when it is first asked for. */
function exactTotals(at: Float64Array, width: number, rest: Rest, meter: SeamMeter): (i: number) => bigint {
  const known = new Map<number, bigint>();
  return (i) => {
    const way: number[] = [];
    let k = i;
    while (!known.has(k) && rest.next[k]! >= 0) {
      way.push(k);
      k = rest.next[k]!;
    }
    let total = known.get(k) ?? 0n;
    for (const band of way.reverse()) {
      total += meter.exact(at[rest.next[band]!]!, at[band]! + width);
      known.set(band, total);
    }
    return total;
  };
}

function compareTotals(rest: Rest, meter: SeamMeter, exact: (i: number) => bigint, i: number, k: number): number {
  const off = rest.seam[i]! - rest.seam[k]!;
  if (Math.abs(off) > meter.blur || (rest.isExact[i] === 1 && rest.isExact[k] === 1)) return off;
  const difference = exact(i) - exact(k);
  return difference < 0n ? -1 : difference > 0n ? 1 : 0;
}

function smallestNext(
  { at, cost, after, before }: Candidates,
  width: number,
  { on, toEnd }: Fewest & { on: Uint8Array },
  rest: Rest,
  meter: SeamMeter,
  exact: (i: number) => bigint,
  i: number,
  widest: number,
): number {
  const top = at[i]! + width;
  for (let k = after[i]!; k <= before[i]!; k++) {
    if (on[k] !== 1 || rest.narrowest[k]! < widest || top - at[k]! < widest || !follows(toEnd, cost, i, k)) continue;
    const zone = meter.sweep(top);
    const off = zone.down(at[k]!) + rest.seam[k]! - rest.seam[i]!;
    if (Math.abs(off) > meter.blur) continue;
    const isSure = zone.isExact && rest.isExact[k] === 1 && rest.isExact[i] === 1;
    if (isSure || meter.blur === 0 ? off === 0 : meter.exact(at[k]!, top) + exact(k) === exact(i)) return k;
  }
  throw new Error(`no band follows ${i}`);
}
