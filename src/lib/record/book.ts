import { fail, ok, type Result } from '../result.ts';
import { readEntry, type Entry, type EntryFault, type Times } from './entry.ts';
import { ShelfError, type Key, type ReadTx, type Shelf, type ShelfFaultCode, type WriteTx } from './shelf.ts';

/** The last entry of a chain, kept beside it so that an append needs no search. */
export interface Head {
  readonly job: string;
  readonly device: string;
  readonly seq: number;
  readonly hash: string;
  readonly times: Times;
}

/** Bytes addressed by their SHA-256. `body` is a Blob made from bytes in memory, never the picker's own file. */
export interface Blob256 {
  readonly sha256: string;
  readonly body: Blob;
}

/** Why entries were not saved; the caller still holds them and their bytes. */
export type SaveFault =
  /** The store refused; nothing was written. */
  | { code: 'not-saved'; why: ShelfFaultCode; detail: string }
  /** The store said yes and does not give the same back. */
  | { code: 'read-back'; detail: string };

export type KeepFault =
  | SaveFault
  /** Another page moved the chain: nothing was written, seal anew on `head`. */
  | { code: 'head-moved'; head: Head | null };

/** Pieces a large blob is kept in; some engines lose the connection over single large values. */
export const PART_BYTES = 8 * 1024 * 1024;

/** How much the book holds: kept beside the heads in the same transactions, so that nobody counts all chains to know it. */
export interface Held {
  readonly entries: number;
  readonly devices: readonly string[];
}

const HELD: Key = ['held'];

interface BlobRow {
  readonly bytes: number;
  readonly type: string;
  readonly parts: number;
}

/** The book on a shelf: chains of entries and the bytes they name. Appends only; nothing here rewrites or deletes a log. */
export class Book {
  readonly #shelf: Shelf;
  readonly #seen = new Map<string, Head | null>();

  constructor(shelf: Shelf) {
    this.#shelf = shelf;
  }

