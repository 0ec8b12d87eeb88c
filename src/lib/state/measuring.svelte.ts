import type { PhotoAnswers, PhotoQuestion } from '#lib/work/measure.worker.ts';
import { Ended, PhotoAtWork, type MeasuringStep } from '#lib/work/measuring.ts';

/** A photo on the screen while something is measured in it. `lost`: the worker died, as phones end what takes too much memory. */
export type PhotoStand = 'opening' | 'open' | 'not-here' | 'not-shown' | 'cancelled' | 'lost';

/** A coverage as it comes from the worker, with a picture to lay over the copy of the photo. */
export type CoverageSeen = Extract<PhotoAnswers['coverage'], { ok: true }>['value'];

/** One photo opened in its worker: what it is busy with, the copy to look at, and the questions asked of it. */
export class Measuring {
  readonly #load: () => Promise<Blob | null>;
  #work: PhotoAtWork | null = null;
  #stand: PhotoStand = $state('opening');
  #step: MeasuringStep | null = $state(null);
  #photo: PhotoAnswers['open'] = $state.raw(null);

  constructor(load: () => Promise<Blob | null>) {
    this.#load = load;
  }

  get stand() {
    return this.#stand;
  }
  /** What the worker does now; null while it waits. */
  get step() {
    return this.#step;
  }
  get photo() {
    return this.#photo;
  }

  /** Opens the photo, or opens it again after it was cancelled or lost. */
  async open(): Promise<void> {
    this.#stand = 'opening';
    const blob = await this.#load().catch(() => null);
    if (blob === null) {
      this.#stand = 'not-here';
      return;
    }
    this.#work = new PhotoAtWork((step) => (this.#step = step));
    const photo = await this.ask({ do: 'open', photo: blob });
    if (photo === undefined) return;
    this.#photo = photo;
    this.#stand = photo === null ? 'not-shown' : 'open';
  }

  /** The answer; undefined when it was cancelled, or the worker is gone, which `stand` then says. */
  async ask<Do extends PhotoQuestion['do']>(question: Extract<PhotoQuestion, { do: Do }>): Promise<PhotoAnswers[Do] | undefined> {
    const work = this.#work;
    if (work === null) return undefined;
    try {
      return await work.ask<Do>(question);
    } catch (error) {
      if (!(error instanceof Ended) && this.#work === work) {
        this.#stop();
        this.#stand = 'lost';
      }
      return undefined;
    } finally {
      if (this.#work === work) this.#step = null;
    }
  }

  cancel(): void {
    this.#stop();
    this.#stand = 'cancelled';
  }

  /** The page is left. */
  close(): void {
    this.#stop();
  }

  #stop(): void {
    this.#work?.end();
    this.#work = null;
    this.#step = null;
    this.#photo?.copy.close();
    this.#photo = null;
  }
}
