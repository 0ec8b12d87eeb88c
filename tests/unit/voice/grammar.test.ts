import { exampleCombMil, exampleCombUm } from '#lib/trade/comb.ts';
import { grammarOf, type Expected } from '#lib/voice/grammar.ts';
import { parse } from '#lib/voice/parse.ts';
import { plausible } from '#lib/voice/plausible.ts';
import { PRONUNCIATIONS, SOUNDS } from '#lib/voice/pronunciations.ts';
import { sayings } from '#lib/voice/say.ts';
import {
  COMMAND_WORDS,
  MEASURE_WORDS,
  STEP_WORDS,
  UNIT_WORDS,
  type Command,
  type Sayings,
  type SpokenMeasure,
  type SpokenUnit,
} from '#lib/voice/vocabulary.ts';
import { expect, test } from 'vitest';

const UNITS = Object.keys(UNIT_WORDS) as SpokenUnit[];
const PLACES = [
  { id: 'north', name: 'North wall' },
  { id: 'odd', name: "Grandma's alcove" },
  { id: 'niche', name: 'Niche 1' },
];
const INCHES = { what: 'overlap' as const, numbers: [plausible('overlap', 'in')!] };
const EXPECTED: Expected = {
  language: 'en',
  field: { what: 'wet-film', numbers: [{ unit: 'mil', values: exampleCombMil().teeth, tenths: false }] },
  places: PLACES,
  coats: true,
  commands: ['right', 'undo'],
  steps: [],
  except: [],
  other: null,
  knows: (word) => PRONUNCIATIONS.has(word),
};

/** Whether a JSGF grammar takes a phrase: an independent reader of the small part of the format that is used. */
function takes(grammar: string, phrase: string): boolean {
  const rules = new Map(
    Array.from(grammar.matchAll(/^(?:public )?<(\w+)> = (.*);$/gm), ([, name, body]) => [
      name!,
      body!.match(/<\w+>|\/[^/]+\/|[()[\]|]|[^\s()[\]|]+/g)!,
    ]),
  );
  const words = phrase.split(' ');
  const alternatives = (tokens: readonly string[], at: number, from: readonly number[]): [next: number, ends: number[]] => {
    const ends: number[] = [];
    let now = [...from];
    for (;;) {
      const token = tokens[at];
      if (token === undefined || token === ')' || token === ']') return [at, [...ends, ...now]];
      at++;
      if (token === '|') {
        ends.push(...now);
        now = [...from];
      } else if (token === '(' || token === '[') {
        const [next, inside] = alternatives(tokens, at, now);
        at = next + 1;
        now = [...new Set(token === '[' ? [...now, ...inside] : inside)];
      } else if (token === '<NULL>' || token.startsWith('/')) continue;
      else if (token.startsWith('<')) now = now.length === 0 ? [] : alternatives(rules.get(token.slice(1, -1))!, 0, now)[1];
      else now = now.flatMap((i) => (words[i] === token ? [i + 1] : []));
    }
  };
  return alternatives(rules.get('all')!, 0, [0])[1].includes(words.length);
}

const known = (saying: string) => saying.split(' ').every((word) => PRONUNCIATIONS.has(word));

test.each<[phrase: string, taken: boolean]>([
  ['two two mils', true],
  ['twenty two mils', true],
  ['coat two north wall wet film two two mils', true],
  ['north wall two point five mils', true],
  ['that is right', true],
  ['second coat niche one two two mils', true],
  // No tooth of the gauge, no command of the moment, no place that can be sounded out; other units are heard, to be refused.
  ['two three mils', false],
  ['voice note', false],
  ["grandma's alcove two two mils", false],
  ['two two millimeters', true],
  ['two two', false],
])('the grammar takes "%s": %s', (phrase, taken) => {
  expect(takes(grammarOf(EXPECTED)!, phrase)).toBe(taken);
});

test('of every measure and unit, each value that is plausible is listened for as it is said, and left out where it was heard before', () => {
  const fields = (Object.keys(MEASURE_WORDS) as SpokenMeasure[]).flatMap((what) =>
    UNITS.flatMap((unit) => plausible(what, unit) ?? []).map((numbers) => ({ what, numbers })),
  );
  expect(fields.length).toBeGreaterThan(25);
  for (const { what, numbers } of fields) {
    const field = { what, numbers: [numbers] };
    const value = numbers.values.at(-3)!;
    const grammar = grammarOf({ ...EXPECTED, field })!;
    const without = grammarOf({ ...EXPECTED, field, except: [{ value, unit: numbers.unit }] })!;
    const said = sayings({ is: 'reading', coat: null, place: null, what, value, to: null, unit: numbers.unit }, [], 'en').filter(
      // The decimals of a fraction are not listened for.
      (one) => known(one) && !(one.includes(' point ') && value.includes('.')),
    );
    expect(said.length).toBeGreaterThan(0);
    for (const one of said) expect([one, takes(grammar, one), takes(without, one)]).toEqual([one, true, false]);
  }
});

