import { inchDecimal } from '../measure/inch.ts';
import { AND_WORDS, MINUS_WORDS, POINT_WORDS, wordsOf, type Language } from './vocabulary.ts';

/** The largest whole number said in words: a film of 5000 µm. */
const LARGEST = 5000;

const EN_SMALL =
  'zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen'.split(
    ' ',
  );
const EN_TENS = ', ,twenty,thirty,forty,fifty,sixty,seventy,eighty,ninety'.split(',');
const ES_SMALL = (
  'cero uno dos tres cuatro cinco seis siete ocho nueve diez once doce trece catorce quince dieciséis diecisiete dieciocho diecinueve ' +
  'veinte veintiuno veintidós veintitrés veinticuatro veinticinco veintiséis veintisiete veintiocho veintinueve'
).split(' ');
const ES_TENS = ', , ,treinta,cuarenta,cincuenta,sesenta,setenta,ochenta,noventa'.split(',');
const ES_HUNDREDS = ',ciento,doscientos,trescientos,cuatrocientos,quinientos,seiscientos,setecientos,ochocientos,novecientos'.split(',');

/** Digits said one by one: the form that is heard best. Other recognisers write them in figures. */
const DIGITS: Readonly<Record<Language, readonly (readonly string[])[]>> = {
  en: EN_SMALL.slice(0, 10).map((word, n) => (n === 0 ? [word, 'oh', '0'] : [word, String(n)])),
  es: ES_SMALL.slice(0, 10).map((word, n) => [word, String(n)]),
};

/** Parts of a whole by how many make it, singular and plural; of a half both are singular. */
const PARTS: Readonly<Record<Language, Readonly<Record<2 | 4 | 8 | 16, readonly string[]>>>> = {
  en: { 2: ['half'], 4: ['quarter', 'quarters'], 8: ['eighth', 'eighths'], 16: ['sixteenth', 'sixteenths'] },
  es: { 2: ['media', 'medio'], 4: ['cuarto', 'cuartos'], 8: ['octavo', 'octavos'], 16: ['dieciseisavo', 'dieciseisavos'] },
};
const ONE_PART: Readonly<Record<Language, readonly string[]>> = { en: ['a', 'an', 'one'], es: ['un', 'una'] };

/** A number found in words: a decimal string, where the words after it begin, and how it was said. */
export interface SpokenNumber {
  readonly value: string;
  readonly end: number;
  readonly as: 'natural' | 'digits' | 'decimal' | 'fraction' | 'mixed';
}

/** Every way a whole number from 0 to 5000 is said, the plain one first. */
export function wholeSayings(n: number, language: Language): readonly string[] {
  return language === 'en' ? english(n) : spanish(n);
}

function english(n: number): string[] {
  if (n >= 1000) return withRest(`${EN_SMALL[Math.floor(n / 1000)]!} thousand`, n % 1000, english);
  if (n >= 100) {
    const head = `${EN_SMALL[Math.floor(n / 100)]!} hundred`;
    return n % 100 === 0 ? [head] : [...withRest(head, n % 100, english), ...withRest(`${head} and`, n % 100, english)];
  }
  if (n < 20) return [EN_SMALL[n]!];
  return [[EN_TENS[Math.floor(n / 10)]!, ...(n % 10 === 0 ? [] : [EN_SMALL[n % 10]!])].join(' ')];
}

/** With the forms before a noun: `veintiun milimetros`, `veintiuna pulgadas`, `doscientas micras`. */
function spanish(n: number): string[] {
  if (n >= 1000) return withRest(n < 2000 ? 'mil' : `${ES_SMALL[Math.floor(n / 1000)]!} mil`, n % 1000, spanish);
  if (n === 100) return ['cien'];
  if (n >= 100) {
    const head = ES_HUNDREDS[Math.floor(n / 100)]!;
    return [head, ...(head.endsWith('os') ? [head.replace(/os$/, 'as')] : [])].flatMap((one) => withRest(one, n % 100, spanish));
  }
  if (n >= 30) return withRest(ES_TENS[Math.floor(n / 10)]!, n % 10, (k) => spanish(k).map((one) => `y ${one}`));
  const word = ES_SMALL[n]!;
  if (!word.endsWith('uno')) return [word];
  return [word, n === 1 ? 'un' : word.replace(/uno$/, 'ún'), word.replace(/uno$/, 'una')];
}

function withRest(head: string, rest: number, say: (n: number) => string[]): string[] {
  return rest === 0 ? [head] : say(rest).map((one) => `${head} ${one}`);
}

/** Said, too, and never listened for: `twelve hundred`, `a hundred and five`. */
function englishBesides(n: number): string[] {
  const hundreds = Math.floor(n / 100);
  const said = [
    ...(n >= 1100 && hundreds % 10 !== 0 ? [`${english(hundreds)[0]!} hundred`] : []),
    ...(n === 1000 ? ['a thousand'] : []),
    ...(hundreds === 1 ? ['a hundred'] : []),
  ];
  const rest = n % 100;
  return said.flatMap((head) => [...withRest(head, rest, english), ...(rest === 0 ? [] : withRest(`${head} and`, rest, english))]);
}

