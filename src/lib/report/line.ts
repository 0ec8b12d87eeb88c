import { amendedFields, saidFields } from '../job/said.ts';
import type { Line } from '../job/state.ts';
import type { Entry } from '../record/entry.ts';
import { known } from '../record/kinds.ts';
import type { Moment, RecordLine } from './record-document.ts';

export function moment({ body: { times } }: Entry): Moment {
  return { utc: times.utc, offsetMin: times.offsetMin };
}

/** Every entry on a line of its own, in reading order, whatever became of it. */
export function recordLines(lines: readonly Line[]): RecordLine[] {
  const kinds = new Map(lines.map(({ entry }) => [entry.body.id, entry.body.kind]));
  return lines.map((line) => recordLine(line, kinds));
}

function recordLine({ entry, unknown, standing }: Line, kinds: ReadonlyMap<string, string>): RecordLine {
  const { device, seq, id, kind, by, run = null } = entry.body;
  const view = known(entry);
  const amended = standing.state === 'amended';
  return {
    device,
    seq,
    id,
    kind,
    known: !unknown,
    by,
    at: moment(entry),
    run,
    hash: entry.hash.slice(0, 16),
    state: standing.state,
    said: saidFields(standing.view),
    ...(amended && { first: saidFields(view) }),
    ...(standing.amendments.length > 0 && { amendments: [...standing.amendments] }),
    ...(view.kind === 'amendment' && { instead: amendedFields(kinds.get(view.data.of) ?? '', view.data.data) }),
  };
}
