import { untrack } from 'svelte';
import type { PhotoQuestion } from '#lib/work/measure.worker.ts';
import type { OpenJob } from './job.svelte.ts';
import { Measuring } from './measuring.svelte.ts';

/** A photo to be laid straight, and by what. */
export interface ToLay {
  readonly id: string;
  readonly sha256: string;
  readonly ask: Extract<PhotoQuestion, { do: 'register' | 'part' }>;
}

/** Photos brought into register one after the other: one big photo is open at a time, and what is kept of each is small. */
export class Register {
  readonly #job: OpenJob;
  #wanted: readonly ToLay[] = [];
  #seen: ReadonlyMap<string, ImageBitmap | null> = $state.raw(new Map());
  #busy = $state(false);
  #left = false;

  constructor(job: OpenJob) {
    this.#job = job;
  }

  get busy() {
    return this.#busy;
  }
  /** A photo straight on; null for one that cannot be shown, undefined while it is not made yet. */
  of(id: string | undefined): ImageBitmap | null | undefined {
    return id === undefined ? undefined : this.#seen.get(id);
  }

  /** Makes those that are not made yet, in this order, and gives back what is not among them. */
  make(photos: readonly ToLay[]): Promise<void> {
    // An effect that asks for photos must not run again because one of them came.
    return untrack(() => this.#make(photos));
  }

  async #make(photos: readonly ToLay[]): Promise<void> {
    this.#wanted = photos;
    const ids = new Set(photos.map(({ id }) => id));
    for (const [id, bitmap] of this.#seen) if (!ids.has(id)) bitmap?.close();
    this.#seen = new Map([...this.#seen].filter(([id]) => ids.has(id)));
    if (this.#busy) return;
    this.#busy = true;
    for (let next = this.#next(); next !== undefined; next = this.#next()) {
      const bitmap = await this.#lay(next);
      if (this.#left || !this.#wanted.some(({ id }) => id === next.id)) bitmap?.close();
      else this.#seen = new Map([...this.#seen, [next.id, bitmap]]);
    }
    this.#busy = false;
  }

  leave(): void {
    this.#left = true;
    for (const bitmap of this.#seen.values()) bitmap?.close();
  }

  #next(): ToLay | undefined {
    return this.#left ? undefined : this.#wanted.find(({ id }) => !this.#seen.has(id));
  }

  async #lay({ sha256, ask }: ToLay): Promise<ImageBitmap | null> {
    const measuring = new Measuring(() => this.#job.blob(sha256));
    await measuring.open();
    const seen = measuring.stand === 'open' ? await measuring.ask(ask) : null;
    measuring.close();
    return seen ?? null;
  }
}
