import { drawComb, filmY, sideOf, sides, stepTooth } from '#lib/ui/reading/comb.ts';
import type { Unit } from '#lib/record/kinds/reading.ts';
import { keyRoom, typed } from '#lib/ui/reading/keypad.ts';
import { clamped, nearest, SIXTEENTHS_MAX, stepped, STRIP, ticks, withWhole, xOf } from '#lib/ui/reading/ruler.ts';
import { exampleCombMil } from '#lib/trade/comb.ts';
import { expect, test } from 'vitest';
import type { Measured } from '#lib/job/state.ts';
import { MEASURE_KINDS } from '#lib/job/measures.ts';
import type { ReadingOnPad } from '#lib/record/drafts.ts';
import { knownData } from '#lib/record/kinds.ts';
import { MEASURES, type Measure, type Reading } from '#lib/record/kinds/reading.ts';
import { EMPTY_PAD, goesBelowZero, onPad, overRestored, padFor, unitsFor } from '../../../src/routes/(book)/job/[id]/read/pad.ts';
import { afterKept, howOf, readingDraft, spotTooLong } from '../../../src/routes/(book)/job/[id]/read/reading-draft.ts';
import { isTenfold, lastOf, otherWay } from '../../../src/routes/(book)/job/[id]/read/slips.ts';

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

