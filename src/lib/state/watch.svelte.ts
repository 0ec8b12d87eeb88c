import { keepScreenAwake } from '#lib/device/screen-awake.ts';
import type { Finder } from './finder.svelte.ts';
import type { OpenJob } from './job.svelte.ts';
import { Shooting, type ShotPlace } from './shooting.svelte.ts';

/** Between two frames. */
export const EVERY_MS = 30_000;
/** Long side of a frame: a hand and a notch are told apart, and a day takes about 150 MB. */
const FRAME_PX = 960;
/** Frames kept in memory while the store refuses them; beyond it no more are taken. */
const HELD_MAX = 20;

/** What runs the watch: the clock of the page, or of a test. */
export interface Interval {
  readonly set: (act: () => void, ms: number) => number;
  readonly clear: (id: number) => void;
}

/**
 * A phone propped up: a small frame at once and every half minute until it is stopped, each an entry of its own as soon as it is taken.
 * A camera that went away is opened again, and frames the store refused are tried again, at each turn: nobody stands by to do it.
 */
export class Watch {
  readonly shooting: Shooting;
  readonly #finder: Pick<Finder, 'grab' | 'start' | 'stream' | 'fault'>;
  readonly #interval: Interval;
  #running: { readonly id: number; readonly release: () => void } | null = $state.raw(null);
  #frames = $state(0);
  #busy = false;

  constructor(job: OpenJob, finder: Pick<Finder, 'grab' | 'start' | 'stream' | 'fault'>, interval: Interval) {
    this.shooting = new Shooting(job);
    this.#finder = finder;
    this.#interval = interval;
  }

  get on() {
    return this.#running !== null;
  }
  /** Frames kept since it was started. */
  get frames() {
    return this.#frames;
  }

  /** Begins. `video` gives the viewfinder now on the page. */
  start(place: ShotPlace, video: () => HTMLVideoElement | undefined): void {
    if (this.#running !== null) return;
    this.#frames = 0;
    const turn = () => void this.#turn(place, video);
    this.#running = { id: this.#interval.set(turn, EVERY_MS), release: keepScreenAwake() };
    turn();
  }

  stop(): void {
    if (this.#running === null) return;
    this.#interval.clear(this.#running.id);
    this.#running.release();
    this.#running = null;
  }

  /** One at a time: a store slower than the clock must not pile frames up. */
  async #turn(place: ShotPlace, video: () => HTMLVideoElement | undefined): Promise<void> {
    if (this.#busy) return;
    this.#busy = true;
    try {
      const { held } = this.shooting;
      if (held.length > 0) {
        await this.shooting.retry();
        this.#frames += held.length - this.shooting.held.length;
      }
      if (this.shooting.held.length >= HELD_MAX) return;
      // A refusal is remembered by the browser: asking again would change nothing.
      if (this.#finder.stream === null && this.#finder.fault !== 'refused') await this.#finder.start();
      const frame = await this.#finder.grab(video(), FRAME_PX);
      if (frame === null) return;
      const news = await this.shooting.keep(frame, 'watch', place);
      if (news.code === 'saved') this.#frames += 1;
    } finally {
      this.#busy = false;
    }
  }
}
