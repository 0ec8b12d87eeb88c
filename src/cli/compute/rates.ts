import { crewRate, outlook, plannedAgainstUsed, PUBLISHED_COUNTS } from '#lib/trade/rates.ts';
import { row, type Row } from './row.ts';

const PER = 'done for one of used, such as m2 an hour or m2 a bag';
const KNOWN = {
  jobs: 'list of { done, used }, finished jobs, 0.001 to 1,000,000 each; may be empty with a published rate',
  publishedRate: `${PER}; or null`,
  weightJobs: `jobs the published rate counts for, 0 to 100; the book takes ${PUBLISHED_COUNTS}`,
};

export const RATE_ROWS: readonly Row[] = [
  row(crewRate, {
    part: 'time-and-material',
    what: 'The crew’s own rate with n and range, drawn towards the published one while jobs are few.',
    inputs: KNOWN,
    result: { n: 'jobs', lowRate: `${PER}, or null`, highRate: 'the same, or null', ownRate: 'all that was done over all it took, or null', credibility: 'weight of the own rate, 0 to 1', rate: 'both weighed' },
    source: 'Bühlmann credibility, Z = n / (n + k)',
    limits: 'Jobs of one kind; how many jobs a published rate is worth is our own choice.',
    example: { jobs: [{ done: 6, used: 4 }, { done: 8, used: 4 }], publishedRate: 2.5, weightJobs: PUBLISHED_COUNTS },
  }),
  row(outlook, {
    part: 'time-and-material',
    what: 'What an amount will take, by the data sheet beside by the last n jobs.',
    inputs: { ...KNOWN, amount: 'what is to be done, in the unit of done' },
    result: { n: 'jobs', bySheet: 'in the unit of used, or null', byOwn: 'the same, or null', byOwnLow: 'by the fastest job, or null', byOwnHigh: 'by the slowest job, or null', weighed: 'by both' },
    source: 'amount over rate',
    limits: 'As for crewRate.',
    example: { amount: 9, jobs: [{ done: 6, used: 4 }, { done: 8, used: 4 }], publishedRate: 2.5, weightJobs: PUBLISHED_COUNTS },
  }),
  row(plannedAgainstUsed, {
    part: 'time-and-material',
    what: 'Planned against used, step by step and in all.',
    inputs: { steps: 'list of { step: text, planned: number or null, used: number }, one unit in all of them' },
    result: { steps: 'list of { step, over, overPct }', planned: 'sum over planned steps', used: 'sum over planned steps', over: 'used less planned', overPct: '% of planned, or null', unplanned: 'used on steps nobody planned' },
    source: 'subtraction',
    limits: 'Hours with hours, bags with bags.',
    example: { steps: [{ step: 'bond-sheets', planned: 4, used: 5 }, { step: 'repair', planned: null, used: 1 }] },
  }),
]; // prettier-ignore
