/** Samples from -1 to 1 as 16 bit, lowest byte first; what lies beyond is cut to the largest value. */
export function pcm16(samples: Float32Array): Uint8Array<ArrayBuffer> {
  const bytes = new Uint8Array(samples.length * 2);
  const view = new DataView(bytes.buffer);
  samples.forEach((sample, i) => view.setInt16(i * 2, Math.round(Math.max(-1, Math.min(1, sample)) * 32_767), true));
  return bytes;
}

/** How loud a stretch of sound is, 0 to 1 of full scale: its root mean square and its largest sample. */
export interface Level {
  readonly rms: number;
  readonly peak: number;
}

export const SILENCE: Level = { rms: 0, peak: 0 };

export function levelOf(samples: Float32Array): Level {
  if (samples.length === 0) return SILENCE;
  let squares = 0;
  let peak = 0;
  for (const sample of samples) {
    squares += sample * sample;
    peak = Math.max(peak, Math.abs(sample));
  }
  return { rms: Math.min(1, Math.sqrt(squares / samples.length)), peak: Math.min(1, peak) };
}

/** A peak here is cut off, or about to be. */
const CLIPPED = 0.99;
/** A noise this steady (-12 dB of full scale) drowns a voice. Common practice, no source: not tried out on phones. */
const DROWNED = 0.25;

/** Whether speech in this sound can hardly be made out afterwards: a machine too near, or a mouth. */
export function isTooLoud({ rms, peak }: Level): boolean {
  return peak >= CLIPPED || rms >= DROWNED;
}

/** 16 bit samples, lowest byte first, as numbers from -1 to 1. */
export function samplesOf(pcm: Uint8Array): Float32Array<ArrayBuffer> {
  const view = new DataView(pcm.buffer, pcm.byteOffset, pcm.length);
  return Float32Array.from({ length: Math.floor(pcm.length / 2) }, (_, i) => view.getInt16(i * 2, true) / 32_768);
}
