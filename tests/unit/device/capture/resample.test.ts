import { resampler } from '#lib/device/capture/resample.ts';
import fc from 'fast-check';
import { describe, expect, it, test } from 'vitest';

const TO_HZ = 16_000;
const sine = (hz: number, rateHz: number, length: number) =>
  Float32Array.from({ length }, (_, i) => 0.8 * Math.sin((2 * Math.PI * hz * i) / rateHz));
/** Without the beginning, where there was nothing to average with. */
const settled = (sound: Float32Array) => sound.subarray(400);
const largest = (sound: Float32Array) => sound.reduce((most, sample) => Math.max(most, Math.abs(sample)), 0);

// Rates that phones and headsets give. The reference is the sine itself at the places of the new samples.
describe.each([8_000, 11_025, 22_050, 24_000, 32_000, 44_100, 48_000, 96_000, 192_000])('from %d a second', (fromHz) => {
  const highest = 0.43 * Math.min(fromHz, TO_HZ);
  test.each([50, 440, 1_000, 3_000, 5_000, 6_800].filter((hz) => hz <= highest))('a tone of %d Hz is the same tone', (hz) => {
    const given = resampler(fromHz, TO_HZ)(sine(hz, fromHz, fromHz));
    const wanted = sine(hz, TO_HZ, given.length);
    expect(given.length).toBeGreaterThan(0.98 * TO_HZ);
    expect(given.length).toBeLessThanOrEqual(TO_HZ);
    expect(largest(settled(given.map((sample, i) => sample - wanted[i]!)))).toBeLessThan(0.001);
  });

  // What cannot be told apart at 16,000 a second would come back as another tone. 0.8 less 60 dB is 0.0008.
  test.each([8_100, 9_000, 12_000, 15_000, 20_000].filter((hz) => hz < fromHz / 2))('a tone of %d Hz is gone', (hz) => {
    expect(largest(settled(resampler(fromHz, TO_HZ)(sine(hz, fromHz, fromHz))))).toBeLessThan(0.0008);
  });

  it('a constant stays what it is', () => {
    const given = settled(resampler(fromHz, TO_HZ)(new Float32Array(fromHz).fill(0.5)));
    expect(largest(given.map((sample) => sample - 0.5))).toBeLessThan(1e-6);
  });
});

test('where a sound is cut into blocks leaves no trace', () => {
  const sound = sine(700, 44_100, 6_000);
  const whole = resampler(44_100, TO_HZ)(sound);
  fc.assert(
    fc.property(fc.array(fc.nat(2_000), { maxLength: 40 }), (lengths) => {
      const resample = resampler(44_100, TO_HZ);
      const given: number[] = [];
      let at = 0;
      for (const length of [...lengths, sound.length]) {
        given.push(...resample(sound.subarray(at, at + length)));
        at += length;
      }
      expect(Float32Array.from(given)).toEqual(whole);
    }),
    { seed: 20260302, numRuns: 60 },
  );
});

test.each([0, -1, 44_100.5, NaN])('%d is no rate', (fromHz) => {
  expect(() => resampler(fromHz, TO_HZ)).toThrow('whole numbers');
});
