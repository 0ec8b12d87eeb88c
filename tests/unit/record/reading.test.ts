import { unitOf } from '#lib/job/measures.ts';
import { known } from '#lib/record/kinds.ts';
import { MEASURES } from '#lib/record/kinds/reading.ts';
import { expect, test } from 'vitest';
import { chain } from '../../fixtures/log.ts';
import { ONE_OF_EACH } from '../../fixtures/one-of-each.ts';

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
  ['a unit nobody here measures in', { value: '2', unit: 'furlong' }, 'unknown'],
  ['a unit named like something every object has', { value: '2', unit: 'constructor' }, 'unknown'],
  ['a temperature', { value: '50', unit: 'F' }, 'reading'],
  ['a frost', { value: '-4.5', unit: 'C' }, 'reading'],
  ['a slope', { value: '0.25', unit: 'in/ft' }, 'reading'],
  ['a humidity', { value: '85', unit: '%' }, 'reading'],
  ['a volume', { value: '1.5', unit: 'gal' }, 'reading'],
  ['a volume too large for whole numbers', { value: '99999999', unit: 'gal' }, 'unknown'],
  ['an interval that ends where it begins', { value: '26', to: '26', unit: 'mil' }, 'reading'],
])('%s is read as %3$s', (_, said, kind) => {
  const [entry] = chain('a', [
    { kind: 'reading', data: { what: 'wet-film', surface: null, said: { text: 'as said', ...said }, how: 'typed' } },
  ]);
  expect(known(entry!).kind).toBe(kind);
});

const { photo: PHOTO } = ONE_OF_EACH.reading as { photo: { reference: { found: string[][] } } };
const { found } = PHOTO.reference;
const RECTANGLE = { kind: 'rectangle', widthMm: '200', heightMm: '300', tapped: found, found };
const fields = { surface: null, said: { text: '3', value: '3', unit: 'in' }, how: 'typed' };
test.each<[what: string, data: object, kind: string]>([
  ['as version 0.1.0 wrote it', { what: 'overlap', ...fields, how: 'tape' }, 'reading'],
  [
    'with all it may carry',
    { what: 'moisture', ...fields, spot: 'by the drain', coat: 2, scale: 'carbide', shot: 'a-7', attempt: 'a-8', water: 'control' },
    'reading',
  ],
  ['computed in a photo', { what: 'overlap', ...fields, how: 'photo', photo: PHOTO, lap: 'lap-line', confirmed: 'ana' }, 'reading'],
  ['computed in a photo by a rectangle', { what: 'overlap', ...fields, photo: { ...PHOTO, reference: RECTANGLE } }, 'reading'],
  ['with points that are numbers', { what: 'overlap', ...fields, photo: { ...PHOTO, from: [1, 2] } }, 'unknown'],
  ['computed in no photo', { what: 'overlap', ...fields, photo: { ...PHOTO, sha256: 'none' } }, 'unknown'],
  ['with an empty spot', { what: 'overlap', ...fields, spot: '' }, 'reading'],
  ['of a measure of a newer version', { what: 'pull-off', ...fields }, 'unknown'],
  ['of coat 0', { what: 'wet-film', ...fields, coat: 0 }, 'unknown'],
  ['of a coat said in words', { what: 'wet-film', ...fields, coat: 'first' }, 'unknown'],
  ['of coat 21', { what: 'wet-film', ...fields, coat: 21 }, 'unknown'],
  ['in a scale of a newer meter', { what: 'moisture', ...fields, scale: 'neutron' }, 'unknown'],
  ['of a surface that is no id', { what: 'overlap', ...fields, surface: 'North wall' }, 'unknown'],
])('a reading %s is read as %3$s', (_, data, kind) => {
  expect(known(chain('a', [{ kind: 'reading', data }])[0]!).kind).toBe(kind);
});

test('what is only ever limited may be limited in its own unit, and what is read too', () => {
  const limitIn = (what: string, unit: string) =>
    known(chain('a', [{ kind: 'limit', data: { limit: 'l', what, min: '1', max: null, unit, source: { kind: 'crew', text: 'us' } } }])[0]!)
      .kind;
  for (const what of MEASURES) for (const units of ['in', 'mm'] as const) expect(limitIn(what, unitOf(what, units))).toBe('limit');
});
