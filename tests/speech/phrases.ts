import { inchDecimal } from '#lib/measure/inch.ts';
import { exampleCombMil } from '#lib/trade/comb.ts';
import type { Question } from '#lib/voice/hearing.ts';
import { numberSayings } from '#lib/voice/number-words.ts';
import { plausible } from '#lib/voice/plausible.ts';
import { hasFractions } from '#lib/voice/say.ts';
import { UNIT_WORDS, type SpokenMeasure, type SpokenUnit } from '#lib/voice/vocabulary.ts';

export const PLACES = [
  { id: 'north', name: 'North wall' },
  { id: 'south', name: 'South wall' },
  { id: 'back', name: 'Back wall' },
  { id: 'floor', name: 'Shower floor' },
  { id: 'curb', name: 'Curb' },
  { id: 'bench', name: 'Bench top' },
];

/** A phrase, the field it is said in, and what it means. */
export interface Phrase {
  readonly text: string;
  readonly question: Question;
  readonly value: string;
  readonly unit: SpokenUnit;
  /** The coat and the id of the place that are said; null where none is. */
  readonly coat: number | null;
  readonly place: string | null;
  /** The limit in force, in the unit that is said. */
  readonly limit: { readonly min: number | null; readonly max: number | null };
}

interface Field {
  readonly what: SpokenMeasure;
  readonly unit: SpokenUnit;
  readonly limit: Phrase['limit'];
  /** Values as a crew reads them, most within the limit. */
  readonly values: readonly string[];
  readonly coats?: true;
}

const COMB = { unit: 'mil', values: exampleCombMil().teeth.slice(0, -1), tenths: false } as const;
const whole = (from: number, to: number) => Array.from({ length: to - from + 1 }, (_, i) => String(from + i));
const sixteenths = (from: number, to: number, step = 1) =>
  Array.from({ length: Math.floor(((to - from) * 16) / step) + 1 }, (_, i) => inchDecimal(from * 16 + i * step));

export const FIELDS: readonly Field[] = [
  {
    what: 'wet-film',
    unit: 'mil',
    limit: { min: 12, max: 60 },
    values: COMB.values.filter((v) => Number(v) >= 12 && Number(v) <= 60),
    coats: true,
  },
  { what: 'dry-film', unit: 'mil', limit: { min: 10, max: 60 }, values: whole(10, 60), coats: true },
  { what: 'overlap', unit: 'in', limit: { min: 2, max: null }, values: sixteenths(2, 6) },
  { what: 'band-lap', unit: 'in', limit: { min: 2, max: null }, values: sixteenths(2, 4) },
  { what: 'upturn', unit: 'in', limit: { min: 3, max: null }, values: sixteenths(3, 12, 2) },
  { what: 'air-temperature', unit: 'F', limit: { min: 50, max: 90 }, values: whole(50, 90) },
  { what: 'surface-temperature', unit: 'F', limit: { min: 50, max: 90 }, values: whole(50, 90) },
  { what: 'humidity', unit: '%', limit: { min: null, max: 85 }, values: whole(20, 85) },
  { what: 'slope', unit: 'in/ft', limit: { min: 0.25, max: 0.5 }, values: ['0.25', '0.3125', '0.375', '0.4375', '0.5'] },
];

/** What the pad of a field listens for. */
export function questionOf({ what, unit, coats = false }: Pick<Field, 'what' | 'unit'> & { coats?: boolean }): Question {
  const numbers = what === 'wet-film' ? COMB : plausible(what, unit)!;
  return {
    language: 'en',
    field: { what, numbers: [numbers] },
    places: PLACES,
    coats,
    commands: ['right', 'wrong', 'undo', 'note'],
    steps: [],
  };
}

/** `count` phrases, each field in its turn: bare values, with place and coat, in words, in fractions and digit by digit. */
export function phrases(count: number, chance: () => number): Phrase[] {
  const pick = <T>(list: readonly T[]) => list[Math.floor(chance() * list.length)]!;
  return Array.from({ length: count }, (_, i) => {
    const field = FIELDS[i % FIELDS.length]!;
    const value = pick(field.values);
    const fractions = hasFractions(field.unit);
    const forms = numberSayings(value, 'en', fractions).filter((one) => !fractions || !one.includes(' point '));
    const digitForm = forms.find((one) => value.length === 2 && one === [...value].map((d) => numberSayings(d, 'en', false)[0]).join(' '));
    // Films digit by digit, as the help page teaches; all else as it comes.
    const number = digitForm !== undefined && field.coats === true && chance() < 0.6 ? digitForm : forms[0]!;
    const below = fractions && value.startsWith('0.');
    const unit = below ? `of an inch${field.unit === 'in/ft' ? ' per foot' : ''}` : UNIT_WORDS[field.unit].en[0];
    const named = chance() < 0.3;
    const coat = named && field.coats === true && chance() < 0.6 ? pick([1, 2, 3]) : null;
    const place = named ? pick(PLACES) : null;
    const before = [coat === null ? '' : `coat ${numberSayings(String(coat), 'en', false)[0]!}`, place?.name.toLowerCase() ?? ''];
    return {
      text: [...before, number, unit]
        .filter((part) => part !== '')
        .join(', ')
        .replace(`${number}, `, `${number} `),
      question: questionOf(field),
      value,
      unit: field.unit,
      coat,
      place: place?.id ?? null,
      limit: field.limit,
    };
  });
}

/** Films said digit by digit, as the help page teaches: `count` values from 10 to 60. */
export function digitPhrases(count: number, chance: () => number): Phrase[] {
  const field = FIELDS[1]!;
  return Array.from({ length: count }, () => {
    const value = String(10 + Math.floor(chance() * 51));
    const text = `${Array.from(value, (digit) => numberSayings(digit, 'en', false)[0]!).join(' ')} mils`;
    return { text, question: questionOf(field), value, unit: field.unit, coat: null, place: null, limit: field.limit };
  });
}
