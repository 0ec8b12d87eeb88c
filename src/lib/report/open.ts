import type { OpenPoint, RecordChain, RecordLayer, RecordLine, RecordReading, RecordRun, RecordShot } from './record-document.ts';

interface OpenInput {
  readonly layers: readonly RecordLayer[];
  readonly readings: readonly RecordReading[];
  readonly runs: readonly RecordRun[];
  readonly shots: readonly RecordShot[];
  readonly chains: readonly RecordChain[];
  readonly log: readonly RecordLine[];
  readonly clockJumps: number;
  readonly unreadable: number;
}

/**
 * Everything open in a record, worst first. Readings are listed whatever came after them: that a later one stands does not
 * undo an earlier one that did not, and the person who reads decides.
 */
export function openPoints({ layers, readings, runs, shots, chains, log, clockJumps, unreadable }: OpenInput): OpenPoint[] {
  const begun = layers.filter((layer) => layer.stand !== 'not-begun');
  const notBegun = layers.filter((layer) => layer.stand === 'not-begun').map((layer) => layer.layer);
  const unsigned = chains.flatMap((chain) => chain.unsigned).reduce((sum, { from, to }) => sum + to - from + 1, 0);
  return [
    ...notStanding('outside', readings),
    ...notStanding('not-proven', readings),
    ...begun.flatMap(owed),
    ...runs.filter((run) => run.stop === null).map((run) => ({ code: 'running' as const, run: run.id })),
    ...(notBegun.length > 0 ? [{ code: 'not-begun' as const, layers: notBegun }] : []),
    ...counted('not-printed', shots.filter((shot) => shot.printed === null).length),
    ...counted('clock-moved', clockJumps),
    ...counted('unsigned', unsigned),
    ...counted('newer', log.filter((line) => !line.known).length),
    ...counted('unreadable', unreadable),
  ];
}

function notStanding(code: 'outside' | 'not-proven', readings: readonly RecordReading[]): OpenPoint[] {
  const groups = Map.groupBy(
    readings.filter((reading) => reading.verdict === code),
    ({ what, surface }) => `${what} ${surface ?? ''}`,
  );
  return [...groups.values()].map((group) => ({
    code,
    what: group[0]!.what,
    surface: group[0]!.surface,
    readings: group.map((reading) => reading.id),
  }));
}

function owed({ layer, items }: RecordLayer): OpenPoint[] {
  const missing = Map.groupBy(
    items.filter((item) => !item.shown),
    (item) => item.rule,
  );
  if (missing.size === 0) return [];
  return [{ code: 'owed', layer, items: [...missing].map(([rule, group]) => ({ rule, surfaces: group.map((item) => item.surface) })) }];
}

function counted(code: 'not-printed' | 'clock-moved' | 'unsigned' | 'newer' | 'unreadable', count: number): OpenPoint[] {
  return count > 0 ? [{ code, count }] : [];
}
