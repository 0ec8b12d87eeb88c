import { SOUND } from '#lib/record/wav.ts';

/** Long enough for one period of a low voice, short enough for one sound of speech. */
const FRAME_S = 0.02;
/** Of exact zeros, which have no level: below what 16 bits can tell. */
const FLOOR = 1e-10;

/**
 * How far the loud parts of a clip stand over its quiet ones, in dB: between the levels that 95 % and 10 % of its frames stay below. Near to
 * how far a voice stands over its room, as there are pauses in all speech. Samples from -1 to 1, 16,000 a second; 0 where there is no frame.
 */
export function levelRangeDb(samples: Float32Array): number {
  const length = FRAME_S * SOUND.rateHz;
  const powers = Array.from({ length: Math.floor(samples.length / length) }, (_, i) => {
    const frame = samples.subarray(i * length, (i + 1) * length);
    return Math.max(frame.reduce((sum, sample) => sum + sample * sample, 0) / length, FLOOR);
  }).sort((a, b) => a - b);
  const below = (share: number) => powers[Math.floor(share * (powers.length - 1))] ?? 1;
  return 10 * Math.log10(below(0.95) / below(0.1));
}
