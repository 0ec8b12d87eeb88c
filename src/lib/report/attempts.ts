import { attempts, depthVerdict, seen, tested, type Attempt } from '../job/flood.ts';
import { levels } from '../job/flood-levels.ts';
import type { JobState } from '../job/state.ts';
import type { RecordAttempt, RecordLevels } from './record-document.ts';

/** Attempts at the flood test in the order they were filled, each with what was seen and, apart from it, what the levels show. */
export function recordAttempts(job: JobState): RecordAttempt[] {
  return attempts(job).map((attempt) => recordAttempt(attempt, job));
}

function recordAttempt(attempt: Attempt, job: JobState): RecordAttempt {
  const { id, n, fill, depth, stand } = attempt;
  const { worst, before, after, worse } = seen(attempt);
  const { under, above } = tested(attempt, job);
  const named = <T extends { id: string; data: { attempt: string } }>(facts: readonly T[]) =>
    facts.filter((one) => one.data.attempt === id).map((one) => one.id);
  const read = job.readings.filter((one) => one.what === 'flood-level' && one.attempt === id);
  return {
    id,
    number: n,
    at: { utc: fill.utc, offsetMin: fill.offsetMin },
    under: under.map(({ surface }) => surface),
    dry: above.map(({ surface }) => surface),
    above: fill.data.above,
    stand,
    seen: { worst, before, after, worse },
    looks: named(job.facts['flood-look']),
    ends: named(job.facts['flood-end']),
    depth: depth?.id ?? null,
    depthVerdict: depthVerdict(attempt),
    test: read.filter(({ water }) => water !== 'control').map((one) => one.id),
    control: read.filter(({ water }) => water === 'control').map((one) => one.id),
    levels: recordLevels(attempt, job),
  };
}

function recordLevels(attempt: Attempt, job: JobState): RecordLevels {
  const shown = levels(attempt, job);
  if (shown.state !== 'read') return { state: shown.state };
  const { netMm, expandedMm, panDropMm, evidence } = shown.net;
  return {
    state: 'read',
    netUm: um(netMm),
    takeUm: um(expandedMm),
    panUm: um(panDropMm),
    mayEvaporateUm: um(shown.evaporates?.highMm ?? null),
    ...(evidence.conclusive
      ? { finding: evidence.finding, aboveLimit: evidence.finding === 'loss' ? evidence.aboveLimit : false, unsettled: null }
      : { finding: null, aboveLimit: null, unsettled: evidence.reason }),
  };
}

/** Whole micrometres, since no fraction is hashed. */
function um(valueMm: number | null): number | null {
  return valueMm === null ? null : Math.round(valueMm * 1000);
}
