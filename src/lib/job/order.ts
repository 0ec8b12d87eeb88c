import type { Entry } from '../record/entry.ts';

/** An entry with the wall time that orders it: never earlier than the one before it in its own chain. */
export interface Placed {
  readonly entry: Entry;
  readonly clampedMs: number;
}

/**
 * The one order in which a job's entries are read, whatever order they arrived in: references first, then wall time clamped
 * non-decreasing within a chain, then device, then sequence. Entries that reference each other in a circle (no honest book
 * makes one) are read in the plain order, and none is left out.
 */
export function order(entries: readonly Entry[]): Placed[] {
  const plain = clamp(entries).sort(comparePlaced);
  const byId = Map.groupBy(plain, (placed) => placed.entry.body.id);
  const done = new Set<Placed>();
  const open = new Set<Placed>();
  const ordered: Placed[] = [];
  const visit = (placed: Placed): void => {
    if (done.has(placed) || open.has(placed)) return;
    open.add(placed);
    for (const id of referenced(placed.entry)) for (const target of byId.get(id) ?? []) visit(target);
    open.delete(placed);
    done.add(placed);
    ordered.push(placed);
  };
  for (const placed of plain) visit(placed);
  return ordered;
}

function referenced(entry: Entry): readonly string[] {
  return entry.body.run === undefined ? entry.body.refs : [...entry.body.refs, entry.body.run];
}

function clamp(entries: readonly Entry[]): Placed[] {
  const chains = Map.groupBy(entries, (entry) => entry.body.device);
  return [...chains.values()].flatMap((chain) => {
    let latest = -Infinity;
    return [...chain]
      .sort((a, b) => a.body.seq - b.body.seq || compareText(a.hash, b.hash))
      .map((entry) => {
        latest = Math.max(latest, Date.parse(entry.body.times.utc));
        return { entry, clampedMs: latest };
      });
  });
}

function comparePlaced(a: Placed, b: Placed): number {
  return (
    a.clampedMs - b.clampedMs ||
    compareText(a.entry.body.device, b.entry.body.device) ||
    a.entry.body.seq - b.entry.body.seq ||
    compareText(a.entry.hash, b.entry.hash)
  );
}

function compareText(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
