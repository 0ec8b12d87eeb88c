import { Bell, type Tone } from '#lib/device/bell.ts';
import { sayAloud } from '#lib/device/say-aloud.ts';
import { recording } from './recording.svelte.ts';
import { Utterance } from './utterance.ts';

/** What a series of phrases is spoken into, one after the other. */
export interface SpokenInto {
  press(): Promise<void>;
  release(): Promise<void>;
  /** What became of the last phrase: its tone, and a sentence to be said back where there is one. */
  outcome(): { readonly tone: Tone; readonly back: string | null };
}

/** How often the loudness is looked at, and how long a tone sounds that must not be recorded. */
const LOOK_MS = 100;
const TONE_MS = 400;

/** Hands-free: after each tone one phrase, as long as it is spoken; then a tone for what became of it, and the value said back. */
export class Series {
  readonly #bell = new Bell();
  #on = $state(false);
  #quiet = $state(false);

  get on() {
    return this.#on;
  }
  /** It ended by itself, as nobody spoke. */
  get quiet() {
    return this.#quiet;
  }

  /** To be called from a touch. Resolves when the series is over. */
  async run(into: SpokenInto, language: 'en' | 'es'): Promise<void> {
    if (this.#on) return;
    this.#bell.unlock();
    this.#on = true;
    this.#quiet = false;
    while (this.on) {
      this.#bell.ring('speak');
      await pause(TONE_MS);
      await into.press();
      // The microphone was refused: the page says so.
      if (recording.phase !== 'running') break;
      const heard = await this.#untilOver();
      await into.release();
      if (heard === 'silent') this.#quiet = true;
      if (heard !== 'over') break;
      const { tone, back } = into.outcome();
      this.#bell.ring(tone);
      await pause(TONE_MS);
      if (back !== null) await sayAloud(back, language);
    }
    this.#on = false;
  }

  /** Ends it; a phrase under way is finished and understood. */
  stop(): void {
    this.#on = false;
  }

  async #untilOver(): Promise<'over' | 'silent' | 'ended'> {
    const utterance = new Utterance();
    while (this.#on && recording.phase === 'running') {
      const now = utterance.add(recording.level, recording.ms);
      if (now === 'over' || now === 'silent') return now;
      await pause(LOOK_MS);
    }
    return 'ended';
  }
}

function pause(ms: number): Promise<void> {
  return new Promise((resolve) => setTimeout(resolve, ms));
}
