import type { Point } from '#lib/measure/plane.ts';
import type { Budget } from '../sheets/problem.ts';
import type { LayingStep, LayingTask, Trial } from './trial.ts';

/** What keeps a floor from being laid in any order. */
export type TrapCode = 'no-doorway' | 'doorway-too-narrow' | 'too-few-stretches' | 'out-of-reach' | 'no-time';

export interface Trap {
  readonly code: TrapCode;
  /** Pieces none of which can be laid when the others of them lie. */
  readonly pieces: readonly string[];
  /** A point that nobody reaches then. */
  readonly at: Point | null;
}

/** `isProven`: of fewest stretches, or that there is no order. */
export type Order =
  { readonly steps: readonly LayingStep[]; readonly isProven: boolean } | { readonly trap: Trap; readonly isProven: boolean };

/** A set of pieces still to be put in order, before steps that are settled, and by how many the stretches so far exceed the fewest. */
interface State {
  readonly left: readonly number[];
  readonly after: readonly LayingStep[];
  readonly extra: number;
}

/**
 * An order with the fewest stretches. Less covered floor never hurts: a piece that can be laid when all others lie can be put last, and
 * where none can, no order exists. A piece that takes its fewest stretches then is put last without a second thought: any order stays one
 * with that piece moved to its end, and no piece takes more stretches for it. Only where each takes more the choice is searched, the least
 * excess first.
 */
export function findOrder(task: LayingTask, trial: Trial, pieces: readonly number[], budget: Budget): Order {
  const trap = (code: TrapCode, left: readonly number[], isProven: boolean): Order => {
    const at = left.map((piece) => trial.unreached(piece)).find((point) => point !== null) ?? null;
    return { trap: { code, pieces: [...left].sort((a, b) => a - b).map((piece) => task.pieces[piece]!.id), at }, isProven };
  };
  if (trial.places.exits.length === 0) return trap('doorway-too-narrow', pieces, true);
  const unfolded = pieces.filter((piece) => trial.fewestStretches(piece) === Infinity);
  if (unfolded.length > 0) return trap('too-few-stretches', unfolded, true);

  const nearFirst = [...pieces].sort((a, b) => trial.fromDoor(a) - trial.fromDoor(b));
  const open: State[] = [{ left: nearFirst, after: [], extra: 0 }];
  const seen = new Set<string>();
  let hasChoice = false;
  for (let state = open.shift(); state !== undefined; state = open.shift()) {
    const settled = settle(trial, state, budget);
    if (settled === null) return trap('no-time', state.left, false);
    const { left, after } = settled;
    if (left.length === 0) return { steps: after, isProven: true };
    const key = [...left].sort((a, b) => a - b).join();
    if (seen.has(key)) continue;
    seen.add(key);
    const next = choices(task, trial, settled, budget);
    if (next === null) return hasChoice ? finish(task, trial, settled, trap) : trap('no-time', left, false);
    if (next.length === 0) return trap('out-of-reach', left, true);
    hasChoice = true;
    open.push(...next);
    open.sort((a, b) => a.extra - b.extra);
    if (!budget()) return finish(task, trial, open[0]!, trap);
  }
  throw new Error('every state leads on or is a trap');
}

/** Puts pieces last, as long as one can be that takes its fewest stretches then. Null when the time is up. */
function settle(trial: Trial, state: State, budget: Budget): State | null {
  let { left, after } = state;
  for (;;) {
    const covered = trial.cover(left);
    let laid: LayingStep[] | null = null;
    let last = -1;
    for (const piece of left) {
      if (!budget()) return null;
      laid = trial.lay(piece, trial.fewestStretches(piece), covered);
      last = piece;
      if (laid !== null) break;
    }
    if (laid === null) return { ...state, left, after };
    after = [...laid, ...after];
    left = left.filter((piece) => piece !== last);
  }
}

/** Every piece that can be put last, in as few stretches as it takes. Null when the time is up. */
function choices({ room }: LayingTask, trial: Trial, { left, after, extra }: State, budget: Budget): State[] | null {
  const covered = trial.cover(left);
  const next: State[] = [];
  for (const piece of left) {
    const fewest = trial.fewestStretches(piece);
    for (let count = fewest + 1; count <= room.maxStretches; count++) {
      if (!budget()) return null;
      const laid = trial.lay(piece, count, covered);
      if (laid === null) continue;
      next.push({ left: left.filter((one) => one !== piece), after: [...laid, ...after], extra: extra + count - fewest });
      break;
    }
  }
  return next;
}

/** Any order from a state on, when there is no time to look for the fewest stretches: this takes as many trials as there are pieces, squared. */
function finish(
  task: LayingTask,
  trial: Trial,
  from: State,
  trap: (code: TrapCode, left: readonly number[], isProven: boolean) => Order,
): Order {
  let state = from;
  while (state.left.length > 0) {
    const covered = trial.cover(state.left);
    const { left, after } = state;
    let next: State | null = null;
    for (let count = 1; count <= task.room.maxStretches && next === null; count++) {
      for (const piece of left) {
        const laid = trial.lay(piece, count, covered);
        if (laid === null) continue;
        next = { left: left.filter((one) => one !== piece), after: [...laid, ...after], extra: 0 };
        break;
      }
    }
    if (next === null) return trap('out-of-reach', left, true);
    state = next;
  }
  return { steps: state.after, isProven: false };
}
