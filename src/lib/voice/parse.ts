import { fail, ok, type Result } from '../result.ts';
import type { Listening, NotUnderstood, SpokenDraft, SpokenReading } from './draft.ts';
import { fractionsAt, numbersAt, type SpokenNumber } from './number-words.ts';
import {
  ACT_WORDS,
  AND_WORDS,
  COAT_WORDS,
  COMMAND_WORDS,
  DRY_WORDS,
  MEASURE_WORDS,
  OF_AN_INCH_WORDS,
  PER_FOOT_WORDS,
  STEP_WORDS,
  UNIT_WORDS,
  WET_WORDS,
  WRITTEN_UNITS,
  wordsOf,
  type Command,
  type Language,
  type Sayings,
  type SpokenMeasure,
  type SpokenStep,
  type SpokenUnit,
} from './vocabulary.ts';

/**
 * What words mean. Every word must have its place, and all ways of reading them must come to the same: else there is no draft. So a
 * value never holds what was not said, and a unit is never guessed.
 */
export function parse(text: string, listening: Listening, language: Language): Result<SpokenDraft, NotUnderstood> {
  const words = wordsOf(text);
  if (words.length === 0) return fail('nothing');
  const all = [...commands(words, language), ...steps(words, language), ...readings(words, listening, language)];
  const different = all.filter((one, i) => all.findIndex((two) => JSON.stringify(two) === JSON.stringify(one)) === i);
  const [draft, ...more] = different;
  if (more.length > 0) return fail('two-ways');
  if (draft === undefined) return fail(numberWithoutUnit(words, language) ? 'no-unit' : 'other-words');
  return draft.is === 'reading' && !listening.units.includes(draft.unit) ? fail('other-unit') : ok(draft);
}

function commands(words: readonly string[], language: Language): SpokenDraft[] {
  return found<Command>(words, 0, COMMAND_WORDS, language).flatMap(({ code, end }) =>
    end === words.length ? [{ is: 'command' as const, command: code }] : [],
  );
}

function steps(words: readonly string[], language: Language): SpokenDraft[] {
  return found<'begin' | 'end'>(words, 0, ACT_WORDS, language).flatMap(({ code: act, end }) =>
    found<SpokenStep>(words, end, STEP_WORDS, language).flatMap(({ code: step, end: last }) =>
      last === words.length ? [{ is: 'step' as const, act, step }] : [],
    ),
  );
}

type Named = Pick<SpokenReading, 'coat' | 'place' | 'what'>;

/** What comes before the value, in any order and each at most once, and then the value up to the last word. */
function readings(words: readonly string[], listening: Listening, language: Language): SpokenReading[] {
  const read = (at: number, named: Named): SpokenReading[] => [
    ...values(words, at, language).map((value) => ({ is: 'reading' as const, ...named, ...value })),
    ...(named.coat === null ? coats(words, at, language).flatMap(({ coat, end }) => read(end, { ...named, coat })) : []),
    ...(named.place === null ? places(words, at, listening).flatMap(({ place, end }) => read(end, { ...named, place })) : []),
    ...(named.what === null
      ? found<SpokenMeasure>(words, at, MEASURE_WORDS, language).flatMap(({ code, end }) => read(end, { ...named, what: code }))
      : []),
  ];
  return read(0, { coat: null, place: null, what: null });
}

function coats(words: readonly string[], at: number, language: Language): { coat: number; end: number }[] {
  return after(words, at, COAT_WORDS, language).flatMap((next) =>
    numbersAt(words.slice(0, next + 1), next, language).flatMap(({ value, end }) =>
      /^[1-9]$/.test(value) ? [{ coat: Number(value), end }] : [],
    ),
  );
}

function places(words: readonly string[], at: number, { places: known }: Listening): { place: string; end: number }[] {
  return known.flatMap(({ id, name }) => {
    const said = wordsOf(name);
    return said.length > 0 && startsWith(words, at, said) ? [{ place: id, end: at + said.length }] : [];
  });
}

type Value = Pick<SpokenReading, 'value' | 'to' | 'unit'>;

