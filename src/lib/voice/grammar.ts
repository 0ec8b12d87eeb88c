import type { SpokenDraft } from './draft.ts';
import { numberSayings, wholeSayings } from './number-words.ts';
import { nameForms } from './place-name.ts';
import type { Numbers } from './plausible.ts';
import { hasFractions, sayings } from './say.ts';
import {
  COAT_WORDS,
  MEASURE_WORDS,
  OF_AN_INCH_WORDS,
  ORDINALS,
  PER_FOOT_WORDS,
  POINT_WORDS,
  UNIT_WORDS,
  type Command,
  type Language,
  type SpokenMeasure,
  type SpokenUnit,
} from './vocabulary.ts';

/** What to listen for: only what can be said at this moment, since a listener that knows fewer words mistakes fewer. */
export interface Expected {
  readonly language: Language;
  /** The open field and its numbers; null where only commands are heard. */
  readonly field: { readonly what: SpokenMeasure; readonly numbers: readonly Numbers[] } | null;
  readonly places: readonly { readonly id: string; readonly name: string }[];
  /** Whether a coat may be named. */
  readonly coats: boolean;
  readonly commands: readonly Command[];
  readonly steps: readonly (SpokenDraft & { readonly is: 'step' })[];
  /** Values already heard, left out to hear what else it may have been: then only in the units of the field. */
  readonly except: readonly { readonly value: string; readonly unit: SpokenUnit }[];
  /** The engine's sounds, for talk that is none of it, and how readily each is heard, 0 to 1. */
  readonly other: { readonly sounds: readonly string[]; readonly weight: number } | null;
  /** Whether the engine knows how a word sounds. */
  readonly knows: (word: string) => boolean;
}

/** Sounds that are no word are heard as these. */
const SOUND_PREFIX = 'x';
export const soundWord = (sound: string) => `${SOUND_PREFIX}${sound}`;
export function isSoundWord(word: string): boolean {
  return /^x[A-Z]+$/.test(word);
}

/** Grammar text in the Java Speech Grammar Format, version 1.0; null where nothing that is expected can be heard. */
export function grammarOf(expected: Expected): string | null {
  const { language, field, commands, steps, places, other } = expected;
  const alone = [...commands.map((command) => ({ is: 'command' as const, command })), ...steps]
    .flatMap((draft) => sayings(draft, places, language))
    .filter((saying) => known(saying, expected));
  const values = field === null ? [] : field.numbers.flatMap((numbers) => valueRules(numbers, expected));
  const said = [...(values.length === 0 ? [] : ['<before> <value>']), ...(alone.length === 0 ? [] : [tree(alone)])];
  if (said.length === 0) return null;
  const rules = [
    `public <all> = ${[...said, ...(other === null ? [] : ['<other>'])].join(' | ')};`,
    ...(values.length === 0 ? [] : [`<before> = ${before(expected)};`, `<value> = ${values.join(' | ')};`]),
    // A loop that may end at each sound; each further one costs its weight.
    ...(other === null ? [] : [`<other> = <sound> <more>;`, `<more> = /1.0/ <NULL> | /${other.weight}/ <other>;`]),
    ...(other === null ? [] : [`<sound> = ${other.sounds.map(soundWord).join(' | ')};`]),
  ];
  return ['#JSGF V1.0;', 'grammar said;', ...rules].join('\n');
}

/** Coat, place and measure, each of which may be left out. */
function before({ language, places, coats, field, knows }: Expected): string {
  const names = places
    .map(({ name }) => nameForms(name, language)[0].join(' '))
    .filter((name) => name !== '' && name.split(' ').every(knows));
  const [word] = COAT_WORDS[language];
  const coat = [
    ...Array.from({ length: 9 }, (_, i) => `${word} ${wholeSayings(i + 1, language)[0]!}`),
    ...ORDINALS.slice(0, 3).flatMap(({ [language]: [nth] }) => (knows(nth) ? [`${nth} ${word}`] : [])),
  ];
  const parts = [
    coats ? tree(coat) : '',
    names.length === 0 ? '' : tree([...new Set(names)]),
    field === null ? '' : tree(MEASURE_WORDS[field.what][language].filter((saying) => saying.split(' ').every(knows))),
  ];
  return parts.flatMap((part) => (part === '' ? [] : [`[ ${part} ]`])).join(' ') || '<NULL>';
}

