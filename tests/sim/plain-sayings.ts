import type { Entry } from '#lib/record/entry.ts';
import { knownData, type DataOf, type Kind, type Known } from '#lib/record/kinds.ts';

/** What an entry says now. */
export interface Saying<K extends Kind = Kind> {
  readonly id: string;
  readonly run: string | undefined;
  readonly utc: string;
  /** Its place in reading order. */
  readonly at: number;
  readonly data: DataOf<K>;
  /** Two people said it anew, and nobody has decided. */
  readonly open: boolean;
}
export type SayingsOf = <K extends Kind>(kind: K) => Saying<K>[];

/** Each entry with what it says now, by kind; the withdrawn, and what a newer version wrote, are left out. By loops, with nothing of `job/corrections`. */
export function sayings(entries: readonly Entry[]): SayingsOf {
  const said = entries.flatMap((entry, at) => {
    const { id, run, times } = entry.body;
    const now = isWithdrawn(id, entries) ? null : standing(entry, entries);
    return now === null || now.view.kind === 'unknown'
      ? []
      : [{ kind: now.view.kind, id, run, utc: times.utc, at, data: now.view.data, open: now.open }];
  });
  return <K extends Kind>(kind: K) => said.filter((one) => one.kind === kind) as unknown as Saying<K>[];
}

const isCorrection = ({ body }: Entry) => body.kind === 'amendment' || body.kind === 'withdrawal';

function isWithdrawn(id: string, entries: readonly Entry[]): boolean {
  const at = entries.findLastIndex(({ body }) => body.id === id);
  const target = entries[at];
  if (target === undefined) return false;
  return entries.some((one, i) => {
    if (one.body.kind !== 'withdrawal' || one.body.data['of'] !== id) return false;
    return (!isCorrection(target) || at < i) && !isWithdrawn(one.body.id, entries);
  });
}

function standing(entry: Entry, entries: readonly Entry[]): { view: Known; open: boolean } {
  const { id, kind, data } = entry.body;
  const first = knownData(kind, data);
  if (isCorrection(entry)) return { view: first, open: false };
  const amendments = entries.filter(({ body }) => body.kind === 'amendment' && body.data['of'] === id && !isWithdrawn(body.id, entries));
  const undecided = amendments.filter((one, i) => !amendments.slice(i + 1).some((later) => later.body.refs.includes(one.body.id)));
  if (undecided.length === 0) return { view: first, open: false };
  const only = undecided.length === 1 ? knownData(kind, undecided[0]!.body.data['data']) : first;
  return undecided.length > 1 || only.kind === 'unknown' ? { view: first, open: true } : { view: only, open: false };
}