test.each<[except: readonly string[], taken: readonly string[], left: readonly string[]]>([
  [
    ['22.5'],
    ['two two point four mils', 'two two mils', 'two one point five mils'],
    ['two two point five mils', 'twenty two point five mils'],
  ],
  // Twenty-two point zero is twenty-two.
  [['22'], ['two two point five mils', 'two one mils'], ['two two mils', 'twenty two mils', 'twenty two point zero mils']],
  [
    ['22.5', '22', '80'],
    ['two two point four mils', 'eight zero point five mils'],
    ['two two mils', 'two two point five mils', 'eighty mils'],
  ],
  // What else it was lies in the unit of the field.
  [['80'], ['two two mils'], ['two two microns']],
])('without %j it takes %j, and not %j', (except, taken, left) => {
  const field = { what: 'dry-film' as const, numbers: [plausible('dry-film', 'mil')!] };
  const grammar = grammarOf({ ...EXPECTED, field, except: except.map((value) => ({ value, unit: 'mil' })) })!;
  const takesOf = (some: readonly string[]) => some.map((phrase) => [phrase, takes(grammar, phrase)]);
  expect(takesOf(taken)).toEqual(taken.map((phrase) => [phrase, true]));
  expect(takesOf(left)).toEqual(left.map((phrase) => [phrase, false]));
});

test('what the grammar takes is understood, or refused for its unit', () => {
  for (const phrase of ['coat two north wall wet film two two mils', 'two two millimeters', 'twenty two inches', 'undo']) {
    expect(takes(grammarOf(EXPECTED)!, phrase)).toBe(true);
    expect(parse(phrase, { places: PLACES, units: UNITS }, 'en').ok).toBe(true);
  }
});

test('other talk is a loop of the engine’s sounds, each at its weight', () => {
  const grammar = grammarOf({ ...EXPECTED, other: { sounds: SOUNDS, weight: 0.25 } })!;
  expect(grammar).toContain('<more> = /1.0/ <NULL> | /0.25/ <other>;');
  expect(takes(grammar, 'xR xAY xT')).toBe(true);
});

test('inches are not listened for digit by digit: that is what is left of a fraction', () => {
  const grammar = grammarOf({ ...EXPECTED, field: INCHES })!;
  expect(['twelve inches', 'one two inches', 'one and seven eighths inches'].map((said) => takes(grammar, said))).toEqual([
    true,
    false,
    true,
  ]);
});

test('nothing expected, no grammar', () => {
  expect(grammarOf({ ...EXPECTED, field: null, commands: [] })).toBeNull();
});

test('both gauges, in the language of the other words too', () => {
  const field = { what: 'wet-film' as const, numbers: [{ unit: 'um' as const, values: exampleCombUm().teeth, tenths: false }] };
  const grammar = grammarOf({ ...EXPECTED, language: 'es', field, knows: () => true })!;
  expect(takes(grammar, 'mano dos north wall quinientas micras')).toBe(true);
});

test('every English word of the table sounds in the sounds of the model, save spellings of others', () => {
  const tables: readonly Readonly<Record<string, Sayings>>[] = [UNIT_WORDS, MEASURE_WORDS, STEP_WORDS, COMMAND_WORDS];
  const words = tables.flatMap((table) => Object.values(table).flatMap(({ en }) => [...en]));
  const silent = [...new Set(words.flatMap((saying) => saying.split(' ')))].filter((word) => !PRONUNCIATIONS.has(word));
  expect(silent.sort()).toEqual(
    'centimetre centimetres litre litres metre micrometers micrometre micrometres millimetre millimetres thousandth thousandths'.split(' '),
  );
  for (const [word, ways] of PRONUNCIATIONS)
    for (const way of ways) expect([word, way.split(' ').filter((sound) => !SOUNDS.includes(sound))]).toEqual([word, []]);
  for (const command of Object.keys(COMMAND_WORDS) as Command[]) expect(COMMAND_WORDS[command].en.every(known)).toBe(true);
});
