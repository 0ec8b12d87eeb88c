import type { Entry } from '../record/entry.ts';
import { known, knownData, type Known } from '../record/kinds.ts';

/** How an entry stands after what later entries say of it. */
export interface Standing {
  /** What it says now: its own data, or the one amendment that stands. */
  readonly view: Known;
  readonly state: 'stands' | 'amended' | 'open' | 'withdrawn';
  /** Ids of the amendments that nobody has decided between; one when it is amended, none when it stands. */
  readonly amendments: readonly string[];
}

/** Kinds that nothing corrects: the book's own remarks and what was printed, and corrections, which are withdrawn but not amended. */
export const FIXED: ReadonlySet<string> = new Set(['device', 'clock-jump', 'record']);

/** True for an entry that changes how another stands, so that what was read before it must be read anew. */
export function isCorrection(entry: Entry): boolean {
  return entry.body.kind === 'amendment' || entry.body.kind === 'withdrawal';
}

/**
 * How each entry stands, from all entries in reading order. A withdrawal takes an entry back, and a withdrawal of the
 * withdrawal brings it again. Of several amendments of one entry those stand that no later one names in its `refs`: while two do,
 * neither counts, the entry is `open` and says what it first said. An amendment that does not fit the kind is one nobody can read:
 * it leaves the entry open.
 */
export function standings(entries: readonly Entry[]): ReadonlyMap<Entry, Standing> {
  const views = entries.map((entry) => ({ entry, view: known(entry) }));
  const at = new Map(entries.map((entry, i) => [entry.body.id, i]));
  const withdrawn = new Set<string>();
  // From the last backwards, so that whether a withdrawal itself was taken back is known when it is met.
  for (const { entry, view } of views.toReversed()) {
    if (view.kind !== 'withdrawal' || withdrawn.has(entry.body.id)) continue;
    const target = at.get(view.data.of);
    if (target === undefined || FIXED.has(entries[target]!.body.kind)) continue;
    // A correction takes back only one read before it, so that two that name each other end somewhere.
    if (target < at.get(entry.body.id)! || !isCorrection(entries[target]!)) withdrawn.add(view.data.of);
  }
  const amendments = Map.groupBy(
    views.flatMap(({ entry, view }) => (view.kind === 'amendment' && !withdrawn.has(entry.body.id) ? [{ entry, data: view.data }] : [])),
    ({ data }) => data.of,
  );
  return new Map(
    views.map(({ entry, view }): [Entry, Standing] => {
      const { id, kind } = entry.body;
      const of = FIXED.has(kind) || isCorrection(entry) ? [] : (amendments.get(id) ?? []);
      const decided = (one: Entry) =>
        of.some(({ entry: later }) => at.get(later.body.id)! > at.get(one.body.id)! && later.body.refs.includes(one.body.id));
      const standing = of.filter((one) => !decided(one.entry));
      const ids = standing.map((one) => one.entry.body.id);
      if (withdrawn.has(id)) return [entry, { view, state: 'withdrawn', amendments: ids }];
      if (standing.length === 0) return [entry, { view, state: 'stands', amendments: ids }];
      const said = standing.length === 1 ? knownData(kind, standing[0]!.data.data) : null;
      if (said === null || said.kind === 'unknown') return [entry, { view, state: 'open', amendments: ids }];
      return [entry, { view: said, state: 'amended', amendments: ids }];
    }),
  );
}
