import { inchDecimal } from '#lib/measure/inch.ts';
import { exampleCombMil, exampleCombUm } from '#lib/trade/comb.ts';
import type { Listening, SpokenDraft } from '#lib/voice/draft.ts';
import { numberSayings, numbersAt, wholeSayings } from '#lib/voice/number-words.ts';
import { parse } from '#lib/voice/parse.ts';
import { plausible } from '#lib/voice/plausible.ts';
import { sayings, valueSayings } from '#lib/voice/say.ts';
import {
  ACT_WORDS,
  COMMAND_WORDS,
  MEASURE_WORDS,
  STEP_WORDS,
  UNIT_WORDS,
  wordsOf,
  type Command,
  type Language,
  type SpokenMeasure,
  type SpokenStep,
  type SpokenUnit,
} from '#lib/voice/vocabulary.ts';
import { readBack } from '#lib/words/number.ts';
import { expect, test } from 'vitest';

const LANGUAGES = ['en', 'es'] as const;
const UNITS = Object.keys(UNIT_WORDS) as SpokenUnit[];
const MEASURES = Object.keys(MEASURE_WORDS) as SpokenMeasure[];
const PLACES = {
  en: [
    { id: 'north', name: 'North wall' },
    { id: 'floor', name: 'Shower floor' },
  ],
  es: [
    { id: 'north', name: 'Pared norte' },
    { id: 'floor', name: 'Piso de la ducha' },
  ],
};
const all = (language: Language): Listening => ({ places: PLACES[language], units: UNITS });
const NONE = { is: 'reading', coat: null, place: null, what: null, to: null } as const;

test.each<[words: string, language: Language, draft: Partial<SpokenDraft> | string]>([
  ['coat two, north wall, two two mils', 'en', { coat: 2, place: 'north', value: '22', unit: 'mil' }],
  ['north wall coat two twenty two mils', 'en', { coat: 2, place: 'north', value: '22', unit: 'mil' }],
  // One word says a coat, so there is one way to hear this.
  ['coat two two two mils', 'en', { coat: 2, value: '22', unit: 'mil' }],
  ['Two and a quarter inches', 'en', { value: '2.25', unit: 'in' }],
  ['seven eighths inch', 'en', { value: '0.875', unit: 'in' }],
  ['half an inch', 'en', { value: '0.5', unit: 'in' }],
  ['a half inch per foot', 'en', { value: '0.5', unit: 'in/ft' }],
  ['minus five degrees fahrenheit', 'en', { value: '-5', unit: 'F' }],
  ['four oh five microns', 'en', { value: '405', unit: 'um' }],
  ['wet film two point five mils', 'en', { what: 'wet-film', value: '2.5', unit: 'mil' }],
  ['wet at twenty-six, dry at twenty-eight mils', 'en', { value: '26', to: '28', unit: 'mil' }],
  ['wet at twenty-eight, dry at twenty-six mils', 'en', 'other-words'],
  ['one hundred and five microns', 'en', { value: '105', unit: 'um' }],
  // A number alone has no unit, degrees have no scale, and seventy what?
  ['two two', 'en', 'no-unit'],
  ['seventy two degrees', 'en', 'other-words'],
  ['two feet', 'en', 'other-words'],
  // 220, 2.20 or 2 and 20: nobody can tell.
  ['two twenty mils', 'en', 'other-words'],
  ['zero five mils', 'en', 'other-words'],
  ['nine eighths inch', 'en', 'other-words'],
  ['two thirds of an inch', 'en', 'other-words'],
  ['two two mils please', 'en', 'other-words'],
  ['coat two coat three two two mils', 'en', 'other-words'],
  ['coat twelve two two mils', 'en', 'other-words'],
  ['the roof two two mils', 'en', 'other-words'],
  ['right', 'en', 'other-words'],
  ['that is right', 'en', { is: 'command', command: 'right' }],
  ['begin liquid coat', 'en', { is: 'step', act: 'begin', step: 'liquid-coat' }],
  ['', 'en', 'nothing'],
  // As other recognisers write numbers and units.
  ['Coat 2 north wall 22 mils', 'en', { coat: 2, place: 'north', value: '22', unit: 'mil' }],
  ['2 2 mils', 'en', { value: '22', unit: 'mil' }],
  ['2 1/4 inches', 'en', { value: '2.25', unit: 'in' }],
  ['2 and 7/8 inches', 'en', { value: '2.875', unit: 'in' }],
  ['7/8 inch', 'en', { value: '0.875', unit: 'in' }],
  ['2.25 inches', 'en', { value: '2.25', unit: 'in' }],
  ['-5°C', 'en', { value: '-5', unit: 'C' }],
  ['minus 5 degrees celsius', 'en', { value: '-5', unit: 'C' }],
  ['minus -5 degrees celsius', 'en', 'other-words'],
  ['45%', 'en', { value: '45', unit: '%' }],
  ['wet at 26 dry at 28 mils', 'en', { value: '26', to: '28', unit: 'mil' }],
  // A thousand and two hundred, or 1.2: nobody can tell; nor what 22 to 24 is, or 05.
  ['1,200 microns', 'en', 'other-words'],
  ['1.200 micras', 'es', 'other-words'],
  ['22-24 mils', 'en', 'other-words'],
  ['05 mils', 'en', 'other-words'],
  ['9/8 inch', 'en', 'other-words'],
  ['22 mil', 'es', 'no-unit'],
  ['22 mils', 'es', { value: '22', unit: 'mil' }],
  ['2,5 milímetros', 'es', { value: '2.5', unit: 'mm' }],
  ['-5 grados celsius', 'es', { value: '-5', unit: 'C' }],
  ['quince mils', 'es', { value: '15', unit: 'mil' }],
  ['quince milésimas', 'es', { value: '15', unit: 'mil' }],
  // Fifteen thousand of nothing, and never 15 mil.
  ['quince mil', 'es', 'no-unit'],
  ['cinco mil', 'es', 'no-unit'],
  ['mil doscientas micras', 'es', { value: '1200', unit: 'um' }],
  ['mano dos, pared norte, dos dos mils', 'es', { coat: 2, place: 'north', value: '22', unit: 'mil' }],
  ['dos pulgadas y media', 'es', { value: '2.5', unit: 'in' }],
  ['dos y tres cuartos pulgadas', 'es', { value: '2.75', unit: 'in' }],
  ['treinta y un cuarto pulgadas', 'es', { value: '30.25', unit: 'in' }],
  ['treinta y una pulgadas', 'es', { value: '31', unit: 'in' }],
  ['una pulgada y un cuarto por pie', 'es', { value: '1.25', unit: 'in/ft' }],
  ['uno coma cinco milímetros', 'es', { value: '1.5', unit: 'mm' }],
  ['uno punto cinco milímetros', 'es', { value: '1.5', unit: 'mm' }],
  // A quart is a cuarto of a gallon, and three quarters of one are three of them.
  ['tres cuartos de galón', 'es', { value: '3', unit: 'qt' }],
  ['veintiún grados', 'es', 'other-words'],
  ['eso es correcto', 'es', { is: 'command', command: 'right' }],
])('%s (%s)', (words, language, expected) => {
  const read = parse(words, all(language), language);
  if (typeof expected === 'string') expect(read).toEqual({ ok: false, fault: expected });
  else expect(read).toEqual({ ok: true, value: 'is' in expected ? expected : { ...NONE, ...expected } });
});

