/**
 * The port every store implements: a shelf of named drawers with transactions, no more than IndexedDB and a Map both give.
 * What the book does with it (heads, chains, blobs) is written once, in book.ts, over this port.
 */
export const DRAWERS = ['entries', 'heads', 'blobs', 'parts', 'drafts', 'caches', 'meta'] as const;
export type Drawer = (typeof DRAWERS)[number];

/** Keys are lists of strings and whole numbers, ordered as IndexedDB orders arrays: numbers before strings, shorter first. */
export type Key = readonly (string | number)[];

export interface ReadTx {
  get(drawer: Drawer, key: Key): Promise<unknown>;
  /** Values whose key starts with `prefix`, in key order. */
  all(drawer: Drawer, prefix: Key): Promise<unknown[]>;
  keys(drawer: Drawer, prefix: Key): Promise<Key[]>;
  /** At most `limit` values whose key is `low` or after it and before `high`, in key order: what is read does not grow with the drawer. */
  between(drawer: Drawer, low: Key, high: Key, limit: number): Promise<unknown[]>;
}

export interface WriteTx extends ReadTx {
  put(drawer: Drawer, key: Key, value: unknown): Promise<void>;
  delete(drawer: Drawer, key: Key): Promise<void>;
}

export interface Shelf {
  read<T>(drawers: readonly Drawer[], work: (tx: ReadTx) => Promise<T>): Promise<T>;
  /**
   * Runs `work` in one transaction and resolves only after it completed with strict durability: the bytes are flushed.
   * Rejects with ShelfError, and nothing of the transaction is kept, when it aborts for any reason; an error thrown by
   * `work` aborts it and comes out unchanged. `work` awaits nothing but the transaction's own answers, and may be run again from
   * its start, on a fresh connection, when the first died under it: perhaps after all was kept.
   */
  write<T>(drawers: readonly Drawer[], work: (tx: WriteTx) => Promise<T>): Promise<T>;
}

/**
 * full: no room for these bytes. gone: the connection died and could not be reopened, or the data was cleared.
 * blocked: an older page holds the store. newer: a newer version owns the store. failed: anything else, `cause` says what.
 */
export type ShelfFaultCode = 'full' | 'gone' | 'blocked' | 'newer' | 'failed';

export class ShelfError extends Error {
  override readonly name = 'ShelfError';
  readonly code: ShelfFaultCode;
  constructor(code: ShelfFaultCode, message: string, cause?: unknown) {
    super(message, { cause });
    this.code = code;
  }
}

/** Orders two keys as IndexedDB does. */
export function compareKeys(a: Key, b: Key): number {
  const shared = Math.min(a.length, b.length);
  for (let i = 0; i < shared; i++) {
    const x = a[i]!;
    const y = b[i]!;
    if (x === y) continue;
    if (typeof x !== typeof y) return typeof x === 'number' ? -1 : 1;
    return x < y ? -1 : 1;
  }
  return a.length - b.length;
}

export function startsWith(key: Key, prefix: Key): boolean {
  return prefix.every((part, i) => key[i] === part);
}
