import { isFormKind } from '../job/forms.ts';
import * as m from '../words/compiled/messages.js';
import type { Block, Cell, Column } from './blocks.ts';
import type { RecordDocument, RecordLine } from './record-document.ts';
import { fileText, saidText } from './said-text.ts';
import { sentence, type Speaker } from './speaker.ts';

/** A column of a table of entries: its first field stands as it is, the others below it under their labels. */
type FieldColumn = readonly [share: number, ...fields: readonly [string, ...string[]]];

/** Kinds printed as tables of their own, column by column. What a column leaves out stands in the last one, so that no field is lost. */
// prettier-ignore
const COLUMNS = {
  survey: [[2, 'result', 'drop'], [2, 'surfaces'], [4, 'found', 'told']],
  'data-sheet': [[3, 'title', 'edition'], [3, 'materials'], [4, 'files']],
  pair: [[3, 'material'], [3, 'with'], [2, 'named'], [2, 'where']],
  'own-system': [[1, 'name'], [3, 'steps']],
  'own-rule': [[2, 'name'], [2, 'step', 'want'], [1, 'places'], [3, 'reason']],
  conditions: [[2, 'air'], [2, 'surface'], [2, 'humidity'], [2, 'lowest'], [2, 'highest', 'from']],
  mix: [[3, 'material', 'same'], [2, 'powder'], [2, 'water'], [3, 'surfaces']],
  deviation: [[4, 'what', 'why'], [2, 'surfaces'], [3, 'against'], [2, 'accepted']],
  'not-done': [[2, 'step', 'surfaces'], [4, 'items'], [2, 'covered'], [3, 'reason', 'words']],
  early: [[3, 'wait'], [2, 'reason', 'words'], [3, 'check'], [1, 'held']],
  repair: [[4, 'what'], [3, 'of'], [2, 'surfaces']],
  coverage: [[2, 'covered', 'low', 'high', 'unknown'], [3, 'misses', 'smallest'], [2, 'surface', 'coat'], [2, 'confirmed', 'shot', 'before']],
  transfer: [[2, 'share', 'low', 'high'], [2, 'worst'], [2, 'surface'], [2, 'confirmed', 'shot']],
  'by-others': [[2, 'who'], [4, 'what'], [2, 'surfaces']],
  protect: [[4, 'how'], [2, 'surfaces']],
  'tile-check': [[2, 'whole', 'dry', 'undamaged'], [2, 'surfaces'], [3, 'words']],
  'later-hole': [[3, 'what'], [2, 'who'], [3, 'sealed'], [2, 'surfaces']],
  inspection: [[2, 'what', 'permit'], [2, 'result'], [2, 'day'], [2, 'who'], [3, 'words']],
  'hand-over': [[3, 'who', 'role'], [3, 'words'], [2, 'surfaces'], [3, 'signature']],
  attestation: [[4, 'words'], [2, 'surfaces'], [3, 'signature']],
  callback: [[3, 'complaint', 'shows'], [3, 'looked'], [3, 'found', 'cause', 'answer'], [2, 'stand', 'warranty', 'took', 'cost', 'surfaces']],
  isolation: [[3, 'test', 'height'], [2, 'below', 'moisture', 'scale'], [3, 'callback', 'words']],
  'isolation-look': [[3, 'isolation'], [2, 'below', 'moisture', 'scale'], [3, 'words']],
  opening: [[3, 'told', 'who'], [2, 'surfaces'], [3, 'sample', 'callback']],
  note: [[4, 'words'], [2, 'surfaces']],
  voice: [[1, 'ms', 'cut'], [2, 'surfaces'], [4, 'sound']],
} as const satisfies Readonly<Record<string, readonly FieldColumn[]>>;

export type TabledKind = keyof typeof COLUMNS;

