import type { StandingWait } from '#lib/job/waits.ts';
import type { DataOf, Draft } from '#lib/record/kinds.ts';

/** Why somebody goes on before a stated wait is over, and how firm the layer was found. */
export type EarlyAnswer = Pick<DataOf<'early'>, 'reason' | 'check' | 'held'>;

/** For each wait that is not over, that somebody went on. The entry is the deviation from its stated time. */
export function earlyDrafts(held: readonly StandingWait[], answer: EarlyAnswer): Draft[] {
  return held.map(({ wait }): Draft => ({ kind: 'early', refs: [wait.id], data: { wait: wait.id, ...answer, words: '' } }));
}
