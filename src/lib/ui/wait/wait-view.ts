import type { WaitStand } from '#lib/job/waits.ts';

/** One wait in words. Shares run from its beginning (0) to the end of its strip (1). */
export interface WaitView {
  readonly key: string;
  readonly stand: WaitStand;
  /** What its large time means: ready, latest by. */
  readonly head: string;
  /** The largest thing on the row; the day stands before it only when it is not today. */
  readonly day: string | null;
  readonly time: string;
  readonly what: string;
  readonly left: string;
  readonly source: string;
  readonly remarks: readonly string[];
  readonly share: number;
  /** Where the stated end lies on the strip: before its end when our advice goes beyond. */
  readonly statedShare: number;
  readonly warnShare: number | null;
}

/** A wait on the day line: hours before and after now. */
export interface DaySpan {
  readonly key: string;
  readonly name: string;
  readonly fromH: number;
  readonly toH: number;
}
