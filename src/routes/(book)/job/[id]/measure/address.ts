import type { JobState, Shot } from '#lib/job/state.ts';

export const TASKS = ['length', 'coverage', 'transfer'] as const;
export type Task = (typeof TASKS)[number];

/** The photo to measure in, and what: by its step where the address does not say. */
export function measureAddress(query: Pick<URLSearchParams, 'get'>, job: JobState): { readonly shot: Shot | null; readonly task: Task } {
  const shot = job.shots.find(({ id }) => id === query.get('shot')) ?? null;
  const usual = shot?.step === 'liquid-coat' ? 'coverage' : shot?.step === 'bond-sheets' ? 'transfer' : 'length';
  return { shot, task: TASKS.find((task) => task === query.get('task')) ?? usual };
}

export function measureHref(job: string, shot: string, task?: Task): string {
  return `/job/${job}/measure?${new URLSearchParams({ shot, ...(task === undefined ? {} : { task }) })}`;
}
