import type { Budget } from './problem.ts';

/** A roll that pieces are cut from; `pieces` are indices of the cuts. */
export interface CutRoll {
  readonly length: number;
  readonly isNew: boolean;
  readonly pieces: readonly number[];
}

/** Null: the cuts fit on no choice of rolls when `isProven`, else no choice was found in time. */
export interface Packing {
  readonly rolls: readonly CutRoll[] | null;
  readonly isProven: boolean;
}

/** Rolls at hand, each once, and new ones of one length as many as needed; null when there are none to be had. */
export interface RollStock {
  readonly atHand: readonly number[];
  readonly newLength: number | null;
}

/** Puts cuts on rolls: fewest new rolls, then the longest single remainder among the rolls cut. Exact unless the time runs out. */
export function packRolls(cuts: readonly number[], stock: RollStock, budget: Budget): Packing {
  const opened = openRolls(cuts, stock, budget);
  if (opened.fit === null) return { rolls: null, isProven: opened.isProven };
  const kept = keepLongest(cuts, opened.lengths, opened.fit, budget);
  const rolls = opened.lengths.map((length, roll) => ({
    length,
    isNew: roll >= stock.atHand.length,
    pieces: cuts.flatMap((_, i) => (kept.fit[i] === roll ? [i] : [])),
  }));
  return { rolls: rolls.filter(({ pieces }) => pieces.length > 0), isProven: opened.isProven && kept.isProven };
}

/** Which roll each cut comes from. */
type Fit = readonly number[];

/** The fewest new rolls with which everything fits. */
function openRolls(
  cuts: readonly number[],
  { atHand, newLength }: RollStock,
  budget: Budget,
): { lengths: number[]; fit: Fit | null; isProven: boolean } {
  const most = newLength === null ? 0 : cuts.length;
  let isProven = true;
  for (let opened = 0; opened <= most; opened++) {
    const lengths = [...atHand, ...Array<number>(opened).fill(newLength ?? 0)];
    const fit = fitInto(cuts, lengths, budget);
    if (fit === 'unknown') isProven = false;
    else if (fit !== null) return { lengths, fit, isProven };
  }
  return { lengths: [...atHand], fit: null, isProven };
}

/**
 * Of all ways to fit the cuts one with the longest remainder: for each roll, by halving, the least of it with which all still fits. A way
 * that leaves the roll whole is none, but then the shortest cut can be moved there, and so the least is at least the shortest cut.
 */
function keepLongest(cuts: readonly number[], lengths: readonly number[], first: Fit, budget: Budget): { fit: Fit; isProven: boolean } {
  const shortest = Math.min(...cuts);
  const step = cuts.reduce(divisor);
  let fit = first;
  let isProven = true;
  let longest = Math.max(...lengths.map((length, roll) => (fit.includes(roll) ? length - loadOf(cuts, fit, roll) : -1)));
  const order = lengths.map((_, roll) => roll).sort((a, b) => lengths[b]! - lengths[a]!);
  for (const roll of order) {
    const length = lengths[roll]!;
    if (lengths.indexOf(length) !== roll) continue;
    // Loads in steps, from the least there can be to the most that leaves more than the longest remainder yet.
    let low = shortest / step;
    let high = Math.ceil((length - longest) / step) - 1;
    while (low <= high) {
      const middle = (low + high) >> 1;
      const tried = fitInto(cuts, lengths.with(roll, middle * step), budget);
      if (tried === 'unknown') isProven = false;
      if (tried === 'unknown' || tried === null) {
        low = middle + 1;
        continue;
      }
      fit = tried.includes(roll) ? tried : tried.with(cuts.indexOf(shortest), roll);
      longest = length - loadOf(cuts, fit, roll);
      high = Math.ceil((length - longest) / step) - 1;
    }
  }
  return { fit, isProven };
}

function loadOf(cuts: readonly number[], fit: Fit, roll: number): number {
  return cuts.reduce((sum, cut, i) => sum + (fit[i] === roll ? cut : 0), 0);
}

function divisor(a: number, b: number): number {
  while (b !== 0) [a, b] = [b, a % b];
  return a;
}

/** Steps of the search between two looks at the time. */
const LOOK = 2048;

/**
 * A way to cut all pieces from rolls of given lengths, null when there is none, `unknown` when the time is up. The longest piece first,
 * into the shortest rest that holds it; a state that failed is not entered again.
 */
function fitInto(cuts: readonly number[], lengths: readonly number[], budget: Budget): Fit | null | 'unknown' {
  const order = cuts.map((_, i) => i).sort((a, b) => cuts[b]! - cuts[a]! || a - b);
  const toCome = Array<number>(order.length + 1).fill(0);
  for (let n = order.length - 1; n >= 0; n--) toCome[n] = toCome[n + 1]! + cuts[order[n]!]!;
  const shortest = cuts[order.at(-1) ?? 0] ?? 0;
  const left = [...lengths];
  const fit = Array<number>(cuts.length).fill(-1);
  const failed = new Set<string>();
  let steps = 0;

  const place = (n: number): boolean | 'unknown' => {
    if (n === order.length) return true;
    if (++steps % LOOK === 0 && !budget()) return 'unknown';
    const usable = left.filter((rest) => rest >= shortest).sort((a, b) => a - b);
    if (usable.reduce((sum, rest) => sum + rest, 0) < toCome[n]!) return false;
    const state = `${n}:${usable.join()}`;
    if (failed.has(state)) return false;
    const cut = cuts[order[n]!]!;
    for (const rest of new Set(usable)) {
      if (rest < cut) continue;
      const roll = left.indexOf(rest);
      left[roll] = rest - cut;
      fit[order[n]!] = roll;
      const placed = place(n + 1);
      if (placed !== false) return placed;
      left[roll] = rest;
      // What would lie in a rest that the piece fills could as well lie where the piece lies.
      if (rest === cut) break;
    }
    failed.add(state);
    return false;
  };
  const placed = place(0);
  return placed === 'unknown' ? placed : placed ? fit : null;
}
