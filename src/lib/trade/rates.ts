import { ok } from '../result.ts';
import { firstFault, listFault, numberFault, textFault, type Computed, type InputFault, type Span } from './input.ts';

/**
 * Time and material: what was planned beside what was used, and this crew's own rates. A rate is what gets done for one of what is
 * used, be that m2 for an hour, m2 for a bag or m for a roll: the units are the caller's, the same in all fields.
 */

const AMOUNT: Span = [0.001, 1_000_000];
const USED: Span = [0, 1_000_000];
const WEIGHT_JOBS: Span = [0, 100];

/** A published rate counts as much as three of the crew's jobs (own choice, no source). */
export const PUBLISHED_COUNTS = 3;

/** A finished job: what was done, and what it took. */
export interface FinishedJob {
  readonly done: number;
  readonly used: number;
}

interface Known {
  readonly jobs: readonly FinishedJob[];
  readonly publishedRate: number | null;
  /** For how many jobs the published rate counts. */
  readonly weightJobs: number;
}

export interface CrewRate {
  readonly n: number;
  /** Slowest, fastest and overall rate of the crew's jobs; null without any. */
  readonly lowRate: number | null;
  readonly highRate: number | null;
  readonly ownRate: number | null;
  /** Weight of the own rate, 0 to 1. */
  readonly credibility: number;
  /** Own and published, weighed. */
  readonly rate: number;
}

/**
 * The crew's own rate with n and range, drawn towards the published one while jobs are few: `Z = n / (n + k)`, rate `Z own + (1 - Z)
 * published`, k the jobs that the published rate counts for. Without a published rate the own one stands alone, and the other way round.
 * Errors: neither jobs nor a published rate, an amount outside 0.001 to 1,000,000, a weight outside 0 to 100 jobs.
 * Source: Bühlmann's credibility factor, of actuarial textbooks. The own rate is all that was done over all it took.
 */
export function crewRate(known: Known): Computed<CrewRate> {
  const { jobs, publishedRate, weightJobs } = known;
  const fault = firstFault(knownFaults(known));
  if (fault) return fault;
  const n = jobs.length;
  const rates = jobs.map(({ done, used }) => done / used);
  const sum = (of: (job: FinishedJob) => number) => jobs.reduce((total, job) => total + of(job), 0);
  const ownRate = n === 0 ? null : sum(({ done }) => done) / sum(({ used }) => used);
  const credibility = ownRate === null ? 0 : publishedRate === null ? 1 : n / (n + weightJobs);
  return ok({
    n,
    lowRate: n === 0 ? null : Math.min(...rates),
    highRate: n === 0 ? null : Math.max(...rates),
    ownRate,
    credibility,
    rate: credibility * (ownRate ?? 0) + (1 - credibility) * (publishedRate ?? 0),
  });
}

/**
 * What an amount will take, by the data sheet beside by the last n jobs (from the fastest of them to the slowest), and by both weighed.
 * Errors: an amount outside 0.001 to 1,000,000, and as for crewRate.
 * Source: amount over rate.
 */
export function outlook(ahead: Known & { readonly amount: number }): Computed<{
  n: number;
  bySheet: number | null;
  byOwn: number | null;
  byOwnLow: number | null;
  byOwnHigh: number | null;
  weighed: number;
}> {
  const fault = firstFault([numberFault('amount', ahead.amount, AMOUNT)]);
  if (fault) return fault;
  const crew = crewRate(ahead);
  if (!crew.ok) return crew;
  const { n, ownRate, lowRate, highRate, rate } = crew.value;
  const takes = (one: number | null) => (one === null ? null : ahead.amount / one);
  return ok({
    n,
    bySheet: takes(ahead.publishedRate),
    byOwn: takes(ownRate),
    byOwnLow: takes(highRate),
    byOwnHigh: takes(lowRate),
    weighed: ahead.amount / rate,
  });
}

/** A step with what was planned and used, in hours, bags, litres or rolls; null where nobody planned it. */
export interface PlannedStep {
  readonly step: string;
  readonly planned: number | null;
  readonly used: number;
}

/**
 * Planned against used, step by step and over the planned steps: how much more was used (less: below zero), and that as a share of
 * what was planned, in per cent. `unplanned` is what was used on steps that nobody planned.
 * Errors: no steps, an amount outside 0 to 1,000,000, a step named twice.
 * Source: subtraction.
 */
export function plannedAgainstUsed({ steps }: { readonly steps: readonly PlannedStep[] }): Computed<{
  steps: readonly { step: string; over: number | null; overPct: number | null }[];
  planned: number;
  used: number;
  over: number;
  overPct: number | null;
  unplanned: number;
}> {
  const fault = firstFault(stepFaults(steps));
  if (fault) return fault;
  const total = (of: readonly PlannedStep[], value: (step: PlannedStep) => number) => of.reduce((sum, step) => sum + value(step), 0);
  const foreseen = steps.filter((one) => one.planned !== null);
  const planned = total(foreseen, (one) => one.planned ?? 0);
  const used = total(foreseen, (one) => one.used);
  return ok({
    steps: steps.map((one) => ({ step: one.step, ...over(one.planned, one.used) })),
    planned,
    used,
    over: used - planned,
    overPct: over(planned, used).overPct,
    unplanned: total(steps, (one) => one.used) - used,
  });
}

function over(planned: number | null, used: number): { over: number | null; overPct: number | null } {
  if (planned === null) return { over: null, overPct: null };
  return { over: used - planned, overPct: planned === 0 ? null : (100 * (used - planned)) / planned };
}

function knownFaults({ jobs, publishedRate, weightJobs }: Known): (InputFault | null)[] {
  const list = listFault('jobs', jobs, publishedRate === null ? 1 : 0);
  if (list) return [list];
  return [
    ...jobs.flatMap(({ done, used }, at) => [numberFault(`jobs[${at}].done`, done, AMOUNT), numberFault(`jobs[${at}].used`, used, AMOUNT)]),
    publishedRate === null ? null : numberFault('publishedRate', publishedRate, AMOUNT),
    numberFault('weightJobs', weightJobs, WEIGHT_JOBS),
  ];
}

function stepFaults(steps: readonly PlannedStep[]): (InputFault | null)[] {
  const list = listFault('steps', steps, 1);
  if (list) return [list];
  return steps.flatMap(({ step, planned, used }, at) => [
    textFault(`steps[${at}].step`, step),
    planned === null ? null : numberFault(`steps[${at}].planned`, planned, USED),
    numberFault(`steps[${at}].used`, used, USED),
    steps.findIndex((one) => one.step === step) < at ? { code: 'twice', field: `steps[${at}].step`, bound: null } : null,
  ]);
}
