/** Tones for somebody at a loud bucket, and for one who speaks values: how often, and how high in Hz. */
const TONES = {
  ready: [3, 880],
  warn: [2, 660],
  late: [5, 990],
  speak: [1, 660],
  heard: [1, 880],
  saved: [1, 1320],
  unheard: [1, 330],
} as const;
export type Tone = keyof typeof TONES;

/** A bell a page can ring once the person has touched it: browsers play no sound before. */
export class Bell {
  #context: AudioContext | null = null;

  /** To be called from a touch. */
  unlock(): void {
    this.#context ??= 'AudioContext' in globalThis ? new AudioContext() : null;
    void this.#context?.resume();
  }

  ring(tone: Tone): void {
    const context = this.#context;
    if (context === null || context.state !== 'running') return;
    const [times, hz] = TONES[tone];
    for (let i = 0; i < times; i++) {
      const at = context.currentTime + i * 0.5;
      const oscillator = context.createOscillator();
      const gain = context.createGain();
      oscillator.frequency.value = hz;
      // Square waves carry over a mixer where a sine does not.
      oscillator.type = 'square';
      gain.gain.setValueAtTime(0.5, at);
      gain.gain.setValueAtTime(0, at + 0.3);
      oscillator.connect(gain).connect(context.destination);
      oscillator.start(at);
      oscillator.stop(at + 0.3);
    }
  }
}
