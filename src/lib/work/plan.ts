import type { RoomFault } from '#lib/trade/sheets/room.ts';
import type { Result } from '../result.ts';
import { askOnce } from './bridge.ts';

/** Plans the sheets of a floor or of walls off the page's thread. */
export function planSheets(input: object): Promise<Result<object, RoomFault>> {
  return askOnce(() => new Worker(new URL('./plan.worker.ts', import.meta.url), { type: 'module' }), input);
}
