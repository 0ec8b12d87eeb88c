import ICAL from 'ical.js';
import { expect, it, test } from 'vitest';
import { calendarFile } from '#lib/job/calendar.ts';

const event = {
  uid: 'ready-w1',
  atUtc: '2026-03-08T09:30:00.000Z',
  madeUtc: '2026-03-07T22:00:00.000Z',
  summary: 'Hall bath: walk-on wait',
  description: 'Stated by: p. 2',
};

/** Read by a library that is not ours. */
function read(text: string) {
  const calendar = new ICAL.Component(ICAL.parse(text) as []);
  return calendar.getAllSubcomponents('vevent').map((one) => {
    const read = new ICAL.Event(one);
    const alarms = one.getAllSubcomponents('valarm').map((alarm) => String(alarm.getFirstPropertyValue('trigger')));
    return { uid: read.uid, at: read.startDate.toJSDate().toISOString(), summary: read.summary, description: read.description, alarms };
  });
}

it('is read as one event in UTC with an alarm at its start (RFC 5545)', () => {
  expect(read(calendarFile([event]))).toEqual([
    { uid: 'ready-w1@layerbook', at: '2026-03-08T09:30:00.000Z', summary: event.summary, description: event.description, alarms: ['PT0S'] },
  ]);
});

test.each([
  ['signs that mean something', 'Baño; "norte", 2\\3'],
  ['two lines', 'one\ntwo'],
  ['a long name with emoji and right-to-left letters', `${'🛁 حمام الممر '.repeat(12)}end`],
])('keeps %s', (_, summary) => {
  const text = calendarFile([{ ...event, summary }]);
  expect(read(text)[0]?.summary).toBe(summary);
  const longest = Math.max(...text.split('\r\n').map((line) => new TextEncoder().encode(line).length));
  expect(longest).toBeLessThanOrEqual(75);
});
