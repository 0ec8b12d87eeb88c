import type { SaveFault } from '#lib/record/book.ts';
import type { Draft } from '#lib/record/kinds.ts';
import type { OpenJob } from '#lib/state/job.svelte.ts';

interface Kept {
  readonly id: string;
  readonly utc: string;
  readonly offsetMin: number;
}

/** The way of a confirmed value into the log: what stands in it, or why it does not. */
export class Keeping {
  readonly #job: OpenJob;
  #busy = $state(false);
  #fault: SaveFault | null = $state.raw(null);
  #kept: Kept | null = $state.raw(null);
  /** The entry that the next one stands in for. */
  #corrects: string | null = null;

  constructor(job: OpenJob) {
    this.#job = job;
  }

  get busy() {
    return this.#busy;
  }
  get fault() {
    return this.#fault;
  }
  get kept() {
    return this.#kept;
  }

  async keep(draft: Draft): Promise<void> {
    this.#busy = true;
    const of = this.#corrects;
    const done = await this.#job.add([...(of === null ? [] : [{ kind: 'withdrawal', refs: [of], data: { of, why: '' } } as const]), draft]);
    this.#busy = false;
    this.#fault = done.ok ? null : done.fault;
    if (!done.ok) return;
    const { id, times } = done.value.at(-1)!.body;
    this.#kept = { id, utc: times.utc, offsetMin: times.offsetMin };
    this.#corrects = null;
  }

  /** Something else is measured: what is kept stands, and is of what was before. */
  changed(): void {
    [this.#kept, this.#corrects] = [null, null];
  }

  /** The same was said otherwise: what is kept is withdrawn by what is kept next, so that it is not counted twice. */
  corrected(): void {
    this.#corrects = this.#kept?.id ?? this.#corrects;
    this.#kept = null;
  }
}
