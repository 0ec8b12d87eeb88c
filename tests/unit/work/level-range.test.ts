import { levelRangeDb } from '#lib/work/level-range.ts';
import { expect, test } from 'vitest';
import { clip, silentRoom } from '../../speech/clips.ts';

/** Stretches of a tone, each so many seconds at so much of the full level. */
function tones(stretches: readonly (readonly [seconds: number, level: number])[]): Float32Array {
  const samples = stretches.flatMap(([seconds, level]) =>
    Array.from({ length: seconds * 16_000 }, (_, i) => level * Math.sin((2 * Math.PI * 400 * i) / 16_000)),
  );
  return Float32Array.from(samples);
}

test.each<[name: string, stretches: readonly (readonly [number, number])[], rangeDb: number]>([
  [
    'half a second at a hundredth, one at full level',
    [
      [0.5, 0.01],
      [1, 1],
    ],
    40,
  ],
  [
    'half a second at a tenth, one at full level',
    [
      [0.5, 0.1],
      [1, 1],
    ],
    20,
  ],
  ['the same throughout', [[1, 0.3]], 0],
  // A bang shorter than one frame in twenty is no voice.
  [
    'a bang of 40 ms',
    [
      [1, 0.1],
      [0.04, 1],
      [1, 0.1],
    ],
    0,
  ],
  [
    'exact zeros between words',
    [
      [0.5, 0],
      [1, 1],
    ],
    97,
  ],
  ['nothing', [], 0],
])('%s', (_, stretches, rangeDb) => {
  expect(levelRangeDb(tones(stretches))).toBeCloseTo(rangeDb, 0);
});

test('a room at 20 dB below the voice is told from one at 10 dB, fan and vacuum cleaner alike', () => {
  for (const noise of ['fan', 'vacuum'] as const) {
    expect(levelRangeDb(clip('two two mils', 'slt', { noise, snrDb: 20 }, 1))).toBeGreaterThan(24);
    expect(levelRangeDb(clip('two two mils', 'slt', { noise, snrDb: 10 }, 1))).toBeLessThan(20);
    expect(levelRangeDb(silentRoom(1, noise, 1))).toBeLessThan(12);
  }
});
