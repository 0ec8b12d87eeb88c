import { openDB, type IDBPDatabase } from 'idb';
import { DRAWERS, ShelfError, type Drawer, type ReadTx, type Shelf, type WriteTx } from '#lib/record/shelf.ts';
import { randomId } from '../random-id.ts';
import { inTransaction, shelfError } from './_transaction.ts';

export interface ShelfEvents {
  /**
   * A newer build (or a wipe) wants the store; this page loses it when the answer settles, or after a second.
   * The store still takes writes meanwhile, so that the draft in hand can be flushed.
   */
  superseded(): void | Promise<void>;
}

/** Version 1: one object store for each drawer, keys out of line. A later version only adds stores. */
export const SCHEMA_VERSION = 1;

/** An open that waits on an older page says nothing at all, so it is given this long. */
const OPEN_MS = 3_000;
/** Time for the last draft; well under the other page's own patience. */
const FLUSH_MS = 1_000;

/** Drawn when the database is made. Another value later means that this one was cleared and made anew. */
const BORN = ['born'];

/** A shelf over IndexedDB. Opened at first use; `version` is another than the schema's only to try out an upgrade. */
export function openIdbShelf(name: string, events: ShelfEvents, version = SCHEMA_VERSION): IdbShelf {
  return new IdbShelf(name, events, version);
}

export class IdbShelf implements Shelf {
  readonly #name: string;
  readonly #version: number;
  readonly #events: ShelfEvents;
  #db: IDBPDatabase | null = null;
  #opening: Promise<IDBPDatabase> | null = null;
  #born: unknown = undefined;
  /** Set once the store is no longer ours to use; every later call answers with it. */
  #ended: ShelfError | null = null;

  constructor(name: string, events: ShelfEvents, version: number) {
    this.#name = name;
    this.#events = events;
    this.#version = version;
  }

  read<T>(drawers: readonly Drawer[], work: (tx: ReadTx) => Promise<T>): Promise<T> {
    return this.#run('readonly', drawers, work);
  }

  write<T>(drawers: readonly Drawer[], work: (tx: WriteTx) => Promise<T>): Promise<T> {
    return this.#run('readwrite', drawers, work);
  }

  /** Phones end the database's process behind a page's back; the handle is then dead for good, and only a fresh one helps. */
  async #run<T>(mode: IDBTransactionMode, drawers: readonly Drawer[], work: (tx: WriteTx) => Promise<T>): Promise<T> {
    try {
      return await this.#once(mode, drawers, work);
    } catch (error) {
      if (!isGone(error)) throw error;
      return this.#once(mode, drawers, work);
    }
  }

  async #once<T>(mode: IDBTransactionMode, drawers: readonly Drawer[], work: (tx: WriteTx) => Promise<T>): Promise<T> {
    const db = await this.#connection();
    try {
      return await inTransaction(db, mode, drawers, work);
    } catch (error) {
      if (isGone(error)) this.#forget(db);
      throw error;
    }
  }

  /** One open for all who ask meanwhile: a second request would only queue behind the first and hide its events. */
  async #connection(): Promise<IDBPDatabase> {
    if (this.#ended !== null) throw this.#ended;
    if (this.#db !== null) return this.#db;
    this.#opening ??= this.#open().finally(() => (this.#opening = null));
    const late = new ShelfError('blocked', `${this.#name}: not open after ${OPEN_MS} ms; another page may hold it`);
    return within(OPEN_MS, this.#opening, late);
  }

  async #open(): Promise<IDBPDatabase> {
    let db: IDBPDatabase | undefined;
    try {
      db = await openDB(this.#name, this.#version, {
        upgrade: (made, oldVersion, _newVersion, tx) => {
          tx.done.catch(() => undefined);
          for (const drawer of DRAWERS) if (!made.objectStoreNames.contains(drawer)) made.createObjectStore(drawer);
          if (oldVersion === 0)
            tx.objectStore('meta')
              .put(randomId(), BORN)
              .catch(() => undefined);
        },
        blocking: (_version, wanted) => void this.#supersede(db, wanted),
        terminated: () => this.#forget(db),
      });
      const born: unknown = await db.get('meta', BORN);
      this.#born ??= born;
      if (this.#born !== born) throw (this.#ended = new ShelfError('gone', `${this.#name}: cleared while this page was open`));
      this.#db = db;
      return db;
    } catch (error) {
      db?.close();
      throw error instanceof ShelfError ? error : shelfError(error);
    }
  }

  async #supersede(db: IDBPDatabase | undefined, wanted: number | null): Promise<void> {
    try {
      await within(FLUSH_MS, Promise.resolve(this.#events.superseded()), new Error('flush took too long'));
    } catch {
      // The draft on disk is then one change older; holding up the newer build would help nobody.
    }
    this.#ended =
      wanted === null
        ? new ShelfError('gone', `${this.#name}: cleared by another page`)
        : new ShelfError('newer', `${this.#name}: version ${wanted} took over`);
    this.#forget(db);
  }

  #forget(db: IDBPDatabase | undefined): void {
    db?.close();
    if (this.#db === db) this.#db = null;
  }
}

function isGone(error: unknown): boolean {
  return error instanceof ShelfError && error.code === 'gone';
}

async function within<T>(ms: number, task: Promise<T>, late: Error): Promise<T> {
  let timer: ReturnType<typeof setTimeout> | undefined;
  const deadline = new Promise<never>((_, reject) => {
    timer = setTimeout(() => reject(late), ms);
  });
  try {
    return await Promise.race([task, deadline]);
  } finally {
    clearTimeout(timer);
  }
}
