import { ALL_UNITS, baseOf, dimensionOf, inUnit, type AnyUnit } from '#lib/measure/dimension.ts';
import { printQuantity, readQuantity } from '#lib/measure/quantity-text.ts';
import { filmByNominal, filmBySpots, filmVerdict, type FilmReading } from '#lib/trade/film-verdict.ts';
import { filmByPail, litresNeeded } from '#lib/trade/film-second.ts';
import { dryFilm, filmCoverage, wetFilm } from '#lib/trade/film.ts';
import type { Computed } from '#lib/trade/input.ts';
import { crewRate } from '#lib/trade/rates.ts';
import { slopeOfHeights, type SlopeRule } from '#lib/trade/slope.ts';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { anyText, tries } from './runs.ts';
import { CATALOGUE } from '../../src/cli/compute/catalogue.ts';
import { fieldOf, numbers, places, spoilt, standsAt } from './spoil.ts';

const runs = { seed: 20261125, numRuns: tries(300) };
const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });

function valueOf<T>(computed: Computed<T>): T {
  if (!computed.ok) throw new RangeError(`${computed.fault.field}: ${computed.fault.code}`);
  return computed.value;
}

// Units.

const decimal = fc
  .tuple(fc.nat(9_999), fc.option(fc.stringMatching(/^\d{1,4}$/)))
  .map(([whole, decimals]) => (decimals === null ? String(whole) : `${whole}.${decimals}`));
const said = fc.record({ value: decimal, unit: fc.constantFrom(...ALL_UNITS.filter((unit) => unit !== 'count')) });

test('what is printed is read as the same value in the same unit, but for whole feet', () => {
  fc.assert(
    fc.property(said, (quantity) => {
      const read = readQuantity(printQuantity(quantity), [quantity.unit]);
      if (!read.ok) throw new RangeError(`${printQuantity(quantity)}: ${read.fault.code}`);
      const { value, unit } = read.value;
      expect(unit).toBe(quantity.unit === 'ft' && /^\d+$/.test(quantity.value) ? 'in' : quantity.unit);
      expect(baseOf(value, unit)).toEqual(baseOf(quantity.value, quantity.unit));
    }),
    { ...runs, numRuns: tries(2000) },
  );
});

test('sixteenths of an inch and temperatures below zero too', () => {
  fc.assert(
    fc.property(fc.nat(100_000), fc.constantFrom<AnyUnit>('in', 'in/ft'), (sixteenths, unit) => {
      const value = String(sixteenths / 16);
      if (unit === 'in/ft' && sixteenths >= 160_000) return;
      expect(readQuantity(printQuantity({ value, unit }), [unit])).toEqual({ ok: true, value: { value, unit } });
    }),
    runs,
  );
  fc.assert(
    fc.property(decimal, fc.constantFrom<AnyUnit>('C', 'F'), (size, unit) => {
      const quantity = { value: `-${size}`, unit };
      expect(readQuantity(printQuantity(quantity), [unit])).toEqual({ ok: true, value: quantity });
    }),
    runs,
  );
});

test('a number without its unit is never taken for one, and each offer can be read', () => {
  const asked = fc.constantFrom<AnyUnit[]>(
    ['mil', 'um'],
    ['in', 'mm'],
    ['F', 'C'],
    ['gal', 'qt', 'L'],
    ['lb', 'kg'],
    ['ft2', 'm2'],
    ['psi', 'kPa'],
    ['in/ft', '%'],
  );
  fc.assert(
    fc.property(decimal, asked, (text, units) => {
      const read = readQuantity(text, units);
      expect(read).toMatchObject({ ok: false, fault: { code: 'in-doubt' } });
      if (read.ok || read.fault.code !== 'in-doubt') return;
      expect(read.fault.offers.filter((offer) => !readQuantity(offer, units).ok)).toEqual([]);
    }),
    runs,
  );
});

test('whatever is typed, what is read is of the dimension asked for', () => {
  const keys = fc.string({ unit: fc.constantFrom(...Array.from('0123456789./,- ½"\'°%µCFLinftmlbgaqsuhPk²2')) });
  fc.assert(
    fc.property(fc.oneof(keys, anyText()), fc.constantFrom(...ALL_UNITS), (text, unit) => {
      const read = readQuantity(text, [unit]);
      if (read.ok) expect(dimensionOf(read.value.unit)).toBe(dimensionOf(unit));
    }),
    { ...runs, numRuns: tries(2000) },
  );
});

test('a value in another unit and back is itself', () => {
  const pair = fc
    .constantFrom(...ALL_UNITS)
    .chain((unit) =>
      fc.tuple(fc.constant(unit), fc.constantFrom(...ALL_UNITS.filter((other) => dimensionOf(other) === dimensionOf(unit)))),
    );
  fc.assert(
    fc.property(fc.integer({ min: 1, max: 150 }), pair, (whole, [unit, other]) => {
      const there = inUnit(String(whole), unit, other);
      if (!there.ok || there.value > 99_999_999 || there.value < 1e-3) return;
      const back = inUnit(there.value.toFixed(9), other, unit);
      // Nine decimals of the other unit, and what one base unit of either is.
      if (back.ok) expect(Math.abs(back.value - whole)).toBeLessThan(1e-5 * whole + 2e-4);
    }),
    runs,
  );
});

