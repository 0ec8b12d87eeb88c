import { digestHex } from '#lib/device/capture/digest.ts';
import { deviceIdentity } from '#lib/device/identity.ts';
import { openIdbShelf } from '#lib/device/store/idb-shelf.ts';
import { deviceWriter } from '#lib/device/writer.ts';
import { append } from '#lib/record/append.ts';
import { Book } from '#lib/record/book.ts';

/** The least a page can do to put bytes on disk for sure: one strict transaction, one put, `complete`. */
async function reference(): Promise<(bytes: Uint8Array<ArrayBuffer>) => Promise<void>> {
  const opening = indexedDB.open('reference', 1);
  opening.onupgradeneeded = () => opening.result.createObjectStore('blobs', { autoIncrement: true });
  await new Promise((resolve) => (opening.onsuccess = resolve));
  return (bytes) =>
    new Promise((resolve, reject) => {
      const tx = opening.result.transaction('blobs', 'readwrite', { durability: 'strict' });
      tx.oncomplete = () => resolve();
      tx.onabort = () => reject(tx.error ?? new Error('aborted'));
      tx.objectStore('blobs').put(new Blob([bytes], { type: 'image/jpeg' }));
    });
}

/** The shutter's path from bytes in hand to "saved": hash, seal, sign, keep with the head compared, read back. */
async function ours(): Promise<(bytes: Uint8Array<ArrayBuffer>) => Promise<void>> {
  const shelf = openIdbShelf('bench', { superseded: () => undefined });
  const book = new Book(shelf);
  const writer = deviceWriter(await deviceIdentity(shelf));
  return async (bytes) => {
    const body = new Blob([bytes], { type: 'image/jpeg' });
    const sha256 = await digestHex(bytes);
    const picture = { sha256, bytes: bytes.length, type: 'image/jpeg' };
    const kept = await append(
      book,
      'bench',
      [{ kind: 'shot', data: { picture, from: 'viewfinder', surface: null } }],
      [{ sha256, body }],
      writer,
    );
    if (!kept.ok) throw new Error(JSON.stringify(kept.fault));
  };
}

/** Milliseconds of both, in turns, each time with fresh random bytes that both are given alike; two turns warm up and do not count. */
export async function measure(size: number, turns: number): Promise<{ ref: number[]; ours: number[] }> {
  const ways = { ref: await reference(), ours: await ours() };
  const took = { ref: [] as number[], ours: [] as number[] };
  for (let turn = -2; turn < turns; turn++) {
    const bytes = randomBytes(size);
    const order = turn % 2 === 0 ? (['ref', 'ours'] as const) : (['ours', 'ref'] as const);
    for (const way of order) {
      const from = performance.now();
      await ways[way](bytes);
      if (turn >= 0) took[way].push(performance.now() - from);
    }
  }
  return took;
}

/** Camera bytes do not compress, and neither must these. */
function randomBytes(size: number): Uint8Array<ArrayBuffer> {
  const bytes = new Uint8Array(size);
  for (let at = 0; at < size; at += 65_536) crypto.getRandomValues(bytes.subarray(at, at + 65_536));
  return bytes;
}
