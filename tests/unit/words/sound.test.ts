import { overwriteGetLocale } from '#lib/words/compiled/runtime.js';
import { microphoneFaultText, notOnDiskText, soundLengthText } from '#lib/words/sound.ts';
import { afterAll, expect, test } from 'vitest';

let locale: 'en' | 'es' = 'en';
overwriteGetLocale(() => locale);
afterAll(() => overwriteGetLocale(() => 'en'));

test.each([
  [0, '0:00'],
  [999, '0:00'],
  [7_400, '0:07'],
  [59_999, '0:59'],
  [60_000, '1:00'],
  [900_000, '15:00'],
  [3_661_000, '61:01'],
])('%d ms are %s', (ms, text) => expect(soundLengthText(ms)).toBe(text));

test.each([-1, NaN, Infinity])('%d ms are our own mistake', (ms) => {
  expect(() => soundLengthText(ms)).toThrow('milliseconds');
});

test.each<[what: string, texts: () => string[]]>([
  ['the microphone', () => (['refused', 'none', 'lost'] as const).map(microphoneFaultText)],
  ['the disk', () => (['full', 'failed'] as const).map(notOnDiskText)],
])('what is wrong with %s is said in sentences of its own, in both languages', (_, texts) => {
  const said = (['en', 'es'] as const).map((one) => {
    locale = one;
    return texts();
  });
  for (const text of said.flat()) expect(text).toMatch(/^[\p{Lu}¿¡][^{}!]+\.$/u);
  expect(new Set(said.flat()).size).toBe(said.flat().length);
});
