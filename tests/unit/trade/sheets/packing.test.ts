import { packRolls } from '#lib/trade/sheets/packing.ts';
import { expect, it } from 'vitest';

const always = () => true;

it.each<[string, number[], number[], number | null, { opened: number; remainders: number[] }]>([
  // All three need more than the roll at hand. Of a new one least is cut when it gives the shortest piece only.
  ['the roll at hand first', [96, 96, 60], [200], 600, { opened: 1, remainders: [8, 540] }],
  ['no new roll where those at hand are enough', [50, 50, 50], [100, 60], 600, { opened: 0, remainders: [0, 10] }],
  ['the longest remainder in one piece', [50], [100, 600], null, { opened: 0, remainders: [550] }],
  ['a roll filled to the end', [60, 40, 30, 70], [100, 100], null, { opened: 0, remainders: [0, 0] }],
])('%s', (_, cuts, atHand, newLength, expected) => {
  const { rolls, isProven } = packRolls(cuts, { atHand, newLength }, always);
  const remainders = rolls!.map(({ length, pieces }) => length - pieces.reduce((sum, piece) => sum + cuts[piece]!, 0));
  expect({ opened: rolls!.filter(({ isNew }) => isNew).length, longest: Math.max(...remainders), isProven }).toEqual({
    opened: expected.opened,
    longest: Math.max(...expected.remainders),
    isProven: true,
  });
});

it('pieces that fit on no choice of rolls', () => {
  expect(packRolls([80, 80], { atHand: [100], newLength: 50 }, always)).toEqual({ rolls: null, isProven: true });
  expect(packRolls([80, 80], { atHand: [100], newLength: null }, always)).toEqual({ rolls: null, isProven: true });
});

it('when the time is up the pieces still lie on rolls, and nothing is called proven', () => {
  // Many pieces of nearly the same length, for which a proof takes long.
  const cuts = Array.from({ length: 40 }, (_, i) => 300 + ((i * 37) % 101));
  const { rolls, isProven } = packRolls(cuts, { atHand: [], newLength: 1000 }, () => false);
  expect(rolls!.flatMap(({ pieces }) => pieces).sort((a, b) => a - b)).toEqual(cuts.map((_, i) => i));
  expect(isProven).toBe(false);
});
