import * as z from 'zod/mini';
import { Id } from './entry.ts';
import type { Key, Shelf, WriteTx } from './shelf.ts';

/** What a running recording is for. `ended`: it was stopped by the person, and only its entry is missing. */
const SoundHead = z.object({ job: Id, run: z.nullable(Id), surfaces: z.array(Id), ended: z.boolean() });
export type SoundHead = z.infer<typeof SoundHead>;

/** A recording whose page went away before its entry was complete: all its sound that reached the disk, in order. */
export interface LeftSound {
  readonly head: SoundHead;
  readonly pieces: readonly Uint8Array[];
}

const SOUND = 'sound';

/**
 * The sound of running recordings, a piece a second, in the drawer of drafts: head under ['sound', ID], pieces under ['sound', ID, n].
 * A recording's id is the id its entry will have, so whether that entry is complete can be told from the log.
 */
export class SoundPieces {
  readonly #shelf: Shelf;

  constructor(shelf: Shelf) {
    this.#shelf = shelf;
  }

  /** Adds pieces in one strict transaction; the first of them is number `from`. On disk when it resolves; rejects with ShelfError. */
  append(id: string, head: SoundHead, from: number, pieces: readonly Uint8Array[]): Promise<void> {
    return this.#shelf.write(['drafts'], async (tx) => {
      await Promise.all([tx.put('drafts', keyOf(id), head), ...pieces.map((piece, i) => tx.put('drafts', [SOUND, id, from + i], piece))]);
    });
  }

  /** Ids of the recordings of which something is on disk, running ones too. */
  async ids(): Promise<string[]> {
    const keys = await this.#shelf.read(['drafts'], (tx) => tx.keys('drafts', [SOUND]));
    return [...new Set(keys.map((key) => String(key[1])))];
  }

  /** Null when nothing of this recording is on disk, or in a form this version does not know: that is left as it is. */
  async read(id: string): Promise<LeftSound | null> {
    const [head, ...pieces] = await this.#shelf.read(['drafts'], (tx) => tx.all('drafts', keyOf(id)));
    const parsed = SoundHead.safeParse(head);
    return parsed.success && pieces.every((piece) => piece instanceof Uint8Array) ? { head: parsed.data, pieces } : null;
  }

  /** Forgets a recording. For when its entry is complete. */
  drop(id: string): Promise<void> {
    return this.#shelf.write(['drafts'], async (tx: WriteTx) => {
      const keys = await tx.keys('drafts', keyOf(id));
      await Promise.all(keys.map((key) => tx.delete('drafts', key)));
    });
  }
}

function keyOf(id: string): Key {
  return [SOUND, id];
}
