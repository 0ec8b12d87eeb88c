import type { AnyUnit } from '../measure/dimension.ts';

export type Language = 'en' | 'es';

/** How one thing is said, in lower case and spelled as on a page; words are compared without accents. The first way is the one said back. */
export type Sayings = Readonly<Record<Language, readonly [string, ...string[]]>>;

/**
 * The one table of words. The recogniser's grammar, the parser, the help page and what is said back all come from it.
 *
 * Spanish `mil` is a thousand and never the unit: `quince mils` is said as the crews say it, `quince milesimas` as the dictionary does.
 * Degrees have no default scale, and a number alone has no unit.
 */
export const UNIT_WORDS = {
  in: { en: ['inches', 'inch'], es: ['pulgadas', 'pulgada'] },
  mm: { en: ['millimeters', 'millimeter', 'millimetres', 'millimetre'], es: ['milímetros', 'milímetro'] },
  cm: { en: ['centimeters', 'centimeter', 'centimetres', 'centimetre'], es: ['centímetros', 'centímetro'] },
  mil: {
    en: ['mils', 'mil', 'thousandths of an inch', 'thousandth of an inch', 'thousandths'],
    es: ['mils', 'milésimas', 'milésima', 'milésimas de pulgada', 'milésima de pulgada'],
  },
  um: {
    en: ['microns', 'micron', 'micrometres', 'micrometre', 'micrometers'],
    es: ['micras', 'micra', 'micrones', 'micrómetros', 'micrómetro'],
  },
  F: {
    en: ['degrees fahrenheit', 'degree fahrenheit', 'fahrenheit'],
    es: ['grados fahrenheit', 'grado fahrenheit', 'fahrenheit'],
  },
  C: {
    en: ['degrees celsius', 'degree celsius', 'celsius'],
    es: ['grados celsius', 'grado celsius', 'celsius', 'grados centígrados', 'grado centígrado', 'centígrados'],
  },
  '%': { en: ['percent'], es: ['por ciento'] },
  'in/ft': { en: ['inches per foot', 'inch per foot'], es: ['pulgadas por pie', 'pulgada por pie'] },
  'mm/m': {
    en: ['millimeters per meter', 'millimeter per meter', 'millimetres per metre', 'millimetre per metre'],
    es: ['milímetros por metro', 'milímetro por metro'],
  },
  gal: { en: ['gallons', 'gallon'], es: ['galones', 'galón'] },
  qt: { en: ['quarts', 'quart'], es: ['cuartos de galón', 'cuarto de galón'] },
  L: { en: ['liters', 'liter', 'litres', 'litre'], es: ['litros', 'litro'] },
} as const satisfies Partial<Record<AnyUnit, Sayings>>;

/** The units a value can be spoken in. */
export type SpokenUnit = keyof typeof UNIT_WORDS;

/** What is read in a step, as it may be named before its value. */
export const MEASURE_WORDS = {
  overlap: { en: ['overlap', 'lap'], es: ['solape', 'traslape'] },
  'band-lap': { en: ['band overlap', 'band lap'], es: ['solape de banda', 'traslape de banda'] },
  'onto-band': { en: ['liquid onto band'], es: ['líquido sobre banda'] },
  'wet-film': { en: ['wet film', 'wet'], es: ['película húmeda', 'húmeda'] },
  'dry-film': { en: ['dry film', 'dry'], es: ['película seca', 'seca'] },
  'flood-depth': { en: ['threshold water'], es: ['agua en umbral'] },
  'flood-level': { en: ['water level'], es: ['nivel del agua'] },
  upturn: { en: ['upturn'], es: ['remonte'] },
  slope: { en: ['slope'], es: ['pendiente'] },
  flatness: { en: ['out of flat'], es: ['desvío'] },
  'curb-height': { en: ['curb height'], es: ['altura del bordillo'] },
  'air-temperature': { en: ['air temperature', 'air'], es: ['temperatura del aire', 'aire'] },
  'surface-temperature': {
    en: ['surface temperature', 'surface'],
    es: ['temperatura de superficie', 'superficie', 'temperatura de la superficie'],
  },
  humidity: { en: ['humidity'], es: ['humedad del aire', 'humedad relativa'] },
  moisture: { en: ['moisture'], es: ['humedad de la base'] },
  'volume-used': { en: ['volume used'], es: ['volumen usado'] },
} as const satisfies Readonly<Record<string, Sayings>>;

