import type { SpokenReading } from '#lib/voice/draft.ts';
import { wholeSayings } from '#lib/voice/number-words.ts';
import { parse } from '#lib/voice/parse.ts';
import {
  COAT_WORDS,
  COMMAND_WORDS,
  MEASURE_WORDS,
  ORDINALS,
  STEP_WORDS,
  UNIT_WORDS,
  wordsOf,
  type Language,
  type Sayings,
  type SpokenUnit,
} from '#lib/voice/vocabulary.ts';
import { expect, test } from 'vitest';
import { random } from '../../sim/random.ts';

const LANGUAGES = ['en', 'es'] as const;
const UNITS = Object.keys(UNIT_WORDS) as SpokenUnit[];
const PLACES = {
  en: [
    { id: 'north', name: 'North wall' },
    { id: 'niche', name: 'Niche 1' },
  ],
  es: [
    { id: 'north', name: 'Pared norte' },
    { id: 'niche', name: 'Nicho 1' },
  ],
};
const NICHE = { en: 'niche one', es: 'nicho uno' };
const NUMBERS = [0, 1, 2, 5, 8, 13, 15, 20, 21, 50, 80, 100, 1000];
const FIGURES = ['7', '22', '2.5', '1/4', '7/8', '-5', '.5', '1,200', '05', '22-24', '½'];
const PARTS = {
  en: 'half quarter quarters eighth eighths point and a an oh minus hundred'.split(' '),
  es: 'media medio cuarto cuartos octavos coma y un menos mil'.split(' '),
};
const BESIDES = {
  en: [
    'coat',
    'coat two',
    'second coat',
    'north wall',
    'niche one',
    'on the',
    'no',
    'per foot',
    'of an inch',
    'of a',
    'wet at',
    'dry at',
    'truck',
  ],
  es: [
    'mano',
    'mano dos',
    'segunda mano',
    'pared norte',
    'nicho uno',
    'en la',
    'no',
    'por pie',
    'de pulgada',
    'mojado en',
    'seco en',
    'camión',
  ],
};

/** Words of the table and of other talk, numbers and units often and the unit often last. */
function anyWords(language: Language, chance: () => number): string {
  const all: readonly Readonly<Record<string, Sayings>>[] = [MEASURE_WORDS, STEP_WORDS, COMMAND_WORDS];
  const numbers = NUMBERS.flatMap((n) => wholeSayings(n, language));
  const units = UNITS.flatMap((unit) => [...UNIT_WORDS[unit][language]]);
  const others = all.flatMap((table) => Object.values(table).flatMap((row) => row[language]));
  const lists = [numbers, numbers, numbers, PARTS[language], PARTS[language], FIGURES, units, BESIDES[language], others];
  const pick = <T>(list: readonly T[]) => list[Math.floor(chance() * list.length)]!;
  const some = Array.from({ length: 1 + Math.floor(chance() * 5) }, () => pick(pick(lists)));
  return [...some, ...(chance() < 0.7 ? [pick(units)] : [])].join(' ');
}

/** Words, and what is left of them when one of these sayings is taken out, once, wherever it stands. */
function without(words: readonly string[], sayings: readonly string[]): (readonly string[])[] {
  const left = sayings
    .map(wordsOf)
    .flatMap((taken) =>
      words.flatMap((_, at) =>
        taken.every((word, i) => words[at + i] === word) ? [[...words.slice(0, at), ...words.slice(at + taken.length)]] : [],
      ),
    );
  return [words, ...left];
}

/** The words of a reading's number, when those of its unit, coat, place and measure are taken out; each way of taking them. */
function numberWords(words: readonly string[], { coat, place, what, unit }: SpokenReading, language: Language): (readonly string[])[] {
  const { one, feet } = { en: { one: ['of an', 'an', 'of a', 'a'], feet: 'per foot' }, es: { one: ['de'], feet: 'por pie' } }[language];
  const inches = unit === 'in' || unit === 'in/ft';
  const names = UNIT_WORDS[inches ? 'in' : unit][language];
  const counted = coat === null ? [] : [...wholeSayings(coat, language), String(coat)];
  const coats = COAT_WORDS[language].flatMap((word) => [
    ...counted.map((n) => `${word} ${n}`),
    ...(coat === null ? [] : [`${ORDINALS[coat - 1]![language][0]} ${word}`]),
  ]);
  return [words]
    .flatMap((rest) => without(rest, coats))
    .flatMap((rest) => without(rest, place === null ? [] : [PLACES[language].find(({ id }) => id === place)!.name, NICHE[language]]))
    .flatMap((rest) => without(rest, what === null ? [] : MEASURE_WORDS[what][language]))
    .flatMap((rest) => without(rest, unit === 'in/ft' ? [feet] : []))
    .flatMap((rest) => without(rest, [...names, ...one.flatMap((article) => names.map((name) => `${article} ${name}`))]))
    .flatMap((rest) => without(rest, [{ en: 'wet at', es: 'mojado en' }[language]]));
}

