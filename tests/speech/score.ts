import { otherReading } from '#lib/voice/doubt.ts';
import type { SpokenReading } from '#lib/voice/draft.ts';
import type { Question } from '#lib/voice/hearing.ts';
import { parse } from '#lib/voice/parse.ts';
import type { Listener } from '#lib/work/listener.ts';
import { clip, FLITE, silentRoom, type Room, type Voice } from './clips.ts';
import { OTHER_TALK } from './other-talk.ts';
import { FIELDS, questionOf, type Phrase } from './phrases.ts';

/** What became of phrases: counts. A wrong value is silent where neither the one other reading is right nor a question was asked. */
export interface Score {
  phrases: number;
  right: number;
  rejected: number;
  wrong: number;
  silentlyWrong: number;
  askedThoughRight: number;
  /** Right values on another coat or surface than was said, which is read back with them. */
  elsewhere: number;
  /** Touches of values kept in the end: one, or two where asked. */
  touches: number;
  kept: number;
  /** `said > heard`, of values that were wrong. */
  readonly mistaken: string[];
}

function valueOf(words: string, question: Question): SpokenReading | null {
  const units = question.field?.numbers.map(({ unit }) => unit) ?? [];
  const read = parse(words, { places: question.places, units }, question.language);
  return read.ok && read.value.is === 'reading' ? read.value : null;
}

const isOf = ({ value }: Phrase, heard: SpokenReading | null) => heard !== null && Number(heard.value) === Number(value);

/** Every phrase in one room, the voices in turn. */
export function scorePhrases(listener: Listener, phrases: readonly Phrase[], room: Room, voices: readonly Voice[] = FLITE): Score {
  const score: Score = {
    phrases: 0,
    right: 0,
    rejected: 0,
    wrong: 0,
    silentlyWrong: 0,
    askedThoughRight: 0,
    elsewhere: 0,
    touches: 0,
    kept: 0,
    mistaken: [],
  };
  for (const [i, phrase] of phrases.entries()) {
    const heard = listener.hear(clip(phrase.text, voices[i % voices.length]!, room, i), phrase.question);
    const first = valueOf(heard.words, phrase.question);
    const other = first === null ? null : otherReading(first, heard.alternatives, phrase.question);
    const outside = (one: SpokenReading) =>
      Number(one.value) < (phrase.limit.min ?? -Infinity) || Number(one.value) > (phrase.limit.max ?? Infinity);
    const asked = first !== null && outside(first);
    score.phrases++;
    if (first === null) score.rejected++;
    else if (isOf(phrase, first)) {
      score.right++;
      score.kept++;
      score.touches += asked ? 2 : 1;
      if (asked) score.askedThoughRight++;
      if (first.coat !== phrase.coat || first.place !== phrase.place) score.elsewhere++;
    } else {
      score.wrong++;
      score.mistaken.push(`${phrase.text} > ${heard.words}`);
      if (isOf(phrase, other)) {
        score.kept++;
        score.touches += outside(other!) ? 2 : 1;
      } else if (!asked) score.silentlyWrong++;
    }
  }
  return score;
}

/** How many clips of other talk, each in `fields` fields, and of rooms nobody speaks in are taken for a value; by what was heard. */
export function scoreOthers(
  listener: Listener,
  fields: number,
  rooms: number,
  sentences: readonly string[] = OTHER_TALK,
): { clips: number; taken: string[] } {
  const talk = sentences.flatMap((text, i) =>
    Array.from({ length: fields }, (_, k) => ({
      samples: clip(text, FLITE[i % FLITE.length]!, { noise: 'fan', snrDb: 20 }, i),
      field: FIELDS[(i + 2 * k) % FIELDS.length]!,
      text,
    })),
  );
  const empty = Array.from({ length: rooms }, (_, i) => ({
    samples: silentRoom(3, i % 2 === 0 ? 'fan' : 'vacuum', i),
    field: FIELDS[i % FIELDS.length]!,
    text: 'nothing',
  }));
  const taken = [...talk, ...empty].flatMap(({ samples, field, text }) => {
    const question = questionOf(field);
    const { words } = listener.hear(samples, question);
    return valueOf(words, question) === null ? [] : [`${text} > ${words}`];
  });
  return { clips: talk.length + rooms, taken };
}
