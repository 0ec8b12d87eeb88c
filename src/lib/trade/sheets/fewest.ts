import { NEVER, type Candidates, type Tally } from './candidates.ts';

/** The least that plans cost in pieces, cut length and notched pieces, in this order. */
export interface Fewest {
  /** Least cost from band i to the end of a plan, its own included. */
  readonly toEnd: Tally;
  /** Bands on a way of least cost; null when there is no plan. */
  readonly on: Uint8Array | null;
  /** Index of a first band of least cost, -1 when there is no plan. */
  readonly start: number;
}

/** Shortest ways over the bands, there and back, in time proportional to their number: what may follow a band slides along with it. */
export function fewest(bands: Candidates): Fewest {
  const toEnd = costToEnd(bands);
  let start = -1;
  for (let i = 0; i <= bands.firstUpTo; i++)
    if (toEnd.pieces[i]! < NEVER && (start < 0 || compareAt(toEnd, i, toEnd, start) < 0)) start = i;
  if (start < 0) return { toEnd, on: null, start };
  const fromStart = costFromStart(bands);
  const { cost } = bands;
  const on = new Uint8Array(bands.at.length);
  for (let i = 0; i < on.length; i++) {
    const there = toEnd.pieces[i]! < NEVER && fromStart.pieces[i]! < NEVER;
    // Both ways count the band itself.
    const same = (key: keyof Tally) => fromStart[key][i]! + toEnd[key][i]! - cost[key][i]! === toEnd[key][start]!;
    on[i] = Number(there && same('pieces') && same('cut') && same('notched'));
  }
  return { toEnd, on, start };
}

/** Which of two entries of tallies is less: below zero the first. */
export function compareAt(a: Tally, i: number, b: Tally, k: number): number {
  return a.pieces[i]! - b.pieces[k]! || a.cut[i]! - b.cut[k]! || a.notched[i]! - b.notched[k]!;
}

/** Whether the way of least cost from band i goes on with band k. */
export function follows(toEnd: Tally, cost: Tally, i: number, k: number): boolean {
  return (
    toEnd.pieces[i]! - cost.pieces[i]! === toEnd.pieces[k]! &&
    toEnd.cut[i]! - cost.cut[i]! === toEnd.cut[k]! &&
    toEnd.notched[i]! - cost.notched[i]! === toEnd.notched[k]!
  );
}

function costToEnd({ at, cost, after, before, lastFrom }: Candidates): Tally {
  const count = at.length;
  const best = unreached(count);
  const row = new Row(best);
  let pushed = count;
  for (let i = count - 1; i >= 0; i--) {
    while (pushed > after[i]!) row.push(--pushed);
    row.dropWhile((k) => k > before[i]!);
    if (i >= lastFrom) settle(best, i, cost, -1);
    else if (row.first >= 0) settle(best, i, cost, row.first);
  }
  return best;
}

function costFromStart({ at, cost, after, before, firstUpTo, lastFrom }: Candidates): Tally {
  const count = at.length;
  const best = unreached(count);
  const row = new Row(best);
  let pushed = 0;
  for (let k = 0; k < count; k++) {
    // A plan ends with the first band that can be its last: one more would be one more piece.
    while (pushed < Math.min(count, lastFrom) && after[pushed]! <= k) row.push(pushed++);
    row.dropWhile((i) => before[i]! < k);
    if (k <= firstUpTo) settle(best, k, cost, -1);
    else if (row.first >= 0) settle(best, k, cost, row.first);
  }
  return best;
}

function unreached(count: number): Tally {
  return { pieces: new Int32Array(count).fill(NEVER), cut: new Float64Array(count), notched: new Int32Array(count) };
}

/** Notes the cost of band i together with the way over band k, or by itself. */
function settle(best: Tally, i: number, cost: Tally, k: number): void {
  if (cost.pieces[i]! >= NEVER || (k >= 0 && best.pieces[k]! >= NEVER)) return;
  for (const key of ['pieces', 'cut', 'notched'] as const) best[key][i] = cost[key][i]! + (k < 0 ? 0 : best[key][k]!);
}

/** A sliding minimum: entries come in order, the oldest leave first, and those that a younger one undercuts never count again. */
class Row {
  readonly #best: Tally;
  readonly #queue: Int32Array;
  #head = 0;
  #tail = 0;

  constructor(best: Tally) {
    this.#best = best;
    this.#queue = new Int32Array(best.pieces.length);
  }

  push(i: number): void {
    while (this.#tail > this.#head && compareAt(this.#best, this.#queue[this.#tail - 1]!, this.#best, i) >= 0) this.#tail--;
    this.#queue[this.#tail++] = i;
  }

  dropWhile(isPast: (i: number) => boolean): void {
    while (this.#head < this.#tail && isPast(this.#queue[this.#head]!)) this.#head++;
  }

  get first(): number {
    return this.#head < this.#tail ? this.#queue[this.#head]! : -1;
  }
}
