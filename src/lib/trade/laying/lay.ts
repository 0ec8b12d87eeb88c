import { fail, ok, type Result } from '#lib/result.ts';
import type { Ratio } from '#lib/measure/exact.ts';
import type { SheetPlan } from '../sheets/plan.ts';
import type { Budget } from '../sheets/problem.ts';
import type { Room, RoomFault } from '../sheets/room.ts';
import { findOrder, type Trap } from './order.ts';
import { trialOf, type LayingStep, type LayingTask, type Trial } from './trial.ts';

/** How a plan is laid. `sets`: the pieces of each group; between two groups what lies has to set. */
export type Laying =
  | { readonly steps: readonly LayingStep[]; readonly isProven: boolean; readonly gridStep: number }
  | { readonly trap: Trap; readonly isProven: boolean; readonly gridStep: number };

export function layingTask(room: Room, { direction, pieces }: Pick<SheetPlan, 'direction' | 'pieces'>): LayingTask {
  return {
    room,
    direction,
    pieces: pieces.map(({ id, parts, cutLength, from, to }) => ({ id, parts, cutLength, from: near(from), to: near(to), folds: null })),
  };
}

function near({ over, under }: Ratio): number {
  return Number(over) / Number(under);
}

/** Indices of the pieces that are laid before what lies has to set, group after group; those that no group names come last. */
export function groupsOf({ sets }: Pick<Room, 'sets'>, pieces: readonly { readonly id: string }[]): Result<number[][], RoomFault> {
  const groups: number[][] = [];
  const named = new Set<number>();
  for (const [i, set] of sets.entries()) {
    const group = set.map((id) => pieces.findIndex((piece) => piece.id === id));
    const wrong = group.findIndex((piece, k) => piece < 0 || named.has(piece) || group.indexOf(piece) !== k);
    if (wrong >= 0) return fail({ field: `sets[${i}][${wrong}]`, code: 'no-such-piece' });
    for (const piece of group) named.add(piece);
    groups.push(group);
  }
  groups.push(pieces.map((_, piece) => piece).filter((piece) => !named.has(piece)));
  return ok(groups.filter((group) => group.length > 0));
}

/** Finds an order for each group on the floor that the groups before it have become when they are set. */
export function layGroups(task: LayingTask, trial: Trial, groups: readonly (readonly number[])[], budget: Budget): Laying {
  const steps: LayingStep[] = [];
  let isProven = true;
  const gridStep = trial.places.step;
  for (const group of groups) {
    const order = findOrder(task, trial, group, budget);
    if ('trap' in order) return { ...order, isProven: order.isProven && gridStep <= trial.coarsestStep, gridStep };
    steps.push(...order.steps);
    isProven &&= order.isProven;
  }
  return { steps, isProven: isProven && gridStep <= trial.coarsestStep, gridStep };
}

/** Finds an order of laying for a plan. */
export function layPlan(room: Room, plan: Pick<SheetPlan, 'direction' | 'pieces'>, budget: Budget): Result<Laying, RoomFault> {
  const groups = groupsOf(room, plan.pieces);
  if (!groups.ok) return groups;
  if (room.doorways.length === 0) {
    const pieces = plan.pieces.map(({ id }) => id);
    return ok({ trap: { code: 'no-doorway', pieces, at: null }, isProven: true, gridStep: 0 });
  }
  const task = layingTask(room, plan);
  return ok(layGroups(task, trialOf(task), groups.value, budget));
}
