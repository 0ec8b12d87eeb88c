import { judgeReading, judgeSaid, limitBase, proves, readingBase } from '#lib/job/judged.ts';
import { project } from '#lib/job/project.ts';
import { ALL_UNITS } from '#lib/measure/dimension.ts';
import { known } from '#lib/record/kinds.ts';
import type { PhotoLength } from '#lib/record/kinds/photo.ts';
import type { Limit } from '#lib/record/kinds/setup.ts';
import { MEASURES, type Measure, type Reading } from '#lib/record/kinds/reading.ts';
import type { Verdict } from '#lib/trade/limits.ts';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { chain } from '../../fixtures/log.ts';
import { ONE_OF_EACH } from '../../fixtures/one-of-each.ts';

const { photo: PHOTO } = ONE_OF_EACH.reading as { photo: PhotoLength };

type Unit = Limit['unit'];
type Bounds = [min: string | null, max: string | null, unit: Unit];

const limitOf = (what: Measure, [min, max, unit]: Bounds, limit = 'l-1'): Limit => ({
  limit,
  what,
  min,
  max,
  unit,
  source: { kind: 'data-sheet', text: 'p. 2' },
});
const saidOf = (value: string, unit: Unit, to?: string): Reading['said'] => ({ text: value, value, unit, ...(to !== undefined && { to }) });

// 1 in = 25.4 mm and 1 mil = 25.4 um exactly (NIST SP 811, appendix B.8): values and limits meet whatever each was said in.
test.each<[what: Measure, value: string, to: string | null, unit: Unit, bounds: Bounds, verdict: Verdict]>([
  ['overlap', '2', null, 'in', ['50.8', null, 'mm'], 'within'],
  ['overlap', '2', null, 'in', ['50.800001', null, 'mm'], 'outside'],
  ['overlap', '1.9375', null, 'in', ['2', null, 'in'], 'outside'],
  ['overlap', '2.6875', null, 'in', ['2', null, 'in'], 'within'],
  ['band-lap', '60', null, 'mm', ['2.375', null, 'in'], 'outside'],
  ['band-lap', '60.325', null, 'mm', ['2.375', null, 'in'], 'within'],
  ['flood-depth', '51', null, 'mm', ['2', null, 'in'], 'within'],
  ['wet-film', '24', '26', 'mil', ['25', '40', 'mil'], 'not-proven'],
  ['wet-film', '22', '24', 'mil', ['24', '40', 'mil'], 'outside'],
  ['wet-film', '26', '28', 'mil', ['25', '40', 'mil'], 'within'],
  ['wet-film', '650', '700', 'um', ['25', '40', 'mil'], 'within'],
  ['wet-film', '600', '635', 'um', ['25', null, 'mil'], 'outside'],
  ['wet-film', '26', '28', 'mil', [null, null, 'mil'], 'no-limit'],
])('%s of %s to %j %s against %j is %s', (what, value, to, unit, bounds, verdict) => {
  const limit = limitOf(what, bounds);
  expect(judgeSaid(what, saidOf(value, unit, to ?? undefined), [limit])).toEqual({ verdict, limit });
});

test.each<[low: string, high: string, bounds: Bounds, verdict: Verdict]>([
  ['50.3', '52.1', ['50', null, 'mm'], 'within'],
  ['50', '51.5', ['50', null, 'mm'], 'within'],
  ['49.9', '51.5', ['50', null, 'mm'], 'not-proven'],
  ['48', '50', ['50', null, 'mm'], 'not-proven'],
  ['48', '49.9', ['50', null, 'mm'], 'outside'],
  ['50.3', '52.1', [null, '52', 'mm'], 'not-proven'],
])('51 mm from a photo, %s to %s, is judged by its whole interval: against %j %s', (low, high, bounds, verdict) => {
  const data = { ...ONE_OF_EACH.reading, what: 'overlap', said: saidOf('51', 'mm'), photo: { ...PHOTO, low, high }, scale: undefined };
  const [reading] = project(chain('a', [{ kind: 'reading', data }])).state.readings;
  const limits = [limitOf('overlap', bounds)];
  expect(judgeReading(reading!, limits).verdict).toBe(verdict);
  // Taken over by a person, and not straddling its limit: else it is to be measured by hand.
  expect(proves(reading!, limits)).toBe(verdict !== 'not-proven');
  expect(proves({ ...reading!, confirmed: null }, limits)).toBe(false);
});

test.each<[low: string, high: string, verdict: Verdict]>([
  ['50.3', '52.1', 'not-proven'],
  ['49.9', '51.5', 'not-proven'],
  ['48', '49.9', 'outside'],
])('%s to %s from a photo that does not show its plane is never within', (low, high, verdict) => {
  const { plane, ...unseen } = { ...PHOTO, low, high };
  expect(plane).toBe('edges');
  expect(judgeSaid('overlap', saidOf('51', 'mm'), [limitOf('overlap', ['50', null, 'mm'])], null, unseen).verdict).toBe(verdict);
});

test('without a limit for its measure a reading is judged by none', () => {
  expect(judgeSaid('overlap', saidOf('2', 'in'), [limitOf('band-lap', ['3', null, 'in'])])).toEqual({ verdict: 'no-limit', limit: null });
});

