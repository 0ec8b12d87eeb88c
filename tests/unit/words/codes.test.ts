import { COVER_ORDER, CORNERS, LAYERS } from '#lib/job/systems.ts';
import { PROOF_RULES } from '#lib/job/proof-rules.ts';
import { KINDS, SCHEMAS, type Kind } from '#lib/record/kinds.ts';
import { Limit, Material, PLACES, PROOF_LEVELS, Room, STEPS, SUBSTRATES, Surface, SYSTEMS } from '#lib/record/kinds/setup.ts';
import { DISTANCES, Shot, WAITS } from '#lib/record/kinds/work.ts';
import { MEASURES, Reading, SCALES } from '#lib/record/kinds/reading.ts';
import type { Verdict } from '#lib/trade/limits.ts';
import * as codes from '#lib/words/codes.ts';
import * as fields from '#lib/words/fields.ts';
import { expect, test } from 'vitest';

type Say = (facts: object, options: { locale: 'en' | 'es' }) => string;
type Words = Readonly<Record<string, Say>>;

/** The compiler wants a new verdict here. */
const VERDICTS = Object.keys({ within: 0, outside: 0, 'not-proven': 0, 'no-limit': 0 } satisfies Record<Verdict, 0>);
const optionsOf = (schema: { readonly options: readonly string[] }) => schema.options;
const within = (schema: { readonly def: { readonly innerType: { readonly options: readonly string[] } } }) => schema.def.innerType.options;

const TABLES: [of: string, words: Words, codes: readonly string[]][] = [
  ['steps', codes.STEP, STEPS],
  ['layers', codes.LAYER, LAYERS],
  ['measures', codes.MEASURE, MEASURES],
  ['waits', codes.WAIT, WAITS],
  ['places', codes.PLACE, PLACES],
  ['systems', codes.SYSTEM, SYSTEMS],
  ['substrates', codes.SUBSTRATE, SUBSTRATES],
  ['materials', codes.MATERIAL, optionsOf(Material.shape.what)],
  ['drains', codes.DRAIN, within(Room.shape.drain)],
  ['what is known', codes.KNOWN, within(Surface.shape.outside)],
  ['scales of moisture meters', codes.SCALE, SCALES],
  ['verdicts', codes.VERDICT, VERDICTS],
  ['sources of a limit', codes.SOURCE, optionsOf(Limit.shape.source.shape.kind)],
  ['levels of proof', codes.PROOF_LEVEL, PROOF_LEVELS],
  ['items owed', codes.OWED, PROOF_RULES.map(({ id }) => id)],
  ['where a photo is from', codes.FROM, optionsOf(Shot.shape.from)],
  ['distances of a photo', codes.DISTANCE, DISTANCES],
  ['how a reading was taken', codes.HOW, optionsOf(Reading.shape.how)],
  ['kinds of entry', codes.KIND, [...KINDS, 'unknown']],
];

/** Labels that are the same in both languages. */
const SAME = ['No', 'Material', 'PDF'];

test.each(TABLES)('%s: each code has a word of its own in both languages, and no word is left over', (_, words, expected) => {
  expect(Object.keys(words).toSorted()).toEqual([...expected].toSorted());
  for (const locale of ['en', 'es'] as const) {
    const said = Object.values(words).map((say) => say({}, { locale }));
    expect(said.filter((word, i) => said.indexOf(word) !== i)).toEqual([]);
  }
  expectLabels(words);
});

const REASONS = [...PROOF_RULES, ...COVER_ORDER, ...Object.values(CORNERS)].map(({ reason }) => reason);

test('each reason of the proof rules, the cover order and the corners is a sentence in both languages, and none is left over', () => {
  expect(Object.keys(codes.REASON).toSorted()).toEqual([...new Set(REASONS)].toSorted());
  for (const say of Object.values(codes.REASON)) {
    const [en, es] = (['en', 'es'] as const).map((locale) => say({}, { locale }));
    expect(en).not.toBe(es);
    for (const text of [en, es]) expect(text).toMatch(/^\p{Lu}[^{}!]+\.$/u);
  }
});

test.each([...STEPS])('the caution of %s, if it has one, is in sentences, in both languages', (step) => {
  const say = codes.CAUTION[step];
  const said = say === null ? [] : (['en', 'es'] as const).map((locale) => say({}, { locale }));
  expect(new Set(said).size).toBe(said.length);
  for (const text of said) expect(text).toMatch(/^\p{Lu}[^{}!]+\.$/u);
});

