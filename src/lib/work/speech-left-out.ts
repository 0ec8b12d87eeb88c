import { SOUND } from '#lib/record/wav.ts';

/** A stretch of a clip that a recogniser took for a word, or for none; in seconds. */
export interface Stretch {
  readonly word: string | null;
  readonly from: number;
  readonly length: number;
}

/** Pauses are looked at in pieces as short as a syllable. */
const PIECE_S = 0.2;
/** A piece of pause louder than this share of the words is speech. Measured on made voices: docs/voice.md. */
const LOUD = 0.7;

/**
 * Whether a clip holds speech that was taken for a pause: half of a sentence heard as a value, the other half as silence. Samples from -1 to
 * 1, 16,000 a second.
 */
export function speechLeftOut(samples: Float32Array, stretches: readonly Stretch[]): boolean {
  const at = (seconds: number) => Math.round(seconds * SOUND.rateHz);
  const words = stretches.filter(({ word }) => word !== null).map(({ from, length }) => samples.subarray(at(from), at(from + length)));
  const loudness = Math.sqrt(words.reduce((sum, part) => sum + squares(part), 0) / words.reduce((sum, part) => sum + part.length, 0));
  return stretches
    .filter(({ word }) => word === null)
    .some(({ from, length }) =>
      Array.from({ length: Math.floor(length / PIECE_S) }, (_, i) => from + i * PIECE_S).some((piece) => {
        const part = samples.subarray(at(piece), at(piece + PIECE_S));
        return part.length > 0 && Math.sqrt(squares(part) / part.length) > LOUD * loudness;
      }),
    );
}

function squares(samples: Float32Array): number {
  return samples.reduce((sum, sample) => sum + sample * sample, 0);
}
