import type { Entry } from '../record/entry.ts';

/** An entry with the wall time that orders it: never earlier than the one before it in its own chain. */
export interface Placed {
  readonly entry: Entry;
  readonly clampedMs: number;
}

/**
 * The one order in which a job's entries are read, whatever order they arrived in: each chain in its own order, references
 * first, then wall time clamped non-decreasing within a chain, then device. Where chains wait for each other in a circle (no
 * honest book makes one) the earliest is read as it is, and none is left out. The same entry given twice is read once.
 */
export function order(entries: readonly Entry[]): Placed[] {
  // The entry a chain goes on with stands at its end.
  const chains = clamp(entries).map((chain) => chain.reverse());
  const unread = new Map<string, number>();
  const count = (id: string, by: number) => unread.set(id, (unread.get(id) ?? 0) + by);
  for (const { entry } of chains.flat()) count(entry.body.id, 1);
  const ready = ({ entry }: Placed) => referenced(entry).every((id) => id === entry.body.id || (unread.get(id) ?? 0) === 0);
  const ordered: Placed[] = [];
  for (;;) {
    const heads = chains.flatMap((chain) => chain.at(-1) ?? []).sort(byTime);
    const placed = heads.find(ready) ?? heads[0];
    if (placed === undefined) return ordered;
    chains.find((chain) => chain.at(-1) === placed)?.pop();
    count(placed.entry.body.id, -1);
    ordered.push(placed);
  }
}

function referenced(entry: Entry): readonly string[] {
  return entry.body.run === undefined ? entry.body.refs : [...entry.body.refs, entry.body.run];
}

/** The chains among the entries, each in its order of sequence. */
function clamp(entries: readonly Entry[]): Placed[][] {
  const once = new Map(entries.map((entry) => [entry.raw, entry]));
  const chains = Map.groupBy(once.values(), (entry) => entry.body.device);
  return [...chains.values()].map((chain) => {
    let latest = -Infinity;
    return chain
      .sort((a, b) => a.body.seq - b.body.seq || compareText(a.raw, b.raw))
      .map((entry) => {
        latest = Math.max(latest, Date.parse(entry.body.times.utc));
        return { entry, clampedMs: latest };
      });
  });
}

function byTime(a: Placed, b: Placed): number {
  return a.clampedMs - b.clampedMs || compareText(a.entry.body.device, b.entry.body.device);
}

function compareText(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
