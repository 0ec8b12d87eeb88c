import type { IDBPDatabase, IDBPTransaction } from 'idb';
import { ShelfError, type Drawer, type Key, type ReadTx, type WriteTx } from '#lib/record/shelf.ts';

type Tx = IDBPTransaction<unknown, string[], 'readwrite'>;

/**
 * Runs `work` in one transaction of an open database. Resolves after `complete`, never on a request's success: a full disk
 * shows only as `abort`, after every request has succeeded. Rejects with what `work` threw, unchanged, or with a ShelfError.
 */
export async function inTransaction<T>(
  db: IDBPDatabase,
  mode: IDBTransactionMode,
  drawers: readonly Drawer[],
  work: (tx: WriteTx) => Promise<T>,
): Promise<T> {
  const tx = begin(db, mode, drawers);
  const ended = new Promise<void>((resolve) => {
    tx.addEventListener('complete', () => resolve());
    tx.addEventListener('abort', () => resolve());
  });
  // `done` rejects at the first failed request, before the transaction knows its own cause; `ended` waits for that.
  const completed = tx.done.then(
    () => true,
    () => false,
  );
  const refused = new Set<unknown>();
  const asked: Promise<unknown>[] = [];
  let result: T;
  try {
    result = await work(answers(tx, asked, refused));
    await Promise.all(asked);
    // A refusal that `work` overlooked must not commit the rest.
    if (refused.size > 0) abort(tx);
  } catch (error) {
    abort(tx);
    await ended;
    throw refused.has(error) ? shelfError(tx.error ?? error) : error;
  }
  await ended;
  if (!(await completed)) throw shelfError(tx.error ?? [...refused][0] ?? new DOMException('aborted from outside', 'AbortError'));
  return result;
}

/** The only place that makes a transaction. Browsers' default durability may lose a commit when power fails. */
function begin(db: IDBPDatabase, mode: IDBTransactionMode, drawers: readonly Drawer[]): Tx {
  try {
    return db.transaction<string[], IDBTransactionMode>([...drawers], mode, { durability: 'strict' }) as Tx;
  } catch (error) {
    throw shelfError(error);
  }
}

function abort(tx: Tx): void {
  try {
    tx.abort();
  } catch {
    // Over already: the failed request aborted it.
  }
}

/** The transaction as the port has it. Every request is noted in `asked`, every refusal in `refused`, whether or not `work` looks. */
function answers(tx: Tx, asked: Promise<unknown>[], refused: Set<unknown>): WriteTx {
  const ask = <A>(request: () => Promise<A>): Promise<A> => {
    const answer = new Promise<A>((resolve) => resolve(request()));
    asked.push(answer.catch((error: unknown) => refused.add(error)));
    return answer;
  };
  const read: ReadTx = {
    get: (drawer, key) => ask<unknown>(() => tx.objectStore(drawer).get([...key])),
    all: (drawer, prefix) => ask<unknown[]>(() => tx.objectStore(drawer).getAll(under(prefix))),
    keys: (drawer, prefix) => ask(() => tx.objectStore(drawer).getAllKeys(under(prefix)) as unknown as Promise<Key[]>),
    between: (drawer, low, high, limit) =>
      ask<unknown[]>(() => tx.objectStore(drawer).getAll(IDBKeyRange.bound([...low], [...high], false, true), limit)),
  };
  return {
    ...read,
    put: (drawer, key, value) =>
      ask(async () => {
        await tx.objectStore(drawer).put(value, [...key]);
      }),
    delete: (drawer, key) => ask(() => tx.objectStore(drawer).delete([...key])),
  };
}

/** All keys that start with `prefix`: IndexedDB sorts an array after every string and number. */
function under(prefix: Key): IDBKeyRange {
  return IDBKeyRange.bound([...prefix], [...prefix, []]);
}

/** What engines say when the connection, not the request, is at fault; WebKit says UnknownError for a lost database process. */
const CONNECTION_FAULTS = new Set(['InvalidStateError', 'UnknownError', 'AbortError']);

/** An engine's error in the shelf's own terms. */
export function shelfError(cause: unknown): ShelfError {
  const name = cause instanceof Error ? cause.name : '';
  const message = String(cause);
  if (name === 'QuotaExceededError') return new ShelfError('full', message, cause);
  if (name === 'VersionError') return new ShelfError('newer', message, cause);
  if (CONNECTION_FAULTS.has(name)) return new ShelfError('gone', message, cause);
  return new ShelfError('failed', message, cause);
}
