import type { OpenJob } from '#lib/state/job.svelte.ts';
import { createContext } from 'svelte';

/** The job all pages under /job/ID share, set by their layout once it is open. */
export const [getJob, setJob] = createContext<OpenJob>();
