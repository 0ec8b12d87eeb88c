import { unresolved } from '../job/cover.ts';
import { openMisses } from '../job/misses.ts';
import type { JobState } from '../job/state.ts';
import type { OpenPoint, RecordAttempt, RecordDocument, RecordLayer, RecordReading } from './record-document.ts';

type OpenInput = Pick<
  RecordDocument,
  'layers' | 'readings' | 'materials' | 'attempts' | 'runs' | 'shots' | 'chains' | 'log' | 'unreadable'
>;

/**
 * Everything open in a record, worst first. A value outside its limit is open until it is owned up to in a deviation, or mended and
 * measured again: that a later one stands does not undo an earlier one that did not.
 */
export function openPoints(
  job: JobState,
  { layers, readings, materials, attempts, runs, shots, chains, log, unreadable }: OpenInput,
): OpenPoint[] {
  const begun = layers.filter((layer) => layer.stand !== 'not-begun');
  const notBegun = layers.filter((layer) => layer.stand === 'not-begun').map((layer) => layer.layer);
  const outside = new Set(unresolved(job).map((one) => one.id));
  const past = materials.filter((one) => one.past !== null && !ownedUpTo(one.material, job)).map((one) => one.material);
  const failed = attempts.filter(
    (one, i) => one.stand === 'failed' && !attempts.slice(i + 1).some((later) => later.stand === 'passed' && sameWater(later, one)),
  );
  const disputed = log.filter((line) => line.state === 'open').map((line) => line.id);
  const unsigned = chains.flatMap((chain) => chain.unsigned).reduce((sum, { from, to }) => sum + to - from + 1, 0);
  return [
    ...notStanding(
      'outside',
      readings.filter((one) => outside.has(one.id)),
    ),
    ...(past.length > 0 ? [{ code: 'past-use-by' as const, materials: past }] : []),
    ...(failed.length > 0 ? [{ code: 'flood-failed' as const, attempts: failed.map((one) => one.id) }] : []),
    ...notStanding(
      'not-proven',
      readings.filter((one) => one.verdict === 'not-proven' && !ownedUpTo(one.id, job)),
    ),
    ...counted('misses', openMisses(job).length),
    ...begun.flatMap(owed),
    ...(disputed.length > 0 ? [{ code: 'amendments' as const, entries: disputed }] : []),
    ...runs.filter((run) => run.stop === null).map((run) => ({ code: 'running' as const, run: run.id })),
    ...(notBegun.length > 0 ? [{ code: 'not-begun' as const, layers: notBegun }] : []),
    ...counted('unsorted', shots.filter((shot) => !shot.sorted && shot.from !== 'watch').length),
    ...counted('not-printed', shots.filter((shot) => shot.printed === null).length),
    ...counted('clock-moved', job.facts['clock-jump'].length),
    ...counted('unsigned', unsigned),
    ...counted('newer', log.filter((line) => !line.known).length),
    ...counted('unreadable', unreadable),
  ];
}

function sameWater(one: RecordAttempt, other: RecordAttempt): boolean {
  return one.under.some((id) => other.under.includes(id));
}

function ownedUpTo(id: string, job: JobState): boolean {
  return job.facts.deviation.some(({ data, open }) => !open && data.against === id);
}

function notStanding(code: 'outside' | 'not-proven', readings: readonly RecordReading[]): OpenPoint[] {
  const groups = Map.groupBy(readings, ({ what, surface }) => `${what} ${surface ?? ''}`);
  return [...groups.values()].map((group) => ({
    code,
    what: group[0]!.what,
    surface: group[0]!.surface,
    readings: group.map((reading) => reading.id),
  }));
}

function owed({ layer, items }: RecordLayer): OpenPoint[] {
  const missing = Map.groupBy(
    items.filter((item) => item.stand === 'owed'),
    ({ rule, coat }) => `${rule} ${coat ?? ''}`,
  );
  if (missing.size === 0) return [];
  const grouped = [...missing.values()].map((group) => {
    const { rule, coat } = group[0]!;
    const [once, each] = [group.filter((item) => item.surfaces.length > 1), group.filter((item) => item.surfaces.length === 1)];
    // Several places of one room are one line.
    return {
      rule,
      coat,
      rooms: [...new Set(once.map((item) => item.room))],
      surfaces: [...new Set(each.flatMap((item) => item.surfaces))],
    };
  });
  return [{ code: 'owed', layer, items: grouped }];
}

function counted(code: Extract<OpenPoint, { count: number }>['code'], count: number): OpenPoint[] {
  return count > 0 ? [{ code, count }] : [];
}
