import type { Drafts, Shape } from '#lib/record/drafts.ts';
import type { Key } from '#lib/record/shelf.ts';

/** Fields being filled in, written to disk at each change, one write after the other so that the last one stands. */
export class DraftState<T> {
  readonly #drafts: Drafts;
  readonly #key: Key;
  readonly #shape: Shape<T>;
  #now: T = $state.raw() as T;
  #turn: Promise<void> = Promise.resolve();
  #waiting = $state(0);
  #failed = $state(false);

  constructor(drafts: Drafts, key: Key, shape: Shape<T>, first: T) {
    this.#drafts = drafts;
    this.#key = key;
    this.#shape = shape;
    this.#now = first;
  }

  get now() {
    return this.#now;
  }

  /** False while the newest change is not on disk, or could not be written. */
  get onDisk() {
    return this.#waiting === 0 && !this.#failed;
  }

  async restore(): Promise<boolean> {
    const stored = await this.#drafts.get(this.#key, this.#shape).catch(() => null);
    if (stored !== null) this.#now = stored;
    return stored !== null;
  }

  set(change: Partial<T>): Promise<void> {
    this.#now = { ...this.#now, ...change };
    const value = this.#now;
    return this.#write(() => this.#drafts.put(this.#key, value));
  }

  drop(): Promise<void> {
    return this.#write(() => this.#drafts.drop(this.#key));
  }

  #write(task: () => Promise<void>): Promise<void> {
    this.#waiting += 1;
    this.#turn = this.#turn
      .then(task)
      .then(
        () => (this.#failed = false),
        () => (this.#failed = true),
      )
      .then(() => void (this.#waiting -= 1));
    return this.#turn;
  }
}
