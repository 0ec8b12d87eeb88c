import { isTooLoud, levelOf, pcm16 } from '#lib/device/capture/pcm.ts';
import { expect, it, test } from 'vitest';

// 16 bit, lowest byte first: 0x7fff is the largest value; the smallest is its mirror, so that silence stays in the middle.
it.each<[sample: number, bytes: [number, number]]>([
  [0, [0x00, 0x00]],
  [1, [0xff, 0x7f]],
  [-1, [0x01, 0x80]],
  [1.7, [0xff, 0x7f]],
  [-9, [0x01, 0x80]],
  [0.5, [0x00, 0x40]],
  [-0.5, [0x01, 0xc0]],
  [1 / 32_767, [0x01, 0x00]],
  [-1 / 32_767, [0xff, 0xff]],
  [0.4 / 32_767, [0x00, 0x00]],
])('the sample %d is %j', (sample, bytes) => {
  expect([...pcm16(Float32Array.of(sample))]).toEqual(bytes);
});

const sine = (amplitude: number) => Float32Array.from({ length: 1_600 }, (_, i) => amplitude * Math.sin((2 * Math.PI * i) / 16));

// A sine's root mean square is its amplitude over the root of two.
test.each<[what: string, samples: Float32Array, rms: number, peak: number, loud: boolean]>([
  ['nothing', new Float32Array(), 0, 0, false],
  ['silence', new Float32Array(1_600), 0, 0, false],
  ['a quiet voice', sine(0.03), 0.0212, 0.03, false],
  ['a voice near by', sine(0.3), 0.2121, 0.3, false],
  ['a vacuum beside the phone', sine(0.4), 0.2828, 0.4, true],
  // Of its sixteen values two are 0, four 0.536, four 0.990 and six 1.
  ['a sound cut off at the top', sine(1.4).map((sample) => Math.min(1, Math.max(-1, sample))), 0.8317, 1, true],
  ['one knock', Float32Array.from({ length: 1_600 }, (_, i) => (i === 7 ? 1 : 0)), 0.025, 1, true],
])('%s', (_, samples, rms, peak, loud) => {
  const level = levelOf(samples);
  expect(level.rms).toBeCloseTo(rms, 2);
  expect(level.peak).toBeCloseTo(peak, 3);
  expect(isTooLoud(level)).toBe(loud);
});