export type SpokenMeasure = keyof typeof MEASURE_WORDS;

/** Steps and clocks that can be begun and ended. Begin and end, since recognisers take start for stop. */
export const STEP_WORDS = {
  behind: { en: ['behind the board'], es: ['detrás del tablero'] },
  survey: { en: ['survey'], es: ['revisión'] },
  scrape: { en: ['scrape and clean'], es: ['raspar y limpiar'] },
  'lay-liner': { en: ['lay the liner'], es: ['tender la membrana'] },
  'set-tray': { en: ['set the tray'], es: ['asentar el plato'] },
  'pre-cut': { en: ['dry fit'], es: ['prueba en seco'] },
  'bond-sheets': { en: ['bond sheets'], es: ['pegar láminas'] },
  'band-seams': { en: ['band seams'], es: ['bandas en juntas'] },
  corners: { en: ['corner pieces'], es: ['piezas de esquina'] },
  'liquid-coat': { en: ['liquid coat'], es: ['mano de líquido'] },
  'flood-test': { en: ['flood test'], es: ['prueba de inundación'] },
  protect: { en: ['protect'], es: ['proteger'] },
  check: { en: ['check before tile'], es: ['revisión antes del azulejo'] },
  repair: { en: ['repair'], es: ['reparación'] },
} as const satisfies Readonly<Record<string, Sayings>>;
export type SpokenStep = keyof typeof STEP_WORDS;

export const ACT_WORDS = {
  begin: { en: ['begin'], es: ['empezar'] },
  end: { en: ['end'], es: ['terminar'] },
} as const satisfies Readonly<Record<string, Sayings>>;

/** Said alone. One short word is too easily found in other talk to keep a value, so what keeps it is said in three. */
export const COMMAND_WORDS = {
  right: {
    en: ['that is right', 'yes that is right'],
    es: ['eso es correcto', 'sí, es correcto', 'sí, eso es correcto'],
  },
  wrong: {
    en: ['that is wrong', 'no that is wrong'],
    es: ['eso no es', 'no es correcto', 'eso no es correcto'],
  },
  undo: { en: ['undo the last one', 'undo'], es: ['deshacer la última', 'deshacer'] },
  note: { en: ['voice note', 'note'], es: ['nota de voz', 'nota'] },
  timers: { en: ['show the timers', 'timers'], es: ['ver los relojes', 'relojes'] },
} as const satisfies Readonly<Record<string, Sayings>>;
export type Command = keyof typeof COMMAND_WORDS;

/** Which coat: before its number, 1 to 9, or after these, the first to the ninth. */
export const COAT_WORDS: Sayings = { en: ['coat'], es: ['mano'] };
export const ORDINALS: readonly Sayings[] = [
  { en: ['first'], es: ['primera'] },
  { en: ['second'], es: ['segunda'] },
  { en: ['third'], es: ['tercera'] },
  { en: ['fourth'], es: ['cuarta'] },
  { en: ['fifth'], es: ['quinta'] },
  { en: ['sixth'], es: ['sexta'] },
  { en: ['seventh'], es: ['séptima'] },
  { en: ['eighth'], es: ['octava'] },
  { en: ['ninth'], es: ['novena'] },
];

/** What may stand before a coat, a surface or a measure without meaning anything, and before a value that takes the place of another. */
export const LEADING_WORDS: Sayings = {
  en: ['on the', 'on', 'at the', 'at', 'in the', 'the'],
  es: ['en la', 'en el', 'en', 'la', 'el'],
};
export const NO_WORDS: Sayings = { en: ['no'], es: ['no'] };

/** The two edges of a comb reading; the sign of a temperature. */
export const WET_WORDS: Sayings = { en: ['wet at'], es: ['mojado en'] };
export const DRY_WORDS: Sayings = { en: ['dry at'], es: ['seco en'] };
export const MINUS_WORDS: Sayings = { en: ['minus'], es: ['menos'] };
export const POINT_WORDS: Sayings = { en: ['point'], es: ['coma', 'punto'] };
export const AND_WORDS: Sayings = { en: ['and'], es: ['y'] };

/** A fraction of one inch stands before these, of any unit before `OF_A_WORDS`; a slope in inches before `PER_FOOT_WORDS`. */
export const OF_AN_INCH_WORDS: Sayings = { en: ['of an inch', 'an inch'], es: ['de pulgada'] };
export const OF_A_WORDS: Sayings = { en: ['of a', 'a'], es: ['de un', 'de una'] };
export const PER_FOOT_WORDS: Sayings = { en: ['per foot'], es: ['por pie'] };

