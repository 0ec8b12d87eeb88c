import type { Cell, Column } from './blocks.ts';
import { glyphOps } from './glyphs.ts';
import { HAIR, INK, lineHeight, rule, tag, textOps, type Op, type Tag } from './page.ts';
import type { Strip } from './strip.ts';
import { wrap, type Face, type Measure } from './text.ts';

/** Size of the text in tables, in points. */
const TABLE_PT = 9;
const GAP = 8;
/** Above and below a row's text. */
const padOf = (size: number) => (size < TABLE_PT ? 2 : 3);
const GLYPH_PT = 9;
const GLYPH_INDENT = 13;

/** Lines of a row laid in one strip. A longer row is broken there, so that no cell is taller than a page. */
const ROW_LINES = 24;

interface Box {
  readonly x: number;
  readonly width: number;
}

interface LaidCell {
  readonly box: Box;
  readonly lines: readonly { readonly text: string; readonly face: Face }[];
  readonly size: number;
  readonly cell: Cell;
  readonly tag: Tag;
}

/** A table as strips, a row each: the head is kept with the first row and drawn again on each page the table goes on to. */
export function tableStrips(
  columns: readonly Column[],
  rows: readonly (readonly Cell[])[],
  size: number = TABLE_PT,
  width: number,
  parent: Tag,
  measure: Measure,
): Strip[] {
  const table = tag(parent, 'Table');
  const boxes = boxesOf(
    columns.map((column) => column.share),
    width,
  );
  const headRow = tag(table, 'TR');
  const headCells = columns.map((column, i) =>
    laid({ text: column.head, strong: true }, boxes[i]!, tag(headRow, 'TH', { scope: 'Column' }), size, measure),
  );
  const [headStrip] = rowStrips(headCells, width, INK);
  const head: Strip = { ...headStrip!, before: 5, keep: true };
  const body = rows.flatMap((row) => {
    const tr = tag(table, 'TR');
    return rowStrips(
      row.map((cell, i) => laid(cell, boxes[i]!, tag(tr, 'TD'), size, measure)),
      width,
      HAIR,
    );
  });
  return [head, ...body.map((strip) => ({ ...strip, again: { height: head.height, ops: head.ops } }))];
}

/** Labels and what stands beside them, ruled like a table without a head. */
export function factStrips(
  rows: readonly { label: Cell; text: string }[],
  labelShare: number,
  width: number,
  parent: Tag,
  measure: Measure,
): Strip[] {
  const table = tag(parent, 'Table');
  const boxes = boxesOf([labelShare, 1 - labelShare], width);
  return rows.flatMap(({ label, text }) => {
    const tr = tag(table, 'TR');
    const cells = [
      laid(label, boxes[0]!, tag(tr, 'TH', { scope: 'Row' }), TABLE_PT, measure),
      laid({ text }, boxes[1]!, tag(tr, 'TD'), TABLE_PT, measure),
    ];
    return rowStrips(cells, width, HAIR);
  });
}

function boxesOf(shares: readonly number[], width: number): Box[] {
  const whole = shares.reduce((sum, share) => sum + share, 0);
  const free = width - GAP * (shares.length - 1);
  let x = 0;
  return shares.map((share) => {
    const box = { x, width: (free * share) / whole };
    x += box.width + GAP;
    return box;
  });
}

function laid(cell: Cell, box: Box, of: Tag, size: number, measure: Measure): LaidCell {
  const width = box.width - (cell.glyph === undefined ? 0 : GLYPH_INDENT);
  const set = (said: string, face: Face) => wrap(said, face, size, width, measure).map((text) => ({ text, face }));
  const lines = set(cell.text, cell.strong === true ? 'strong' : 'text');
  return { box, cell, size, tag: of, lines: cell.under === undefined ? lines : [...lines, ...set(cell.under, 'text')] };
}

function rowStrips(cells: readonly LaidCell[], width: number, ruling: string): Strip[] {
  const lines = Math.max(...cells.map((cell) => cell.lines.length));
  const leading = lineHeight(cells[0]!.size);
  const pad = padOf(cells[0]!.size);
  const strips: Strip[] = [];
  for (let from = 0; from < lines; from += ROW_LINES) {
    const to = Math.min(lines, from + ROW_LINES);
    const last = to === lines;
    const height = (from === 0 ? pad : 0) + (to - from) * leading + (last ? pad : 0);
    const ops = cells.flatMap((cell) => cellOps(cell, from, to));
    strips.push({ before: 0, height, ops: last ? [...ops, rule(0, height, width, height, ruling === INK ? 1 : 0.75, ruling)] : ops });
  }
  return strips;
}

function cellOps({ box, cell: { glyph }, size, lines, tag: of }: LaidCell, from: number, to: number): Op[] {
  const top = from === 0 ? padOf(size) : 0;
  const x = box.x + (glyph === undefined ? 0 : GLYPH_INDENT);
  const text = lines
    .slice(from, to)
    .flatMap((line, i) => textOps([line.text], x, top + i * lineHeight(size), { face: line.face, size }, of));
  const state = glyph === undefined || from > 0 ? [] : glyphOps(glyph, box.x, top + (lineHeight(size) - GLYPH_PT) / 2, GLYPH_PT);
  return [...state, ...text];
}