/** Every whole number by how it is said, made when first asked for, and the most words one takes. */
const wholes: Partial<Record<Language, { readonly byWords: ReadonlyMap<string, number>; readonly longest: number }>> = {};

function wholesIn(language: Language) {
  const made = wholes[language];
  if (made !== undefined) return made;
  const said = (n: number) => [...wholeSayings(n, language), ...(language === 'en' ? englishBesides(n) : [])];
  const pairs = Array.from({ length: LARGEST + 1 }, (_, n) => said(n).map((one) => [wordsOf(one).join(' '), n] as const)).flat();
  const longest = Math.max(...pairs.map(([one]) => one.split(' ').length));
  return (wholes[language] = { byWords: new Map(pairs), longest });
}

/** Every number that begins at word `at`. Longer and shorter ones both: only what the words around them leave over decides. */
export function numbersAt(words: readonly string[], at: number, language: Language): readonly SpokenNumber[] {
  if (!MINUS_WORDS[language].includes(words[at] ?? '')) return [...unsigned(words, at, language), ...decimalInFigures(words, at)];
  const after = [...unsigned(words, at + 1, language), ...decimalInFigures(words, at + 1)];
  return after.flatMap((one) => (Number(one.value) > 0 ? [{ ...one, value: `-${one.value}` }] : []));
}

/** A number in figures, as other recognisers write it: `22`, `-5`. */
function wholeInFigures(words: readonly string[], at: number): SpokenNumber[] {
  const [value] = /^(?:0|-?[1-9]\d{0,3})$/.exec(words[at] ?? '') ?? [];
  return value === undefined ? [] : [{ value, end: at + 1, as: 'natural' }];
}

/** `2.25`, `2,5`, `.5`. Three decimals may be thousands, so they are none. */
function decimalInFigures(words: readonly string[], at: number): SpokenNumber[] {
  const [, minus, whole, decimals] = /^(-?)(0|[1-9]\d{0,3}|(?=\.))[.,](\d{1,2})$/.exec(words[at] ?? '') ?? [];
  return decimals === undefined ? [] : [{ value: `${minus}${whole === '' ? '0' : whole}.${decimals}`, end: at + 1, as: 'decimal' }];
}

/** `7/8`. */
function fractionInFigures(words: readonly string[], at: number): SpokenNumber[] {
  const [, over, under] = /^(\d{1,2})\/(2|4|8|16)$/.exec(words[at] ?? '') ?? [];
  if (Number(over) <= 0 || !(Number(over) < Number(under))) return [];
  return [{ value: inchDecimal((Number(over) * 16) / Number(under)), end: at + 1, as: 'fraction' }];
}

function unsigned(words: readonly string[], at: number, language: Language): readonly SpokenNumber[] {
  const whole = [...naturals(words, at, language), ...digits(words, at, language), ...wholeInFigures(words, at)];
  const mixed = whole
    .filter(({ value }) => Number(value) !== 0)
    .flatMap((one) => [
      ...fractionInFigures(words, one.end).map((part) => sum(one, part)),
      ...(AND_WORDS[language].includes(words[one.end] ?? '')
        ? fractionsAt(words, one.end + 1, language).map((part) => sum(one, part))
        : []),
    ]);
  const decimals = whole.flatMap((one) => decimalAfter(one.value, words, one.end, language));
  // `oh point five`: an `oh` alone is no number.
  const below = DIGITS[language][0]!.includes(words[at] ?? '') ? at + 1 : at;
  return [...whole, ...mixed, ...decimals, ...decimalAfter('0', words, below, language), ...fractionsAt(words, at, language)];
}

function naturals(words: readonly string[], at: number, language: Language): SpokenNumber[] {
  const { byWords, longest } = wholesIn(language);
  return Array.from({ length: Math.min(longest, words.length - at) }, (_, i) => at + i + 1).flatMap((end) => {
    const n = byWords.get(words.slice(at, end).join(' '));
    return n === undefined ? [] : [{ value: String(n), end, as: 'natural' as const }];
  });
}

/** Two to four digits said one by one. None begins with zero: `zero five` may be 5, 0.5 or 05. */
function digits(words: readonly string[], at: number, language: Language): SpokenNumber[] {
  const said = digitsAt(words, at, language);
  if (said.startsWith('0')) return [];
  return [2, 3, 4].flatMap((n) => (n <= said.length ? [{ value: said.slice(0, n), end: at + n, as: 'digits' as const }] : []));
}

function digitsAt(words: readonly string[], at: number, language: Language): string {
  let said = '';
  for (let i = at; i < words.length; i++) {
    const digit = DIGITS[language].findIndex((forms) => forms.includes(words[i]!));
    if (digit < 0) break;
    said += String(digit);
  }
  return said;
}

