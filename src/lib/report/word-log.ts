import { durationText } from '../words/time.ts';
import * as m from '../words/compiled/messages.js';
import type { Block, Cell } from './blocks.ts';
import type { RecordChain, RecordDocument, RecordLine, RecordSet } from './record-document.ts';
import { grouped, sentence, stamp, type Locale, type Speaker } from './speaker.ts';

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
        { head: m.record_col_time({}, { locale }), share: 116 },
        { head: m.record_col_kind({}, { locale }), share: 70 },
        { head: m.record_col_what({}, { locale }), share: 139 },
        { head: m.record_col_by({}, { locale }), share: 56 },
        { head: m.record_col_hash({}, { locale }), share: 82 },
      ],
      small: true,
      rows: document.log.map((line) => lineRow(line, document, say)),
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

function lineRow(line: RecordLine, document: RecordDocument, say: Speaker): Cell[] {
  return [
    { text: say.entry(line), strong: true },
    { text: stamp(line.at) },
    { text: line.known ? say.kind(line.kind as Parameters<Speaker['kind']>[0]) : m.kind_unknown({}, { locale: say.locale }) },
    { text: factText(line, document, say) },
    { text: say.person(line.by) },
    { text: grouped(line.hash) },
  ];
}

/** What an entry says, in one cell. What is said elsewhere in full is named by its number or value. */
function factText(line: RecordLine, document: RecordDocument, say: Speaker): string {
  const { locale } = say;
  if (!line.known) return line.kind;
  if (line.set !== undefined) return setText(line.set, say);
  const find = <T extends { id: string }>(list: readonly T[], id: string | null): T | undefined => list.find((one) => one.id === id);
  switch (line.kind) {
    case 'device': {
      const chain = document.chains.find((one) => one.device === line.device);
      return chain?.key?.alg === 'ed25519' ? `Ed25519 ${grouped(chain.key.public, 16)}` : chain === undefined ? '' : keyText(chain, say);
    }
    case 'run-start': {
      const run = find(document.runs, line.id);
      return run === undefined ? '' : `${sentence(say.step(run.step))} ${sentence(say.surfaces(run.surfaces))}`;
    }
    case 'run-stop': {
      const run = find(document.runs, line.run);
      return run === undefined ? (line.run ?? '') : sentence(say.step(run.step));
    }
    case 'shot': {
      const shot = find(document.shots, line.id);
      if (shot === undefined) return '';
      return `${m.record_photo_number({ number: say.photo(shot.id) }, { locale })}. ${sentence(say.surface(shot.surface))}`;
    }
    case 'reading': {
      const reading = find(document.readings, line.id);
      return reading === undefined ? '' : `${say.measure(reading.what)}: ${say.value(reading)}. ${sentence(say.surface(reading.surface))}`;
    }
    case 'clock-jump': {
      const jump = find(document.clockJumps, line.id);
      return jump === undefined ? '' : jumpText(jump.wallDeltaMs, jump.monoDeltaMs, say);
    }
    case 'record': {
      const record = find(document.records, line.id);
      return record === undefined ? '' : `PDF, SHA-256 ${grouped(record.pdf, 16)}`;
    }
    default:
      return '';
  }
}

function jumpText(wallDeltaMs: number, monoDeltaMs: number | null, { locale }: Speaker): string {
  if (monoDeltaMs === null) return m.record_clock_set_back({ wall: signed(wallDeltaMs, locale) }, { locale });
  return m.record_clock_parted({ wall: signed(wallDeltaMs, locale), mono: signed(monoDeltaMs, locale) }, { locale });
}

/** A clock can move by seconds, and by fifty years when a flat battery sends it back to its first day. */
function signed(ms: number, locale: Locale): string {
  const size = Math.abs(ms);
  const text =
    size < 60_000
      ? `${Math.round(size / 1000)} s`
      : size < 100 * DAY_MS
        ? durationText(size / 60_000, locale)
        : `${Math.round(size / DAY_MS)} d`;
  return `${ms < 0 ? '−' : '+'}${text}`;
}

const DAY_MS = 86_400_000;

function setText(set: RecordSet, say: Speaker): string {
  switch (set.kind) {
    case 'job':
      return [set.name, set.address].filter(Boolean).join(', ');
    case 'person':
      return set.name;
    case 'surface':
      return [set.name, say.place(set.place), say.system(set.system)].map(sentence).join(' ');
    case 'limit':
      return `${say.measure(set.what)}: ${say.bounds(set)}. ${sentence(say.source(set))}`;
  }
}
