import * as m from '../words/compiled/messages.js';
import type { Block, Cell, Glyph } from './blocks.ts';
import { entryTable, type TabledKind } from './entry-table.ts';
import type { RecordDocument, RecordLine, RecordWait } from './record-document.ts';
import { pointedText, saidSentences } from './said-text.ts';
import { grouped, sentence, type Speaker } from './speaker.ts';
import { timelineBlocks } from './word-timeline.ts';

const OWNED_UP: readonly TabledKind[] = ['deviation', 'not-done'];
const DONE: readonly TabledKind[] = [
  'coverage',
  'repair',
  'transfer',
  'conditions',
  'mix',
  'by-others',
  'inspection',
  'protect',
  'tile-check',
];
const SIGNED: readonly TabledKind[] = ['hand-over', 'attestation'];
const LATER: readonly TabledKind[] = ['later-hole', 'callback', 'isolation', 'isolation-look', 'opening', 'note', 'voice'];

/** What was stated about the work, deviations first; then corrections, with every reading of an entry that is in dispute. */
export function workBlocks(document: RecordDocument, say: Speaker): Block[] {
  const tables = (kinds: readonly TabledKind[]) => kinds.flatMap((kind) => entryTable(kind, document, say));
  const blocks = [
    ...timelineBlocks(document, say),
    ...tables(OWNED_UP),
    ...waitBlocks(document, say),
    ...tables(['early']),
    ...tables(DONE),
    ...tables(SIGNED),
    ...signatureBlocks(document, say),
    ...tables(LATER),
    ...correctionBlocks(document, say),
  ];
  return blocks.length === 0 ? [] : [{ block: 'heading', level: 1, text: m.record_part_work({}, { locale: say.locale }) }, ...blocks];
}

function waitBlocks({ waits }: RecordDocument, say: Speaker): Block[] {
  if (waits.length === 0) return [];
  const { locale } = say;
  return [
    { block: 'heading', level: 2, text: m.record_waits({}, { locale }) },
    {
      block: 'table',
      columns: [
        { head: say.field('early', 'wait'), share: 3 },
        { head: m.record_col_surfaces({}, { locale }), share: 3 },
        { head: m.record_col_deadline({}, { locale }), share: 4 },
        { head: m.record_col_source({}, { locale }), share: 3 },
        { head: m.record_col_state({}, { locale }), share: 4 },
      ],
      rows: waits.map((wait) => {
        const limit = say.limit(wait.limit);
        return [
          { text: say.wait(wait.what), strong: true, under: m.record_wait_from({ when: say.dayClock(wait.from) }, { locale }) },
          { text: say.surfaces(wait.surfaces) },
          { text: deadlines(wait, say) },
          { text: limit === null ? pointedText(wait.limit, say) : `${say.bounds(limit)}\n${say.source(limit)}` },
          waitState(wait, say),
        ];
      }),
    },
  ];
}

function deadlines({ ready, latest }: RecordWait, say: Speaker): string {
  const { locale } = say;
  return [
    ...(ready === null ? [] : [m.record_wait_ready({ when: say.dayClock(ready) }, { locale })]),
    ...(latest === null ? [] : [m.record_wait_latest({ when: say.dayClock(latest) }, { locale })]),
  ].join('\n');
}

/** Kept, gone on early (with or without a word said then), too late, or still open when the record was built. */
function waitState({ stand, ended, early, clockMovedMs }: RecordWait, say: Speaker): Cell {
  const { locale } = say;
  const spoken = early === null ? null : say.line(early);
  const went = ended === null ? [] : [m.record_wait_ended({ step: say.step(ended.step), when: say.dayClock(ended.at) }, { locale })];
  const moved = clockMovedMs === 0 ? [] : [m.record_wait_clock({ by: say.length(clockMovedMs) }, { locale })];
  const cell = (glyph: Glyph, text: string, ...under: string[]): Cell => ({
    glyph,
    text,
    strong: true,
    under: [...under, ...went, ...moved].join('\n'),
  });
  if (spoken !== null) return cell('deviation', m.record_wait_early({}, { locale }), say.entry(spoken));
  if (ended?.early === true) return cell('deviation', m.record_wait_early({}, { locale }), m.record_wait_no_word({}, { locale }));
  if (ended?.late === true || stand === 'too-late') return cell('outside', m.record_wait_late({}, { locale }));
  if (stand === 'waiting') return cell('wait', m.record_wait_waiting({}, { locale }));
  return cell('ready', ended === null ? m.record_wait_over({}, { locale }) : m.record_wait_kept({}, { locale }));
}