test.each<[unit: Unit, now: string, key: string, next: string]>([
  ['mm', '', '6', '6'],
  ['mm', '0', '6', '6'],
  ['mm', '68', '.', '68.'],
  ['mm', '', '.', '0.'],
  ['mm', '68.', '.', '68.'],
  ['mm', '68.', '3', '68.3'],
  ['mm', '68.3', '4', '68.3'],
  ['mm', '9999', '9', '9999'],
  ['mm', '68.', 'delete', '68'],
  ['mm', '', 'delete', ''],
  // A comb in micrometres has no tenths, and a film one digit too long must be seen to be.
  ['um', '650', '.', '650'],
  ['um', '2500', '0', '25000'],
  ['C', '', '-', '-'],
  ['C', '-', '4', '-4'],
  ['C', '-4', '-', '4'],
  ['C', '-', '.', '-0.'],
  ['C', '-0', '5', '-5'],
  ['C', '-', 'delete', ''],
  ['in/ft', '0.187', '5', '0.1875'],
  ['in/ft', '0.1875', '5', '0.1875'],
])('in %s "%s" and the key %s make "%s"', (unit, now, key, next) => {
  expect(typed(now, key, keyRoom(unit))).toBe(next);
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

const pad = (said: Partial<ReadingOnPad>): ReadingOnPad => ({ ...EMPTY_PAD, ...said });

test.each<
  [what: Measure, units: 'in' | 'mm', said: Partial<ReadingOnPad>, text: string, value: string, unit: Unit, resolution: string | undefined]
>([
  ['overlap', 'in', { sixteenths: 43 }, '2 11/16', '2.6875', 'in', '0.0625'],
  // A level falls to the floor of the pan, and a straightedge may show no gap at all.
  ['flood-level', 'in', { sixteenths: 0 }, '0', '0', 'in', '0.0625'],
  ['flatness', 'mm', { typed: '0' }, '0', '0', 'mm', '1'],
  ['overlap', 'mm', { typed: '68.5' }, '68.5', '68.5', 'mm', '0.1'],
  ['overlap', 'mm', { typed: '68.' }, '68.', '68', 'mm', '1'],
  ['wet-film', 'in', { lastWet: 23 }, '26–28', '26', 'mil', undefined],
  ['dry-film', 'in', { typed: '24.5' }, '24.5', '24.5', 'mil', '0.1'],
  ['dry-film', 'mm', { typed: '600' }, '600', '600', 'um', '1'],
  ['surface-temperature', 'mm', { typed: '-4.5' }, '-4.5', '-4.5', 'C', '0.1'],
  ['air-temperature', 'in', { typed: '-0' }, '-0', '0', 'F', '1'],
  ['slope', 'in', { typed: '0.25' }, '0.25', '0.25', 'in/ft', '0.01'],
  ['slope', 'in', { typed: '2', unit: '%' }, '2', '2', '%', '1'],
  ['moisture', 'mm', { typed: '2.1', scale: 'carbide' }, '2.1', '2.1', '%', '0.1'],
  ['volume-used', 'in', { typed: '3', unit: 'qt' }, '3', '3', 'qt', '1'],
])('%s in a job in %s: %j is kept as "%s"', (what, units, said, text, value, unit, resolution) => {
  expect(onPad(what, units, pad(said))).toMatchObject({
    is: 'said',
    said: { text, value, unit, ...(resolution === undefined ? {} : { resolution }) },
  });
});

test.each<[what: Measure, units: 'in' | 'mm', said: Partial<ReadingOnPad>]>([
  ['overlap', 'in', {}],
  ['overlap', 'mm', { typed: '' }],
  ['air-temperature', 'mm', { typed: '-' }],
  ['overlap', 'mm', { typed: '2 1/4' }],
  // The longest tooth wet: there is no dry one after it.
  ['wet-film', 'in', { lastWet: 35 }],
  // A number of no scale means nothing.
  ['moisture', 'mm', { typed: '2.1' }],
])('%s in a job in %s: %j says nothing yet', (what, units, said) => {
  expect(onPad(what, units, pad(said))).toEqual({ is: 'empty' });
});

test.each<[what: Measure, units: 'in' | 'mm', said: Partial<ReadingOnPad>, why: string, other: string | null]>([
  ['dry-film', 'in', { typed: '2000' }, 'too-large', '2 in'],
  ['dry-film', 'mm', { typed: '60000' }, 'too-large', '60 mm'],
  ['overlap', 'in', { sixteenths: 0 }, 'zero', '0 ft'],
  ['overlap', 'mm', { typed: '-1' }, 'too-small', '0 m'],
  ['overlap', 'mm', { typed: '1500' }, 'too-large', '1.5 m'],
  ['humidity', 'in', { typed: '101' }, 'too-large', null],
  ['humidity', 'in', { typed: '-1' }, 'too-small', null],
  ['air-temperature', 'mm', { typed: '90' }, 'too-large', '194 F'],
  ['air-temperature', 'mm', { typed: '-41' }, 'too-small', '-41.8 F'],
  ['slope', 'in', { typed: '3' }, 'too-large', '25 %'],
  ['volume-used', 'in', { typed: '300' }, 'too-large', '1135.62 L'],
  ['flood-level', 'mm', { typed: '-2' }, 'too-small', '0 m'],
])('%s in a job in %s: %j is refused as %s', (what, units, said, why, other) => {
  const on = onPad(what, units, pad(said));
  expect(on).toMatchObject({ is: 'refused', why });
  const way = on.is === 'refused' ? otherWay(on.said) : null;
  expect(way === null ? null : `${way.value} ${way.unit}`).toBe(other);
});

test('every measure that is read has a pad, an instrument and units of its own dimension', () => {
  const read = MEASURES.filter((what) => MEASURE_KINDS[what].read);
  expect(read.length).toBeGreaterThan(12);
  for (const what of read) {
    for (const units of ['in', 'mm'] as const) {
      expect(unitsFor(what, units)).toContain(MEASURE_KINDS[what][units]);
      expect(padFor(what, units) === 'comb').toBe(what === 'wet-film');
    }
  }
  expect(read.filter(goesBelowZero)).toEqual(['slope', 'air-temperature', 'surface-temperature']);
  expect(Object.groupBy(read, howOf)).toEqual({
    tape: ['overlap', 'band-lap', 'onto-band', 'flood-depth', 'flood-level', 'upturn', 'flatness', 'curb-height', 'distance'],
    comb: ['wet-film'],
    caliper: ['dry-film'],
    level: ['slope'],
    thermometer: ['air-temperature', 'surface-temperature'],
    meter: ['humidity', 'moisture'],
    typed: ['volume-used'],
  });
});

const said = (value: string, unit: Unit): Reading['said'] => ({ text: value, value, unit });
test.each<[value: Reading['said'], last: Reading['said'], tenfold: boolean]>([
  [said('20', 'in'), said('2', 'in'), true],
  [said('19.9375', 'in'), said('2', 'in'), false],
  [said('0.2', 'in'), said('2', 'in'), true],
  [said('508', 'mm'), said('2', 'in'), true],
  // From zero everything is a step beyond measure, and a degree has no such zero.
  [said('20', 'in'), said('0', 'in'), false],
  [said('30', 'C'), said('2', 'C'), false],
  [said('-2', '%'), said('0.2', '%'), true],
])('%j after %j is asked about: %s', (value, last, tenfold) => {
  expect(isTenfold(value, last)).toBe(tenfold);
});

test('moisture is compared with the last reading in its own scale only', () => {
  const read = (id: string, scale: Reading['scale'] | null) => ({ id, what: 'moisture', scale }) as Measured;
  const readings = [read('carbide', 'carbide'), read('wood', 'wood')];
  expect(lastOf(readings, 'moisture', 'carbide')?.id).toBe('carbide');
  expect(lastOf(readings, 'moisture', 'relative')).toBeNull();
  expect(lastOf([read('lap', null)], 'overlap', undefined)).toBeNull();
});

test.each<[what: string, on: Partial<ReadingOnPad>, shownBy: string | null, data: object]>([
  ['the value alone', {}, null, { how: 'tape' }],
  ['with the photo taken for it', {}, 'shot-2', { how: 'tape', shot: 'shot-2' }],
  ['typed from a photo', { shot: 'shot-1', fromPhoto: true }, null, { how: 'photo', shot: 'shot-1' }],
  ['typed from a photo, another taken after', { shot: 'shot-1', fromPhoto: true }, 'shot-2', { how: 'photo', shot: 'shot-1' }],
  ['read on the spot, a photo beside it', { shot: 'shot-1', fromPhoto: false }, null, { how: 'tape', shot: 'shot-1' }],
  ['with half an emoji in its spot', { spot: ' by the drain \ud83d' }, null, { how: 'tape', spot: 'by the drain \ufffd' }],
  ['with blanks for a spot', { spot: '  ' }, null, { how: 'tape' }],
  ['in a flood test', { attempt: 'fill-1', water: 'control' }, null, { how: 'tape', attempt: 'fill-1', water: 'control' }],
])('a reading %s is an entry of its kind', (_, on, shownBy, data) => {
  const value = said('2.6875', 'in');
  const draft = readingDraft('overlap', value, pad({ surface: 'floor', ...on }), 'run-1', shownBy);
  expect(draft).toMatchObject({ kind: 'reading', run: 'run-1' });
  expect(draft.data).toEqual({ what: 'overlap', surface: 'floor', said: value, ...data });
  expect(knownData('reading', draft.data).kind).toBe('reading');
});

test('a spot of 100,000 characters is too long to keep, and stays on the pad', () => {
  const long = pad({ spot: 'x'.repeat(100_000) });
  expect([spotTooLong(long), spotTooLong(pad({ spot: ` ${'x'.repeat(200)} ` })), spotTooLong(EMPTY_PAD)]).toEqual([true, false, false]);
});

test('after a reading the pad is empty at the same place', () => {
  const kept = afterKept(
    pad({ surface: 'floor', typed: '12', sixteenths: 43, coat: 2, scale: 'wood', spot: 'corner', shot: 'shot-1', fromPhoto: true }),
  );
  expect(kept).toEqual({ ...EMPTY_PAD, surface: 'floor', coat: 2, scale: 'wood' });
});

test.each<[what: string, early: Partial<ReadingOnPad>, on: Partial<ReadingOnPad>]>([
  ['a surface leaves the value that comes back', { surface: 'wall' }, { typed: '12', sixteenths: 43, surface: 'wall' }],
  ['a value takes the place of the one that comes back', { sixteenths: 32 }, { typed: '', sixteenths: 32, surface: 'floor' }],
  ['both', { typed: '9', surface: 'wall' }, { typed: '9', sixteenths: null, surface: 'wall' }],
])('touched before the draft is back from the disk: %s', (_, early, on) => {
  const back = pad({ typed: '12', sixteenths: 43, surface: 'floor' });
  expect({ ...back, ...overRestored(early) }).toEqual({ ...back, ...on });
});