test('words that could mean two places, or a place and a measure, are no draft', () => {
  const twice = { places: [...PLACES.en, { id: 'other', name: 'north wall' }], units: UNITS };
  expect(parse('north wall two two mils', twice, 'en')).toEqual({ ok: false, fault: 'two-ways' });
  const called = { places: [{ id: 'odd', name: 'Dry film' }], units: UNITS };
  expect(parse('dry film two two mils', called, 'en')).toEqual({ ok: false, fault: 'two-ways' });
});

test('a place is known by its number in words and in figures, and where the number may be the value, it is asked', () => {
  const niches = {
    places: [
      { id: 'one', name: 'Niche 1' },
      { id: 'two', name: 'Niche two' },
    ],
    units: UNITS,
  };
  for (const said of ['niche one two two mils', 'niche 1 22 mils', 'Niche 1, 22 mils', 'two two mils in the niche one'])
    expect([said, parse(said, niches, 'en')]).toEqual([said, { ok: true, value: { ...NONE, place: 'one', value: '22', unit: 'mil' } }]);
  expect(parse('niche 2 22 mils', niches, 'en')).toEqual({ ok: true, value: { ...NONE, place: 'two', value: '22', unit: 'mil' } });
  const bare = { places: [...niches.places, { id: 'bare', name: 'Niche' }], units: UNITS };
  expect(parse('niche one two two mils', bare, 'en')).toEqual({ ok: false, fault: 'two-ways' });
});