/**
 * Numbers with their unit, as one or more alternatives. Units of the same kind that the field does not take are listened for too: said,
 * they must be heard as themselves and refused, and not be bent into the unit of the field.
 */
function valueRules({ unit, values, tenths }: Numbers, expected: Expected): string[] {
  const { language, except } = expected;
  const left = except.filter((one) => one.unit === unit).map(({ value }) => Number(value));
  const isLeft = (value: string) => left.includes(Number(value));
  const units = unitsAfter(unit, expected);
  const numbers = (some: readonly string[], end: string, fractions: boolean) => {
    const said = some.flatMap((value) => numberSayings(value, language, fractions)).filter((one) => known(one, expected));
    // The decimals of a fraction are how it is written, not how it is said.
    const spoken = fractions ? said.filter((one) => !POINT_WORDS[language].some((point) => one.includes(` ${point} `))) : said;
    return spoken.length === 0 ? [] : [`${tree(spoken)} ${end}`];
  };
  if (tenths) {
    const point = POINT_WORDS[language][0];
    const digits = (whole: string | null) =>
      Array.from({ length: 10 }, (_, i) => i)
        .filter((i) => whole === null || !isLeft(`${whole}.${i}`))
        .map((i) => wholeSayings(i, language)[0]!)
        .join(' | ');
    const touched = values.filter((one) => left.some((value) => Math.trunc(value) === Number(one)));
    return [
      ...numbers(
        values.filter((one) => !touched.includes(one)),
        `[ ${point} (${digits(null)}) ] ${units}`,
        false,
      ),
      ...touched.flatMap((whole) => [
        ...numbers([whole], `${point} (${digits(whole)}) ${units}`, false),
        ...(isLeft(whole) ? [] : numbers([whole], units, false)),
      ]),
    ];
  }
  const rest = values.filter((one) => !isLeft(one));
  if (!hasFractions(unit)) return numbers(rest, units, false);
  const perFoot = unit === 'in/ft' ? ` ${PER_FOOT_WORDS[language][0]}` : '';
  return [
    ...numbers(
      rest.filter((one) => !/^0\./.test(one)),
      units,
      true,
    ),
    ...numbers(
      rest.filter((one) => /^0\./.test(one)),
      `(${[units, ...OF_AN_INCH_WORDS[language].map((one) => `${one}${perFoot}`)].join(' | ')})`,
      true,
    ),
  ];
}

/** Units in which the same kind of thing is measured, and which are mistaken for each other. */
const KINDS: readonly (readonly SpokenUnit[])[] = [
  ['mil', 'um', 'mm', 'in'],
  ['F', 'C'],
  ['in/ft', 'mm/m', '%'],
  ['gal', 'qt', 'L'],
];

function unitsAfter(unit: SpokenUnit, expected: Expected): string {
  const alike = expected.except.length > 0 ? [] : (KINDS.find((kind) => kind.includes(unit)) ?? []);
  const said = [unit, ...alike.filter((one) => one !== unit)].flatMap((one): readonly string[] => UNIT_WORDS[one][expected.language]);
  return tree(said.filter((saying) => known(saying, expected)));
}

function known(saying: string, { knows }: Expected): boolean {
  return saying.split(' ').every(knows);
}

interface Branch {
  readonly next: Map<string, Branch>;
  ends: boolean;
}

/** Sayings as one alternative, those that begin alike sharing their beginning. */
function tree(sayingsOf: readonly string[]): string {
  const root: Branch = { next: new Map(), ends: false };
  for (const saying of sayingsOf) {
    let at = root;
    for (const word of saying.split(' ')) {
      const next = at.next.get(word) ?? { next: new Map<string, Branch>(), ends: false };
      at.next.set(word, next);
      at = next;
    }
    at.ends = true;
  }
  return `(${branches(root)})`;
}

function branches({ next }: Branch): string {
  return Array.from(next, ([word, after]) => {
    if (after.next.size === 0) return word;
    const more = branches(after);
    return after.ends ? `${word} [ ${more} ]` : `${word} ( ${more} )`;
  }).join(' | ');
}