  /**
   * Keeps sealed entries of one chain, in order, and the blobs they name, in one strict transaction that first compares the
   * chain's head. Resolves ok only after the transaction completed and was read back: then, and only then, it is saved.
   * Keeping the same entries again is ok and changes nothing, so a caller may repeat after a doubtful answer.
   */
  async keep(entries: readonly Entry[], blobs: readonly Blob256[]): Promise<Result<Head, KeepFault>> {
    const first = entries[0];
    const last = entries.at(-1);
    if (first === undefined || last === undefined) throw new RangeError('entries: expected at least one');
    const head: Head = { job: last.body.job, device: last.body.device, seq: last.body.seq, hash: last.hash, times: last.body.times };
    try {
      // Requests are asked for together: each wait for an answer would cost the shutter a round trip to the store.
      const stands = await this.#shelf.write(['entries', 'heads', 'blobs', 'parts', 'meta'], async (tx) => {
        const [count, stored, kept, ...rows] = await Promise.all([
          tx.get('meta', HELD),
          tx.get('heads', [head.job, head.device]),
          tx.get('entries', entryKey(last)),
          ...blobs.map((blob) => tx.get('blobs', [blob.sha256])),
        ]);
        if (kept === last.raw) return head;
        const before = (stored as Head | undefined) ?? null;
        if ((before?.hash ?? null) !== first.body.prev) return before;
        const missing = blobs.filter((_, i) => rows[i] === undefined);
        const held = (count as Held | undefined) ?? (await countHeld(tx));
        await Promise.all([
          ...entries.map((entry) => tx.put('entries', entryKey(entry), entry.raw)),
          ...missing.flatMap((blob) => putBlob(tx, blob)),
          tx.put('heads', [head.job, head.device], head),
          tx.put('meta', HELD, withMore(held, entries.length, head.device)),
        ]);
        return head;
      });
      this.#seen.set(chainOf(head), stands);
      if (stands !== head) return fail({ code: 'head-moved', head: stands });
      return await this.#readBack(entries, blobs, head);
    } catch (error) {
      if (error instanceof ShelfError) return fail({ code: 'not-saved', why: error.code, detail: error.message });
      throw error;
    }
  }

  async #readBack(entries: readonly Entry[], blobs: readonly Blob256[], head: Head): Promise<Result<Head, KeepFault>> {
    return this.#shelf.read(['entries', 'blobs', 'parts'], async (tx) => {
      const [raws, backs] = await Promise.all([
        Promise.all(entries.map((entry) => tx.get('entries', entryKey(entry)))),
        Promise.all(blobs.map((blob) => getBlob(tx, blob.sha256))),
      ]);
      const entry = entries.find((one, i) => raws[i] !== one.raw);
      if (entry !== undefined) return fail({ code: 'read-back', detail: `entry ${entry.body.seq}` });
      const blob = blobs.find((one, i) => backs[i]?.size !== one.body.size);
      if (blob !== undefined) return fail({ code: 'read-back', detail: `blob ${blob.sha256}` });
      return ok(head);
    });
  }

  /** Keeps bytes before the entry that names them, under the hash that is their name: nobody misses them should that entry never come. */
  async keepBlob(blob: Blob256): Promise<Result<null, SaveFault>> {
    try {
      return await this.#shelf.write(['blobs', 'parts'], async (tx) => {
        if ((await getBlob(tx, blob.sha256))?.size !== blob.body.size) await Promise.all(putBlob(tx, blob));
        return ok(null);
      });
    } catch (error) {
      if (error instanceof ShelfError) return fail({ code: 'not-saved', why: error.code, detail: error.message });
      throw error;
    }
  }

  /** The head of a chain as kept; null before its first entry. Rejects with ShelfError. */
  head(job: string, device: string): Promise<Head | null> {
    return this.#shelf.read(['heads'], async (tx) => ((await tx.get('heads', [job, device])) as Head | undefined) ?? null);
  }

  /** The head as this book saw it last, which may be out of date: good enough to seal on, since keep compares it. */
  async lastSeen(job: string, device: string): Promise<Head | null> {
    return this.#seen.get(chainOf({ job, device })) ?? this.head(job, device);
  }

  /** What the book holds. A store of an earlier version is counted, until the next entry is kept. */
  held(): Promise<Held> {
    return this.#shelf.read(['heads', 'meta'], async (tx) => ((await tx.get('meta', HELD)) as Held | undefined) ?? (await countHeld(tx)));
  }

  /** Heads of every chain, of one job or of all. */
  heads(job?: string): Promise<Head[]> {
    return this.#shelf.read(['heads'], async (tx) => (await tx.all('heads', job === undefined ? [] : [job])) as Head[]);
  }

  /** The log of a job as kept, chain by chain in order of device, then sequence. A row that no longer parses is a fault, not dropped. */
  async log(job: string): Promise<{ entries: Entry[]; faults: EntryFault[] }> {
    const raws = await this.#shelf.read(['entries'], (tx) => tx.all('entries', [job]));
    const entries: Entry[] = [];
    const faults: EntryFault[] = [];
    raws.forEach((raw, i) => {
      const read = readEntry(String(raw), `${job} row ${i}`);
      if (read.ok) entries.push(read.value);
      else faults.push(read.fault);
    });
    return { entries, faults };
  }

  blob(sha256: string): Promise<Blob | null> {
    return this.#shelf.read(['blobs', 'parts'], (tx) => getBlob(tx, sha256));
  }

  /** How many blobs are kept, and how many bytes they hold together. */
  blobCount(): Promise<{ count: number; bytes: number }> {
    return this.#shelf.read(['blobs'], async (tx) => {
      const rows = (await tx.all('blobs', [])) as BlobRow[];
      return { count: rows.length, bytes: rows.reduce((sum, row) => sum + row.bytes, 0) };
    });
  }
}

async function countHeld(tx: ReadTx): Promise<Held> {
  const heads = (await tx.all('heads', [])) as Head[];
  const entries = heads.reduce((sum, head) => sum + head.seq + 1, 0);
  return { entries, devices: [...new Set(heads.map((head) => head.device))].sort() };
}

function withMore({ entries, devices }: Held, more: number, device: string): Held {
  return { entries: entries + more, devices: devices.includes(device) ? devices : [...devices, device].sort() };
}

function entryKey(entry: Entry): Key {
  return [entry.body.job, entry.body.device, entry.body.seq];
}

function chainOf({ job, device }: Pick<Head, 'job' | 'device'>): string {
  return `${job} ${device}`;
}

function putBlob(tx: WriteTx, { sha256, body }: Blob256): Promise<void>[] {
  const parts = Math.max(1, Math.ceil(body.size / PART_BYTES));
  const row: BlobRow = { bytes: body.size, type: body.type, parts };
  const pieces = Array.from({ length: parts }, (_, i) =>
    parts === 1 ? body : body.slice(i * PART_BYTES, (i + 1) * PART_BYTES, body.type),
  );
  return [tx.put('blobs', [sha256], row), ...pieces.map((piece, i) => tx.put('parts', [sha256, i], piece))];
}

async function getBlob(tx: ReadTx, sha256: string): Promise<Blob | null> {
  const [row, found] = await Promise.all([tx.get('blobs', [sha256]), tx.all('parts', [sha256])]);
  const parts = found as Blob[];
  if (row === undefined || parts.length !== (row as BlobRow).parts) return null;
  return parts.length === 1 ? parts[0]! : new Blob(parts, { type: (row as BlobRow).type });
}
