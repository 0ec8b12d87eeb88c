import { LAYERS, PROOF_RULES } from '#lib/job/systems.ts';
import { KINDS, Limit, PLACES, RunStop, Shot, STEPS, SYSTEMS } from '#lib/record/kinds.ts';
import { MEASURES, Reading } from '#lib/record/kinds/reading.ts';
import type { Verdict } from '#lib/trade/limits.ts';
import { CAUTION, FROM, HOW, KIND, LAYER, MEASURE, OWED, PLACE, SOURCE, STEP, SYSTEM, VERDICT } from '#lib/words/codes.ts';
import { expect, test } from 'vitest';

type Say = (facts: object, options: { locale: 'en' | 'es' }) => string;

/** The compiler wants a new verdict here. */
const VERDICTS = Object.keys({ within: 0, outside: 0, 'not-proven': 0, 'no-limit': 0 } satisfies Record<Verdict, 0>);
const optionsOf = (schema: { readonly options: readonly string[] }) => schema.options;

const TABLES: [of: string, words: Readonly<Record<string, Say>>, codes: readonly string[]][] = [
  ['steps', STEP, STEPS],
  ['layers', LAYER, LAYERS],
  ['measures', MEASURE, MEASURES],
  ['places', PLACE, PLACES],
  ['systems', SYSTEM, SYSTEMS],
  ['verdicts', VERDICT, VERDICTS],
  ['sources of a limit', SOURCE, optionsOf(Limit.shape.source.shape.kind)],
  ['items owed', OWED, PROOF_RULES.map(({ id }) => id)],
  ['where a photo is from', FROM, optionsOf(Shot.shape.from)],
  ['how a reading was taken', HOW, optionsOf(Reading.shape.how)],
  ['kinds of entry', KIND, [...KINDS, 'unknown']],
];

test.each(TABLES)('%s: each code has a word of its own in both languages, and no word is left over', (_, words, codes) => {
  expect(Object.keys(words).toSorted()).toEqual([...codes].toSorted());
  for (const locale of ['en', 'es'] as const) {
    const said = Object.values(words).map((say) => say({}, { locale }));
    expect(new Set(said).size).toBe(codes.length);
    // Labels: no full stop after them, nothing left to fill in.
    for (const word of said) expect(word).toMatch(/^\p{Lu}[^{}]*[^{}.]$/u);
  }
  for (const say of Object.values(words)) expect(say({}, { locale: 'es' })).not.toBe(say({}, { locale: 'en' }));
});

test.each([...STEPS])('%s has its caution, in sentences, in both languages', (step) => {
  const [en, es] = (['en', 'es'] as const).map((locale) => CAUTION[step]({}, { locale }));
  expect(en).not.toBe(es);
  for (const text of [en, es]) expect(text).toMatch(/^\p{Lu}[^{}!]+\.$/u);
});

test('a run ends touched or about, and nothing else needs a word', () => {
  expect(optionsOf(RunStop.shape.end)).toEqual(['touched', 'about']);
});
