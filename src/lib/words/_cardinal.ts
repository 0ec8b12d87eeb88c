import type { Locale } from './compiled/runtime.js';

/** Spanish numbers bend to their noun: `veintiuno`, `veintiún milímetros`, `veintiuna pulgadas`. English has one form. */
export type Form = 'alone' | 'masculine' | 'feminine';

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

/** A whole number from 0 to 9999 in words, lower case. Above that, words are harder to check than digits: digits. */
export function cardinal(n: number, locale: Locale, form: Form = 'alone'): string {
  if (!Number.isSafeInteger(n) || n < 0) throw new RangeError(`cardinal: expected a whole number from 0, got ${n}`);
  if (n > 9999) return String(n);
  return locale === 'es' ? spanish(n, form) : english(n);
}

function english(n: number): string {
  if (n >= 1000) return joined(`${EN_SMALL[Math.floor(n / 1000)]!} thousand`, n % 1000, english);
  if (n >= 100) return joined(`${EN_SMALL[Math.floor(n / 100)]!} hundred`, n % 100, english);
  if (n < 20) return EN_SMALL[n]!;
  return [EN_TENS[Math.floor(n / 10)]!, ...(n % 10 === 0 ? [] : [EN_SMALL[n % 10]!])].join('-');
}

function spanish(n: number, form: Form): string {
  const rest = (k: number) => spanish(k, form);
  if (n >= 1000) return joined(n < 2000 ? 'mil' : `${ES_SMALL[Math.floor(n / 1000)]!} mil`, n % 1000, rest);
  if (n === 100) return 'cien';
  if (n >= 100) {
    const hundreds = ES_HUNDREDS[Math.floor(n / 100)]!;
    return joined(form === 'feminine' ? hundreds.replace(/os$/, 'as') : hundreds, n % 100, rest);
  }
  if (n >= 30) return [ES_TENS[Math.floor(n / 10)]!, ...(n % 10 === 0 ? [] : [rest(n % 10)])].join(' y ');
  const word = ES_SMALL[n]!;
  if (form === 'alone' || !word.endsWith('uno')) return word;
  if (form === 'feminine') return word.replace(/uno$/, 'una');
  return n === 1 ? 'un' : 'veintiún';
}

function joined(head: string, rest: number, say: (n: number) => string): string {
  return rest === 0 ? head : `${head} ${say(rest)}`;
}
