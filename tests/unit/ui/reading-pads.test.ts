import { drawComb, filmY, sideOf, sides, stepTooth } from '#lib/ui/reading/comb.ts';
import { typed } from '#lib/ui/reading/keypad.ts';
import { clamped, nearest, SIXTEENTHS_MAX, stepped, STRIP, ticks, withWhole, xOf } from '#lib/ui/reading/ruler.ts';
import { exampleCombMil } from '#lib/trade/comb.ts';
import { expect, test } from 'vitest';

test('a touch on a graduation reads that graduation, up to half the way to the next', () => {
  for (let i = 0; i <= 16; i++) {
    for (const offset of [-10, 0, 10]) expect(nearest((xOf(i) + offset) / STRIP.width)).toBe(i);
  }
  expect([nearest(-0.2), nearest(1.2)]).toEqual([0, 16]);
});

test('the coarser the fraction, the longer its line, as on a tape', () => {
  const length = (i: number) => ticks()[i]!.length;
  expect([0, 8, 4, 2, 1].map(length)).toEqual([92, 76, 60, 42, 26]);
  expect(
    ticks()
      .map(({ over, under }) => (over === null ? '' : `${over}/${under}`))
      .filter(Boolean),
  ).toEqual(['1/4', '1/2', '3/4']);
});

test.each<[now: number | null, digit: number, next: number]>([
  [null, 2, 32],
  [43, 5, 5 * 16 + 11],
  [43, 0, 11],
  // 12 11/16 keeps its ten inches.
  [203, 4, 14 * 16 + 11],
])('%s sixteenths and the key %i make %i', (now, digit, next) => {
  expect(withWhole(now, digit)).toBe(next);
});

test.each<[now: number, key: string, next: number | null]>([
  [43, 'ArrowRight', 44],
  [43, 'ArrowDown', 42],
  [43, 'PageUp', 59],
  [43, 'Home', 32],
  [43, 'End', 47],
  [0, 'ArrowLeft', 0],
  [SIXTEENTHS_MAX, 'PageUp', SIXTEENTHS_MAX],
  [43, 'Tab', null],
])('on the strip at %i, %s leads to %s', (now, key, next) => {
  expect(stepped(now, key)).toBe(next);
});

test('no step leaves the range of the pad', () => {
  expect([clamped(-1), clamped(SIXTEENTHS_MAX + 1)]).toEqual([0, SIXTEENTHS_MAX]);
});

test.each<[now: string, key: string, next: string]>([
  ['', '6', '6'],
  ['0', '6', '6'],
  ['68', '.', '68.'],
  ['', '.', '0.'],
  ['68.', '.', '68.'],
  ['68.', '3', '68.3'],
  ['68.3', '4', '68.3'],
  ['9999', '9', '9999'],
  ['68.', 'delete', '68'],
  ['', 'delete', ''],
])('"%s" and the key %s make "%s"', (now, key, next) => {
  expect(typed(now, key)).toBe(next);
});

test('every tooth is on a side, and every side is full', () => {
  const { teeth } = exampleCombMil();
  const starts = sides(teeth.length);
  teeth.forEach((_, i) => {
    const start = starts[sideOf(teeth.length, i)]!;
    expect(i - start).toBeGreaterThanOrEqual(0);
    expect(i - start).toBeLessThan(7);
  });
  expect(Math.max(...starts) + 7).toBe(teeth.length);
});

test.each<[lastWet: number | null, step: -1 | 1, next: number]>([
  [null, 1, 21],
  [22, 1, 23],
  [0, -1, 0],
  [35, 1, 35],
])('from tooth %s a step of %i leads to %i', (lastWet, step, next) => {
  expect(stepTooth(lastWet, step, 36, 21)).toBe(next);
});

test.each([320, 366, 536])('at %i px the teeth keep 44 px each, shorten to the right, and stay between the feet', (width) => {
  const comb = drawComb(width, 7);
  expect(comb.pitch).toBeGreaterThanOrEqual(44);
  comb.teeth.slice(1).forEach(({ left, bottom }, i) => {
    expect(left).toBeGreaterThan(comb.teeth[i]!.left + comb.teeth[i]!.width);
    expect(bottom).toBeLessThan(comb.teeth[i]!.bottom);
  });
  expect(comb.teeth[0]!.left).toBeGreaterThanOrEqual(comb.foot);
  expect(comb.teeth[6]!.left + comb.teeth[6]!.width).toBeLessThanOrEqual(width - comb.foot);
});

test('the film wets the teeth up to the one touched, and none after it', () => {
  const comb = drawComb(366, 7);
  const wetted = (tooth: number) => comb.teeth.filter(({ bottom }) => bottom > filmY(comb, tooth)).length;
  expect([-1, 0, 3, 6, 7].map(wetted)).toEqual([0, 1, 4, 7, 7]);
});