// Each measure in the units it is spoken in; 1 gal = 3.785411784 L, °F = 9/5 °C + 32 (NIST SP 811, appendix B.8).
test.each<[what: Measure, value: string, unit: Unit, bounds: Bounds, verdict: Verdict]>([
  ['air-temperature', '50', 'F', ['10', '32', 'C'], 'within'],
  ['air-temperature', '49.9', 'F', ['10', '32', 'C'], 'outside'],
  ['surface-temperature', '-1', 'C', ['32', null, 'F'], 'outside'],
  ['humidity', '85', '%', [null, '85', '%'], 'within'],
  ['slope', '0.25', 'in/ft', ['2', null, '%'], 'within'],
  ['slope', '20', 'mm/m', ['0.25', null, 'in/ft'], 'outside'],
  ['volume-used', '1', 'gal', ['3.7', null, 'L'], 'within'],
  ['volume-used', '4', 'qt', ['1', '1', 'gal'], 'within'],
  ['upturn', '1', 'ft', ['12', null, 'in'], 'within'],
])('%s of %s %s against %j is %s', (what, value, unit, bounds, verdict) => {
  expect(judgeSaid(what, saidOf(value, unit), [limitOf(what, bounds)]).verdict).toBe(verdict);
});

test('of several limits on one measure the worst decides, whatever their order', () => {
  const [sheet, code, crew] = [
    limitOf('overlap', ['2', null, 'in'], 'sheet'),
    limitOf('overlap', ['3', null, 'in'], 'code'),
    limitOf('overlap', [null, null, 'in'], 'crew'),
  ];
  for (const limits of [
    [sheet, code, crew],
    [crew, code, sheet],
  ]) {
    expect(judgeSaid('overlap', saidOf('2.5', 'in'), limits)).toEqual({ verdict: 'outside', limit: code });
    expect(judgeSaid('overlap', saidOf('3', 'in'), limits).verdict).toBe('within');
  }
  const film = [limitOf('wet-film', ['20', null, 'mil']), limitOf('wet-film', ['25', null, 'mil'], 'code')];
  expect(judgeSaid('wet-film', saidOf('24', 'mil', '26'), film)).toEqual({ verdict: 'not-proven', limit: film[1] });
});

test('a limit of another dimension judges nothing', () => {
  expect(judgeSaid('moisture', saidOf('4', '%'), [limitOf('moisture', [null, '3', 'mm'])]).verdict).toBe('no-limit');
});

test.each<[read: string | undefined, stated: string | undefined, verdict: Verdict]>([
  ['carbide', 'carbide', 'outside'],
  ['wood', 'carbide', 'no-limit'],
  [undefined, 'carbide', 'no-limit'],
  ['carbide', undefined, 'no-limit'],
  [undefined, undefined, 'outside'],
])('moisture read on the scale %s against a limit on the scale %s: %s', (read, stated, verdict) => {
  const data = { what: 'moisture', surface: null, said: saidOf('6', '%'), how: 'meter', ...(read && { scale: read }) };
  const { readings } = project(chain('a', [{ kind: 'reading', data }])).state;
  const limit = { ...limitOf('moisture', [null, '4', '%']), ...(stated && { scale: stated }) } as Limit;
  expect(judgeReading(readings[0]!, [limit]).verdict).toBe(verdict);
});

test('readings and limits in whole base units', () => {
  expect(readingBase(saidOf('26', 'mil', '28'))).toEqual({ from: 660_400, to: 711_200 });
  expect(readingBase(saidOf('2.6875', 'in'))).toEqual({ from: 68_262_500, to: 68_262_500 });
  expect(limitBase(limitOf('overlap', ['2', null, 'in']))).toEqual({ min: 50_800_000, max: null });
  expect(limitBase(limitOf('recoat', ['4', '24', 'h']))).toEqual({ min: 14_400_000, max: 86_400_000 });
});

const decimal = fc.oneof(fc.stringMatching(/^-?\d{1,12}(\.\d{1,9})?$/), fc.constantFrom('', 'abc', '26', '28'));
const unit = fc.constantFrom<Unit>(...ALL_UNITS);

test('whatever passes its schema is judged: nothing in a log can stop the book', () => {
  const said = fc.record({ text: fc.constant('x'), value: decimal, unit, to: decimal }, { requiredKeys: ['text', 'value', 'unit'] });
  const bound = fc.option(decimal);
  fc.assert(
    fc.property(fc.constantFrom(...MEASURES), said, bound, bound, unit, (what, one, min, max, of) => {
      const views = chain('a', [
        { kind: 'reading', data: { what, surface: null, said: one, how: 'typed' } },
        { kind: 'limit', data: limitOf(what, [min, max, of]) },
      ]).map(known);
      const [reading, limit] = views;
      if (reading?.kind !== 'reading') return;
      const { verdict } = judgeSaid(what, reading.data.said, limit?.kind === 'limit' ? [limit.data] : []);
      expect(['within', 'outside', 'not-proven', 'no-limit']).toContain(verdict);
    }),
    { seed: 20260302, numRuns: 1_000 },
  );
});
