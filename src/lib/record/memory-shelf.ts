import { compareKeys, ShelfError, startsWith, type Drawer, type Key, type ReadTx, type Shelf, type WriteTx } from './shelf.ts';

/** Everything on a shelf, by drawer and key. Never changed once it is shown: each transaction works on a copy. */
export type Contents = ReadonlyMap<string, { readonly key: Key; readonly drawer: Drawer; readonly value: unknown }>;

/** A shelf in memory: for the terminal, and as the model the other shelves are compared with. Transactions run one at a time. */
export class MemoryShelf implements Shelf {
  #contents: Contents = new Map();
  #queue: Promise<unknown> = Promise.resolve();

  read<T>(drawers: readonly Drawer[], work: (tx: ReadTx) => Promise<T>): Promise<T> {
    return this.#inTurn(async () => (await transact(this.#contents, drawers, work)).result);
  }

  write<T>(drawers: readonly Drawer[], work: (tx: WriteTx) => Promise<T>): Promise<T> {
    return this.#inTurn(async () => {
      const { result, after } = await transact(this.#contents, drawers, work);
      this.#contents = after;
      return result;
    });
  }

  #inTurn<T>(task: () => Promise<T>): Promise<T> {
    const turn = this.#queue.then(task);
    this.#queue = turn.catch(() => undefined);
    return turn;
  }
}

/** Runs `work` on a copy of what is there, and gives its result and what is there after it. Refuses what a real store refuses. */
export async function transact<T>(
  before: Contents,
  drawers: readonly Drawer[],
  work: (tx: WriteTx) => Promise<T>,
): Promise<{ result: T; after: Contents }> {
  const after = new Map(before);
  const refusals: ShelfError[] = [];
  const ask = <A>(drawer: Drawer, request: () => A): Promise<A> => {
    try {
      if (!drawers.includes(drawer)) throw new RangeError(`${drawer}: not among the drawers of this transaction`);
      return Promise.resolve(request());
    } catch (cause) {
      const refusal = new ShelfError('failed', String(cause), cause);
      refusals.push(refusal);
      const refused = Promise.reject<A>(refusal);
      refused.catch(() => undefined);
      return refused;
    }
  };
  const under = (drawer: Drawer, prefix: Key) =>
    [...after.values()].filter((row) => row.drawer === drawer && startsWith(row.key, prefix)).sort((a, b) => compareKeys(a.key, b.key));
  const result = await work({
    get: (drawer, key) => ask(drawer, () => copy(after.get(address(drawer, key))?.value)),
    all: (drawer, prefix) => ask(drawer, () => under(drawer, prefix).map((row) => copy(row.value))),
    keys: (drawer, prefix) => ask(drawer, () => under(drawer, prefix).map((row) => row.key)),
    between: (drawer, low, high, limit) =>
      ask(drawer, () =>
        under(drawer, [])
          .filter(({ key }) => compareKeys(key, low) >= 0 && compareKeys(key, high) < 0)
          .slice(0, limit)
          .map((row) => copy(row.value)),
      ),
    put: (drawer, key, value) => ask(drawer, () => void after.set(address(drawer, key), { key, drawer, value: copy(value) })),
    delete: (drawer, key) => ask(drawer, () => void after.delete(address(drawer, key))),
  });
  // A refusal that `work` overlooked must not keep the rest.
  const [first] = refusals;
  if (first !== undefined) throw first;
  return { result, after };
}

function address(drawer: Drawer, key: Key): string {
  return JSON.stringify([drawer, ...key]);
}

/** Structured cloning stands in for what a real store does to a value, except that Blobs are immutable and pass through. */
function copy(value: unknown): unknown {
  return value instanceof Blob || typeof value === 'string' ? value : structuredClone(value);
}
