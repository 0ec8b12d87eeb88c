import { RULES_VERSION } from '../job/judged.ts';
import { project } from '../job/project.ts';
import type { Entry } from '../record/entry.ts';
import { known } from '../record/kinds.ts';
import type { BuiltRecordData } from '../record/kinds/work.ts';
import { buildDocument } from './document.ts';
import { typedCards } from './mixing-nodes.ts';
import { paperOf, PAPERS, type PaperKind } from './papers.ts';
import type { RecordDocument } from './record-document.ts';

/** A value of a record that the log does not give today; `then` or `now` is absent where only one of the two has it. */
export interface Difference {
  /** Where in the document tree: `readings[3].verdict`. */
  readonly at: string;
  readonly then?: unknown;
  readonly now?: unknown;
}

export interface Recomputed {
  readonly entry: string;
  readonly paper: 'record' | PaperKind | 'unknown';
  /** Version of the rules it was judged by, and of today's: where they differ, so may verdicts. */
  readonly rules: { readonly then: string; readonly now: string };
  /** Values compared, numbers, codes and words alike. */
  readonly values: number;
  /** null: a document of another version, which is not built any more. */
  readonly differences: readonly Difference[] | null;
}

/** Each `record` entry of a log against the document that its own part of the log gives today. */
export function recompute(entries: readonly Entry[]): Recomputed[] {
  return entries.flatMap((entry) => {
    const view = known(entry);
    return view.kind === 'record' ? [{ entry: entry.body.id, ...again(view.data, entries) }] : [];
  });
}

function again({ document, heads, rules }: BuiltRecordData, entries: readonly Entry[]): Omit<Recomputed, 'entry'> {
  const versions = { then: rules, now: RULES_VERSION };
  const paper = kindOf(document);
  const built = builtOf(document['built']);
  if (paper === 'unknown' || built === null) return { paper, rules: versions, values: 0, differences: null };
  const upTo = new Map(heads.map(({ device, seq }) => [device, seq]));
  const log = entries.filter(({ body }) => body.seq <= (upTo.get(body.device) ?? -1));
  const unreadable = typeof document['unreadable'] === 'number' ? document['unreadable'] : 0;
  const left = Array.isArray(document['left']) && document['left'].includes('address') ? (['address'] as const) : [];
  // What was typed on a mixing card stands on its own paper only.
  const cards = paper === 'mixing' ? { cards: typedCards(document) } : {};
  const whole = buildDocument({ job: project(log).state, unreadable, ...built, printed: printedOf(document), left, ...cards });
  const now = asKnownThen(paper === 'record' ? whole : paperOf(paper, whole, callbackOf(document)), document);
  const found = { values: 0, differences: [] as Difference[] };
  compare('', document, now, found);
  return { paper, rules: versions, ...found };
}

/** Without the lists that records of this version did not have at first. */
function asKnownThen(now: object | null, then: BuiltRecordData['document']): object {
  const later: readonly string[] = LATER.filter((list) => then[list] === undefined);
  return Object.fromEntries(Object.entries(now ?? {}).filter(([list]) => !later.includes(list)));
}

const LATER = ['callbacks', 'drawings', 'mixing', 'inPhotos'] as const satisfies readonly (keyof RecordDocument)[];

/** A record of this version, a paper of its first; any other is not built any more. */
function kindOf({ v, paper }: BuiltRecordData['document']): Recomputed['paper'] {
  if (paper === undefined) return v === 3 ? 'record' : 'unknown';
  return PAPERS.find((one) => one === paper && v === 1) ?? 'unknown';
}

/** The callback an answer was to. */
function callbackOf({ callback }: BuiltRecordData['document']): string | null {
  return isRecord(callback) && typeof callback['entry'] === 'string' ? callback['entry'] : null;
}

/** When and by whom it was built: no log says that. */
function builtOf(built: unknown) {
  if (!isRecord(built) || typeof built['utc'] !== 'string' || Number.isNaN(Date.parse(built['utc']))) return null;
  const { utc, offsetMin, by } = built;
  const times = { utc, offsetMin: Number(offsetMin), zone: '', monoMs: 0, session: '' };
  return { built: times, by: String(by) };
}

/** Hashes of the pictures that were made for print: made from photos, not from the log. */
function printedOf(document: BuiltRecordData['document']): Map<string, string> {
  const named = ['shots', 'signatures'].flatMap((list) => (Array.isArray(document[list]) ? (document[list] as unknown[]) : []));
  return new Map(
    named.flatMap((one) =>
      isRecord(one) && typeof one['sha256'] === 'string' && typeof one['printed'] === 'string'
        ? [[one['sha256'], one['printed']] as const]
        : [],
    ),
  );
}

/** Notes each value, under its path, that one tree has and the other has not, or has otherwise. */
export function compare(at: string, then: unknown, now: unknown, found: { values: number; differences: Difference[] }): void {
  if (Array.isArray(then) && Array.isArray(now)) {
    for (let i = 0; i < Math.max(then.length, now.length); i++) compare(`${at}[${i}]`, then[i], now[i], found);
  } else if (isRecord(then) && isRecord(now)) {
    for (const key of new Set([...Object.keys(then), ...Object.keys(now)]))
      compare(at === '' ? key : `${at}.${key}`, then[key], now[key], found);
  } else {
    found.values += 1;
    if (then !== now) found.differences.push({ at, ...(then === undefined ? {} : { then }), ...(now === undefined ? {} : { now }) });
  }
}

function isRecord(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