function decimalAfter(whole: string, words: readonly string[], at: number, language: Language): SpokenNumber[] {
  if (!POINT_WORDS[language].includes(words[at] ?? '')) return [];
  const said = digitsAt(words, at + 1, language).slice(0, 4);
  const digitByDigit = Array.from(said, (_, i) => ({ decimals: said.slice(0, i + 1), end: at + i + 2 }));
  // `two point twenty-five`: as many decimals as the number has digits.
  const together = naturals(words, at + 1, language).flatMap(({ value, end }) => (value.length === 2 ? [{ decimals: value, end }] : []));
  return [...digitByDigit, ...together].map(({ decimals, end }) => ({ value: `${whole}.${decimals}`, end, as: 'decimal' }));
}

/** A fraction below one that begins at word `at`: `half`, `a quarter`, `quarter`, `seven eighths`, `7/8`. */
export function fractionsAt(words: readonly string[], at: number, language: Language): readonly SpokenNumber[] {
  const overs = [
    { over: 1, end: at },
    ...(ONE_PART[language].includes(words[at] ?? '') ? [{ over: 1, end: at + 1 }] : []),
    ...[...naturals(words, at, language), ...wholeInFigures(words, at)].map(({ value, end }) => ({ over: Number(value), end })),
  ];
  const said = overs.flatMap(({ over, end }) =>
    ([2, 4, 8, 16] as const).flatMap((under): SpokenNumber[] =>
      over > 0 && over < under && partWords(over, under, language).includes(words[end] ?? '')
        ? [{ value: inchDecimal((over * 16) / under), end: end + 1, as: 'fraction' }]
        : [],
    ),
  );
  const different = said.filter((one, i) => said.findIndex((two) => two.value === one.value && two.end === one.end) === i);
  return [...different, ...fractionInFigures(words, at)];
}

/**
 * What so many parts are called. `Two eighth inches` may be what was left of `two and an eighth inches`, so more than one need their plural;
 * three quarter inch is what boards are called.
 */
function partWords(over: number, under: 2 | 4 | 8 | 16, language: Language): readonly string[] {
  const words = PARTS[language][under];
  if (under === 2 || (language === 'en' && over === 3 && under === 4)) return words;
  return [words[over === 1 ? 0 : 1]!];
}

function sum(whole: SpokenNumber, part: SpokenNumber): SpokenNumber {
  return { value: `${whole.value}${part.value.replace(/^0/, '')}`, end: part.end, as: 'mixed' };
}

/**
 * Every way a value is said as a number, the plain one first: in words, digit by digit where it has two to four and `fractions` are not
 * wanted, its decimals digit by digit, and as a fraction where it lies on a sixteenth and they are. Empty for a value beyond 5000.
 */
export function numberSayings(value: string, language: Language, fractions: boolean): readonly string[] {
  const [, minus = '', whole = '', decimals = ''] = /^(-?)(\d+)(?:\.(\d+))?$/.exec(value) ?? [];
  if (whole === '' || Number(whole) > LARGEST) return [];
  const signed = (said: string) => (minus === '' ? said : `${MINUS_WORDS[language][0]} ${said}`);
  const wholeForms = [...wholeSayings(Number(whole), language), ...(fractions ? [] : digitForms(whole, language))];
  if (/^0*$/.test(decimals)) return decimals === '' ? wholeForms.map(signed) : spelled(wholeForms, decimals, language).map(signed);
  const sixteenths = Number(`0.${decimals}`) * 16;
  const parts = fractions && Number.isInteger(sixteenths) ? fractionForms(sixteenths, language) : [];
  const mixed = parts.map((part) => [...(Number(whole) === 0 ? [] : [wholeForms[0]!, AND_WORDS[language][0]]), part].join(' '));
  return [...mixed, ...spelled(wholeForms, decimals, language)].map(signed);
}

function digitForms(whole: string, language: Language): string[] {
  if (whole.length < 2 || whole.length > 4 || whole.startsWith('0')) return [];
  return [Array.from(whole, (digit) => DIGITS[language][Number(digit)]![0]!).join(' ')];
}

function spelled(wholeForms: readonly string[], decimals: string, language: Language): string[] {
  const said = Array.from(decimals, (digit) => DIGITS[language][Number(digit)]![0]!).join(' ');
  return wholeForms.map((one) => `${one} ${POINT_WORDS[language][0]} ${said}`);
}

/** One half, a quarter, three eighths: as many sixteenths, reduced. */
function fractionForms(sixteenths: number, language: Language): string[] {
  const under = ([2, 4, 8, 16] as const).find((one) => (sixteenths * one) % 16 === 0)!;
  const over = (sixteenths * under) / 16;
  const [one, many = one] = PARTS[language][under];
  if (under === 2) return language === 'es' ? [one!, many!] : [`a ${one!}`, `one ${one!}`];
  if (over > 1) return [`${wholeSayings(over, language)[0]!} ${many!}`];
  const [article] = ONE_PART[language];
  return [`${under === 8 && language === 'en' ? 'an' : article!} ${one!}`, ...(language === 'en' ? [`one ${one!}`] : [])];
}