const HEADS = {
  survey: m.record_head_survey,
  'data-sheet': m.record_head_data_sheet,
  pair: m.record_head_pair,
  'own-system': m.record_head_own_system,
  'own-rule': m.record_head_own_rule,
  conditions: m.record_head_conditions,
  mix: m.record_head_mix,
  deviation: m.record_head_deviation,
  'not-done': m.record_head_not_done,
  early: m.record_head_early,
  repair: m.record_head_repair,
  coverage: m.record_head_coverage,
  transfer: m.record_head_transfer,
  'by-others': m.record_head_by_others,
  protect: m.record_head_protect,
  'tile-check': m.record_head_tile_check,
  'later-hole': m.record_head_later_hole,
  inspection: m.record_head_inspection,
  'hand-over': m.record_head_hand_over,
  attestation: m.record_head_attestation,
  callback: m.record_head_callback,
  isolation: m.record_head_isolation,
  'isolation-look': m.record_head_isolation_look,
  opening: m.record_head_opening,
  note: m.record_head_note,
  voice: m.record_head_voice,
} as const satisfies Readonly<Record<TabledKind, unknown>>;

/** Every entry of a kind in a table under a heading of its own; nothing where there is none. What was taken back says so. */
export function entryTable(kind: TabledKind, { log }: RecordDocument, say: Speaker): Block[] {
  const lines = log.filter((line) => line.kind === kind && line.known);
  if (lines.length === 0) return [];
  const columns: readonly FieldColumn[] = COLUMNS[kind];
  return [
    { block: 'heading', level: 2, text: HEADS[kind]({}, { locale: say.locale }) },
    {
      block: 'table',
      columns: [
        { head: m.record_col_said({}, { locale: say.locale }), share: 2 },
        ...columns.map(([share, first]): Column => ({ head: say.field(kind, first), share })),
      ],
      rows: lines.map((line) => [saidCell(line, say), ...fieldCells(columns, line, say)]),
    },
  ];
}

/** When and by whom, the place in the log, and what later entries made of it. */
function saidCell(line: RecordLine, say: Speaker): Cell {
  const remark = stateText(line, say);
  const under = [say.person(line.by), say.entry(line), ...(remark === null ? [] : [remark])].join('\n');
  return { text: say.dayClock(line.at), under, ...(line.state === 'withdrawn' || line.state === 'open' ? { glyph: 'note' as const } : {}) };
}

function fieldCells(columns: readonly FieldColumn[], line: RecordLine, say: Speaker): Cell[] {
  const placed = new Set(columns.flatMap(([, ...fields]) => fields));
  const rest = line.said.map(({ field }) => field).filter((field) => !placed.has(field));
  return columns.map(([, ...fields], i) => {
    const [first, ...below] = i === columns.length - 1 ? [...fields, ...rest] : fields;
    const text = textOf(first, line, say) ?? '';
    const under = below.flatMap((field) => {
      const said = textOf(field, line, say);
      return said === null ? [] : [sentence(`${say.field(line.kind, field)}: ${said}`)];
    });
    return under.length === 0 ? { text } : { text, under: under.join('\n') };
  });
}

function textOf(name: string, line: RecordLine, say: Speaker): string | null {
  const field = line.said.find((one) => one.field === name);
  // The form says so where no surface is touched.
  if (field === undefined) return name === 'surfaces' && isFormKind(line.kind) ? m.record_whole_job({}, { locale: say.locale }) : null;
  // Here, where a file is at home, its whole hash: by it the edition in force can be told in ten years.
  return field.is === 'files' ? field.files.map((file) => fileText(file, 64, say)).join('\n') : saidText(field, line, say);
}

/** What later entries made of an entry, in a word; null for one that simply stands. */
export function stateText({ state, amendments = [] }: RecordLine, say: Speaker): string | null {
  const { locale } = say;
  const by = amendments
    .map((id) => say.line(id))
    .flatMap((line) => (line === null ? [] : [say.entry(line)]))
    .join(', ');
  switch (state) {
    case 'stands':
      return null;
    case 'amended':
      return m.record_state_amended({ by }, { locale });
    case 'open':
      return m.record_state_open({ by }, { locale });
    case 'withdrawn':
      return m.record_state_withdrawn({}, { locale });
  }
}
