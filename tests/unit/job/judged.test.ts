import { judgeSaid, limitNm, readingNm } from '#lib/job/judged.ts';
import { known, type Limit } from '#lib/record/kinds.ts';
import { MEASURES, type Measure, type Reading } from '#lib/record/kinds/reading.ts';
import type { Verdict } from '#lib/trade/limits.ts';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { chain } from '../../fixtures/log.ts';

type Unit = Limit['unit'];
type Bounds = [min: string | null, max: string | null, unit: Unit];

const limitOf = (what: Measure, [min, max, unit]: Bounds, limit = 'l-1'): Limit => ({ limit, what, min, max, unit, source: { kind: 'data-sheet', text: 'p. 2' } });
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

test('without a limit for its measure a reading is judged by none', () => {
  expect(judgeSaid('overlap', saidOf('2', 'in'), [limitOf('band-lap', ['3', null, 'in'])])).toEqual({ verdict: 'no-limit', limit: null });
});

test('readings and limits in whole nanometres', () => {
  expect(readingNm(saidOf('26', 'mil', '28'))).toEqual({ fromNm: 660_400, toNm: 711_200 });
  expect(readingNm(saidOf('2.6875', 'in'))).toEqual({ fromNm: 68_262_500, toNm: 68_262_500 });
  expect(limitNm(limitOf('overlap', ['2', null, 'in']))).toEqual({ minNm: 50_800_000, maxNm: null });
});

const decimal = fc.oneof(fc.stringMatching(/^-?\d{1,12}(\.\d{1,9})?$/), fc.constantFrom('', 'abc', '26', '28'));
const unit = fc.constantFrom<Unit>('in', 'mm', 'mil', 'um');

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
