import * as m from '../words/compiled/messages.js';
import type { Block, Cell } from './blocks.ts';
import { entryTable } from './entry-table.ts';
import type { RecordDocument, RecordMaterial, RecordSurface } from './record-document.ts';
import { sentence, type Speaker } from './speaker.ts';
import { drawingBlocks } from './word-drawing.ts';
import { mixingBlocks } from './word-mixing.ts';

/** What the job is and what it is held to: people, rooms, surfaces and how they were accepted, materials, limits and where each is written. */
export function jobBlocks(document: RecordDocument, say: Speaker): Block[] {
  const { locale } = say;
  return [
    { block: 'heading', level: 1, text: m.record_part_job({}, { locale }) },
    { block: 'facts', labelShare: 0.16, rows: jobFacts(document, say) },
    ...roomBlocks(document, say),
    { block: 'heading', level: 2, text: m.record_surfaces({}, { locale }) },
    document.surfaces.length === 0 ? { block: 'paragraph', text: m.record_no_surfaces({}, { locale }) } : surfaceTable(document, say),
    ...entryTable('survey', document, say),
    ...drawingBlocks(document, say),
    ...mixingBlocks(document, say),
    ...materialBlocks(document, say),
    ...entryTable('data-sheet', document, say),
    ...pairBlocks(document, say),
    { block: 'heading', level: 2, text: m.record_limits({}, { locale }) },
    document.limits.length === 0 ? { block: 'paragraph', text: m.record_no_limits({}, { locale }) } : limitTable(document, say),
    ...entryTable('own-system', document, say),
    ...entryTable('own-rule', document, say),
  ];
}

function jobFacts({ job, price }: RecordDocument, say: Speaker): { label: Cell; text: string }[] {
  const { locale } = say;
  const fact = (label: string, text: string) => ({ label: { text: label, strong: true }, text });
  const owed = m.record_price({ photos: price.photos, readings: price.readings, entries: price.entries }, { locale });
  return [
    fact(m.record_label_job({}, { locale }), job.name),
    fact(m.record_label_address({}, { locale }), job.address),
    fact(m.record_label_permit({}, { locale }), job.permit),
    fact(m.record_label_people({}, { locale }), say.everyone.join(', ')),
    fact(m.record_label_proof({}, { locale }), `${sentence(say.level(job.proof))} ${owed}`),
    fact(m.record_label_number({}, { locale }), job.id),
  ].filter((row) => row.text !== '');
}

function roomBlocks({ rooms, log }: RecordDocument, say: Speaker): Block[] {
  if (!log.some((line) => line.kind === 'room')) return [];
  const { locale } = say;
  return [
    { block: 'heading', level: 2, text: m.record_rooms({}, { locale }) },
    {
      block: 'table',
      columns: [
        { head: say.field('surface', 'room'), share: 3 },
        { head: say.field('room', 'drain'), share: 2 },
        { head: say.field('room', 'steam'), share: 1 },
        { head: m.record_col_surfaces({}, { locale }), share: 4 },
      ],
      rows: rooms.map(({ name, drain, steam, surfaces: inside }) => [
        { text: name, strong: true },
        { text: drain == null ? '' : say.choice('drain', drain) },
        { text: steam === null ? '' : say.yes(steam) },
        { text: inside.map(say.surface).join(', ') },
      ]),
    },
  ];
}

function surfaceTable({ surfaces }: RecordDocument, say: Speaker): Block {
  const { locale } = say;
  return {
    block: 'table',
    columns: [
      { head: m.record_col_surface({}, { locale }), share: 3 },
      { head: m.record_col_size({}, { locale }), share: 2 },
      { head: m.record_col_substrate({}, { locale }), share: 3 },
      { head: m.record_col_system({}, { locale }), share: 3 },
      { head: m.record_col_accepted({}, { locale }), share: 3 },
    ],
    rows: surfaces.map((surface) => [
      {
        text: surface.name,
        strong: true,
        under: [say.place(surface.place), ...(surface.room === null ? [] : [say.room(surface.room)])].join(', '),
      },
      { text: sizeText(surface, say) },
      { text: surface.substrate == null ? '' : say.substrate(surface.substrate), under: behindText(surface, say) },
      { text: say.system(surface.system) },
      acceptedCell(surface, say),
    ]),
  };
}

function sizeText({ width, height }: RecordSurface, say: Speaker): string {
  const sides = [width, height].flatMap((side) => (side === null ? [] : [say.size(side)]));
  return sides.length === 2 ? m.record_size({ width: sides[0]!, height: sides[1]! }, { locale: say.locale }) : sides.join('');
}

