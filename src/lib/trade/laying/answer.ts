import { ok, type Result } from '#lib/result.ts';
import { wallsAnswer } from '../sheets/answer.ts';
import { readRoom, type RoomFault } from '../sheets/room.ts';
import { planWalls, readWalls } from '../sheets/walls.ts';
import { planAnswer } from './plan-answer.ts';
import { planRoom, type Budgets } from './plan-room.ts';

/** Whether an input of the planner is one of walls. */
export function isOfWalls(input: unknown): boolean {
  return typeof input === 'object' && input !== null && 'walls' in input && !('floor' in input);
}

/** Plans what the input describes, a floor or walls (docs/plan.md), and says what came out as the terminal does. */
export function answerTo(input: unknown, budgets: Budgets): Result<object, RoomFault> {
  if (isOfWalls(input)) {
    const walls = readWalls(input);
    return walls.ok ? ok(wallsAnswer(walls.value, planWalls(walls.value, budgets.sheets, budgets.remedies))) : walls;
  }
  const room = readRoom(input);
  if (!room.ok) return room;
  const planned = planRoom(room.value, budgets);
  return planned.ok ? ok(planAnswer(room.value, planned.value)) : planned;
}
