import * as m from '../words/compiled/messages.js';
import type { Block, Cell } from './blocks.ts';
import type { Moment, RecordDocument, RecordLayer, RecordReading } from './record-document.ts';
import { grouped, type Speaker } from './speaker.ts';
import { floodCover } from './word-flood.ts';
import { openBlocks } from './word-open.ts';
import { sectionBlock } from './word-section.ts';

/** The cover: what is open before what was done. */
export function coverBlocks(document: RecordDocument, say: Speaker): Block[] {
  const { locale } = say;
  const { job, built } = document;
  return [
    {
      block: 'title',
      text: m.record_title({}, { locale }),
      under: [{ text: job.name || job.id, strong: true }, { text: [job.address, workDays(document, say)].filter(Boolean).join('\n') }],
      aside: [
        m.record_built_at({ day: say.day(built), clock: say.clock(built) }, { locale }),
        m.record_built_by({ person: say.person(built.by) }, { locale }),
        m.record_rules({ version: document.rules }, { locale }),
        m.record_level({ level: say.level(job.proof) }, { locale }),
      ],
    },
    ...standBlocks(document, say),
  ];
}

/** How far the log went, how to check that, and what this record does not claim: always on the cover itself. */
export function coverFoot(document: RecordDocument, say: Speaker): Block[] {
  const { locale } = say;
  return [
    {
      block: 'columns',
      leftShare: 0.48,
      left: headBlocks(document, say),
      right: [
        { block: 'heading', level: 2, text: m.record_check({}, { locale }) },
        { block: 'paragraph', text: m.record_check_how({}, { locale }) },
        { block: 'paragraph', text: m.caution_defer({}, { locale }) },
      ],
    },
  ];
}

/** The section beside what is open, then what was done. A job without surfaces owes nothing yet, and says so. */
function standBlocks(document: RecordDocument, say: Speaker): Block[] {
  if (document.layers.length === 0) return openBlocks(document, say);
  return [
    {
      block: 'columns',
      leftShare: 0.43,
      left: [sectionBlock(document, say)],
      right: [...openBlocks(document, say), ...floodCover(document, say)],
    },
    { block: 'heading', level: 2, text: m.record_done({}, { locale: say.locale }) },
    doneTable(document, say),
  ];
}

function workDays({ layers }: RecordDocument, say: Speaker): string {
  const moments = layers.flatMap(({ first, last }) => (first === null || last === null ? [] : [first, last]));
  const ordered = moments.sort((a, b) => Date.parse(a.utc) - Date.parse(b.utc));
  const [first] = ordered;
  const last = ordered.at(-1);
  if (first === undefined || last === undefined) return m.record_no_work({}, { locale: say.locale });
  return m.record_work({ days: days(first, last, say) }, { locale: say.locale });
}

function days(first: Moment, last: Moment, say: Speaker): string {
  const [from, to] = [say.day(first), say.day(last)];
  return from === to ? from : m.record_days({ from, to }, { locale: say.locale });
}

/** Above it stand the days with their year. */
function shortDays(first: Moment, last: Moment, say: Speaker): string {
  const [from, to] = [say.dayShort(first), say.dayShort(last)];
  return from === to ? from : m.record_days({ from, to }, { locale: say.locale });
}

/** So small that six layers stand on the cover with all they owe. */
const DONE_PT = 8;

function doneTable({ layers, readings }: RecordDocument, say: Speaker): Block {
  const { locale } = say;
  const head = (text: string, share: number) => ({ head: text, share });
  return {
    block: 'table',
    points: DONE_PT,
    columns: [
      head('', 9),
      head(m.record_col_layer({}, { locale }), 94),
      head(m.record_col_date({}, { locale }), 52),
      head(m.record_col_by({}, { locale }), 57),
      head(m.record_col_proof({}, { locale }), 32),
      head(m.record_col_worst({}, { locale }), 74),
      head(m.record_col_source({}, { locale }), 104),
      head(m.record_col_state({}, { locale }), 82),
    ],
    rows: layers.map((layer, i) => {
      const worst = readings.find((reading) => reading.id === layer.worst);
      const limit = worst === undefined ? null : say.limit(worst.limit);
      return [
        { text: String(i + 1), strong: true },
        { text: say.layer(layer.layer), strong: true },
        { text: layer.first === null || layer.last === null ? '' : shortDays(layer.first, layer.last, say) },
        { text: layer.by.map(say.person).join('\n') },
        { text: m.record_proof_of({ shown: layer.shown, owed: layer.owed }, { locale }) },
        { text: worst === undefined ? '' : [say.value(worst), ...(limit === null ? [] : [say.bounds(limit)])].join('\n') },
        { text: limit === null ? '' : say.source(limit) },
        layerState(layer, worst, say),
      ];
    }),
  };
}

/** One word for a layer: a value that does not stand weighs more than proof still owed, and both more than what was shown or left out. */
function layerState({ stand, items }: RecordLayer, worst: RecordReading | undefined, say: Speaker): Cell {
  const { locale } = say;
  if (stand === 'not-begun') return { text: m.state_not_begun({}, { locale }), glyph: 'not-begun', strong: true };
  if (worst?.verdict === 'outside' || worst?.verdict === 'not-proven') {
    return { text: say.verdict(worst.verdict), glyph: worst.verdict, strong: true };
  }
  if (stand === 'owed') return { text: m.state_owed({}, { locale }), glyph: 'owed', strong: true };
  if (items.some((item) => item.stand === 'covered')) return { text: m.record_covered({}, { locale }), glyph: 'deviation', strong: true };
  if (items.some((item) => item.stand === 'not-done')) return { text: m.record_not_done({}, { locale }), glyph: 'not-done', strong: true };
  return { text: m.state_shown({}, { locale }), glyph: 'shown', strong: true };
}

/** One number for the whole log, and where it ends on each phone. */
function headBlocks({ fingerprint, heads, log, shots }: RecordDocument, say: Speaker): Block[] {
  const { locale } = say;
  const row = (label: string, text: string) => ({ label: { text: label, strong: true }, text });
  return [
    { block: 'heading', level: 2, text: m.record_fingerprint({}, { locale }) },
    {
      block: 'facts',
      labelShare: 0.2,
      rows: [
        row(m.record_fingerprint_root({}, { locale }), grouped(fingerprint)),
        ...heads.map((head) => row(say.entry(head), grouped(head.hash))),
      ],
    },
    { block: 'paragraph', text: m.record_heads_note({ entries: log.length, photos: shots.length }, { locale }) },
  ];
}
