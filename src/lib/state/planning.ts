import type { RoomFault } from '#lib/trade/sheets/room.ts';
import { planSheets } from '#lib/work/plan.ts';
import { fail, type Result } from '../result.ts';

export type PlanFault = RoomFault | { readonly code: 'worker-lost'; readonly field: '' };

/** Asks the planner; a worker that died (out of memory, killed by the system) is a fault like any other. */
export function plan(input: object): Promise<Result<object, PlanFault>> {
  return planSheets(input).catch(() => fail<PlanFault>({ code: 'worker-lost', field: '' }));
}
