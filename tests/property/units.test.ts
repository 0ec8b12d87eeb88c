import { inchDecimal, inchText, parseInches, sixteenthsOf } from '#lib/measure/inch.ts';
import { isDecimal, lengthNm, nmText, typedDecimal, type LengthUnit } from '#lib/measure/quantity.ts';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { anyText, tries } from './runs.ts';

const runs = { seed: 20260302, numRuns: tries(500) };

/** Places in which each unit tells one nanometre from the next. */
const PLACES: Readonly<Record<LengthUnit, number>> = { um: 3, mm: 6, cm: 7, mil: 5, m: 9, in: 8, ft: 9 };
const unit = fc.constantFrom(...(Object.keys(PLACES) as LengthUnit[]));
/** Up to 1000 km, beyond which micrometres have more digits than a decimal string. */
const nm = fc.integer({ min: -999_999_999_999_999, max: 999_999_999_999_999 });
const sixteenths = fc.oneof(fc.integer({ min: 0, max: 16_000 }), fc.integer({ min: 0, max: 5_000_000_000 }));

const nmOf = (value: string, of: LengthUnit) => {
  const length = lengthNm(value, of);
  if (!length.ok) throw new RangeError(`${value} ${of}: ${length.fault.code}`);
  return length.value;
};

test('a length printed in any unit is read back to the nanometre', () => {
  fc.assert(
    fc.property(nm, unit, (length, of) => {
      expect(nmOf(nmText(length, of, PLACES[of]), of)).toBe(length);
    }),
    runs,
  );
});

test('a length is within half a nanometre of what was said, by arithmetic of whole numbers', () => {
  const NM_PER_UNIT = { um: 1_000n, mil: 25_400n, mm: 1_000_000n, cm: 10_000_000n, in: 25_400_000n, ft: 304_800_000n, m: 1_000_000_000n };
  const said = fc.tuple(fc.boolean(), fc.nat(9_000_000), fc.stringMatching(/^\d{1,9}$/));
  fc.assert(
    fc.property(said, unit, ([negative, whole, decimals], of) => {
      const exact = BigInt(whole) * 10n ** 9n + BigInt(decimals.padEnd(9, '0'));
      const off = BigInt(Math.abs(nmOf(`${negative ? '-' : ''}${whole}.${decimals}`, of))) * 10n ** 9n - exact * NM_PER_UNIT[of];
      expect(2n * (off < 0n ? -off : off)).toBeLessThanOrEqual(10n ** 9n);
    }),
    runs,
  );
});

test('inches printed as a fraction, as decimals, or typed with any mark are the same sixteenths', () => {
  const mark = fc.constantFrom('', '"', '″', '”', "''", ' in', ' in.');
  fc.assert(
    fc.property(sixteenths, mark, (n, after) => {
      expect(sixteenthsOf(nmOf(inchDecimal(n), 'in'))).toBe(n);
      if (n < 16 * 10_000) expect(parseInches(inchText(n) + after)).toBe(inchDecimal(n));
      expect(sixteenthsOf(nmOf(inchDecimal(-n), 'in'))).toBe(n === 0 ? 0 : -n);
    }),
    runs,
  );
});

test('one nanometre beside a graduation is on none', () => {
  fc.assert(
    fc.property(sixteenths, fc.constantFrom(-1, 1), (n, by) => {
      expect(sixteenthsOf(n * 1_587_500 + by)).toBeNull();
    }),
    runs,
  );
});

test('whatever is typed, what is read is a decimal string above or at zero, and reads as itself', () => {
  const keys = fc.string({ unit: fc.constantFrom(...Array.from('0123456789./,- ½¼⅞"”in')) });
  fc.assert(
    fc.property(fc.oneof(keys, anyText()), (text) => {
      for (const read of [parseInches, typedDecimal]) {
        const decimal = read(text);
        if (decimal === null) continue;
        expect(isDecimal(decimal) && !decimal.startsWith('-')).toBe(true);
        expect(read(decimal)).toBe(decimal);
      }
    }),
    runs,
  );
});