/** Two vapour barriers may meet on an outside wall with a retarder behind the board: both are said where they were asked. */
function behindText({ outside, retarder }: RecordSurface, say: Speaker): string {
  return [
    ...(outside == null ? [] : [`${say.field('surface', 'outside')}: ${say.known(outside)}`]),
    ...(retarder == null ? [] : [`${say.field('surface', 'retarder')}: ${say.known(retarder)}`]),
  ].join('\n');
}

function acceptedCell({ accepted }: RecordSurface, say: Speaker): Cell {
  if (accepted === null) return { text: m.record_not_surveyed({}, { locale: say.locale }), glyph: 'not-begun' };
  const glyph = accepted.result === 'accepted' ? 'shown' : 'deviation';
  return {
    text: say.choice('result', accepted.result),
    strong: true,
    glyph,
    under: `${say.dayClock(accepted.at)}\n${say.person(accepted.by)}`,
  };
}

function materialBlocks({ materials }: RecordDocument, say: Speaker): Block[] {
  if (materials.length === 0) return [];
  const { locale } = say;
  return [
    { block: 'heading', level: 2, text: m.record_materials({}, { locale }) },
    {
      block: 'table',
      columns: [
        { head: say.field('material', 'material'), share: 4 },
        { head: say.field('material', 'lot'), share: 3 },
        { head: say.field('material', 'useBy'), share: 3 },
        { head: m.record_col_used({}, { locale }), share: 3 },
        { head: m.record_col_packages({}, { locale }), share: 2 },
      ],
      rows: materials.map((one) => [
        { text: one.name, strong: true, under: say.material(one.what) },
        { text: one.lot },
        useByCell(one, say),
        { text: one.used === null ? '' : say.dayClock(one.used) },
        { text: packagesText(one, say) },
      ]),
    },
  ];
}

/** A lot used after its use-by is outside; one never in hand is neither. */
function useByCell({ useBy, past, used }: RecordMaterial, say: Speaker): Cell {
  if (useBy === null) return { text: '' };
  const day = say.calendarDay(useBy);
  if (past !== null)
    return { text: day, glyph: 'outside', strong: true, under: m.record_used_past({ day: say.day(past) }, { locale: say.locale }) };
  return used === null ? { text: day } : { text: day, glyph: 'within' };
}

function packagesText({ opened, left }: RecordMaterial, say: Speaker): string {
  const pieces = (value: string) => say.quantity({ value, to: null, unit: 'count' });
  return [
    ...(opened === null ? [] : [`${say.field('material', 'opened')}: ${pieces(opened)}`]),
    ...(left === null ? [] : [`${say.field('material', 'left')}: ${pieces(left)}`]),
  ].join('\n');
}

/** Every two things that the job puts together and where their use together is named; what was said of other pairs, or before, stands below. */
function pairBlocks(document: RecordDocument, say: Speaker): Block[] {
  const { locale } = say;
  const { pairs, log } = document;
  if (pairs.length === 0) return entryTable('pair', document, say);
  const shown = new Set(pairs.map(({ entry }) => entry));
  const more = log.some((line) => line.kind === 'pair' && line.known && !shown.has(line.id));
  return [
    { block: 'heading', level: 2, text: m.record_pairs({}, { locale }) },
    {
      block: 'table',
      columns: [
        { head: say.field('pair', 'material'), share: 3 },
        { head: say.field('pair', 'with'), share: 3 },
        { head: say.field('pair', 'named'), share: 3 },
        { head: say.field('pair', 'where'), share: 3 },
        { head: m.record_col_entry({}, { locale }), share: 1 },
      ],
      rows: pairs.map(({ material, with: other, named, where, entry }) => {
        const line = entry === null ? null : say.line(entry);
        return [
          { text: say.lot(material), strong: true },
          { text: say.lot(other) },
          named === null
            ? { text: m.setup_pair_unsaid({}, { locale }), glyph: 'owed' as const }
            : { text: say.choice('named', named), glyph: named === 'not-named' ? ('deviation' as const) : ('shown' as const) },
          { text: where },
          { text: line === null ? '' : say.entry(line) },
        ];
      }),
    },
    ...(more ? entryTable('pair', document, say) : []),
  ];
}

function limitTable({ limits }: RecordDocument, say: Speaker): Block {
  const { locale } = say;
  return {
    block: 'table',
    columns: [
      { head: m.record_col_measure({}, { locale }), share: 2 },
      { head: m.record_col_limit({}, { locale }), share: 2 },
      { head: m.record_col_source({}, { locale }), share: 3 },
    ],
    rows: limits.map((limit) => [
      { text: say.measure(limit.what), strong: true, ...(limit.scale != null && { under: say.scale(limit.scale) }) },
      { text: say.bounds(limit) },
      { text: say.source(limit) },
    ]),
  };
}
