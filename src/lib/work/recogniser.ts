import type { Heard, Question } from '#lib/voice/hearing.ts';
import { ask } from './bridge.ts';
import type { ListenOrder } from './listener.worker.ts';

/** Longer than any phone should take for a phrase, the first time with reading the engine. Own choice, no source. */
const LONGEST_MS = 30_000;

/**
 * The bundled recogniser in a thread of its own. Its engine is read at the first clip and kept; one that hangs or dies is ended, and the
 * clip is tried once more by a new one.
 */
export class Recogniser {
  readonly #make: () => Worker;
  readonly #longestMs: number;
  #worker: Worker | null = null;
  #turn: Promise<unknown> = Promise.resolve();

  constructor(make = () => new Worker(new URL('./listener.worker.ts', import.meta.url), { type: 'module' }), longestMs = LONGEST_MS) {
    this.#make = make;
    this.#longestMs = longestMs;
  }

  /** Has the engine read while the person still speaks. */
  warm(question: Question): void {
    void this.#next({ samples: null, question }).catch(() => undefined);
  }

  /** What was said. Rejects when two engines hung or died over it. */
  async hear(samples: Float32Array, question: Question): Promise<Heard> {
    const order: ListenOrder = { samples, question };
    const heard = await this.#next(order).catch(() => this.#next(order));
    if (heard === null) throw new Error('recogniser: no answer to a clip');
    return heard;
  }

  /** One at a time: the watchdog counts the work on one clip and not the wait for it. */
  #next(order: ListenOrder): Promise<Heard | null> {
    const answer = this.#turn.then(() => this.#ask(order));
    this.#turn = answer.catch(() => undefined);
    return answer;
  }

  async #ask(order: ListenOrder): Promise<Heard | null> {
    const worker = (this.#worker ??= this.#make());
    let timer: ReturnType<typeof setTimeout> | undefined;
    const late = new Promise<never>((_, reject) => {
      timer = setTimeout(() => reject(new Error(`recogniser: no answer within ${this.#longestMs} ms`)), this.#longestMs);
    });
    try {
      return await Promise.race([ask<Heard | null>(worker, order), late]);
    } catch (error) {
      worker.terminate();
      this.#worker = null;
      throw error;
    } finally {
      clearTimeout(timer);
    }
  }
}
