import { fileURLToPath } from 'node:url';
import type { SpokenMeasure } from '#lib/voice/vocabulary.ts';
import { Listener } from '#lib/work/listener.ts';
import { beforeAll, expect, test } from 'vitest';
import { OTHER_TALK } from '../../speech/other-talk.ts';
import { digitPhrases, FIELDS, phrases, questionOf } from '../../speech/phrases.ts';
import { scoreOthers, scorePhrases } from '../../speech/score.ts';
import { clip, type Voice } from '../../speech/clips.ts';
import { random } from '../../sim/random.ts';

// More than 80 clips made here, of voices that are none of a crew's: what it is worth is in docs/voice.md, measured on many more by `npm run deep`.
const FAN = { noise: 'fan', snrDb: 20 } as const;
const TALK = OTHER_TALK.toSorted((a, b) => a.length - b.length).slice(0, 22);
const ROOMS = 10;
/** Half a second of work for each clip, and a busy machine is no fault of them. */
const PATIENT = { timeout: 300_000 };
let listener: Listener;

beforeAll(async () => {
  listener = await Listener.open(fileURLToPath(new URL('../../../static/voice/en-us', import.meta.url)));
});

test('of 30 phrases with a fan at 20 dB at least nine in ten values are right, and none is wrong in silence', PATIENT, () => {
  const score = scorePhrases(listener, phrases(30, random(11)), FAN);
  expect(score.right / score.phrases, score.mistaken.join('; ')).toBeGreaterThanOrEqual(0.9);
  expect(score.silentlyWrong, score.mistaken.join('; ')).toBe(0);
  expect(score.touches / score.kept).toBeLessThanOrEqual(1.3);
});

test('of 18 films said digit by digit none is heard as another', PATIENT, () => {
  const score = scorePhrases(listener, digitPhrases(18, random(12)), FAN);
  expect(score).toMatchObject({ right: 18, wrong: 0, silentlyWrong: 0 });
});

test('of 32 clips of other talk and of rooms nobody speaks in at most one is taken for a value', PATIENT, () => {
  const { clips, taken } = scoreOthers(listener, 1, ROOMS, TALK);
  expect(clips).toBe(32);
  expect(taken.length, taken.join('; ')).toBeLessThanOrEqual(1);
});

test('a unit of another kind is heard as itself, and no clip at all as nothing', PATIENT, () => {
  const question = questionOf({ what: 'dry-film', unit: 'mil', coats: true });
  expect(listener.hear(clip('two two millimeters', 'rms', FAN, 5), question).words).toBe('two two millimeters');
  expect(listener.hear(new Float32Array(), question)).toMatchObject({ words: '', alternatives: [] });
});

test.each<[said: string, voice: Voice, seed: number, what: SpokenMeasure]>([
  // Heard as "one two" with "two two" beside it, "fifty three" with "fifty eight", "five and a half" with "five and five eighths".
  ['one six mils', 'rms', 301_045, 'wet-film'],
  ['sixty three degrees fahrenheit', 'awb', 301_078, 'surface-temperature'],
  ['five and three quarters inches', 'slt', 301_076, 'upturn'],
])('beside a vacuum cleaner at 10 dB "%s" was heard wrong, and is not taken', PATIENT, (said, voice, seed, what) => {
  const field = FIELDS.find((one) => one.what === what)!;
  const { words, alternatives } = listener.hear(clip(said, voice, { noise: 'vacuum', snrDb: 10 }, seed), questionOf(field));
  expect([words, ...alternatives]).toEqual(['']);
});