// The rest is read from the schemas themselves: a new kind, field or code fails here until it has its word.

/** Enums of fields that have a map of their own above, by the field's name, or kind and name. */
const OWN_MAP: readonly string[] = [
  'step', 'steps', 'place', 'places', 'substrate', 'proof', 'scale', 'from', 'distance', 'how', 'unit',
  'limit.what', 'reading.what', 'wait.what', 'material.what',
]; // prettier-ignore

const FIELDS = KINDS.flatMap((kind) => fieldsIn(kind, SCHEMAS[kind].shape));
/** Fields that are said without being fields of a schema: those of a plan's pieces, and where a mark on the floor lies. */
const SAID_BESIDES = ['piece', 'cutLength', 'into'];

/** The fields of an entry, and those of each thing in its lists. */
function fieldsIn(kind: Kind, shape: object): [Kind, string, unknown][] {
  return Object.entries(shape).flatMap(([field, schema]: [string, unknown]): [Kind, string, unknown][] => {
    const { element } = (schema as { def: { element?: { shape?: object } } }).def;
    // Heads and files have their own way of being said.
    const isList = kind === 'drawing' && element?.shape !== undefined;
    return [[kind, field, schema], ...(isList ? fieldsIn(kind, element.shape!) : [])];
  });
}

/** The codes a schema lets a field say, through `optional`, `nullable` and lists. */
function codesOf(schema: unknown): readonly string[] {
  const { def, options } = schema as { def: { type: string; innerType?: unknown; element?: unknown }; options?: readonly string[] };
  if (def.type === 'enum') return options ?? [];
  const inner = def.innerType ?? def.element;
  return inner === undefined ? [] : codesOf(inner);
}

test('each code that a field may say has its word', () => {
  const wanted = FIELDS.filter(([kind, field]) => !OWN_MAP.includes(field) && !OWN_MAP.includes(`${kind}.${field}`));
  const keys = wanted.flatMap(([, field, schema]) => codesOf(schema).map((code) => `${field}.${code}`));
  expect(keys.length).toBeGreaterThan(50);
  expect(Object.keys(fields.CHOICE).toSorted()).toEqual([...new Set(keys)].toSorted());
  expectLabels(fields.CHOICE);
});

test('codes of one field do not share a word', () => {
  for (const locale of ['en', 'es'] as const) {
    const said = Object.entries(fields.CHOICE).map(([key, say]) => `${key.split('.', 1)[0]}: ${say({}, { locale })}`);
    expect(said.filter((word, i) => said.indexOf(word) !== i)).toEqual([]);
  }
});

test('each field of each kind has its label, and none is left over', () => {
  const unsaid = FIELDS.filter(([kind, field]) => fields.fieldWord(kind, field) === null).map(([kind, field]) => `${kind}.${field}`);
  expect(unsaid).toEqual([]);
  const used = new Set(
    FIELDS.flatMap(([kind, field]) => (Object.hasOwn(fields.FIELD, `${kind}.${field}`) ? [`${kind}.${field}`] : [field])),
  );
  expect(Object.keys(fields.FIELD).filter((key) => !used.has(key) && !SAID_BESIDES.includes(key))).toEqual([]);
  expectLabels(fields.FIELD);
});

test('one field name may mean two things in two kinds', () => {
  expect(fields.fieldWord('mix', 'water')?.({}, { locale: 'en' })).toBe('Water');
  expect(fields.fieldWord('reading', 'water')?.({}, { locale: 'en' })).toBe('Which water');
  expect(fields.fieldWord('reading', 'fromTheFuture')).toBeNull();
  expect(fields.fieldWord('reading', 'toString')).toBeNull();
});

/** Labels: no full stop after them, nothing left to fill in, and in each language its own. */
function expectLabels(words: Words): void {
  for (const say of Object.values(words)) {
    const [en, es] = (['en', 'es'] as const).map((locale) => say({}, { locale })) as [string, string];
    for (const word of [en, es]) expect(word).toMatch(/^\p{Lu}[^{}]*[^{}.]$/u);
    if (!SAME.includes(en)) expect(es).not.toBe(en);
  }
}
