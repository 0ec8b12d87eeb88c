import { expect, test } from 'vitest';
import { extension } from '#lib/job/extension.ts';
import { project } from '#lib/job/project.ts';
import { waits } from '#lib/job/waits.ts';
import { chain, type Said } from '../../fixtures/log.ts';

const HOUR = 3_600_000;
const range: Said = {
  kind: 'limit',
  data: { limit: 'l-air', what: 'air-temperature', min: '20', max: '30', unit: 'C', source: { kind: 'data-sheet', text: 'p. 1' } },
};
const air = (value: string, at: string, more: object = {}): Said => ({
  kind: 'conditions',
  at,
  data: { air: { text: value, value, unit: 'C' }, ...more },
});
const night = (value: string, at: string): Said => ({ kind: 'conditions', at, data: { lowest: { text: value, value, unit: 'C' } } });
const humidity = (value: string) => ({ humidity: { text: value, value, unit: '%' } });
const bonded: Said = { id: 'run', kind: 'run-start', data: { step: 'bond-sheets', surfaces: [] } };
const coated: Said = { id: 'run', kind: 'run-start', data: { step: 'liquid-coat', surfaces: [] } };

/** Hours by which a four-hour wait from 10:00 is lengthened; null where nothing is said. */
function longer(...said: Said[]): number | null {
  const wait: Said = {
    kind: 'wait',
    run: 'run',
    at: '10:00',
    data: {
      what: 'walk-on',
      surfaces: [],
      fromUtc: '2026-03-02T10:00:00.000Z',
      readyUtc: '2026-03-02T14:00:00.000Z',
      latestUtc: null,
      limit: 'l',
    },
  };
  const { state } = project(chain('phone-a', [...said, wait]));
  const [one] = waits(state, Date.parse('2026-03-02T11:00:00.000Z'));
  const done = one === undefined ? null : extension(state, one);
  return done === null || done.readyMs === null ? (done === null ? null : Infinity) : (done.readyMs - one!.readyMs!) / HOUR;
}

// Nurse-Saul (ASTM C1074) with datum 0 °C: at 10 °C against 20 °C the pace is a half while a reading speaks (3 h each way).
test.each<[string, Said[], number | null]>([
  ['no range stated', [bonded, air('10', '09:30')], null],
  ['no reading', [range, bonded], null],
  ['as warm as stated', [range, bonded, air('20', '09:30')], null],
  ['warmer never shortens', [range, bonded, air('30', '09:30')], null],
  ['10 °C at 10:00: three hours count as one and a half', [range, bonded, air('10', '10:00')], 1.5],
  ['frost while the reading speaks', [range, bonded, air('-2', '10:00')], 3],
  ['a minimum thermometer speaks since it was last read, and on', [range, bonded, air('25', '02:00'), night('10', '10:00')], 1.5],
  ['a coat in damp air', [range, coated, air('20', '10:00', humidity('95'))], 2],
])('%s', (_, said, hours) => {
  const got = longer(...said);
  expect(got === null ? null : Math.round(got * 10) / 10).toBe(hours);
});
