import type { RecordAttempt, RecordDocument } from '#lib/report/record-document.ts';
import { speaker } from '#lib/report/speaker.ts';
import { depthRow } from '#lib/report/word-flood.ts';
import { expect, test } from 'vitest';
import { NOTHING } from './nothing.ts';

const at = (hour: number) => ({ utc: `2026-03-05T${hour}:00:00.000Z`, offsetMin: 0 });
const end = { id: 'end', kind: 'flood-end', at: at(12) } as RecordDocument['log'][number];
const attempt = { id: 'f', depth: 'r', depthVerdict: 'no-limit', ends: ['end'] } as unknown as RecordAttempt;

test.each([
  [11, 'en', '2 in at the threshold, Thu 5 Mar 2026, 11:00 am.'],
  [13, 'en', '2 in at the threshold, written down Thu 5 Mar 2026, 1:00 pm, after the test had ended.'],
  [13, 'es', '2 in en el umbral, anotado jue 5 mar 2026, 1:00 p. m., después de terminar la prueba.'],
] as const)('a depth read at %i h of a test that ended at noon (%s)', (hour, lang, text) => {
  const read = {
    id: 'r',
    at: at(hour),
    said: { text: '2', value: '2', to: null, unit: 'in' },
    verdict: 'no-limit',
  } as unknown as RecordDocument['readings'][number];
  expect(
    depthRow(attempt, { readings: [read] }, speaker({ ...NOTHING, log: [end] }, lang)).map((row) => row.text.replaceAll(/\s/g, ' ')),
  ).toEqual([text]);
});
