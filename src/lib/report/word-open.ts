import * as m from '../words/compiled/messages.js';
import type { Block, Cell, Glyph } from './blocks.ts';
import type { OpenPoint, RecordDocument, RecordLine } from './record-document.ts';
import { pointedText, saidSentences } from './said-text.ts';
import { sentence, type Speaker } from './speaker.ts';
import { attemptName } from './word-flood.ts';

type Row = { label: Cell; text: string };

/** What is open, worst first, and after it what the crew itself owned up to. */
export function openBlocks(document: RecordDocument, say: Speaker): Block[] {
  const { locale } = say;
  const open = document.open.map((point) => openRow(point, document, say));
  const owned = document.log
    .filter((line) => OWNED_UP.has(line.kind) && line.known && line.state !== 'withdrawn')
    .map((line) => ownedRow(line, say));
  const nothing = document.layers.length === 0 ? m.record_nothing_owed : m.record_nothing_open;
  return [
    { block: 'heading', level: 2, text: m.record_open({}, { locale }) },
    open.length === 0 ? { block: 'paragraph', text: nothing({}, { locale }) } : { block: 'facts', labelShare: 0.27, rows: open },
    ...(owned.length === 0
      ? []
      : [
          { block: 'heading' as const, level: 2 as const, text: m.record_owned_up({}, { locale }) },
          { block: 'facts' as const, labelShare: 0.27, rows: owned },
        ]),
  ];
}

const OWNED_UP: ReadonlySet<string> = new Set(['deviation', 'early', 'not-done']);

function ownedRow(line: RecordLine, say: Speaker): Row {
  const glyph: Glyph = line.kind === 'not-done' ? 'not-done' : 'deviation';
  return {
    label: { text: say.kind(line.kind), strong: true, glyph },
    text: `${saidSentences(line.said, line, say)} ${sentence(say.entry(line))}`,
  };
}

function openRow(point: OpenPoint, document: RecordDocument, say: Speaker): Row {
  const { locale } = say;
  const row = (glyph: Glyph, label: string, text: string): Row => ({ label: { text: label, strong: true, glyph }, text });
  switch (point.code) {
    case 'outside':
    case 'not-proven': {
      const readings = document.readings.filter((reading) => point.readings.includes(reading.id));
      const what = `${say.measure(point.what)}, ${say.surface(point.surface)}`;
      const limit = say.limit(readings[0]?.limit ?? null);
      const values = readings.map(say.value).join(', ');
      return row(
        point.code,
        say.verdict(point.code),
        `${what}: ${values}. ${limit === null ? '' : sentence(`${say.bounds(limit)}, ${say.source(limit)}`)}`,
      );
    }
    case 'past-use-by':
      return row(
        'outside',
        m.record_open_past({}, { locale }),
        point.materials.map((id) => sentence(pastText(id, document, say))).join(' '),
      );
    case 'flood-failed': {
      const failed = document.attempts.filter((one) => point.attempts.includes(one.id));
      const said = failed.map((one) =>
        m.record_open_failed({ attempt: attemptName(one, say), surfaces: say.surfaces(one.under) }, { locale }),
      );
      return row('failed', m.record_failed_test({}, { locale }), said.join(' '));
    }
    case 'owed':
      return row(
        'owed',
        m.state_owed({}, { locale }),
        [say.layer(point.layer), ...point.items.map((item) => owedText(item, say))].map(sentence).join(' '),
      );
    case 'amendments':
      return row('note', m.record_open_amendments({}, { locale }), sentence(point.entries.map((id) => pointedText(id, say)).join(', ')));
    case 'running': {
      const run = document.runs.find((one) => one.id === point.run);
      const since =
        run === undefined ? point.run : m.record_open_running({ step: say.step(run.step), since: say.dayClock(run.start) }, { locale });
      return row('running', m.state_running({}, { locale }), sentence(since));
    }
    case 'not-begun':
      return row('not-begun', m.state_not_begun({}, { locale }), `${point.layers.map(say.layer).join(', ')}.`);
    default: {
      const [label, count] = COUNTED[point.code];
      return row('note', label({}, { locale }), count({ count: point.count }, { locale }));
    }
  }
}

const COUNTED = {
  misses: [m.record_open_misses, m.record_open_misses_count],
  unsorted: [m.record_open_unsorted, m.record_open_unsorted_count],
  'not-printed': [m.record_open_not_printed, m.record_open_not_printed_count],
  'clock-moved': [m.record_open_clock, m.record_open_clock_count],
  unsigned: [m.record_open_unsigned, m.record_open_unsigned_count],
  newer: [m.kind_unknown, m.record_open_newer_count],
  unreadable: [m.record_open_unreadable, m.record_open_unreadable_count],
} as const;

function pastText(id: string, { materials }: RecordDocument, say: Speaker): string {
  const lot = materials.find((one) => one.material === id);
  if (lot?.useBy == null || lot.past === null) return say.lot(id);
  return m.record_past_use_by({ lot: say.lot(id), day: say.calendarDay(lot.useBy), used: say.day(lot.past) }, { locale: say.locale });
}

function owedText({ rule, coat, rooms, surfaces }: Extract<OpenPoint, { code: 'owed' }>['items'][number], say: Speaker): string {
  const on = [...rooms.map(say.room), ...surfaces.map(say.surface)].join(', ');
  const name = coat === null ? say.owed(rule) : `${say.owed(rule)}, ${m.record_coat({ coat }, { locale: say.locale })}`;
  return `${name}: ${on}`;
}
