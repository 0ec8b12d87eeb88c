import type { AnyUnit } from '../measure/dimension.ts';

export type Language = 'en' | 'es';

/** How one thing is said, in lower case and without accents. The first way is the one said back. */
export type Sayings = Readonly<Record<Language, readonly [string, ...string[]]>>;

/**
 * The one table of words. The recogniser's grammar, the parser, the help page and what is said back all come from it.
 *
 * Spanish `mil` is a thousand and never the unit: `quince mils` is said as the crews say it, `quince milesimas` as the dictionary does.
 * Degrees have no default scale, and a number alone has no unit.
 */
export const UNIT_WORDS = {
  in: { en: ['inches', 'inch'], es: ['pulgadas', 'pulgada'] },
  mm: { en: ['millimeters', 'millimeter', 'millimetres', 'millimetre'], es: ['milimetros', 'milimetro'] },
  cm: { en: ['centimeters', 'centimeter', 'centimetres', 'centimetre'], es: ['centimetros', 'centimetro'] },
  mil: {
    en: ['mils', 'mil', 'thousandths of an inch', 'thousandth of an inch', 'thousandths'],
    es: ['mils', 'milesimas', 'milesima', 'milesimas de pulgada', 'milesima de pulgada'],
  },
  um: { en: ['microns', 'micron', 'micrometres', 'micrometre', 'micrometers'], es: ['micras', 'micra', 'micrometros', 'micrometro'] },
  F: {
    en: ['degrees fahrenheit', 'degree fahrenheit', 'fahrenheit'],
    es: ['grados fahrenheit', 'grado fahrenheit', 'fahrenheit'],
  },
  C: { en: ['degrees celsius', 'degree celsius', 'celsius'], es: ['grados celsius', 'grado celsius', 'celsius'] },
  '%': { en: ['percent'], es: ['por ciento'] },
  'in/ft': { en: ['inches per foot', 'inch per foot'], es: ['pulgadas por pie', 'pulgada por pie'] },
  'mm/m': {
    en: ['millimeters per meter', 'millimeter per meter', 'millimetres per metre', 'millimetre per metre'],
    es: ['milimetros por metro', 'milimetro por metro'],
  },
  gal: { en: ['gallons', 'gallon'], es: ['galones', 'galon'] },
  qt: { en: ['quarts', 'quart'], es: ['cuartos de galon', 'cuarto de galon'] },
  L: { en: ['liters', 'liter', 'litres', 'litre'], es: ['litros', 'litro'] },
} as const satisfies Partial<Record<AnyUnit, Sayings>>;

/** The units a value can be spoken in. */
export type SpokenUnit = keyof typeof UNIT_WORDS;

/** What is read in a step, as it may be named before its value. */
export const MEASURE_WORDS = {
  overlap: { en: ['overlap'], es: ['solape'] },
  'band-lap': { en: ['band overlap'], es: ['solape de banda'] },
  'onto-band': { en: ['liquid onto band'], es: ['liquido sobre banda'] },
  'wet-film': { en: ['wet film', 'wet'], es: ['pelicula humeda', 'humeda'] },
  'dry-film': { en: ['dry film', 'dry'], es: ['pelicula seca', 'seca'] },
  'flood-depth': { en: ['threshold water'], es: ['agua en umbral'] },
  'flood-level': { en: ['water level'], es: ['nivel del agua'] },
  upturn: { en: ['upturn'], es: ['remonte'] },
  slope: { en: ['slope'], es: ['pendiente'] },
  flatness: { en: ['out of flat'], es: ['desvio'] },
  'curb-height': { en: ['curb height'], es: ['altura del bordillo'] },
  'air-temperature': { en: ['air temperature', 'air'], es: ['temperatura del aire', 'aire'] },
  'surface-temperature': { en: ['surface temperature', 'surface'], es: ['temperatura de superficie', 'superficie'] },
  humidity: { en: ['humidity'], es: ['humedad del aire'] },
  moisture: { en: ['moisture'], es: ['humedad de la base'] },
  'volume-used': { en: ['volume used'], es: ['volumen usado'] },
} as const satisfies Readonly<Record<string, Sayings>>;

