import type { Listening, SpokenDraft, SpokenReading } from './draft.ts';
import { numberSayings, wholeSayings } from './number-words.ts';
import { nameForms } from './place-name.ts';
import {
  ACT_WORDS,
  AND_WORDS,
  COAT_WORDS,
  COMMAND_WORDS,
  DRY_WORDS,
  MEASURE_WORDS,
  MINUS_WORDS,
  OF_AN_INCH_WORDS,
  PER_FOOT_WORDS,
  STEP_WORDS,
  UNIT_WORDS,
  WET_WORDS,
  type Language,
  type SpokenUnit,
} from './vocabulary.ts';

/** Every way a draft is said, the plain one first: what the help page teaches, the grammar listens for and the phone says back. */
export function sayings(draft: SpokenDraft, places: Listening['places'], language: Language): readonly string[] {
  switch (draft.is) {
    case 'command':
      return COMMAND_WORDS[draft.command][language];
    case 'step':
      return ACT_WORDS[draft.act][language].flatMap((act) => STEP_WORDS[draft.step][language].map((step) => `${act} ${step}`));
    case 'reading':
      return readingSayings(draft, places, language);
  }
}

function readingSayings(draft: SpokenReading, places: Listening['places'], language: Language): string[] {
  const { coat, place, what, value, to, unit } = draft;
  const before = [
    coat === null ? '' : `${COAT_WORDS[language][0]} ${wholeSayings(coat, language)[0]!}`,
    place === null ? '' : nameForms(places.find(({ id }) => id === place)!.name, language)[0].join(' '),
  ];
  // Before its two edges the name of a film is not said again.
  const names = what === null || to !== null ? [''] : MEASURE_WORDS[what][language];
  const ends = to === null ? valueSayings(value, unit, language) : edgeSayings(value, to, unit, language);
  return names.flatMap((name) => ends.map((end) => [...before, name, end].filter((part) => part !== '').join(' ')));
}

function edgeSayings(value: string, to: string, unit: SpokenUnit, language: Language): string[] {
  return numberSayings(value, language, false).flatMap((wet) =>
    valueSayings(to, unit, language).map((dry) => `${WET_WORDS[language][0]} ${wet} ${DRY_WORDS[language][0]} ${dry}`),
  );
}

/** Whether a unit is said in fractions, as rulers and levels in inches are marked. */
export function hasFractions(unit: SpokenUnit): boolean {
  return unit === 'in' || unit === 'in/ft';
}

/** Every way a value with its unit is said. */
export function valueSayings(value: string, unit: SpokenUnit, language: Language): readonly string[] {
  const numbers = numberSayings(value, language, hasFractions(unit));
  const units = UNIT_WORDS[unit][language];
  if (!hasFractions(unit) || !value.includes('.')) return numbers.flatMap((number) => units.map((one) => `${number} ${one}`));
  return [...inchesWithFraction(value, unit, language), ...numbers.flatMap((number) => units.map((one) => `${number} ${one}`))];
}

/** `eleven sixteenths of an inch`, `dos pulgadas y media`: what is only said of inches with a fraction. */
function inchesWithFraction(value: string, unit: SpokenUnit, language: Language): string[] {
  const perFoot = unit === 'in/ft' ? ` ${PER_FOOT_WORDS[language][0]}` : '';
  const minus = value.startsWith('-');
  const [whole = '0', decimals = ''] = value.replace('-', '').split('.');
  const part = `0.${decimals}`;
  const parts = Number.isInteger(Number(part) * 16)
    ? numberSayings(part, language, true).filter((one) => !/ (?:point|coma) /.test(one))
    : [];
  if (Number(whole) === 0) {
    if (language === 'es' && decimals === '5') return [`${minus ? `${MINUS_WORDS.es[0]} ` : ''}media pulgada${perFoot}`];
    return numberSayings(`${minus ? '-' : ''}${part}`, language, true)
      .slice(0, parts.length)
      .map((one) => `${one} ${OF_AN_INCH_WORDS[language][0]}${perFoot}`);
  }
  if (language === 'en') return [];
  const inches = UNIT_WORDS.in.es[Number(whole) === 1 ? 1 : 0];
  return numberSayings(`${minus ? '-' : ''}${whole}`, 'es', true).flatMap((number) =>
    parts.map((one) => `${number} ${inches} ${AND_WORDS.es[0]} ${one}${perFoot}`),
  );
}