// Film.

const solids = between(1, 100);
const film = between(30, 5000);
const thinner = between(0, 100);
const reading = fc
  .tuple(film, fc.oneof(fc.constant(0), between(1, 200)))
  .map(([fromUm, wide]): FilmReading => ({ fromUm, toUm: fromUm + wide }));
const readings = fc.array(reading, { minLength: 3, maxLength: 12 });
const WORSE = ['within', 'not-proven', 'outside'];

test('more thinner never thickens a dry film, and never lessens the wet one that is needed', () => {
  fc.assert(
    fc.property(film, solids, thinner, thinner, (um, solidsPct, one, other) => {
      const [less, more] = one < other ? [one, other] : [other, one];
      const dry = (thinnerPct: number) => valueOf(dryFilm({ wetLowUm: um, wetHighUm: um, solidsPct, thinnerPct }));
      const wet = (thinnerPct: number) => valueOf(wetFilm({ dryUm: um, solidsPct, thinnerPct, coatMaxUm: 300 }));
      expect(dry(more).dryHighUm).toBeLessThanOrEqual(dry(less).dryHighUm);
      expect(wet(more).wetUm).toBeGreaterThanOrEqual(wet(less).wetUm);
      expect(wet(more).coats).toBeGreaterThanOrEqual(wet(less).coats!);
    }),
    runs,
  );
});

test('wet to dry and back is itself, and what a litre covers is what it leaves', () => {
  fc.assert(
    fc.property(between(100, 1000), between(20, 100), thinner, (dryUm, solidsPct, thinnerPct) => {
      const { wetUm } = valueOf(wetFilm({ dryUm, solidsPct, thinnerPct, coatMaxUm: null }));
      expect(valueOf(dryFilm({ wetLowUm: wetUm, wetHighUm: wetUm, solidsPct, thinnerPct })).dryLowUm).toBeCloseTo(dryUm, 6);
      const { m2PerL } = valueOf(filmCoverage({ dryUm, solidsPct, lossPct: 0 }));
      const { lowUm } = valueOf(filmByPail({ usedL: 1, areaM2: m2PerL, lossLowPct: 0, lossHighPct: 0, readings: [] }));
      expect((lowUm * solidsPct) / 100).toBeCloseTo(dryUm, 6);
    }),
    runs,
  );
});

test('the order of readings does not matter to any rule', () => {
  const mixed = readings.chain((list) =>
    fc.tuple(fc.constant(list), fc.shuffledSubarray(list, { minLength: list.length, maxLength: list.length })),
  );
  const plain = ({ verdict }: { verdict: string }) => verdict;
  fc.assert(
    fc.property(mixed, film, between(0, 2000), ([list, shuffled], minUm, wide) => {
      const limit = { minUm, maxUm: minUm + wide };
      const [first, second] = [list, shuffled].map((all) => valueOf(filmVerdict({ readings: all, ...limit })));
      expect([second!.verdict, second!.leastUm, second!.mostUm]).toEqual([first!.verdict, first!.leastUm, first!.mostUm]);
      expect(second!.failing.length).toBe(first!.failing.length);
      const nominal = (all: readonly FilmReading[]) => plain(valueOf(filmByNominal({ readings: all, nominalUm: minUm, maxUm: null })));
      expect(nominal(shuffled)).toBe(nominal(list));
      const spots = (all: readonly FilmReading[]) => plain(valueOf(filmBySpots({ spots: [{ readings: all }], ...limit })));
      expect(spots(shuffled)).toBe(spots(list));
    }),
    runs,
  );
});

test('a thicker film is never less within a least film, and a finer comb never turns a proven verdict into another', () => {
  fc.assert(
    fc.property(readings, film, between(0, 500), (list, minUm, more) => {
      const rank = (all: readonly FilmReading[]) => WORSE.indexOf(valueOf(filmVerdict({ readings: all, minUm, maxUm: null })).verdict);
      expect(rank(list.map(({ fromUm, toUm }) => ({ fromUm: fromUm + more, toUm: toUm + more })))).toBeLessThanOrEqual(rank(list));
      const { verdict } = valueOf(filmVerdict({ readings: list, minUm, maxUm: minUm + 400 }));
      const fine = list.map(({ fromUm, toUm }) => ({ fromUm: fromUm + (toUm - fromUm) / 4, toUm: toUm - (toUm - fromUm) / 4 }));
      const finer = valueOf(filmVerdict({ readings: fine, minUm, maxUm: minUm + 400 })).verdict;
      if (verdict !== 'not-proven') expect(finer).toBe(verdict);
    }),
    runs,
  );
});

