import type { Shelf } from '#lib/record/shelf.ts';
import { ask } from './bridge.ts';

/** A preview is a cache: made when first asked for, after the photo is kept, and free to be thrown away. */
export class Previews {
  readonly #shelf: Shelf;
  #worker: Worker | null = null;
  #turn: Promise<unknown> = Promise.resolve();

  constructor(shelf: Shelf) {
    this.#shelf = shelf;
  }

  /** The preview of a kept picture, or null when this browser cannot show it (HEIC, damaged). One decode at a time. */
  get(sha256: string, load: () => Promise<Blob | null>): Promise<Blob | null> {
    const made = this.#turn.then(() => this.#find(sha256, load));
    this.#turn = made.catch(() => undefined);
    return made;
  }

  async #find(sha256: string, load: () => Promise<Blob | null>): Promise<Blob | null> {
    const key = ['preview', sha256];
    const cached = await this.#shelf.read(['caches'], (tx) => tx.get('caches', key));
    if (cached instanceof Blob) return cached;
    const picture = await load();
    if (picture === null) return null;
    this.#worker ??= new Worker(new URL('./preview.worker.ts', import.meta.url), { type: 'module' });
    const preview = await ask<Blob | null>(this.#worker, picture).catch(() => this.#workerLost());
    // A full store is no reason to show nothing: the preview is simply made again next time.
    if (preview !== null) await this.#shelf.write(['caches'], (tx) => tx.put('caches', key, preview)).catch(() => undefined);
    return preview;
  }

  #workerLost(): null {
    this.#worker?.terminate();
    this.#worker = null;
    return null;
  }
}
