import type { Computed } from '#lib/trade/input.ts';
import { crewRate, outlook, plannedAgainstUsed, PUBLISHED_COUNTS } from '#lib/trade/rates.ts';
import { expect, test } from 'vitest';
import { valueOf } from './computed.ts';

const faultOf = (result: Computed<object>) => (result.ok ? null : result.fault);
const JOBS = [
  { done: 6, used: 4 },
  { done: 8, used: 2 },
  { done: 10, used: 6 },
];

test('without jobs the published rate stands alone, without a published rate the crew’s own', () => {
  expect(valueOf(crewRate({ jobs: [], publishedRate: 2.5, weightJobs: PUBLISHED_COUNTS }))).toEqual({
    n: 0, lowRate: null, highRate: null, ownRate: null, credibility: 0, rate: 2.5,
  }); // prettier-ignore
  expect(valueOf(crewRate({ jobs: JOBS, publishedRate: null, weightJobs: 3 }))).toEqual({
    n: 3, lowRate: 1.5, highRate: 4, ownRate: 2, credibility: 1, rate: 2,
  }); // prettier-ignore
});

test.each([
  [3, 0.5, 3],
  [1, 0.75, 2.5],
  [0, 1, 2],
  [9, 0.25, 3.5],
])('three jobs at 2 beside a published 4 that counts for %d: weight %d, rate %d', (weightJobs, credibility, rate) => {
  expect(valueOf(crewRate({ jobs: JOBS, publishedRate: 4, weightJobs }))).toMatchObject({ credibility, rate });
});

test('nine square metres by the sheet, by the last three jobs, by both', () => {
  expect(valueOf(outlook({ amount: 12, jobs: JOBS, publishedRate: 4, weightJobs: 3 }))).toEqual({
    n: 3, bySheet: 3, byOwn: 6, byOwnLow: 3, byOwnHigh: 8, weighed: 4,
  }); // prettier-ignore
  expect(valueOf(outlook({ amount: 12, jobs: [], publishedRate: 4, weightJobs: 3 }))).toEqual({
    n: 0, bySheet: 3, byOwn: null, byOwnLow: null, byOwnHigh: null, weighed: 3,
  }); // prettier-ignore
  expect(valueOf(outlook({ amount: 12, jobs: JOBS, publishedRate: null, weightJobs: 3 }))).toMatchObject({ bySheet: null, weighed: 6 });
});

test('planned against used, what nobody planned apart', () => {
  const steps = [
    { step: 'bond-sheets', planned: 4, used: 5 },
    { step: 'band-seams', planned: 2, used: 1.5 },
    { step: 'scrape', planned: 0, used: 1 },
    { step: 'repair', planned: null, used: 3 },
  ];
  expect(valueOf(plannedAgainstUsed({ steps }))).toEqual({
    steps: [
      { step: 'bond-sheets', over: 1, overPct: 25 },
      { step: 'band-seams', over: -0.5, overPct: -25 },
      { step: 'scrape', over: 1, overPct: null },
      { step: 'repair', over: null, overPct: null },
    ],
    planned: 6,
    used: 7.5,
    over: 1.5,
    overPct: 25,
    unplanned: 3,
  });
  expect(valueOf(plannedAgainstUsed({ steps: [{ step: 'repair', planned: null, used: 3 }] }))).toMatchObject({
    planned: 0,
    used: 0,
    overPct: null,
    unplanned: 3,
  });
});

test.each([
  [() => crewRate({ jobs: [], publishedRate: null, weightJobs: 3 }), 'empty', 'jobs'],
  [() => crewRate({ jobs: [{ done: 0, used: 1 }], publishedRate: null, weightJobs: 3 }), 'too-small', 'jobs[0].done'],
  [() => crewRate({ jobs: [{ done: 1, used: 1 }, { done: 1, used: 2e6 }], publishedRate: null, weightJobs: 3 }), 'too-large', 'jobs[1].used'],
  [() => crewRate({ jobs: JOBS, publishedRate: 0, weightJobs: 3 }), 'too-small', 'publishedRate'],
  [() => crewRate({ jobs: JOBS, publishedRate: 1, weightJobs: -1 }), 'too-small', 'weightJobs'],
  [() => crewRate({ jobs: JOBS, publishedRate: 1, weightJobs: 101 }), 'too-large', 'weightJobs'],
  [() => outlook({ amount: 0, jobs: JOBS, publishedRate: 1, weightJobs: 3 }), 'too-small', 'amount'],
  [() => outlook({ amount: 1, jobs: [], publishedRate: null, weightJobs: 3 }), 'empty', 'jobs'],
  [() => plannedAgainstUsed({ steps: [] }), 'empty', 'steps'],
  [() => plannedAgainstUsed({ steps: [{ step: 1 as unknown as string, planned: 1, used: 1 }] }), 'missing', 'steps[0].step'],
  [() => plannedAgainstUsed({ steps: [{ step: 'a', planned: -1, used: 1 }] }), 'too-small', 'steps[0].planned'],
  [() => plannedAgainstUsed({ steps: [{ step: 'a', planned: null, used: -1 }] }), 'too-small', 'steps[0].used'],
  [() => plannedAgainstUsed({ steps: ['a', 'b', 'a'].map((step) => ({ step, planned: 1, used: 1 })) }), 'twice', 'steps[2].step'],
])('%#: time and material that cannot be is refused', (compute, code, field) => {
  expect(faultOf(compute())).toMatchObject({ code, field });
}); // prettier-ignore
