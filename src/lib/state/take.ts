import { ShelfError, type ShelfFaultCode } from '#lib/record/shelf.ts';
import type { SoundPieces } from '#lib/record/sound-pieces.ts';
import { SECOND_BYTES } from '#lib/record/wav.ts';
import type { OpenJob } from './job.svelte.ts';

/** What a voice note is about. */
export interface VoicePlace {
  readonly run: string | null;
  readonly surfaces: readonly string[];
}

/**
 * A recording under way. Each full second goes to disk at once, in a transaction of its own, and stays in memory too: the disk is for a page that is
 * killed, the memory for a store that refuses.
 */
export class Take {
  /** Of the recording, its pieces on disk and its entry to be. */
  readonly id: string;
  readonly job: OpenJob;
  /** May change while the person talks; what it is at the end counts. */
  place: VoicePlace;
  readonly #store: SoundPieces;
  readonly #diskSays: (fault: ShelfFaultCode | null) => void;
  readonly #pieces: Uint8Array[] = [];
  readonly #second = new Uint8Array(SECOND_BYTES);
  #filled = 0;
  #onDisk = 0;
  #turn: Promise<void> = Promise.resolve();

  /** `diskSays` is told after each second why it could not be written, or null when it was. */
  constructor(id: string, job: OpenJob, place: VoicePlace, store: SoundPieces, diskSays: (fault: ShelfFaultCode | null) => void) {
    this.id = id;
    this.job = job;
    this.place = place;
    this.#store = store;
    this.#diskSays = diskSays;
  }

  add(pcm: Uint8Array): void {
    for (let at = 0; at < pcm.length;) {
      const part = pcm.subarray(at, at + SECOND_BYTES - this.#filled);
      this.#second.set(part, this.#filled);
      this.#filled += part.length;
      at += part.length;
      if (this.#filled < SECOND_BYTES) return;
      this.#closePiece();
      void this.#write(false);
    }
  }

  /** Puts the rest on disk as well and gives all of it. Without `cut` it is noted there that the person had finished. */
  async end(cut: boolean): Promise<readonly Uint8Array[]> {
    if (this.#filled > 0) this.#closePiece();
    if (this.#pieces.length > 0) await this.#write(!cut);
    return this.#pieces;
  }

  #closePiece(): void {
    this.#pieces.push(this.#second.slice(0, this.#filled));
    this.#filled = 0;
  }

  /** Whatever is not on disk yet, after the write before it: so there is never a gap, and a second refused is tried again with the next. */
  #write(ended: boolean): Promise<void> {
    this.#turn = this.#turn.then(async () => {
      const pieces = this.#pieces.slice(this.#onDisk);
      if (pieces.length === 0 && !ended) return;
      const head = { job: this.job.id, run: this.place.run, surfaces: [...this.place.surfaces], ended };
      try {
        await this.#store.append(this.id, head, this.#onDisk, pieces);
        this.#onDisk += pieces.length;
        this.#diskSays(null);
      } catch (error) {
        this.#diskSays(error instanceof ShelfError ? error.code : 'failed');
      }
    });
    return this.#turn;
  }
}
