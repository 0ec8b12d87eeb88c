import { digestHex } from '#lib/device/capture/digest.ts';
import { holdAlone } from '#lib/device/store/alone.ts';
import type { SaveFault } from '#lib/record/book.ts';
import type { Draft } from '#lib/record/kinds.ts';
import { SoundPieces } from '#lib/record/sound-pieces.ts';
import { SOUND_TYPE, soundMs, wavOf } from '#lib/record/wav.ts';
import { desk, type Desk } from './desk.svelte.ts';
import type { OpenJob } from './job.svelte.ts';
import type { VoicePlace } from './take.ts';

/** A whole recording, to be kept as an entry. */
export interface Sound {
  /** Of its pieces on disk, and of its entry. */
  readonly id: string;
  readonly job: OpenJob;
  readonly place: VoicePlace;
  readonly pieces: readonly Uint8Array[];
  /** The microphone went away, or the page did. */
  readonly cut: boolean;
  /** Lets other pages at what is on disk of it. */
  readonly release: () => void;
}

/** What became of a recording. */
export interface SoundNews {
  /** Of its entry, and of its file. */
  readonly id: string;
  readonly sha256: string;
  readonly utc: string;
  readonly offsetMin: number;
  readonly ms: number;
  readonly cut: boolean;
}

/** A recording of a page that went away, kept at this start. */
export interface FoundSound {
  readonly id: string;
  readonly job: string;
  readonly jobName: string;
  readonly ms: number;
  readonly cut: boolean;
}

interface HeldSound {
  readonly sound: Sound;
  readonly fault: SaveFault;
}

/**
 * From a whole recording to its entry. The pieces on disk are dropped when the entry is complete, and only then; a recording whose entry the store
 * refused stays in memory until it is kept or handed out as a file.
 */
export class Sounds {
  readonly #desk: Pick<Desk, 'open' | 'job'>;
  #news: SoundNews | null = $state.raw(null);
  #held: readonly HeldSound[] = $state.raw([]);
  #found: readonly FoundSound[] = $state.raw([]);

  constructor(source: Pick<Desk, 'open' | 'job'>) {
    this.#desk = source;
  }

  get news() {
    return this.#news;
  }
  /** Recordings the store refused, and why. */
  get held() {
    return this.#held;
  }
  get found() {
    return this.#found;
  }

  forgetNews(): void {
    this.#news = null;
  }
  /** The person has read of the recordings found. */
  acceptFound(): void {
    this.#found = [];
  }

  /** Keeps a recording. When it cannot be kept it is held. */
  async keep(sound: Sound): Promise<'kept' | 'was-kept' | 'held'> {
    const wav = wavOf(sound.pieces);
    const ms = msOf(sound);
    const { id, job, place, cut } = sound;
    // Its answer may have been lost the last time, or the page right after it: the entry then stands already.
    const before = job.entries.find((entry) => entry.body.id === id);
    if (before === undefined) {
      const body = new Blob([wav], { type: SOUND_TYPE });
      const sha256 = await digestHex(wav);
      const draft: Draft = {
        id,
        kind: 'voice',
        ...(place.run === null ? {} : { run: place.run }),
        data: { sound: { sha256, bytes: wav.length, type: SOUND_TYPE }, ms, cut, surfaces: [...place.surfaces] },
      };
      const done = await job.add([draft], [{ sha256, body }]);
      if (!done.ok) {
        this.#held = [...this.#held, { sound, fault: done.fault }];
        return 'held';
      }
      const { utc, offsetMin } = done.value.at(-1)!.body.times;
      this.#news = { id: done.value.at(-1)!.body.id, sha256, utc, offsetMin, ms, cut };
    }
    // Should this fail, they are found at the next start, and dropped there since the entry stands.
    await this.#desk
      .open()
      .then(({ shelf }) => new SoundPieces(shelf).drop(id))
      .catch(() => undefined);
    sound.release();
    return before === undefined ? 'kept' : 'was-kept';
  }

  /** Tries again with everything still held. */
  async retry(): Promise<void> {
    const held = this.#held;
    this.#held = [];
    for (const { sound } of held) {
      await sound.job.load().catch(() => undefined);
      await this.keep(sound);
    }
  }

  /** The held recordings as files, so that they can leave the page by another way. */
  heldFiles(): File[] {
    return this.#held.map(({ sound }, i) => new File([wavOf(sound.pieces)], `not-saved-${i + 1}.wav`, { type: SOUND_TYPE }));
  }

  /** Keeps what pages that went away left on disk. Rejects with ShelfError when the store cannot be read; what is left then stays for the next start. */
  async recover(): Promise<void> {
    const store = new SoundPieces((await this.#desk.open()).shelf);
    for (const id of await store.ids()) {
      const release = await holdSound(id);
      // Held by a page that records, or still has it in memory.
      if (release !== null) await this.#recoverOne(store, id, release);
    }
  }

  async #recoverOne(store: SoundPieces, id: string, release: () => void): Promise<void> {
    let outcome: 'kept' | 'was-kept' | 'held' | null = null;
    try {
      const left = await store.read(id);
      const job = left === null ? null : await this.#desk.job(left.head.job);
      if (left === null || job === null) return;
      // The job may have been opened before the other page kept the recording.
      await job.load();
      const { run, surfaces, ended } = left.head;
      const sound: Sound = { id, job, place: { run, surfaces }, pieces: left.pieces, cut: !ended, release };
      outcome = await this.keep(sound);
      if (outcome === 'kept') {
        this.#news = null;
        this.#found = [...this.#found, { id, job: job.id, jobName: job.state.name, ms: msOf(sound), cut: !ended }];
      }
    } finally {
      if (outcome === null) release();
    }
  }
}

/** Keeps other pages from taking a recording for one that was left behind. Null while another page holds it. */
export function holdSound(id: string): Promise<(() => void) | null> {
  return holdAlone(`layerbook-sound-${id}`);
}

function msOf({ pieces }: Pick<Sound, 'pieces'>): number {
  return soundMs(pieces.reduce((sum, piece) => sum + piece.length, 0));
}

export const sounds = new Sounds(desk);