const SKIPPED = /^(?:on|the|at|in|no|en|la|el|,)$/;
const UNDER: Readonly<Record<string, number>> = {
  half: 2,
  media: 2,
  medio: 2,
  quarter: 4,
  quarters: 4,
  cuarto: 4,
  cuartos: 4,
  eighth: 8,
  eighths: 8,
  octavo: 8,
  octavos: 8,
};

/** What all of these words are worth together, by another way of counting than the parser's; empty where one of them is no number word. */
function worth(all: readonly string[], language: Language): number[] {
  const words = all.filter((word) => !SKIPPED.test(word));
  const [first, ...rest] = words;
  if (first === 'minus' || first === 'menos') return worth(rest, language).map((n) => -n);
  const point = words.findIndex((word) => ['point', 'coma'].includes(word));
  if (point >= 0) {
    const decimals = words.slice(point + 1).map((word) => small(word));
    const digits = decimals.every((n) => n < 10) ? decimals.join('') : String(decimals.reduce((sum, n) => sum + n, 0));
    return counted(words.slice(0, point), language).map((n) => Number(`${n}.${digits}`));
  }
  const last = words.at(-1) ?? '';
  const figures = /^(\d+)\/(\d+)$/.exec(last);
  if (figures !== null) return wholeBefore(words.slice(0, -1), language).map((n) => n + Number(figures[1]) / Number(figures[2]));
  const under = UNDER[last];
  if (under === undefined) return counted(words, language);
  // Some of the words before count the parts, the others the wholes; without any there is one part.
  return words.flatMap((_, cut) => {
    const over = words.slice(cut, -1);
    const overs = over.every((word) => ['a', 'an', 'un', 'una'].includes(word)) ? [1] : counted(over, language);
    return cut === words.length ? [] : wholeBefore(words.slice(0, cut), language).flatMap((n) => overs.map((one) => n + one / under));
  });
}

/** Before a fraction: none, or with `and` after it or without. */
function wholeBefore(words: readonly string[], language: Language): number[] {
  const bare = ['and', 'y'].includes(words.at(-1) ?? '') ? words.slice(0, -1) : words;
  if (bare.length === 0) return [0];
  return bare.length === 1 && bare[0] === 'a' ? [1] : counted(bare, language);
}

const SMALL = new Map(
  LANGUAGES.flatMap((language) =>
    [...Array(30).keys(), 30, 40, 50, 60, 70, 80, 90].flatMap((n) =>
      wholeSayings(n, language).map((said) => [wordsOf(said).join(' '), n] as const),
    ),
  ),
);
const small = (word: string) => (word === 'oh' ? 0 : /^\d+$/.test(word) ? Number(word) : (SMALL.get(word) ?? NaN));

/** A whole number: its digits in a row, or its words added up. */
function counted(words: readonly string[], language: Language): number[] {
  if (words.length === 0) return [0];
  if (words.length === 1 && words[0] === 'a') return [1];
  if (words.length === 1 && /^-?\d*\.?\d+$/.test(words[0]!)) return [Number(words[0])];
  const row = words.map((word) => small(word));
  const digits = row.every((n) => n < 10) ? [Number(row.join(''))] : [];
  let [sum, below] = [0, 0];
  for (const word of words) {
    if (word === 'and' || word === 'y') continue;
    if (word === 'hundred') below = Math.max(below, 1) * 100;
    else if (word === 'thousand' || (word === 'mil' && language === 'es')) [sum, below] = [sum + Math.max(below, 1) * 1000, 0];
    else if (word === 'a') below += 1;
    else below += /^(?:cien|ciento)$/.test(word) ? 100 : small(word);
  }
  return [sum + below, ...digits].filter((n) => !Number.isNaN(n));
}

// An independent check: when unit, coat, place and measure are taken out, all the words that are left must come to the value.
test.each<[language: Language, least: number]>([
  ['en', 900],
  ['es', 900],
])('10,000 strings of random words: a reading holds the worth of every word, and no word besides (%s)', (language, least) => {
  const chance = random(20261126);
  let readings = 0;
  const wrong: string[] = [];
  for (let i = 0; i < 10_000; i++) {
    const text = anyWords(language, chance);
    const read = parse(text, { places: PLACES[language], units: UNITS }, language);
    if (!read.ok || read.value.is !== 'reading') continue;
    readings++;
    const { value, to } = read.value;
    const edges = to === null ? [text] : text.split({ en: ' dry at ', es: ' seco en ' }[language]);
    const worths = edges.map((edge) =>
      numberWords(wordsOf(edge), read.value as SpokenReading, language).flatMap((rest) => worth(rest, language)),
    );
    if (!worths[0]!.includes(Number(value)) || (to !== null && !worths[1]!.includes(Number(to)))) wrong.push(`${text}: ${value} ${to}`);
  }
  expect(wrong).toEqual([]);
  expect(readings).toBeGreaterThan(least);
});
