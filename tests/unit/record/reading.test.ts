import { known } from '#lib/record/kinds.ts';
import { expect, test } from 'vitest';
import { chain } from '../../fixtures/log.ts';

test.each<[what: string, said: object, kind: string]>([
  ['one value', { value: '2.6875', unit: 'in' }, 'reading'],
  ['one value with its step', { value: '2.6875', unit: 'in', resolution: '0.0625' }, 'reading'],
  ['the largest value', { value: '99999999.999999999', unit: 'in' }, 'reading'],
  ['below zero', { value: '-0.5', unit: 'mm' }, 'reading'],
  ['a comb', { value: '26', to: '28', unit: 'mil' }, 'reading'],
  ['a comb by text order only reversed', { value: '9', to: '10', unit: 'mil' }, 'reading'],
  ['a field of a newer version', { value: '2', unit: 'in', tool: 'wheel' }, 'reading'],
  // What could not be judged is kept and shown as made by a newer version.
  ['a comb dry before it is wet', { value: '28', to: '26', unit: 'mil' }, 'unknown'],
  ['a comb dry at no number', { value: '26', to: 'long', unit: 'mil' }, 'unknown'],
  ['longer than nanometres can say', { value: '999999999', unit: 'in' }, 'unknown'],
  ['a decimal comma', { value: '2,5', unit: 'mm' }, 'unknown'],
  ['a number and no text', { value: 2, unit: 'mm' }, 'unknown'],
  ['a unit not in use here', { value: '2', unit: 'cm' }, 'unknown'],
])('%s is read as %3$s', (_, said, kind) => {
  const [entry] = chain('a', [{ kind: 'reading', data: { what: 'wet-film', surface: null, said: { text: 'as said', ...said }, how: 'typed' } }]);
  expect(known(entry!).kind).toBe(kind);
});
