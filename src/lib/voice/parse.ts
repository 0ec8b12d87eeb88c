import { fail, ok, type Result } from '../result.ts';
import type { Listening, NotUnderstood, SpokenDraft, SpokenReading } from './draft.ts';
import { fractionsAt, numbersAt, type SpokenNumber } from './number-words.ts';
import { nameForms } from './place-name.ts';
import { hasFractions } from './say.ts';
import {
  ACT_WORDS,
  AND_WORDS,
  COAT_WORDS,
  COMMAND_WORDS,
  DRY_WORDS,
  LEADING_WORDS,
  MEASURE_WORDS,
  NO_WORDS,
  OF_AN_INCH_WORDS,
  OF_A_WORDS,
  ORDINALS,
  PER_FOOT_WORDS,
  STEP_WORDS,
  UNIT_WORDS,
  WET_WORDS,
  plainWords,
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
  const words = plainWords(text, language);
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

type Parts = Partial<Pick<SpokenReading, 'coat' | 'place' | 'what'> & Value>;
interface Part {
  readonly part: Parts;
  readonly end: number;
}

/** A value, with its coat, its place and what it is of before it or after it, each at most once. A `no` takes back what was said before. */
function readings(words: readonly string[], listening: Listening, language: Language): SpokenReading[] {
  const known = listening.places.map(({ id, name }): Place => ({ id, forms: nameForms(name, language) }));
  const read = (at: number, parts: Parts): SpokenReading[] => {
    if (at === words.length) {
      const { value, to, unit, coat = null, place = null, what = null } = parts;
      return value === undefined || to === undefined || unit === undefined ? [] : [{ is: 'reading', coat, place, what, value, to, unit }];
    }
    // A comma between two numbers belongs to neither.
    if (words[at] === ',') return read(at + 1, parts);
    const named = [at, ...after(words, at, LEADING_WORDS, language)].flatMap((from) => [
      ...(parts.coat === undefined ? coats(words, from, language) : []),
      ...(parts.place === undefined ? places(words, from, known) : []),
      ...(parts.what === undefined ? measures(words, from, language) : []),
    ]);
    const next = parts.value === undefined ? [...named, ...values(words, at, language)] : named;
    return next.flatMap(({ part, end }) => read(end, { ...parts, ...part }));
  };
  return [0, ...after(words, 0, NO_WORDS, language)].flatMap((from) => read(from, {}));
}

function coats(words: readonly string[], at: number, language: Language): Part[] {
  const counted = after(words, at, COAT_WORDS, language).flatMap((next) =>
    numbersAt(words.slice(0, next + 1), next, language).flatMap(({ value, end }) =>
      /^[1-9]$/.test(value) ? [{ part: { coat: Number(value) }, end }] : [],
    ),
  );
  const ordered = ORDINALS.flatMap((ways, i) =>
    after(words, at, ways, language).flatMap((next) =>
      after(words, next, COAT_WORDS, language).map((end) => ({ part: { coat: i + 1 }, end })),
    ),
  );
  return [...counted, ...ordered];
}

/** A place and each way its name is said. */
interface Place {
  readonly id: string;
  readonly forms: readonly (readonly string[])[];
}

function places(words: readonly string[], at: number, known: readonly Place[]): Part[] {
  return known.flatMap(({ id, forms }) =>
    forms.flatMap((said) => (said.length > 0 && startsWith(words, at, said) ? [{ part: { place: id }, end: at + said.length }] : [])),
  );
}

function measures(words: readonly string[], at: number, language: Language): Part[] {
  return found<SpokenMeasure>(words, at, MEASURE_WORDS, language).map(({ code, end }) => ({ part: { what: code }, end }));
}

type Value = Pick<SpokenReading, 'value' | 'to' | 'unit'>;
interface ValueAt {
  readonly part: Value;
  readonly end: number;
}

/** A value with its unit, or the two edges of a comb reading. */
function values(words: readonly string[], at: number, language: Language): ValueAt[] {
  const numbers = numbersAt(words, at, language);
  const one = numbers.flatMap((number) => [...withUnit(words, number, language), ...unitInside(words, number, language)]);
  const edges = after(words, at, WET_WORDS, language).flatMap((first) =>
    numbersAt(words, first, language).flatMap((wet) =>
      [{ unit: null, end: wet.end }, ...units(words, wet.end, language)].flatMap(({ unit: wetUnit, end }) =>
        after(words, words[end] === ',' ? end + 1 : end, DRY_WORDS, language).flatMap((second) =>
          numbersAt(words, second, language)
            .flatMap((dry) => withUnit(words, dry, language))
            .flatMap(({ part: { value: to, unit }, end: last }) =>
              Number(wet.value) < Number(to) && Number(wet.value) > 0 && (wetUnit ?? unit) === unit
                ? [{ part: { value: wet.value, to, unit }, end: last }]
                : [],
            ),
        ),
      ),
    ),
  );
  return [...one, ...edges];
}

/** A unit that begins at word `at`, as it is said or written. */
function units(words: readonly string[], at: number, language: Language): { unit: SpokenUnit; end: number }[] {
  return found<SpokenUnit>(words, at, UNIT_WORDS, language).flatMap(({ code, end }) => [
    { unit: code, end },
    ...(code === 'in' ? after(words, end, PER_FOOT_WORDS, language).map((last) => ({ unit: 'in/ft' as const, end: last })) : []),
  ]);
}

function withUnit(words: readonly string[], { value, end, as }: SpokenNumber, language: Language): ValueAt[] {
  const of = (unit: SpokenUnit, last: number) => ({ part: { value, to: null, unit }, end: last });
  // Digit by digit inches are what is left of a fraction: `two seven eight inches`.
  const plain = units(words, end, language).flatMap(({ unit, end: last }) =>
    as === 'digits' && hasFractions(unit) ? [] : [of(unit, last)],
  );
  if (as !== 'fraction') return plain;
  // Half of a unit is said before its bare name: `media pulgada`, `half of an inch`, `half a gallon`.
  return [
    ...plain,
    ...after(words, end, OF_AN_INCH_WORDS, language).flatMap((next) => [
      of('in', next),
      ...after(words, next, PER_FOOT_WORDS, language).map((last) => of('in/ft', last)),
    ]),
    ...after(words, end, OF_A_WORDS, language).flatMap((next) => units(words, next, language).map((one) => of(one.unit, one.end))),
  ];
}

/** The unit before the fraction: `dos pulgadas y media`, `two inches and an eighth`. */
function unitInside(words: readonly string[], { value, end, as }: SpokenNumber, language: Language): ValueAt[] {
  if (as !== 'natural') return [];
  return units(words, end, language).flatMap(({ unit, end: afterUnit }) =>
    after(words, afterUnit, AND_WORDS, language).flatMap((next) =>
      fractionsAt(words, next, language).flatMap((part) => {
        const sum = `${value}${part.value.replace(/^0/, '')}`;
        const perFoot = unit === 'in' ? after(words, part.end, PER_FOOT_WORDS, language) : [];
        return [
          { part: { value: sum, to: null, unit }, end: part.end },
          ...perFoot.map((last) => ({ part: { value: sum, to: null, unit: 'in/ft' as const }, end: last })),
        ];
      }),
    ),
  );
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
  return (byFirstWord(sayings[language]).get(words[at] ?? '') ?? []).flatMap((said) =>
    startsWith(words, at, said) ? [at + said.length] : [],
  );
}

type ByFirstWord = ReadonlyMap<string, readonly (readonly string[])[]>;

/** Asked some hundred times a phrase: cutting each saying into words took most of the time. */
const cut = new WeakMap<readonly string[], ByFirstWord>();
function byFirstWord(sayings: readonly string[]): ByFirstWord {
  const known = cut.get(sayings) ?? Map.groupBy(sayings.map(wordsOf), ([first = '']) => first);
  cut.set(sayings, known);
  return known;
}

function startsWith(words: readonly string[], at: number, said: readonly string[]): boolean {
  return said.every((word, i) => words[at + i] === word);
}
