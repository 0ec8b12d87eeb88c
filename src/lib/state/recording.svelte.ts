import { MicrophoneError, openMicrophone, type Microphone, type MicrophoneFault } from '#lib/device/capture/microphone.ts';
import { isTooLoud, levelOf, pcm16, SILENCE, type Level } from '#lib/device/capture/pcm.ts';
import { ShelfError, type ShelfFaultCode } from '#lib/record/shelf.ts';
import { SoundPieces } from '#lib/record/sound-pieces.ts';
import { SECOND_BYTES, SOUND, soundMs } from '#lib/record/wav.ts';
import { desk, type Desk } from './desk.svelte.ts';
import type { OpenJob } from './job.svelte.ts';
import { holdSound, sounds, type Sounds } from './sounds.svelte.ts';
import { Take, type VoicePlace } from './take.ts';

/** A note is closed here, so that a microphone forgotten in a pocket fills neither memory nor disk: 29 MB. */
export const LONGEST_MINUTES = 15;
const LONGEST_BYTES = LONGEST_MINUTES * 60 * SECOND_BYTES;
/** How long the meter says "too loud" after it was, counted in sound. */
const LOUD_BYTES = SECOND_BYTES;

export type RecorderPhase = 'idle' | 'opening' | 'running' | 'keeping';

/** A recording and its microphone. */
interface Running {
  readonly take: Take;
  readonly microphone: Microphone;
  readonly release: () => void;
}

/** The recorder of this page, one for all jobs: from a touch to a whole recording, which `Sounds` keeps. */
export class Recording {
  readonly #desk: Pick<Desk, 'open'>;
  readonly #sounds: Sounds;
  readonly #open: typeof openMicrophone;
  /** Which opening is wanted; one given up finds another here when its microphone comes at last. */
  #wanted: object | null = null;
  #running: Running | null = null;
  #phase: RecorderPhase = $state('idle');
  #bytes = $state(0);
  #level: Level = $state.raw(SILENCE);
  #loudUntil = $state(0);
  #fault: MicrophoneFault | null = $state(null);
  #diskFault: ShelfFaultCode | null = $state(null);
  #longest = $state(false);

  constructor(source: Pick<Desk, 'open'>, keeper: Sounds, open: typeof openMicrophone) {
    this.#desk = source;
    this.#sounds = keeper;
    this.#open = open;
  }

  get phase() {
    return this.#phase;
  }
  /** Length of the recording under way. */
  get ms() {
    return soundMs(this.#bytes);
  }
  get level() {
    return this.#level;
  }
  get tooLoud() {
    return this.#bytes < this.#loudUntil;
  }
  /** Why the microphone gives nothing, or gave no more. */
  get fault() {
    return this.#fault;
  }
  /** Why what is being said is in this page's memory alone; null while each second reaches the disk. */
  get diskFault() {
    return this.#diskFault;
  }
  /** The last recording was closed for its length. */
  get longest() {
    return this.#longest;
  }

  /** Opens the microphone and records until `stop`. To be called from a touch. */
  async start(job: OpenJob, place: VoicePlace): Promise<void> {
    if (this.#phase !== 'idle') return;
    const wanted = (this.#wanted = {});
    this.#phase = 'opening';
    this.#sounds.forgetNews();
    this.#fault = this.#diskFault = null;
    this.#longest = false;
    this.#bytes = this.#loudUntil = 0;
    let release: (() => void) | null = null;
    try {
      const { shelf, writer } = await this.#desk.open();
      const id = writer.newId();
      release = await holdSound(id);
      const take = new Take(id, job, place, new SoundPieces(shelf), (fault) => (this.#diskFault = fault));
      const microphone = await this.#open(SOUND.rateHz, (samples) => this.#wanted === wanted && this.#hear(take, samples));
      if (this.#wanted !== wanted) {
        release?.();
        return void microphone.stop();
      }
      this.#running = { take, microphone, release: release ?? (() => undefined) };
      this.#phase = 'running';
      void microphone.lost.then(() => {
        if (this.#running?.take !== take) return;
        this.#fault = 'lost';
        void this.#end(true);
      });
    } catch (error) {
      release?.();
      // A store that cannot be opened is said by the page around this one.
      if (!(error instanceof MicrophoneError) && !(error instanceof ShelfError)) throw error;
      if (this.#wanted !== wanted) return;
      if (error instanceof MicrophoneError) this.#fault = error.fault;
      this.#phase = 'idle';
    }
  }

  /** Ends the recording and keeps it; before the microphone is open it gives up waiting for it. */
  async stop(): Promise<void> {
    if (this.#phase !== 'opening') return this.#end(false);
    this.#wanted = null;
    this.#phase = 'idle';
  }

  /** A page that is opened anew says nothing of what was before. */
  forget(): void {
    if (this.#phase !== 'idle') return;
    this.#fault = null;
    this.#sounds.forgetNews();
  }

  /** The person says, while talking, what it is about. */
  moveTo(place: VoicePlace): void {
    if (this.#running !== null) this.#running.take.place = place;
  }

  #hear(take: Take, samples: Float32Array): void {
    this.#level = levelOf(samples);
    const pcm = pcm16(samples);
    take.add(pcm);
    this.#bytes += pcm.length;
    if (isTooLoud(this.#level)) this.#loudUntil = this.#bytes + LOUD_BYTES;
    if (this.#bytes < LONGEST_BYTES || this.#phase !== 'running') return;
    this.#longest = true;
    void this.#end(false);
  }

  async #end(cut: boolean): Promise<void> {
    const running = this.#running;
    if (running === null) return;
    const { take, microphone, release } = running;
    this.#running = null;
    this.#phase = 'keeping';
    try {
      // Its last sound still comes in.
      await microphone.stop();
      this.#wanted = null;
      const pieces = await take.end(cut);
      if (pieces.length === 0) release();
      else await this.#sounds.keep({ id: take.id, job: take.job, place: take.place, pieces, cut, release });
    } finally {
      this.#level = SILENCE;
      this.#diskFault = null;
      this.#phase = 'idle';
    }
  }
}

export const recording = new Recording(desk, sounds, openMicrophone);
