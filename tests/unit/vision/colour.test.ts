import { deltaE2000, labOf, type Lab } from '#lib/vision/colour.ts';
import { LIGHT_OF } from '#lib/vision/raster.ts';
import { converter, differenceCiede2000 } from 'culori';
import { expect, test } from 'vitest';
import { random } from '../../sim/random.ts';
import pairs from '../../vectors/vision/ciede2000.json' with { type: 'json' };

// The test data of Sharma, Wu and Dalal, "The CIEDE2000 color-difference formula: implementation notes, supplementary test data, and
// mathematical observations", Color Research and Application 30 (2005), table 1: to four places.
test.each(pairs as [number, number, number, number, number, number, number][])(
  'CIEDE2000 of (%d, %d, %d) and (%d, %d, %d) is %d, either way',
  (l1, a1, b1, l2, a2, b2, published) => {
    expect(Math.abs(deltaE2000([l1, a1, b1], [l2, a2, b2]) - published)).toBeLessThan(5.1e-5);
    expect(Math.abs(deltaE2000([l2, a2, b2], [l1, a1, b1]) - published)).toBeLessThan(5.1e-5);
  },
);

test('all 34 pairs are there', () => {
  expect(pairs).toHaveLength(34);
});

test('Lab and CIEDE2000 agree with a colour library on 500 colours', () => {
  const [lab, difference] = [converter('lab65'), differenceCiede2000()];
  const chance = random(34);
  const code = () => Math.floor(256 * chance());
  let before: Lab = [0, 0, 0];
  for (let i = 0; i < 500; i++) {
    const [r, g, b] = [code(), code(), code()];
    const ours = labOf(LIGHT_OF[r]!, LIGHT_OF[g]!, LIGHT_OF[b]!);
    const theirs = lab({ mode: 'rgb', r: r / 255, g: g / 255, b: b / 255 });
    expect(Math.max(Math.abs(ours[0] - theirs.l), Math.abs(ours[1] - theirs.a), Math.abs(ours[2] - theirs.b))).toBeLessThan(2e-3);
    const pair = [before, ours].map(([l, a, bb]) => ({ mode: 'lab65' as const, l, a, b: bb }));
    expect(deltaE2000(before, ours)).toBeCloseTo(difference(pair[0]!, pair[1]!), 6);
    before = ours;
  }
});
