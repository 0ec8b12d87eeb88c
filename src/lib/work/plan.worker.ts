import { answerTo } from '#lib/trade/laying/answer.ts';
import type { RoomFault } from '#lib/trade/sheets/room.ts';
import type { Result } from '../result.ts';
import { serve } from './bridge.ts';

/** Until when each part of the work is broken off: a slow phone gets longer than the terminal. */
const UNTIL_MS = { sheets: 4_000, laying: 6_000, remedies: 8_000 } as const;

/** Plans a floor or walls; the input and the answer are those of `layerbook plan` (docs/plan.md). */
serve<object, Result<object, RoomFault>>((input) => {
  const began = performance.now();
  const until = (ms: number) => () => performance.now() - began < ms;
  const budgets = { sheets: until(UNTIL_MS.sheets), laying: until(UNTIL_MS.laying), remedies: until(UNTIL_MS.remedies) };
  return Promise.resolve(answerTo(input, budgets));
});
