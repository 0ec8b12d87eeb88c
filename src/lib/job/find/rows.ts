import type { Key } from '../../record/shelf.ts';
import type { JobCard } from './card.ts';

/**
 * The rows by which a job is found, all in the drawer of caches: they can be thrown away and are made again from the logs. None is read
 * whole; each question reads a stretch of some.
 *
 *   find card  JOB                  JobCard
 *   find late  -lastMs JOB          JOB           newest first
 *   find word  WORD                 [WORD, n]     n: jobs it stands in
 *   find short SHORTENED WORD       WORD
 *   find in    WORD -firstMs JOB    [JOB, bits]   newest first
 *   find due   JOB                  JOB           to be read anew
 *   find made                       version
 */
export const cardKey = (job: string): Key => ['find', 'card', job];
export const wordKey = (word: string): Key => ['find', 'word', word];
export const shortKey = (short: string, word: string): Key => ['find', 'short', short, word];
export const dueKey = (job: string): Key => ['find', 'due', job];
export const MADE: Key = ['find', 'made'];
export const lateKey = ({ job, lastMs }: Pick<JobCard, 'job' | 'lastMs'>): Key => ['find', 'late', newestFirst(lastMs), job];
/** By the first entry: the last one moves with each that is added, and hundreds of rows would move with it. */
export const inKey = (word: string, { job, firstMs }: Pick<JobCard, 'job' | 'firstMs'>): Key => [
  'find',
  'in',
  word,
  newestFirst(firstMs),
  job,
];

/** Rows of another version are thrown away and made again. */
export const FIND_VERSION = 1;

/** Larger than any time, so that the newest sorts first. */
const END_OF_TIME = 8.64e15;
function newestFirst(ms: number): number {
  return Math.round(END_OF_TIME - (Number.isFinite(ms) ? ms : 0));
}

/** Stretches of keys, from the first to before the second. */
export const allIn = (...prefix: Key): [Key, Key] => [prefix, [...prefix.slice(0, -1), `${String(prefix.at(-1))}\u0000`]];
export const lateSince = (ms: number): [Key, Key] => [
  ['find', 'late', 0],
  ['find', 'late', newestFirst(ms)],
];
export const wordsFrom = (begin: string): [Key, Key] => [wordKey(begin), wordKey(`${begin}\uffff`)];
