import { expect, it } from 'vitest';
import { printable, wrap, type Measure } from '#lib/report/text.ts';

/** Every character one unit wide. */
const measure: Measure = (text) => text.length;

it.each([
  ['Baño “Ñandú” – 2 1/2 in, ½, 3′ 6″, 26–28 µm', 'Baño “Ñandú” – 2 1/2 in, ½, 3′ 6″, 26–28 µm'],
  ['bathtub 🛁', 'bathtub [U+1F6BF]'.replace('1F6BF', '1F6C1')],
  ['👷🏽‍♀️', '[U+1F477 U+1F3FD U+200D U+2640 U+FE0F]'],
  ['שלום', '[U+05E9 U+05DC U+05D5 U+05DD]'],
  ['a\u202eb', 'a[U+202E]b'],
  ['soft\u00adhyphen', 'soft[U+00AD]hyphen'],
  ['\u0000', '[U+0000]'],
  // e + combining acute is the same letter as é (Unicode, NFC).
  ['Ine\u0301s', 'Inés'],
  ['x\u0303', 'x[U+0303]'],
  ['line\r\nline\tend', 'line\nline end'],
])('prints %j as %j', (text, printed) => {
  expect(printable(text)).toBe(printed);
});

it.each([
  ['one two three', 7, ['one two', 'three']],
  ['abcdefghij', 4, ['abcd', 'efgh', 'ij']],
  ['to abcdefghij', 4, ['to', 'abcd', 'efgh', 'ij']],
  ['a\n\nb', 9, ['a', '', 'b']],
  ['', 9, ['']],
  ['lap 2\u00a01/2\u00a0in', 8, ['lap', '2 1/2 in']],
])('breaks %j at %i into %j', (text, width, lines) => {
  expect(wrap(text, 'text', 10, width, measure)).toEqual(lines);
});
