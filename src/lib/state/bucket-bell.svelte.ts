import { Bell, type Tone } from '#lib/device/bell.ts';
import { bellsBetween, waits } from '#lib/job/waits.ts';
import type { OpenJob } from './job.svelte.ts';
import { now } from './now.svelte.ts';

/** Rings when a wait of the job in sight is over, near its end or past it, while the page is in sight and sound is on. */
class BucketBell {
  readonly #bell = new Bell();
  #on = $state(false);
  #last: Tone | null = $state(null);

  get on() {
    return this.#on;
  }
  /** The last tone rung, for whoever could not hear it. */
  get last() {
    return this.#last;
  }

  /** To be called from a touch, as browsers play no sound before one. */
  set(on: boolean) {
    this.#on = on;
    if (on) this.#bell.unlock();
  }

  /** To be called while a component lives: follows the waits of a job. */
  follow(job: OpenJob): void {
    let before = now.ms;
    $effect(() => {
      const tones = bellsBetween(waits(job.state, now.ms), before, now.ms);
      before = now.ms;
      const tone = tones.at(-1);
      if (tone === undefined || !this.#on) return;
      this.#last = tone;
      this.#bell.ring(tone);
    });
  }
}

export const bucketBell = new BucketBell();