export type SpokenMeasure = keyof typeof MEASURE_WORDS;

/** Steps and clocks that can be begun and ended. Begin and end, since recognisers take start for stop. */
export const STEP_WORDS = {
  behind: { en: ['behind the board'], es: ['detras del tablero'] },
  survey: { en: ['survey'], es: ['revision'] },
  scrape: { en: ['scrape and clean'], es: ['raspar y limpiar'] },
  'lay-liner': { en: ['lay the liner'], es: ['tender la membrana'] },
  'set-tray': { en: ['set the tray'], es: ['asentar el plato'] },
  'pre-cut': { en: ['dry fit'], es: ['prueba en seco'] },
  'bond-sheets': { en: ['bond sheets'], es: ['pegar laminas'] },
  'band-seams': { en: ['band seams'], es: ['bandas en juntas'] },
  corners: { en: ['corner pieces'], es: ['piezas de esquina'] },
  'liquid-coat': { en: ['liquid coat'], es: ['mano de liquido'] },
  'flood-test': { en: ['flood test'], es: ['prueba de inundacion'] },
  protect: { en: ['protect'], es: ['proteger'] },
  check: { en: ['check before tile'], es: ['revision antes del azulejo'] },
  repair: { en: ['repair'], es: ['reparacion'] },
} as const satisfies Readonly<Record<string, Sayings>>;
export type SpokenStep = keyof typeof STEP_WORDS;

export const ACT_WORDS = {
  begin: { en: ['begin'], es: ['empezar'] },
  end: { en: ['end'], es: ['terminar'] },
} as const satisfies Readonly<Record<string, Sayings>>;

/** Said alone. One short word is too easily found in other talk to keep a value, so what keeps it is said in three. */
export const COMMAND_WORDS = {
  right: { en: ['that is right', 'yes that is right'], es: ['eso es correcto', 'si es correcto'] },
  wrong: { en: ['that is wrong', 'no that is wrong'], es: ['eso no es', 'no es correcto'] },
  undo: { en: ['undo the last one', 'undo'], es: ['deshacer la ultima', 'deshacer'] },
  note: { en: ['voice note', 'note'], es: ['nota de voz', 'nota'] },
  timers: { en: ['show the timers', 'timers'], es: ['ver los relojes', 'relojes'] },
} as const satisfies Readonly<Record<string, Sayings>>;
export type Command = keyof typeof COMMAND_WORDS;

/** Which coat comes before its number, 1 to 9; the two edges of a comb reading; the sign of a temperature. */
export const COAT_WORDS: Sayings = { en: ['coat'], es: ['mano'] };
export const WET_WORDS: Sayings = { en: ['wet at'], es: ['mojado en'] };
export const DRY_WORDS: Sayings = { en: ['dry at'], es: ['seco en'] };
export const MINUS_WORDS: Sayings = { en: ['minus'], es: ['menos'] };
export const POINT_WORDS: Sayings = { en: ['point'], es: ['coma', 'punto'] };
export const AND_WORDS: Sayings = { en: ['and'], es: ['y'] };

/** A fraction of one inch stands before these; a slope in inches before `PER_FOOT_WORDS`. */
export const OF_AN_INCH_WORDS: Sayings = { en: ['of an inch', 'an inch'], es: ['de pulgada'] };
export const PER_FOOT_WORDS: Sayings = { en: ['per foot'], es: ['por pie'] };

/** Units as other recognisers write them, that are never said. */
export const WRITTEN_UNITS: Readonly<Partial<Record<SpokenUnit, readonly string[]>>> = {
  '%': ['%'],
  F: ['°f'],
  C: ['°c'],
  mm: ['mm'],
};

/**
 * Words in lower case without accents, hyphens and marks: what recognisers give and people type. A number in figures is one word, with its
 * sign, its decimals or as a fraction. Empty for none.
 */
export function wordsOf(text: string): readonly string[] {
  const bare = text.normalize('NFD').replaceAll(/\p{M}/gu, '').replaceAll('−', '-').toLowerCase();
  return bare.match(/-?\d+(?:[.,]\d+)*(?:\/\d+)?|[\p{L}\p{N}'%°/]+/gu) ?? [];
}