/** A value, or the two edges of a comb reading, that ends with the last word. */
function values(words: readonly string[], at: number, language: Language): Value[] {
  const one = numbersAt(words, at, language).flatMap((number) => withUnit(words, number, language));
  const inside = language === 'es' ? unitInside(words, at) : [];
  const edges = after(words, at, WET_WORDS, language).flatMap((first) =>
    numbersAt(words, first, language).flatMap((wet) =>
      after(words, wet.end, DRY_WORDS, language).flatMap((second) =>
        numbersAt(words, second, language).flatMap((dry) =>
          withUnit(words, dry, language).flatMap(({ value: to, unit }) =>
            Number(wet.value) < Number(to) && Number(wet.value) > 0 ? [{ value: wet.value, to, unit }] : [],
          ),
        ),
      ),
    ),
  );
  return [...one, ...inside, ...edges];
}

/** The unit is all that is left after the number. */
function withUnit(words: readonly string[], { value, end, as }: SpokenNumber, language: Language): Value[] {
  const whole = (unit: SpokenUnit, from: number, more: Sayings) =>
    endsWith(words, from, more, language) ? [{ value, to: null, unit }] : [];
  const written = (Object.keys(WRITTEN_UNITS) as SpokenUnit[]).filter((unit) => WRITTEN_UNITS[unit]!.includes(words[end] ?? ''));
  const plain = [...found<SpokenUnit>(words, end, UNIT_WORDS, language), ...written.map((code) => ({ code, end: end + 1 }))].flatMap(
    ({ code, end: last }) => (last === words.length ? [{ value, to: null, unit: code }] : []),
  );
  if (as !== 'fraction') return plain;
  // Half of a unit is said before its bare name: `media pulgada`, `half of an inch`.
  return [
    ...plain,
    ...whole('in', end, OF_AN_INCH_WORDS),
    ...after(words, end, OF_AN_INCH_WORDS, language).flatMap((next) => whole('in/ft', next, PER_FOOT_WORDS)),
  ];
}

/** Spanish says the unit before the fraction: `dos pulgadas y media`, `una pulgada y un cuarto por pie`. */
function unitInside(words: readonly string[], at: number): Value[] {
  return numbersAt(words, at, 'es').flatMap(({ value, end, as }) => {
    if (as !== 'natural' && as !== 'digits') return [];
    return found<SpokenUnit>(words, end, UNIT_WORDS, 'es').flatMap(({ code, end: afterUnit }) =>
      after(words, afterUnit, AND_WORDS, 'es').flatMap((next) =>
        fractionsAt(words, next, 'es').flatMap((part) => {
          const sum = `${value}${part.value.replace(/^0/, '')}`;
          if (part.end === words.length) return [{ value: sum, to: null, unit: code }];
          const perFoot = code === 'in' && endsWith(words, part.end, PER_FOOT_WORDS, 'es');
          return perFoot ? [{ value: sum, to: null, unit: 'in/ft' as const }] : [];
        }),
      ),
    );
  });
}

function numberWithoutUnit(words: readonly string[], language: Language): boolean {
  return words.some((_, at) => numbersAt(words, at, language).some(({ end }) => end === words.length));
}

/** The codes of a table whose words begin at word `at`. */
function found<Code extends string>(
  words: readonly string[],
  at: number,
  table: Readonly<Record<string, Sayings>>,
  language: Language,
): { code: Code; end: number }[] {
  return Object.entries(table).flatMap(([code, sayings]) =>
    after(words, at, sayings, language).map((end) => ({ code: code as Code, end })),
  );
}

/** Where the words after each of these sayings begin, if they stand at `at`. */
function after(words: readonly string[], at: number, sayings: Sayings, language: Language): number[] {
  const first = words[at];
  if (first === undefined) return [];
  return sayings[language].flatMap((saying) => {
    // Asked some hundred times a phrase, and most begin otherwise: cutting each into words took most of the time.
    if (!saying.startsWith(first)) return [];
    const said = saying.split(' ');
    return startsWith(words, at, said) ? [at + said.length] : [];
  });
}

function endsWith(words: readonly string[], at: number, sayings: Sayings, language: Language): boolean {
  return after(words, at, sayings, language).includes(words.length);
}

function startsWith(words: readonly string[], at: number, said: readonly string[]): boolean {
  return said.every((word, i) => words[at + i] === word);
}
