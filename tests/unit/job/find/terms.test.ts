import fc from 'fast-check';
import { expect, test } from 'vitest';
import { asOneWord, isNear, shortened, slipsAllowed, wordsOf } from '#lib/job/find/terms.ts';

test.each([
  ['12 Elm Street', ['12', 'elm', 'street']],
  ['Peña, Ñandú', ['pena', 'nandu']],
  ['Lot 5471-A/07', ['lot', '5471', 'a', '07']],
  ['  …!  ', []],
  ['x'.repeat(100), ['x'.repeat(32)]],
  ['浴室 漏水', ['浴室', '漏水']],
])('the words of %j', (text, words) => {
  expect(wordsOf(text)).toEqual(words);
});

test.each([
  ['5471-A', '5471a'],
  ['2026-06-09', '20260609'],
  ['5471', null],
  ['', null],
])('%j as one word: %s', (text, word) => {
  expect(asOneWord(text)).toBe(word);
});

// The usual examples of the optimal string alignment distance.
test.each<[a: string, b: string, slips: number, near: boolean]>([
  ['elm', 'elm', 0, true],
  ['street', 'steet', 1, true],
  ['street', 'stret', 1, true],
  ['street', 'streeet', 1, true],
  ['street', 'strete', 1, true],
  ['kitten', 'sitting', 2, false],
  ['kitten', 'sitten', 1, true],
  ['weatherfield', 'wetherfeild', 2, true],
  // No letter is touched twice: three, where the unrestricted distance has two.
  ['ca', 'abc', 2, false],
  ['', 'ab', 2, true],
])('%s and %s within %d: %s', (a, b, slips, near) => {
  expect([isNear(a, b, slips), isNear(b, a, slips)]).toEqual([near, near]);
});

const letter = fc.constantFrom('a', 'b', 'c', 'd', 'e');
const word = fc.array(letter, { minLength: 4, maxLength: 14 }).map((letters) => letters.join(''));
const slip = fc.record({ kind: fc.constantFrom('drop', 'add', 'other', 'swap'), at: fc.nat(20), letter });

function slipped(from: string, { kind, at, letter: by }: { kind: string; at: number; letter: string }): string {
  const i = at % from.length;
  if (kind === 'drop') return from.slice(0, i) + from.slice(i + 1);
  if (kind === 'add') return from.slice(0, i) + by + from.slice(i);
  if (kind === 'other') return from.slice(0, i) + by + from.slice(i + 1);
  return from.slice(0, i) + (from[i + 1] ?? '') + from[i]! + from.slice(i + 2);
}

test('a word with as many slips as are allowed is near, and shares a shortened form, so that it is found', () => {
  fc.assert(
    fc.property(word, fc.array(slip, { maxLength: 2 }), (right, slips) => {
      const wrong = slips.reduce(slipped, right);
      const allowed = Math.min(slipsAllowed(right), slipsAllowed(wrong));
      // Two slips at one place can be further apart than two by a distance that touches no letter twice.
      fc.pre(slips.length <= allowed && isNear(right, wrong, allowed));
      const forms = shortened(right);
      expect([...shortened(wrong)].some((form) => forms.has(form))).toBe(true);
    }),
    { numRuns: 3_000, seed: 9 },
  );
  fc.assert(
    fc.property(word, slip, (right, one) => {
      expect(isNear(right, slipped(right, one), 1)).toBe(true);
    }),
    { numRuns: 3_000, seed: 9 },
  );
});
