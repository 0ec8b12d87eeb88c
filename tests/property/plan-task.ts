import type { SheetTask } from '#lib/trade/sheets/plan.ts';
import type { BruteRoom } from './plan-brute.ts';

const parts = (value: number) => Math.round(value * 10_000);

/** A room as the planner takes it, with rolls enough: packing stands in no plan's way. */
export function taskOf(room: BruteRoom): SheetTask {
  return {
    rings: [room.floor.map(([x, y]) => ({ x: parts(x), y: parts(y) }))],
    gauge: parts(room.gauge),
    roll: {
      width: parts(room.roll.width),
      atHand: room.roll.lengths.flatMap((length) => Array<number>(40).fill(parts(length))),
      newLength: room.roll.newLength === null ? null : parts(room.roll.newLength),
    },
    minOverlap: parts(room.minOverlap),
    upturn: parts(room.upturn),
    direction: room.direction,
    keepOuts: room.keepOuts.map(({ at: [x, y], radius }) => ({ at: { x: parts(x), y: parts(y) }, radius: parts(radius) })),
    pins: [],
    longestPiece: null,
  };
}
