import { ask } from './bridge.ts';
import type { PhotoAnswers, PhotoQuestion } from './measure.worker.ts';

/** Where the worker is with a question. */
export type MeasuringStep = 'reading' | 'looking' | 'measuring';

/** The one photo that is open in a worker of its own: a second one ends the first, since each takes 50 MB and more. */
let current: PhotoAtWork | null = null;

/** A photo decoded and measured off the page's thread. `end` cancels whatever is under way and gives its memory back at once. */
export class PhotoAtWork {
  readonly #worker: Worker;
  readonly #step: (step: MeasuringStep) => void;
  readonly #ended = Promise.withResolvers<never>();

  constructor(step: (step: MeasuringStep) => void) {
    current?.end();
    current = this;
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
    if (current === this) current = null;
  }
}

/** The photo was closed before the answer came. */
export class Ended extends Error {
  override readonly name = 'Ended';
}