function signatureBlocks({ signatures }: RecordDocument, say: Speaker): Block[] {
  if (signatures.length === 0) return [];
  const { locale } = say;
  return [
    {
      block: 'photos',
      columns: 3,
      missing: m.record_photo_missing({}, { locale }),
      photos: signatures.map(({ entry, sha256, printed }) => {
        const line = say.line(entry);
        const mark = line === null ? entry : say.entry(line);
        const who = line?.said.find((one) => one.field === 'who');
        const name = who?.is === 'words' ? who.text : line === null ? '' : say.person(line.by);
        return {
          mark,
          sha256,
          printed: printed !== null,
          alt: m.record_signature_of({ name }, { locale }),
          lead: sentence(m.record_signature_of({ name }, { locale })),
          caption: [...(line === null ? [] : [sentence(say.dayClock(line.at))]), `SHA-256 ${grouped(sha256, 16)}`].join('\n'),
        };
      }),
    },
  ];
}

/** Each entry that a later one amends or takes back: what it said first, and every reading of it since. */
function correctionBlocks({ log }: RecordDocument, say: Speaker): Block[] {
  const { locale } = say;
  const target = (line: RecordLine) => line.said.find((one) => one.field === 'of');
  const corrections = log.filter((line) => line.known && (line.kind === 'amendment' || line.kind === 'withdrawal'));
  const groups = Map.groupBy(corrections, (line) => {
    const of = target(line);
    return of?.is === 'ids' ? (of.ids[0] ?? '') : '';
  });
  if (groups.size === 0) return [];
  return [
    { block: 'heading', level: 2, text: m.record_corrections({}, { locale }) },
    {
      block: 'table',
      columns: [
        { head: m.record_col_entry_of({}, { locale }), share: 3 },
        { head: m.record_col_first_said({}, { locale }), share: 5 },
        { head: m.record_col_said_since({}, { locale }), share: 6 },
        { head: m.record_col_state({}, { locale }), share: 3 },
      ],
      rows: [...groups].map(([id, since]) => {
        const line = say.line(id);
        return [
          { text: pointedText(id, say), strong: true },
          { text: line === null ? m.record_not_in_log({}, { locale }) : saidSentences(line.first ?? line.said, line, say) },
          { text: since.map((one) => correctionText(one, line, say)).join('\n') },
          correctedCell(line, say),
        ];
      }),
    },
  ];
}

function correctionText(correction: RecordLine, target: RecordLine | null, say: Speaker): string {
  const { locale } = say;
  const head = `${say.entry(correction)}, ${say.dayClock(correction.at)}, ${say.person(correction.by)}: ${say.kind(correction.kind)}`;
  const instead =
    correction.instead === undefined
      ? []
      : [saidSentences(correction.instead, { ...correction, kind: target?.kind ?? correction.kind }, say)];
  const why = correction.said.filter(({ field }) => field === 'why');
  const back = correction.state === 'withdrawn' ? [m.record_state_withdrawn({}, { locale })] : [];
  return [sentence(head), ...instead, saidSentences(why, correction, say), ...back.map(sentence)].filter((one) => one !== '').join(' ');
}

function correctedCell(line: RecordLine | null, say: Speaker): Cell {
  const { locale } = say;
  if (line?.state === 'open') return { text: m.record_corrected_open({}, { locale }), glyph: 'note', strong: true };
  if (line?.state === 'withdrawn') return { text: m.record_state_withdrawn({}, { locale }) };
  return { text: line?.state === 'amended' ? m.record_corrected({}, { locale }) : m.record_uncorrected({}, { locale }) };
}