test('what is still needed, put on, is enough, whatever is lost', () => {
  fc.assert(
    fc.property(between(1, 50), film, between(0, 50), between(0, 40), between(0, 40), (areaM2, wetUm, usedL, one, other) => {
      const [lossLowPct, lossHighPct] = one < other ? [one, other] : [other, one];
      const loss = { lossLowPct, lossHighPct };
      const { lowL, highL } = valueOf(litresNeeded({ areaM2, wetUm, usedL, ...loss }));
      expect(highL).toBeGreaterThanOrEqual(lowL);
      const { lowUm } = valueOf(filmByPail({ usedL: usedL + highL, areaM2, ...loss, readings: [] }));
      expect(lowUm).toBeGreaterThanOrEqual(wetUm * (1 - 1e-9));
    }),
    runs,
  );
});

// Falls and rates.

test('a fall is judged alike in whatever unit its rule is written, and a finer scale never weakens a verdict', () => {
  fc.assert(
    fc.property(
      between(-50, 80),
      between(300, 3000),
      between(0, 5),
      between(0.5, 3),
      between(0, 1),
      (riseMm, runMm, stepMm, percent, share) => {
        const line = { highMm: riseMm, lowMm: 0, runMm, stepMm };
        const rules: SlopeRule[] = [
          { min: percent, max: percent + 2, unit: '%' },
          { min: percent * 10, max: percent * 10 + 20, unit: 'mm/m' },
          { min: percent * 0.12, max: (percent + 2) * 0.12, unit: 'in/ft' },
          { min: 100 / percent, max: 100 / (percent + 2), unit: '1:n' },
        ];
        const verdicts = rules.map((rule) => valueOf(slopeOfHeights({ ...line, rule })).verdict);
        // At the bound itself rounding decides.
        const { lowMmPerM, highMmPerM } = valueOf(slopeOfHeights({ ...line, rule: null }));
        const near = [percent * 10, percent * 10 + 20].some((bound) => [lowMmPerM, highMmPerM].some((end) => Math.abs(end - bound) < 1e-3));
        if (!near) expect(new Set(verdicts).size).toBe(1);
        const finer = valueOf(slopeOfHeights({ ...line, stepMm: stepMm * share, rule: rules[0]! })).verdict;
        if (verdicts[0] !== 'not-proven' && !near) expect(finer).toBe(verdicts[0]);
      },
    ),
    runs,
  );
});

test('a weighed rate lies between the crew’s own and the published one, nearer to its own with each job', () => {
  const job = fc.record({ done: between(1, 100), used: between(1, 100) });
  fc.assert(
    fc.property(fc.array(job, { minLength: 1, maxLength: 10 }), between(0.1, 10), between(0.5, 10), (jobs, publishedRate, weightJobs) => {
      const { rate, ownRate, lowRate, highRate, credibility } = valueOf(crewRate({ jobs, publishedRate, weightJobs }));
      expect(rate).toBeGreaterThanOrEqual(Math.min(ownRate!, publishedRate) - 1e-9);
      expect(rate).toBeLessThanOrEqual(Math.max(ownRate!, publishedRate) + 1e-9);
      expect([ownRate! >= lowRate! - 1e-9, ownRate! <= highRate! + 1e-9]).toEqual([true, true]);
      const twice = valueOf(crewRate({ jobs: [...jobs, ...jobs], publishedRate, weightJobs }));
      expect(twice.credibility).toBeGreaterThan(credibility);
    }),
    runs,
  );
});

// Bad input, of every function that a terminal can call.

const CASES = CATALOGUE.flatMap(({ name, call, example }) => [...places(example)].map((path) => ({ name, call, example, path })));
const NUMERIC = CASES.filter(({ example, path }) => typeof standsAt(example, path) === 'number');

test.each(NUMERIC.flatMap((one) => [NaN, Infinity, -Infinity, -1e17, 1e30].map((bad) => ({ ...one, bad, place: one.path.join('.') }))))(
  '$name refuses $bad for $place by name',
  ({ call, example, path, bad }) => {
    const result = call(spoilt(example, path, bad) as object);
    expect(result.ok).toBe(false);
    if (!result.ok) expect(result.fault.field).toContain(fieldOf(path));
    if (!result.ok && !Number.isFinite(bad)) expect(result.fault.code).toBe('not-a-number');
  },
);

test('whatever stands in a field, or is left out, a fault is told and nothing thrown, and no result is NaN', () => {
  const anything = fc.oneof(
    fc.double(),
    fc.constantFrom<unknown>(0, -0, 1e-300, 1e300, '', '12', 'NaN', null, undefined, true, [], {}, [null], [{}], { kind: 'pan' }),
    fc.anything({ maxDepth: 1 }),
  );
  fc.assert(
    fc.property(fc.constantFrom(...CASES), anything, ({ call, example, path }, bad) => {
      const result = call(spoilt(example, path, bad) as object);
      if (result.ok) expect(numbers(result.value).filter((number) => !Number.isFinite(number))).toEqual([]);
      else expect(result.fault.field).not.toBe('');
    }),
    { ...runs, numRuns: tries(3000) },
  );
  for (const { call } of CATALOGUE) expect(call({}).ok).toBe(false);
});
