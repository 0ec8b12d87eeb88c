import { transact, type Contents } from '#lib/record/memory-shelf.ts';
import { ShelfError, type Drawer, type ReadTx, type Shelf, type ShelfFaultCode, type WriteTx } from '#lib/record/shelf.ts';

/** What goes wrong at one operation: the store refuses, never answers, or the power goes. */
export type Trouble = ShelfFaultCode | 'hang' | 'cut';

export type Durability = 'strict' | 'relaxed';

const NEVER = new Promise<never>(() => undefined);

/**
 * A disk below one or more pages. A commit first lies in the disk's cache, visible to every page and lost without power; a
 * flush makes it and all before it lasting. A cut keeps what was flushed and, of the rest, as many commits as the disk
 * happened to write by itself, oldest first. Pages of before the cut never hear anything again.
 */
export class Disk {
  /** Every state committed since the last start, oldest first. */
  #states: Contents[] = [new Map()];
  #flushed = 0;
  #starts = 0;
  #queue: Promise<unknown> = Promise.resolve();
  #cut = Promise.withResolvers<void>();
  /** Operations asked of the disk since the last start, by all pages together. */
  operations = 0;
  /** Chosen by the test: what befalls the n-th operation since the last start, counted from 1. */
  trouble: (operation: number) => Trouble | null = () => null;

  /** Resolves when the power goes. */
  get dark(): Promise<void> {
    return this.#cut.promise;
  }

  get contents(): Contents {
    return this.#states.at(-1)!;
  }

  commit(contents: Contents): void {
    this.#states.push(contents);
  }

  flush(): void {
    this.#flushed = this.#states.length - 1;
  }

  /** Power is back, with only what lasted. `luck` from 0 to 1 is the share of unflushed commits the disk wrote by itself. */
  powerUp(luck: number): void {
    const kept = this.#flushed + Math.floor(luck * (this.#states.length - this.#flushed));
    this.#start(this.#states[Math.min(kept, this.#states.length - 1)]!);
  }

  /** The pages were killed, the computer was not: every commit is still there. */
  reload(): void {
    this.#start(this.contents);
  }

  #start(contents: Contents): void {
    this.#states = [contents];
    this.#flushed = 0;
    this.#starts += 1;
    this.#queue = Promise.resolve();
    this.#cut = Promise.withResolvers();
    this.operations = 0;
    this.trouble = () => null;
  }

  /** Counts one operation of a page started at `start` and lets its trouble befall it. */
  operation(start: number): Promise<void> {
    if (start !== this.#starts) return NEVER;
    this.operations += 1;
    const trouble = this.trouble(this.operations);
    if (trouble === null) return Promise.resolve();
    if (trouble === 'hang') return NEVER;
    if (trouble !== 'cut') return Promise.reject(new ShelfError(trouble, `simulated at operation ${this.operations}`));
    this.#cut.resolve();
    this.trouble = () => 'hang';
    return NEVER;
  }

  get starts(): number {
    return this.#starts;
  }

  /** Transactions of all pages run one at a time; those of a page started at an earlier `start` never run. */
  inTurn<T>(start: number, task: () => Promise<T>): Promise<T> {
    if (start !== this.#starts) return NEVER;
    const turn = this.#queue.then(task);
    this.#queue = turn.catch(() => undefined);
    return turn;
  }
}

/** One page's shelf on a simulated disk. `pause` lets other pages in between operations. */
export class PowerShelf implements Shelf {
  readonly #disk: Disk;
  readonly #start: number;
  readonly #durability: Durability;
  readonly #pause: () => Promise<void>;

  constructor(disk: Disk, durability: Durability = 'strict', pause: () => Promise<void> = () => Promise.resolve()) {
    this.#disk = disk;
    this.#start = disk.starts;
    this.#durability = durability;
    this.#pause = pause;
  }

  async read<T>(drawers: readonly Drawer[], work: (tx: ReadTx) => Promise<T>): Promise<T> {
    await this.#pause();
    return this.#disk.inTurn(this.#start, async () => (await this.#transact(drawers, work)).result);
  }

  async write<T>(drawers: readonly Drawer[], work: (tx: WriteTx) => Promise<T>): Promise<T> {
    await this.#pause();
    return this.#disk.inTurn(this.#start, async () => {
      const { result, after } = await this.#transact(drawers, work);
      await this.#operation();
      this.#disk.commit(after);
      if (this.#durability === 'strict') {
        await this.#operation();
        this.#disk.flush();
      }
      // The answer itself can be lost: kept, and yet the page never hears so, or hears of a dead connection.
      await this.#operation();
      return result;
    });
  }

  #transact<T>(drawers: readonly Drawer[], work: (tx: WriteTx) => Promise<T>) {
    return transact(this.#disk.contents, drawers, async (tx) => {
      const asked: Promise<unknown>[] = [];
      const ask = <A>(request: () => Promise<A>): Promise<A> => {
        const answer = this.#operation().then(request);
        answer.catch(() => undefined);
        asked.push(answer);
        return answer;
      };
      const result = await work({
        get: (drawer, key) => ask(() => tx.get(drawer, key)),
        all: (drawer, prefix) => ask(() => tx.all(drawer, prefix)),
        keys: (drawer, prefix) => ask(() => tx.keys(drawer, prefix)),
        between: (drawer, low, high, limit) => ask(() => tx.between(drawer, low, high, limit)),
        put: (drawer, key, value) => ask(() => tx.put(drawer, key, value)),
        delete: (drawer, key) => ask(() => tx.delete(drawer, key)),
      });
      await Promise.all(asked);
      return result;
    });
  }

  async #operation(): Promise<void> {
    await this.#pause();
    await this.#disk.operation(this.#start);
  }
}
