import { fileURLToPath } from 'node:url';
import { Listener } from '#lib/work/listener.ts';
import type { Room } from '../speech/clips.ts';
import { digitPhrases, phrases } from '../speech/phrases.ts';
import { scoreOthers, scorePhrases } from '../speech/score.ts';
import { random } from '../sim/random.ts';

export const inputs = [
  'src/lib/voice',
  'src/lib/work/listener.ts',
  'src/lib/work/speech-left-out.ts',
  'static/voice',
  'tests/speech',
  'tests/deep/voice.deep.ts',
];

const PHRASES = 150;
const DIGITS = 100;
const ROOMS: Readonly<Record<string, Room>> = {
  fan20: { noise: 'fan', snrDb: 20 },
  fan10: { noise: 'fan', snrDb: 10 },
  vacuum20: { noise: 'vacuum', snrDb: 20 },
  vacuum10: { noise: 'vacuum', snrDb: 10 },
};

/**
 * Phrases in four rooms, films digit by digit, other talk: shares of made voices only (docs/voice.md says what they do not show). Throws
 * where a figure misses what is promised for a fan at 20 dB.
 */
export async function run(seed: number): Promise<Record<string, number | string>> {
  const listener = await Listener.open(fileURLToPath(new URL('../../static/voice/en-us', import.meta.url)));
  const share = (n: number, of: number) => Number((n / of).toFixed(3));
  const said = phrases(PHRASES, random(seed));
  const figures: Record<string, number | string> = { phrasesInEachRoom: PHRASES };
  const mistaken: string[] = [];
  for (const [name, room] of Object.entries(ROOMS)) {
    const score = scorePhrases(listener, said, room);
    mistaken.push(...score.mistaken.map((one) => `${name}: ${one}`));
    figures[`${name}Right`] = share(score.right, score.phrases);
    figures[`${name}Rejected`] = share(score.rejected, score.phrases);
    figures[`${name}SilentlyWrong`] = share(score.silentlyWrong, score.phrases);
    figures[`${name}Touches`] = share(score.touches, score.kept);
    figures[`${name}AskedThoughRight`] = share(score.askedThoughRight, score.right);
  }
  const digits = scorePhrases(listener, digitPhrases(DIGITS, random(seed + 1)), ROOMS['fan20']!);
  figures['digitsRight'] = share(digits.right, digits.phrases);
  figures['digitsSilentlyWrong'] = share(digits.silentlyWrong, digits.phrases);
  const { clips, taken } = scoreOthers(listener, 4, 20);
  figures['otherClips'] = clips;
  figures['otherTaken'] = share(taken.length, clips);
  console.log([...mistaken, ...taken.map((one) => `other talk: ${one}`)].join('\n'));
  const promised =
    Number(figures['fan20Right']) >= 0.9 &&
    Number(figures['fan20SilentlyWrong']) < 0.01 &&
    Number(figures['fan20AskedThoughRight']) <= 0.05 &&
    Number(figures['fan20Touches']) <= 1.3 &&
    digits.right / digits.phrases >= 0.97 &&
    taken.length / clips < 0.02;
  if (!promised) throw new Error(`seed ${seed}: ${JSON.stringify(figures)}`);
  return figures;
}