/**
 * Words that are not listened for nor taught, and which of those above they stand for: as other recognisers write units, what sounds like one
 * and means nothing else here (`mills`), and what is said besides.
 */
export const STANDS_FOR: Readonly<Record<Language, Readonly<Record<string, string>>>> = {
  en: {
    '%': 'percent',
    'per cent': 'percent',
    '°f': 'fahrenheit',
    '° f': 'fahrenheit',
    'degrees f': 'degrees fahrenheit',
    '°c': 'celsius',
    '° c': 'celsius',
    'degrees c': 'degrees celsius',
    centigrade: 'celsius',
    mm: 'millimeters',
    cm: 'centimeters',
    mills: 'mils',
    mill: 'mil',
    thou: 'mils',
    o: 'oh',
    negative: 'minus',
    'to the foot': 'per foot',
    'coat number': 'coat',
    '1 st': 'first',
    '2 nd': 'second',
    '3 rd': 'third',
    'film thickness': 'film',
    'relative humidity': 'humidity',
    'air temp': 'air temperature',
    'surface temp': 'surface temperature',
    "that's": 'that is',
    'scratch that': 'that is wrong',
  },
  es: {
    '%': 'por ciento',
    porciento: 'por ciento',
    '°f': 'fahrenheit',
    '° f': 'fahrenheit',
    'grados f': 'fahrenheit',
    '°c': 'celsius',
    '° c': 'celsius',
    'grados c': 'celsius',
    mm: 'milimetros',
    cm: 'centimetros',
    milipulgadas: 'mils',
    capa: 'mano',
    'mano numero': 'mano',
    'capa numero': 'mano',
    'espesor humedo': 'pelicula humeda',
    'espesor seco': 'pelicula seca',
    'borra eso': 'eso no es',
  },
};

/** Fractions written as one character. */
const ONE_CHARACTER: Readonly<Record<string, string>> = {
  '¼': '1/4',
  '½': '1/2',
  '¾': '3/4',
  '⅛': '1/8',
  '⅜': '3/8',
  '⅝': '5/8',
  '⅞': '7/8',
};

/**
 * Words in lower case without accents, hyphens and marks: what recognisers give and people type. A number in figures is one word, with its
 * sign, its decimals or as a fraction; a comma between two of them is a word too, so that they are not one number. Whatever else is written
 * into a word (`~22`, `22-24`) stays there, as a word that nobody says. Empty for none.
 */
export function wordsOf(text: string): readonly string[] {
  const parts = bare(text)
    .replaceAll(/[¼½¾⅛⅜⅝⅞]/g, (one) => ` ${ONE_CHARACTER[one]!} `)
    .split(/\s+/);
  return parts.flatMap((part, i) => {
    const core = part.replace(/^[¿¡("'«“]+/, '').replace(/[.,;:!?)"'»”]+$/, '');
    if (core === '') return [];
    const [, number, unit = ''] = /^(-?\.?\d(?:[\d.,/:-]*\d)?)([%°\p{L}]*)$/u.exec(core) ?? [];
    if (number === undefined) return /^\p{L}/u.test(core) ? core.split(/(?<=\p{L})-(?=\p{L})/u) : [core];
    const parted = unit === '' && part.length > core.length && /^[\d.-]/.test(parts[i + 1] ?? '');
    return [number, ...(unit === '' ? [] : [unit]), ...(parted ? [','] : [])];
  });
}

/** Words, each that stands for others as those. */
export function plainWords(text: string, language: Language): readonly string[] {
  const words = wordsOf(text);
  const plain: string[] = [];
  for (let at = 0; at < words.length;) {
    const taken = [3, 2, 1].find((n) => Object.hasOwn(STANDS_FOR[language], words.slice(at, at + n).join(' '))) ?? 0;
    if (taken === 0) plain.push(words[at]!);
    else plain.push(...STANDS_FOR[language][words.slice(at, at + taken).join(' ')]!.split(' '));
    at += Math.max(taken, 1);
  }
  return plain;
}

/** In lower case, without accents, and with one kind of dash and apostrophe. */
function bare(text: string): string {
  const plain = text.normalize('NFD').replaceAll(/\p{M}/gu, '').toLowerCase();
  return plain.replaceAll(/[\u2010-\u2015\u2212]/g, '-').replaceAll('\u2019', "'");
}
