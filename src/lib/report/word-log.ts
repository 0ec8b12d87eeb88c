import * as m from '../words/compiled/messages.js';
import type { Block, Cell } from './blocks.ts';
import { stateText } from './entry-table.ts';
import type { RecordChain, RecordDocument, RecordLine } from './record-document.ts';
import { saidSentences } from './said-text.ts';
import { grouped, sentence, stamp, type Speaker } from './speaker.ts';

/** The least size that is printed. */
const LOG_PT = 8;

/** The log itself: who signed it, and every entry on a line. */
export function logBlocks(document: RecordDocument, say: Speaker): Block[] {
  const { locale } = say;
  return [
    { block: 'heading', level: 1, text: m.record_part_log({}, { locale }) },
    { block: 'paragraph', text: m.record_log_note({}, { locale }) },
    { block: 'heading', level: 2, text: m.record_phones({}, { locale }) },
    {
      block: 'table',
      columns: [
        { head: '', share: 20 },
        { head: m.record_col_phone({}, { locale }), share: 150 },
        { head: m.record_col_key({}, { locale }), share: 270 },
        { head: m.record_col_unsigned({}, { locale }), share: 100 },
      ],
      rows: document.chains.map((chain) => [
        { text: say.letter(chain.device), strong: true },
        { text: `${chain.device}\n${m.record_entries({ count: chain.entries }, { locale })}` },
        { text: keyText(chain, say) },
        { text: chain.unsigned.length === 0 ? m.record_all_signed({}, { locale }) : unsignedText(chain) },
      ]),
    },
    { block: 'heading', level: 2, text: m.record_entry_by_entry({}, { locale }) },
    {
      block: 'table',
      columns: [
        { head: m.record_col_entry({}, { locale }), share: 25 },
        { head: m.record_col_time({}, { locale }), share: 82 },
        { head: m.record_col_kind({}, { locale }), share: 66 },
        { head: m.record_col_what({}, { locale }), share: 205 },
        { head: m.record_col_by({}, { locale }), share: 50 },
        { head: m.record_col_hash({}, { locale }), share: 60 },
      ],
      points: LOG_PT,
      rows: document.log.map((line) => lineRow(line, say)),
    },
  ];
}

function keyText({ key }: RecordChain, { locale }: Speaker): string {
  if (key === null) return m.record_key_unknown({}, { locale });
  return key.alg === 'ed25519' ? `Ed25519 ${grouped(key.public)}` : m.record_key_none({ why: key.why }, { locale });
}

function unsignedText({ unsigned }: RecordChain): string {
  return unsigned.map(({ from, to }) => (from === to ? String(from) : `${from}–${to}`)).join(', ');
}

function lineRow(line: RecordLine, say: Speaker): Cell[] {
  return [
    { text: say.entry(line), strong: true },
    { text: stamp(line.at) },
    { text: line.known ? say.kind(line.kind) : m.kind_unknown({}, { locale: say.locale }) },
    { text: factText(line, say) },
    { text: say.person(line.by) },
    { text: grouped(line.hash) },
  ];
}

/** All an entry says, in one cell: a photo by its number first, then field by field, then what later entries made of it. */
function factText(line: RecordLine, say: Speaker): string {
  const { locale } = say;
  if (!line.known) return line.kind;
  const state = stateText(line, say);
  const target = line.kind === 'amendment' ? targetKind(line, say) : line.kind;
  return [
    ...(say.photo(line.id) !== null ? [sentence(say.photoName(line.id))] : []),
    saidSentences(line.said, line, say),
    ...(line.instead === undefined
      ? []
      : [m.record_instead({ said: saidSentences(line.instead, { ...line, kind: target }, say) }, { locale })]),
    ...(line.run === null ? [] : [sentence(m.record_in_run({ run: runText(line.run, say) }, { locale }))]),
    ...(state === null ? [] : [sentence(state)]),
    ...(line.first === undefined ? [] : [m.record_first_said({ said: saidSentences(line.first, line, say) }, { locale })]),
  ]
    .filter((one) => one !== '')
    .join(' ');
}

function targetKind({ said, kind }: RecordLine, say: Speaker): string {
  const of = said.find((one) => one.field === 'of');
  return (of?.is === 'ids' ? say.line(of.ids[0] ?? '')?.kind : undefined) ?? kind;
}

function runText(id: string, say: Speaker): string {
  const line = say.line(id);
  return line === null ? id : say.entry(line);
}
