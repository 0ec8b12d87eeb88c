import { attempts, mayTypeDepthLate, type Attempt } from '#lib/job/flood.ts';
import type { JobState } from '#lib/job/state.ts';

/** The running attempt an address names, or the last running; null where none runs. */
export function runningAttempt(query: { get: (name: string) => string | null }, job: JobState): Attempt | null {
  const open = attempts(job).filter(({ stand }) => stand === 'open');
  return open.find(({ id }) => id === query.get('attempt')) ?? open.at(-1) ?? null;
}

/** The attempt an address names, where its forgotten depth may still be written down. */
export function lateAttempt(query: { get: (name: string) => string | null }, job: JobState): Attempt | null {
  return attempts(job).find((one) => one.id === query.get('attempt') && mayTypeDepthLate(one)) ?? null;
}
