import { crewRate, outlook, plannedAgainstUsed, PUBLISHED_COUNTS } from '../../trade/rates.ts';
import { fail, ok } from '../../result.ts';
import { reckoning, type Reckoning } from './ask.ts';
import { AREA, found, HOURS, optional, several } from './asked.ts';

const PER_HOUR = { in: 'ft2', mm: 'm2', si: 'm2' } as const;

export const TIME_RECKONINGS: readonly Reckoning[] = [
  reckoning(
    'time-ahead',
    'time',
    null,
    { amount: AREA, publishedRate: optional(AREA), done: several(AREA), used: several(HOURS) },
    ({ amount, publishedRate, done, used }) => {
      if (done.length !== used.length) return fail({ code: 'empty', field: 'used', bound: done.length });
      const known = { jobs: done.map((m2, at) => ({ done: m2, used: used[at]! })), publishedRate, weightJobs: PUBLISHED_COUNTS };
      const crew = crewRate(known);
      if (!crew.ok) return crew;
      const ahead = outlook({ ...known, amount });
      if (!ahead.ok) return ahead;
      const { n, bySheet, byOwnLow, byOwnHigh, weighed } = ahead.value;
      return ok([
        { what: 'n-jobs', kind: 'number', value: n },
        found('own-pace', PER_HOUR, crew.value.lowRate!, crew.value.highRate!),
        ...(bySheet === null ? [] : [found('time-by-sheet', HOURS, bySheet)]),
        found('time-by-own', HOURS, byOwnLow!, byOwnHigh!),
        found('time-weighed', HOURS, weighed),
      ]);
    },
  ),
  reckoning('planned-used', 'time', null, { planned: several(HOURS), used: several(HOURS) }, ({ planned, used }) => {
    if (planned.length !== used.length) return fail({ code: 'empty', field: 'used', bound: planned.length });
    const steps = planned.map((hours, at) => ({ step: String(at), planned: hours, used: used[at]! }));
    const told = plannedAgainstUsed({ steps });
    if (!told.ok) return told;
    const { over, overPct } = told.value;
    return ok([
      found('planned', HOURS, told.value.planned),
      found('used', HOURS, told.value.used),
      found(over < 0 ? 'less-used' : 'more-used', HOURS, Math.abs(over)),
      ...(overPct === null ? [] : [found(over < 0 ? 'less-used' : 'more-used', { in: '%', mm: '%', si: '%' }, Math.abs(overPct))]),
    ]);
  }),
];
