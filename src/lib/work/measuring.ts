import { ask } from './bridge.ts';
import type { PhotoAnswers, PhotoQuestion } from './measure.worker.ts';

/** Where the worker is with a question. */
export type MeasuringStep = 'reading' | 'looking' | 'measuring';

/** A photo decoded and measured off the page's thread. `end` cancels whatever is under way and gives its memory back at once. */
export class PhotoAtWork {
  /** The one that is open: a second ends the first, since each takes 50 MB and more. */
  static #open: PhotoAtWork | null = null;
  readonly #worker: Worker;
  readonly #step: (step: MeasuringStep) => void;
  readonly #ended = Promise.withResolvers<never>();

  constructor(step: (step: MeasuringStep) => void) {
    PhotoAtWork.#open?.end();
    PhotoAtWork.#open = this;
    this.#step = step;
    this.#worker = new Worker(new URL('./measure.worker.ts', import.meta.url), { type: 'module' });
    this.#ended.promise.catch(() => undefined);
  }

  /** Rejects with `Ended` when the photo is closed meanwhile, and with another error when the worker dies. */
  ask<Do extends PhotoQuestion['do']>(question: Extract<PhotoQuestion, { do: Do }>): Promise<PhotoAnswers[Do]> {
    const answer = ask<PhotoAnswers[Do]>(this.#worker, question, (step) => this.#step(step as MeasuringStep));
    return Promise.race([answer, this.#ended.promise]);
  }

  end(): void {
    this.#worker.terminate();
    this.#ended.reject(new Ended());
    if (PhotoAtWork.#open === this) PhotoAtWork.#open = null;
  }
}

/** The photo was closed before the answer came. */
export class Ended extends Error {
  override readonly name = 'Ended';
}
