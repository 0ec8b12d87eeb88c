import { readDay } from '#lib/measure/day-text.ts';
import { expect, test } from 'vitest';

test.each<[text: string, day: string]>([
  ['2026-03-31', '2026-03-31'],
  ['2026/3/31', '2026-03-31'],
  ['2026.03.31', '2026-03-31'],
  ['31/3/2026', '2026-03-31'],
  ['3/31/2026', '2026-03-31'],
  ['31.03.26', '2026-03-31'],
  ['31-03-26', '2026-03-31'],
  // Either way round it is the same day.
  ['4/4/2026', '2026-04-04'],
  ['31 Mar 2026', '2026-03-31'],
  ['31MAR2026', '2026-03-31'],
  ['31 MAR 26', '2026-03-31'],
  ['Mar 31, 2026', '2026-03-31'],
  ['March 31 2026', '2026-03-31'],
  ['2026 Mar 31', '2026-03-31'],
  ['31 de marzo de 2026', '2026-03-31'],
  ['1 ene 2027', '2027-01-01'],
  ['24-dic-2026', '2026-12-24'],
  ['5 agosto 2026', '2026-08-05'],
  ['5 setiembre 2026', '2026-09-05'],
  ['29 Feb 2028', '2028-02-29'],
  ['  2026-03-31  ', '2026-03-31'],
  // A day to come, and one long past, are days like any other.
  ['2099-12-31', '2099-12-31'],
  ['2001-01-01', '2001-01-01'],
])('%s is %s', (text, day) => {
  expect(readDay(text)).toEqual({ ok: true, value: day });
});

test.each<[text: string, days: readonly string[]]>([
  ['3/4/2026', ['2026-04-03', '2026-03-04']],
  ['03.04.26', ['2026-04-03', '2026-03-04']],
  ['03/2026', ['2026-03-31']],
  ['2/28', ['2028-02-29']],
  ['Mar 2026', ['2026-03-31']],
  ['FEB 2027', ['2027-02-28']],
  ['abril 2026', ['2026-04-30']],
  // March of '31, or the last of a March without its year: the offer shows which, and the person types the other.
  ['31 Mar', ['2031-03-31']],
])('%s is asked about', (text, days) => {
  expect(readDay(text)).toEqual({ ok: false, fault: { code: 'in-doubt', days } });
});

test.each([
  '', ' ', '30 Feb 2026', '2026-02-30', '29 Feb 2026', '30/2/2026', '31/4/2026', '13/13/2026', '0/0/2026', '2026-00-10', '1 Mar 1999', '1 Mar 2100',
  '31', '2026', 'March', 'soon', '31 Mrz 2026', '31/3/206', '31/3/20266', '1 2 3 2026', '31 Mar 2026 10:00', '31 Mar Apr 2026',
  '٣١/٣/٢٠٢٦', '🛁 2026', 'x'.repeat(100_000), '-1/3/2026 and more than forty letters of it', '20/2026',
])('%j is no day', (text) => {
  expect(readDay(text)).toEqual({ ok: false, fault: { code: 'not-a-day' } });
}); // prettier-ignore