/** Every value that is listened for, of every measure and unit, and the teeth of both gauges. */
const VALUES = [
  ...MEASURES.flatMap((what) =>
    UNITS.flatMap((unit) => {
      const numbers = plausible(what, unit);
      const tenths = numbers?.tenths === true ? numbers.values.flatMap((value) => ['0', '5', '7'].map((tenth) => `${value}.${tenth}`)) : [];
      return [...(numbers?.values ?? []), ...tenths].map((value) => ({ value, unit }));
    }),
  ),
  ...exampleCombMil().teeth.map((value) => ({ value, unit: 'mil' as const })),
  ...exampleCombUm().teeth.map((value) => ({ value, unit: 'um' as const })),
];
const DIFFERENT = [...new Map(VALUES.map((one) => [`${one.value} ${one.unit}`, one])).values()];

test.each(LANGUAGES)('every value is understood in every way it is said, and as it is read back (%s)', (language) => {
  const wrong = DIFFERENT.flatMap(({ value, unit }) =>
    [...valueSayings(value, unit, language), readBack({ value, unit }, language)].flatMap((said) => {
      const read = parse(said, all(language), language);
      const same = read.ok && read.value.is === 'reading' && Number(read.value.value) === Number(value) && read.value.unit === unit;
      return same ? [] : [`${said}: ${JSON.stringify(read)}, not ${value} ${unit}`];
    }),
  );
  expect(wrong).toEqual([]);
  expect(DIFFERENT.length).toBeGreaterThan(2000);
});

test.each(LANGUAGES)('every comb reading is understood as it is read back (%s)', (language) => {
  for (const { unit, teeth } of [exampleCombMil(), exampleCombUm()]) {
    for (const [i, value] of teeth.slice(0, -1).entries()) {
      const said = { value, to: teeth[i + 1]!, unit };
      expect(parse(readBack(said, language), all(language), language)).toEqual({ ok: true, value: { ...NONE, ...said } });
    }
  }
});

/** One draft of every kind of phrase. */
const PHRASES: readonly SpokenDraft[] = [
  ...(Object.keys(COMMAND_WORDS) as Command[]).map((command) => ({ is: 'command' as const, command })),
  ...(Object.keys(STEP_WORDS) as SpokenStep[]).flatMap((step) =>
    (Object.keys(ACT_WORDS) as ('begin' | 'end')[]).map((act) => ({ is: 'step' as const, act, step })),
  ),
  ...MEASURES.flatMap((what) =>
    UNITS.flatMap((unit) => {
      const value = plausible(what, unit)?.values.at(-2);
      return value === undefined
        ? []
        : [
            { ...NONE, what, value, unit },
            { ...NONE, coat: 3, place: 'floor', what, value, unit },
          ];
    }),
  ),
  { ...NONE, coat: 9, place: 'north', value: '26', to: '28', unit: 'mil' },
  { ...NONE, place: 'north', value: '-5', unit: 'C' },
];

test.each(LANGUAGES)('every kind of phrase is understood in every way it is said (%s)', (language) => {
  for (const draft of PHRASES) {
    const said = sayings(draft, PLACES[language], language);
    expect(said.length).toBeGreaterThan(0);
    for (const one of said) expect([one, parse(one, all(language), language)]).toEqual([one, { ok: true, value: draft }]);
  }
});

test.each(LANGUAGES)(
  'every whole number to 5000 and every sixteenth to 24 is found in each way it is said, and no other there (%s)',
  (language) => {
    const ends = (said: string) => {
      const words = wordsOf(said);
      return [...new Set(numbersAt(words, 0, language).flatMap(({ value, end }) => (end === words.length ? [value] : [])))];
    };
    const wrong = (sayings: readonly string[], value: string) =>
      sayings.map((said) => [said, ...ends(said)]).filter((found) => found.length !== 2 || found[1] !== value);
    const wholes = Array.from({ length: 5001 }, (_, n) => wrong(wholeSayings(n, language), String(n)));
    const parts = Array.from({ length: 24 * 16 }, (_, n) => inchDecimal(n + 1)).map((value) =>
      wrong(numberSayings(value, language, true), value),
    );
    // Asked once of all of them: an assertion for each takes longer than the work.
    expect([...wholes, ...parts].flat()).toEqual([]);
  },
);

test.each(LANGUAGES)('a unit the field does not take is never accepted, whatever the value (%s)', (language) => {
  for (const taken of UNITS) {
    const listening = { places: PLACES[language], units: [taken] };
    const others = DIFFERENT.filter(({ unit }, i) => i % 28 === 0 && unit !== taken);
    const answers = others.flatMap(({ value, unit }) =>
      valueSayings(value, unit, language).map((said) => {
        const read = parse(said, listening, language);
        return read.ok ? said : read.fault;
      }),
    );
    expect([...new Set(answers)]).toEqual(['other-unit']);
  }
});
