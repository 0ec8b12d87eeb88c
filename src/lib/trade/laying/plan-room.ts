import { fail, ok, type Result } from '#lib/result.ts';
import { whyImpossible, type Impossible } from '../sheets/impossible.ts';
import { planSheets, type SheetPlan } from '../sheets/plan.ts';
import type { Budget } from '../sheets/problem.ts';
import { sheetTask, type Room, type RoomFault } from '../sheets/room.ts';
import { layPlan, type Laying } from './lay.ts';
import { remediesFor, type LayingRemedy } from './remedies.ts';

/** The plan of a room with its order of laying, or why there is none. */
export type RoomPlan =
  { readonly sheets: SheetPlan; readonly laying: Laying; readonly remedies: readonly LayingRemedy[] } | { readonly impossible: Impossible };

/** Time for each part of the work: what one leaves over is not the next one's. */
export interface Budgets {
  readonly sheets: Budget;
  readonly laying: Budget;
  readonly remedies: Budget;
}

/** Plans the sheets of a room and the order of laying them; out of a trap, or where no plan exists, remedies that were tried. */
export function planRoom(room: Room, budgets: Budgets): Result<RoomPlan, RoomFault> {
  const task = sheetTask(room);
  const planned = planSheets(task, budgets.sheets);
  if (planned.plan === null) return ok({ impossible: whyImpossible(task, planned.why, budgets.remedies) });
  const sheets = planned.plan;
  const laying = layPlan(room, sheets, budgets.laying);
  if (!laying.ok) return fail(laying.fault);
  const isTrapped = 'trap' in laying.value && laying.value.trap.code !== 'no-time';
  const remedies = isTrapped ? remediesFor(room, sheets, laying.value.trap, budgets.remedies) : [];
  return ok({ sheets, laying: laying.value, remedies });
}
