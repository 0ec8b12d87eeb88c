import { wholeSayings } from './number-words.ts';
import { plainWords, wordsOf, type Language } from './vocabulary.ts';

/** Numbers of one word, by their word. */
const FIGURES: Readonly<Record<Language, ReadonlyMap<string, string>>> = { en: figuresIn('en'), es: figuresIn('es') };

function figuresIn(language: Language): ReadonlyMap<string, string> {
  return new Map(Array.from({ length: 21 }, (_, n) => [wordsOf(wholeSayings(n, language)[0]!)[0]!, String(n)]));
}

/**
 * The words of a place by the name people gave it, as it is said (`Niche 1`: niche one), and with its numbers in figures, as other
 * recognisers write them.
 */
export function nameForms(name: string, language: Language): readonly [said: readonly string[], inFigures: readonly string[]] {
  const words = plainWords(name, language).filter((word) => /[\p{L}\d]/u.test(word));
  return [
    words.flatMap((word) => (/^\d{1,2}$/.test(word) ? wordsOf(wholeSayings(Number(word), language)[0]!) : [word])),
    words.map((word) => FIGURES[language].get(word) ?? word),
  ];
}
