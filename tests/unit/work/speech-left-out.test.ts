import { speechLeftOut, type Stretch } from '#lib/work/speech-left-out.ts';
import { expect, test } from 'vitest';

/** Seconds of a tone, each stretch as loud as said. */
function tone(parts: readonly [seconds: number, level: number][]): Float32Array {
  return Float32Array.from(
    parts.flatMap(([seconds, level]) => Array.from({ length: seconds * 16_000 }, (_, i) => level * Math.sin(i / 5))),
  );
}
const words = (from: number, length: number): Stretch => ({ word: 'mils', from, length });
const pause = (from: number, length: number): Stretch => ({ word: null, from, length });

test.each<[what: string, samples: Float32Array, stretches: readonly Stretch[], left: boolean]>([
  [
    'quiet around the words',
    tone([
      [0.5, 0.05],
      [1, 0.5],
      [0.5, 0.05],
    ]),
    [pause(0, 0.5), words(0.5, 1), pause(1.5, 0.5)],
    false,
  ],
  [
    'a room half as loud as the words',
    tone([
      [0.5, 0.25],
      [1, 0.5],
      [0.5, 0.25],
    ]),
    [pause(0, 0.5), words(0.5, 1), pause(1.5, 0.5)],
    false,
  ],
  [
    'as loud after the words as in them',
    tone([
      [0.5, 0.05],
      [1, 0.5],
      [1, 0.5],
    ]),
    [pause(0, 0.5), words(0.5, 1), pause(1.5, 1)],
    true,
  ],
  [
    'one syllable of it',
    tone([
      [1, 0.5],
      [0.4, 0.05],
      [0.2, 0.5],
      [0.4, 0.05],
    ]),
    [words(0, 1), pause(1, 1)],
    true,
  ],
  [
    'a click too short for a syllable',
    tone([
      [1, 0.5],
      [0.4, 0.05],
      [0.05, 0.5],
      [0.4, 0.05],
    ]),
    [words(0, 1), pause(1, 0.9)],
    false,
  ],
  ['joints of the grammar, a frame long', tone([[1, 0.5]]), [words(0, 0.5), pause(0.5, 0.01), words(0.51, 0.49)], false],
])('%s: %s', (_, samples, stretches, left) => {
  expect(speechLeftOut(samples, stretches)).toBe(left);
});
