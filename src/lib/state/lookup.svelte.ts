import { cardOf, type JobCard } from '#lib/job/find/card.ts';
import { keepCard } from '#lib/job/find/keep.ts';
import { dueKey, FIND_VERSION, MADE } from '#lib/job/find/rows.ts';
import { findJobs, jobsWithLot, newestIds, type FoundJobs } from '#lib/job/find/search.ts';
import { project } from '#lib/job/project.ts';
import type { JobState } from '#lib/job/state.ts';
import type { Book } from '#lib/record/book.ts';
import type { Shelf } from '#lib/record/shelf.ts';

/** Writing comes in bursts; the rows of a job are made anew when it has been quiet for so long. */
const QUIET_MS = 1_500;
/** With more jobs than this still to be read, the list is taken from the chains themselves. */
const FEW_DUE = 50;

/**
 * Finds jobs by cards made from their logs (job/find). Cards are caches: what is written to a job marks it as due first, so that a page that
 * dies leaves a mark and not a stale card.
 */
export class Lookup {
  readonly #shelf: Shelf;
  readonly #book: Book;
  readonly #waiting = new Map<string, ReturnType<typeof setTimeout>>();
  #left = $state(0);

  constructor(shelf: Shelf, book: Book) {
    this.#shelf = shelf;
    this.#book = book;
  }

  /** Jobs whose log is still to be read before they are found. */
  get left() {
    return this.#left;
  }

  /** Told after each append, with what the job is from then on when it is asked for. */
  wrote(job: string, state: () => JobState): void {
    const before = this.#waiting.get(job);
    if (before === undefined) void this.#mark([job]).catch(() => undefined);
    clearTimeout(before);
    const timer = setTimeout(() => {
      this.#waiting.delete(job);
      void this.#keep(job, state()).catch(() => undefined);
    }, QUIET_MS);
    this.#waiting.set(job, timer);
  }

  /** A log was read: should its card say otherwise, it is made anew. */
  async read(job: string, state: JobState): Promise<void> {
    const card = await this.#shelf.read(['caches'], (tx) => tx.get('caches', ['find', 'card', job]));
    if (card === undefined || (card as JobCard).entries !== state.lines.length) await this.#keep(job, state);
  }

  /** Makes what is not made yet, job after job, leaving the page time in between. Called once a start. */
  async catchUp(pause: () => Promise<void>): Promise<void> {
    const made = await this.#shelf.read(['caches'], (tx) => tx.get('caches', MADE));
    if (made !== FIND_VERSION) {
      const jobs = new Set((await this.#book.heads()).map(({ job }) => job));
      await this.#mark([...jobs], made !== undefined);
    }
    let due = await this.#due();
    for (this.#left = due.length; due.length > 0; this.#left = due.length) {
      const [job] = due.filter((one) => !this.#waiting.has(one));
      if (job === undefined) break;
      const { entries } = await this.#book.log(job);
      await this.#keep(job, entries.length === 0 ? null : project(entries).state);
      await pause();
      due = due.filter((one) => one !== job);
    }
  }

  /** Ids of the jobs written to last, newest first: at most so many, or those since a time. */
  async newest(most: number, sinceMs = 0): Promise<string[]> {
    const [due, made] = await Promise.all([this.#due(), this.#shelf.read(['caches'], (tx) => tx.get('caches', MADE))]);
    const fresh = [...new Set([...this.#waiting.keys(), ...due])];
    if (made !== FIND_VERSION || fresh.length > FEW_DUE) return latest(await this.#book.heads(), sinceMs).slice(0, most);
    const heads = (await Promise.all(fresh.map((job) => this.#book.heads(job)))).flat();
    const kept = await this.#shelf.read(['caches'], (tx) => newestIds(tx, most, sinceMs));
    return [...new Set([...latest(heads, sinceMs), ...kept])].slice(0, most);
  }

  find(question: string): Promise<FoundJobs> {
    return this.#shelf.read(['caches'], (tx) => findJobs(tx, question));
  }

  withLot(lot: string): Promise<JobCard[]> {
    return this.#shelf.read(['caches'], (tx) => jobsWithLot(tx, lot));
  }

  #due(): Promise<string[]> {
    return this.#shelf.read(['caches'], (tx) => tx.all('caches', ['find', 'due'])) as Promise<string[]>;
  }

  #mark(jobs: readonly string[], anew = false): Promise<void> {
    return this.#shelf.write(['caches'], async (tx) => {
      if (anew) await Promise.all((await tx.keys('caches', ['find'])).map((key) => tx.delete('caches', key)));
      await Promise.all([...jobs.map((job) => tx.put('caches', dueKey(job), job)), tx.put('caches', MADE, FIND_VERSION)]);
    });
  }

  #keep(job: string, state: JobState | null): Promise<void> {
    return this.#shelf.write(['caches'], (tx) => keepCard(tx, job, state === null ? null : { ...cardOf(state), job }));
  }
}

function latest(heads: readonly { job: string; times: { utc: string } }[], sinceMs: number): string[] {
  const at = new Map<string, number>();
  for (const { job, times } of heads) at.set(job, Math.max(at.get(job) ?? -Infinity, Date.parse(times.utc)));
  return [...at]
    .filter(([, ms]) => ms >= sinceMs)
    .sort(([, a], [, b]) => b - a)
    .map(([job]) => job);
}
