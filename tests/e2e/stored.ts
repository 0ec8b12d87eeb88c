import type { Page } from '@playwright/test';
import { readEntry, type Entry } from '#lib/record/entry.ts';
import { known } from '#lib/record/kinds.ts';

/** What the phone's store holds, read past the app. */
export interface Stored {
  /** Entries as kept, byte for byte, in order of job, device and place in the chain. */
  readonly raws: readonly string[];
  /** The head each chain says it has. */
  readonly heads: readonly { readonly job: string; readonly device: string; readonly seq: number; readonly hash: string }[];
  /** SHA-256 of the bytes of each blob, by the SHA-256 it is kept under. */
  readonly blobs: Readonly<Record<string, string>>;
}

const EMPTY: Stored = { raws: [], heads: [], blobs: {} };

/** Reads the store of the origin the page is on. A store that the app has not made yet is not made here either. */
export async function readStored(page: Page): Promise<Stored> {
  const stored = await page.evaluate(async () => {
    if (!(await indexedDB.databases()).some(({ name }) => name === 'layerbook')) return null;
    const answer = <T>(request: IDBRequest<T>) =>
      new Promise<T>((resolve, reject) => {
        request.onsuccess = () => resolve(request.result);
        request.onerror = () => reject(request.error ?? new Error('no answer'));
      });
    const db = await answer(indexedDB.open('layerbook'));
    try {
      const tx = db.transaction(['entries', 'heads', 'blobs', 'parts']);
      const all = (drawer: string) => answer(tx.objectStore(drawer).getAll());
      const keys = (drawer: string) => answer(tx.objectStore(drawer).getAllKeys());
      const [raws, heads, names, parts, partKeys] = await Promise.all([
        all('entries'),
        all('heads'),
        keys('blobs'),
        all('parts'),
        keys('parts'),
      ]);
      const blobs: Record<string, string> = {};
      for (const [sha256] of names as [string][]) {
        const mine = (parts as Blob[]).filter((_, i) => (partKeys[i] as [string, number])[0] === sha256);
        const digest = await crypto.subtle.digest('SHA-256', await new Blob(mine).arrayBuffer());
        blobs[sha256] = Array.from(new Uint8Array(digest), (byte) => byte.toString(16).padStart(2, '0')).join('');
      }
      return { raws: raws as string[], heads: heads as Stored['heads'], blobs };
    } finally {
      db.close();
    }
  });
  return stored ?? EMPTY;
}

/** The entries of a store; one that does not parse is an error. */
export function entriesOf({ raws }: Stored): Entry[] {
  return raws.map((raw, i) => {
    const read = readEntry(raw, `row ${i}`);
    if (!read.ok) throw new Error(JSON.stringify(read.fault));
    return read.value;
  });
}

/** SHA-256 of the photo of each shot, in order. */
export function shotsOf(stored: Stored): string[] {
  return entriesOf(stored)
    .map(known)
    .flatMap((view) => (view.kind === 'shot' ? [view.data.picture.sha256] : []));
}

/** A draft as it lies on the disk of the phone, as JSON; null when there is none. */
export async function readDraft(page: Page, key: readonly string[]): Promise<string> {
  return page.evaluate(async (wanted) => {
    const db = await new Promise<IDBDatabase>((resolve, reject) => {
      const request = indexedDB.open('layerbook');
      request.onsuccess = () => resolve(request.result);
      request.onerror = () => reject(request.error ?? new Error('no answer'));
    });
    const request = db
      .transaction('drafts')
      .objectStore('drafts')
      .get([...wanted]);
    await new Promise((answered) => (request.onsuccess = answered));
    db.close();
    return JSON.stringify(request.result ?? null);
  }, key);
}
