import type { Level } from '#lib/device/capture/pcm.ts';

/** Speech is so many times louder than the quietest so far, and never softer than this. Own choices, no source: not tried out on phones. */
const OVER_ROOM = 3;
const LEAST_RMS = 0.01;
/** Speech lasts at least so long, a phrase is over after such a pause, and nobody speaks any more after so long. */
const SPEECH_MS = 200;
const PAUSE_MS = 900;
const SILENCE_MS = 12_000;

/** Follows one phrase by its loudness: waited for, being spoken, over; or that nobody speaks. */
export class Utterance {
  #room = 1;
  #spokenMs = 0;
  #quietMs = 0;
  #lastMs = 0;

  /** The level at `ms` of sound. */
  add({ rms }: Level, ms: number): 'waiting' | 'speaking' | 'over' | 'silent' {
    const passed = ms - this.#lastMs;
    this.#lastMs = ms;
    this.#room = Math.min(this.#room, Math.max(rms, LEAST_RMS / OVER_ROOM));
    if (rms > Math.max(LEAST_RMS, OVER_ROOM * this.#room)) {
      this.#spokenMs += passed;
      this.#quietMs = 0;
    } else this.#quietMs += passed;
    if (this.#spokenMs >= SPEECH_MS) return this.#quietMs >= PAUSE_MS ? 'over' : 'speaking';
    return this.#quietMs >= SILENCE_MS ? 'silent' : 'waiting';
  }
}
