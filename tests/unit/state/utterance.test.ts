import { Utterance } from '#lib/state/utterance.ts';
import { expect, test } from 'vitest';

/** What an utterance says of tenths of a second of these levels: only its changes. */
function says(levels: readonly number[]): string[] {
  const utterance = new Utterance();
  const all = levels.map((rms, i) => utterance.add({ rms, peak: rms }, (i + 1) * 100));
  return all.filter((one, i) => one !== all[i - 1]);
}
const tenths = (n: number, rms: number) => Array<number>(n).fill(rms);

test.each<[what: string, levels: readonly number[], said: readonly string[]]>([
  ['a phrase in a quiet room', [...tenths(5, 0.001), ...tenths(15, 0.1), ...tenths(10, 0.001)], ['waiting', 'speaking', 'over']],
  ['a phrase beside a fan', [...tenths(5, 0.03), ...tenths(15, 0.2), ...tenths(10, 0.03)], ['waiting', 'speaking', 'over']],
  ['a pause within a phrase', [...tenths(5, 0.001), ...tenths(5, 0.1), ...tenths(6, 0.001), ...tenths(5, 0.1)], ['waiting', 'speaking']],
  ['a knock', [...tenths(5, 0.001), 0.3, ...tenths(20, 0.001)], ['waiting']],
  ['nobody', tenths(130, 0.001), ['waiting', 'silent']],
  ['a fan and nobody', tenths(130, 0.05), ['waiting', 'silent']],
])('%s', (_, levels, said) => {
  expect(says(levels)).toEqual(said);
});
