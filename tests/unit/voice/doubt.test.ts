import { otherReading } from '#lib/voice/doubt.ts';
import type { SpokenReading } from '#lib/voice/draft.ts';
import { plausible } from '#lib/voice/plausible.ts';
import type { SpokenMeasure, SpokenUnit } from '#lib/voice/vocabulary.ts';
import { expect, test } from 'vitest';

test.each<[what: SpokenMeasure, value: string, unit: SpokenUnit, heardSecond: readonly string[], other: string | null]>([
  ['dry-film', '18', 'mil', [], '80'],
  ['dry-film', '80', 'mil', [], '18'],
  ['dry-film', '30', 'mil', [], '13'],
  ['dry-film', '22', 'mil', [], null],
  // What was heard second comes before what is often mistaken.
  ['dry-film', '18', 'mil', ['eight mils'], '8'],
  ['dry-film', '18', 'mil', ['eighteen mils', 'eighty mils'], '80'],
  // No value of this field: another unit, other words, nothing.
  ['dry-film', '22', 'mil', ['two two inches', 'that is right', ''], null],
  ['overlap', '2.875', 'in', [], '2.125'],
  ['overlap', '2.125', 'in', [], '2.875'],
  ['overlap', '2.5', 'in', [], null],
  // Beyond what is listened for in degrees.
  ['air-temperature', '18', 'F', [], null],
])('%s of %s %s, heard second %j: %s', (what, value, unit, heardSecond, other) => {
  const first: SpokenReading = { is: 'reading', coat: null, place: null, what: null, value, to: null, unit };
  const numbers = what === 'air-temperature' ? { unit, values: ['20', '30'], tenths: false } : plausible(what, unit)!;
  const question = { language: 'en', field: { what, numbers: [numbers] }, places: [], coats: false, commands: [], steps: [] } as const;
  expect(otherReading(first, heardSecond, question)?.value ?? null).toBe(other);
});
