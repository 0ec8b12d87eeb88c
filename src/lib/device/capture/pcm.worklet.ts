// Runs in the audio thread: gathers the microphone's samples and hands them to the page in blocks.

/** The audio thread's own globals, as far as this file uses them; the compiler's library knows only the page's. */
declare class AudioWorkletProcessor {
  readonly port: MessagePort;
}
declare function registerProcessor(name: string, processor: new () => AudioWorkletProcessor): void;
declare const sampleRate: number;

/** Blocks a second: often enough for a meter, seldom enough for a busy page. */
const BLOCKS_PER_SECOND = 10;

class Gatherer extends AudioWorkletProcessor {
  #block = new Float32Array(Math.ceil(sampleRate / BLOCKS_PER_SECOND));
  #filled = 0;
  #ended = false;

  constructor() {
    super();
    // Any message means: hand over what is left, and that it was the last.
    this.port.onmessage = () => {
      this.#handOver();
      this.#ended = true;
      this.port.postMessage(null);
    };
  }

  /** Called by the browser some hundred times a second. Answers whether it wants to be called again. */
  process([microphone]: readonly (readonly Float32Array[])[]): boolean {
    // A microphone that has not started, or that a call holds, gives no channel.
    for (const sample of microphone?.[0] ?? []) {
      this.#block[this.#filled++] = sample;
      if (this.#filled === this.#block.length) this.#handOver();
    }
    return !this.#ended;
  }

  #handOver(): void {
    const block = this.#block.slice(0, this.#filled);
    this.#filled = 0;
    this.port.postMessage(block, [block.buffer]);
  }
}

registerProcessor('gatherer', Gatherer);
