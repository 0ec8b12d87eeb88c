import { clockText, dateText, dayText, durationText } from '#lib/words/time.ts';
import { expect, test } from 'vitest';

// The tests run in a half-hour zone with daylight saving: any getter of the machine's own zone would show here.
test.each<[utc: string, offsetMin: number, en: string, es: string]>([
  ['2025-10-14T17:30:00.000Z', -240, '1:30 pm', '1:30 p. m.'],
  ['2025-10-14T04:00:00Z', -240, '12:00 am', '12:00 a. m.'],
  ['2025-10-14T16:00:59.999Z', -240, '12:00 pm', '12:00 p. m.'],
  ['2025-10-14T03:59:00Z', -240, '11:59 pm', '11:59 p. m.'],
  ['2025-10-14T00:05:00Z', 345, '5:50 am', '5:50 a. m.'],
])('%s at %i min from UTC reads %s, in Spanish %s', (utc, offsetMin, en, es) => {
  expect([clockText(utc, offsetMin, 'en'), clockText(utc, offsetMin, 'es').replace('\u00a0', ' ')]).toEqual([en, es]);
});

test.each<[utc: string, offsetMin: number, en: string, es: string]>([
  ['2025-10-14T17:30:00Z', -240, 'Tue 14 Oct 2025', 'mar 14 oct 2025'],
  // The day turns where the work was done, not where it is read.
  ['2026-01-01T02:00:00Z', -300, 'Wed 31 Dec 2025', 'mié 31 dic 2025'],
  ['2025-12-31T14:00:00Z', 630, 'Thu 1 Jan 2026', 'jue 1 ene 2026'],
  ['2024-02-29T12:00:00Z', 0, 'Thu 29 Feb 2024', 'jue 29 feb 2024'],
])('%s at %i min from UTC is %s, in Spanish %s', (utc, offsetMin, en, es) => {
  expect([dateText(utc, offsetMin, 'en'), dateText(utc, offsetMin, 'es')]).toEqual([en, es]);
  expect(dayText(utc, offsetMin, 'en')).toBe(en.slice(0, -5));
});

test.each([
  [0, '0 min'],
  [42.9, '42 min'],
  [60, '1 h'],
  [130, '2 h 10 min'],
  [4320, '72 h'],
])('%d minutes last %s', (minutes, text) => {
  expect(durationText(minutes, 'en')).toBe(text);
});

test('what is no instant, or no duration, is our mistake', () => {
  expect(() => clockText('yesterday', 0, 'en')).toThrow(RangeError);
  expect(() => durationText(-1, 'en')).toThrow(RangeError);
});
