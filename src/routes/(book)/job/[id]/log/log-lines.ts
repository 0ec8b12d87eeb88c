import { amendedFields, saidFields } from '#lib/job/said.ts';
import type { SaidField } from '#lib/job/said-field.ts';
import type { JobState, Line } from '#lib/job/state.ts';
import { known } from '#lib/record/kinds.ts';
import { KIND } from '#lib/words/codes.ts';
import * as m from '#lib/words/compiled/messages.js';
import { saidRows, wordOf, type SaidRow } from './said-text.ts';

type Lang = 'en' | 'es';
export type LineState = Line['standing']['state'];

/** What one entry first said, or an amendment says in its place. */
export interface Version {
  /** Id of the amendment; null for what was first said. */
  readonly amendment: string | null;
  readonly by: string;
  readonly utc: string;
  readonly offsetMin: number;
  readonly why: string;
  readonly rows: readonly SaidRow[];
  /** The data as the amendment has it. */
  readonly data: Readonly<Record<string, unknown>>;
}

/** One entry as the log shows it. */
export interface LogLine {
  readonly key: string;
  readonly id: string;
  readonly utc: string;
  readonly offsetMin: number;
  /** As the entry says it, also where a newer version wrote it. */
  readonly kind: string;
  readonly head: string;
  readonly by: string;
  readonly state: LineState;
  /** As first said; never changed by what came later. */
  readonly first: Version;
  /** The amendments that stand: one where it is amended, several where they cross. */
  readonly amendments: readonly Version[];
  readonly picture: string | null;
}

/** Every entry of the job in reading order, none left out. */
export function logLines(job: JobState, lang: Lang): LogLine[] {
  const byId = new Map(job.lines.map((line) => [line.entry.body.id, line]));
  return job.lines.map((line) => {
    const { entry, unknown, standing } = line;
    const view = known(entry);
    const { device, seq, id, kind, times, by } = entry.body;
    return {
      key: `${device} ${seq} ${entry.hash}`,
      id,
      utc: times.utc,
      offsetMin: times.offsetMin,
      kind,
      head: unknown ? `${m.kind_unknown()}: ${kind}` : wordOf(KIND, kind),
      by: job.people[by] ?? '',
      state: standing.state,
      first: firstSaid(line, byId, job, lang),
      amendments: standing.amendments.flatMap((one) => amended(byId.get(one), kind, job, lang)),
      picture: view.kind === 'shot' ? view.data.picture.sha256 : null,
    };
  });
}

function firstSaid({ entry }: Line, byId: ReadonlyMap<string, Line>, job: JobState, lang: Lang): Version {
  const { times, kind, data, by } = entry.body;
  const view = known(entry);
  const run = view.kind === 'run-stop' ? job.runs.find(({ id }) => id === entry.body.run) : undefined;
  // A stop names its run, and a person knows the run by its step.
  const stopped: SaidField[] = run === undefined ? [] : [{ field: 'step', is: 'code', of: 'step', codes: [run.step] }];
  const rows = saidRows(kind, [...stopped, ...saidFields(view)], times.offsetMin, job, lang);
  // An amendment says what it puts in place of another entry's data, in the words of that entry's kind.
  const target = view.kind === 'amendment' ? byId.get(view.data.of)?.entry.body.kind : undefined;
  const instead =
    view.kind === 'amendment' && target !== undefined
      ? saidRows(target, amendedFields(target, view.data.data), times.offsetMin, job, lang)
      : [];
  return {
    amendment: null,
    by: job.people[by] ?? '',
    utc: times.utc,
    offsetMin: times.offsetMin,
    why: '',
    rows: [...rows, ...instead],
    data,
  };
}

function amended(line: Line | undefined, kind: string, job: JobState, lang: Lang): Version[] {
  const view = line === undefined ? null : known(line.entry);
  if (line === undefined || view?.kind !== 'amendment') return [];
  const { id, by, times } = line.entry.body;
  const rows = saidRows(kind, amendedFields(kind, view.data.data), times.offsetMin, job, lang);
  return [
    { amendment: id, by: job.people[by] ?? '', utc: times.utc, offsetMin: times.offsetMin, why: view.data.why, rows, data: view.data.data },
  ];
}
