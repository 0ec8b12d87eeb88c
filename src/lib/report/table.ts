import type { Cell, Column } from './blocks.ts';
import { glyphOps } from './glyphs.ts';
import { HAIR, INK, lineHeight, rule, tag, textOps, type Op, type Tag } from './page.ts';
import type { Strip } from './strip.ts';
import { wrap, type Face, type Measure } from './text.ts';

/** Size of the text in tables, in points. */
export const TABLE_PT = 9;
const GAP = 8;
const PAD = 3;
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
  readonly lines: readonly string[];
  readonly face: Face;
  readonly cell: Cell;
  readonly tag: Tag;
}

/** A table as strips, a row each: the head is kept with the first row and drawn again on each page the table goes on to. */
export function tableStrips(columns: readonly Column[], rows: readonly (readonly Cell[])[], width: number, parent: Tag, measure: Measure): Strip[] {
  const table = tag(parent, 'Table');
  const boxes = boxesOf(columns.map((column) => column.share), width);
  const headRow = tag(table, 'TR');
  const headCells = columns.map((column, i) => laid({ text: column.head, strong: true }, boxes[i]!, tag(headRow, 'TH', { scope: 'Column' }), measure));
  const [headStrip] = rowStrips(headCells, width, INK);
  const head: Strip = { ...headStrip!, before: 2, keep: true };
  const body = rows.flatMap((row) => {
    const tr = tag(table, 'TR');
    return rowStrips(row.map((cell, i) => laid(cell, boxes[i]!, tag(tr, 'TD'), measure)), width, HAIR);
  });
  return [head, ...body.map((strip) => ({ ...strip, again: { height: head.height, ops: head.ops } }))];
}

/** Labels and what stands beside them, ruled like a table without a head. */
export function factStrips(rows: readonly { label: Cell; text: string }[], labelShare: number, width: number, parent: Tag, measure: Measure): Strip[] {
  const table = tag(parent, 'Table');
  const boxes = boxesOf([labelShare, 1 - labelShare], width);
  return rows.flatMap(({ label, text }) => {
    const tr = tag(table, 'TR');
    const cells = [laid(label, boxes[0]!, tag(tr, 'TH', { scope: 'Row' }), measure), laid({ text }, boxes[1]!, tag(tr, 'TD'), measure)];
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

function laid(cell: Cell, box: Box, of: Tag, measure: Measure): LaidCell {
  const face = cell.strong === true ? 'strong' : 'text';
  const width = box.width - (cell.glyph === undefined ? 0 : GLYPH_INDENT);
  return { box, face, cell, tag: of, lines: wrap(cell.text, face, TABLE_PT, width, measure) };
}

function rowStrips(cells: readonly LaidCell[], width: number, ruling: string): Strip[] {
  const lines = Math.max(...cells.map((cell) => cell.lines.length));
  const strips: Strip[] = [];
  for (let from = 0; from < lines; from += ROW_LINES) {
    const to = Math.min(lines, from + ROW_LINES);
    const last = to === lines;
    const height = (from === 0 ? PAD : 0) + (to - from) * lineHeight(TABLE_PT) + (last ? PAD : 0);
    const ops = cells.flatMap((cell) => cellOps(cell, from, to));
    strips.push({ before: 0, height, ops: last ? [...ops, rule(0, height, width, height, ruling === INK ? 1 : 0.75, ruling)] : ops });
  }
  return strips;
}

function cellOps({ box, cell, face, lines, tag: of }: LaidCell, from: number, to: number): Op[] {
  const top = from === 0 ? PAD : 0;
  const hasGlyph = cell.glyph !== undefined;
  const text = textOps(lines.slice(from, to), box.x + (hasGlyph ? GLYPH_INDENT : 0), top, { face, size: TABLE_PT }, of);
  const glyph = hasGlyph && from === 0 ? glyphOps(cell.glyph, box.x, top + (lineHeight(TABLE_PT) - GLYPH_PT) / 2, GLYPH_PT) : [];
  return [...glyph, ...text];
}
