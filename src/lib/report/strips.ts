import type { Block, Photo } from './blocks.ts';
import { INK, INK_2, lineHeight, moved, rule, tag, textOps, type Op, type Tag } from './page.ts';
import { sectionStrip } from './section.ts';
import { totalHeight, type Strip } from './strip.ts';
import { factStrips, tableStrips } from './table.ts';
import { wrap, type Measure } from './text.ts';

/** A picture as it will be printed: a JPEG, upright, with its size in pixels. */
export interface Picture {
  readonly bytes: Uint8Array;
  readonly width: number;
  readonly height: number;
}

/** What laying out needs beside the blocks. */
export interface Setting {
  readonly measure: Measure;
  /** Height of a page's body, which nothing unbroken may exceed. */
  readonly bodyHeight: number;
  /** Pictures by the hash of the photo each was made from. */
  readonly pictures: ReadonlyMap<string, Picture>;
}

const BODY_PT = 9.5;
const COLUMN_GAP = 20;
const HEADING_PT = { 1: 18, 2: 12, 3: 10 } as const;

/** The strips of blocks, one under the other, `width` points wide. */
export function stripsOf(blocks: readonly Block[], width: number, parent: Tag, setting: Setting): Strip[] {
  return blocks.flatMap((block) => blockStrips(block, width, parent, setting));
}

function blockStrips(block: Block, width: number, parent: Tag, setting: Setting): Strip[] {
  const { measure } = setting;
  switch (block.block) {
    case 'title':
      return [titleStrip(block, width, parent, measure)];
    case 'heading':
      return [headingStrip(block, width, parent, measure)];
    case 'paragraph':
      return paragraphStrips(block.text, width, parent, measure);
    case 'facts':
      return factStrips(block.rows, block.labelShare, width, parent, measure);
    case 'table':
      return tableStrips(block.columns, block.rows, block.small === true, width, parent, measure);
    case 'photos':
      return photoStrips(block.photos, block.missing, width, parent, setting);
    case 'section':
      return [sectionStrip(block, width, SECTION_PT, parent, measure)];
    case 'columns':
      return columnStrips(block, width, parent, setting);
  }
}

function titleStrip({ text, under, aside }: Extract<Block, { block: 'title' }>, width: number, parent: Tag, measure: Measure): Strip {
  const asideWidth = 150;
  const mainWidth = width - asideWidth - COLUMN_GAP;
  const ops: Op[] = [];
  let y = 0;
  const add = (said: string, face: 'text' | 'strong', size: number, of: Tag) => {
    const lines = wrap(said, face, size, mainWidth, measure);
    ops.push(...textOps(lines, 0, y, { face, size }, of));
    y += lines.length * lineHeight(size);
  };
  add(text, 'strong', 22, tag(parent, 'H1'));
  for (const { text: said, strong } of under) add(said, strong === true ? 'strong' : 'text', strong === true ? 11 : 10, tag(parent, 'P'));
  let top = 8;
  for (const said of aside) {
    const lines = wrap(said, 'text', 9, asideWidth, measure);
    const right = (line: string) => width - measure(line, 'text', 9);
    const of = tag(parent, 'P');
    for (const line of lines) {
      ops.push(...textOps([line], right(line), top, { face: 'text', size: 9, ink: INK_2 }, of));
      top += lineHeight(9);
    }
  }
  return { before: 0, height: Math.max(y, top) + 4, ops };
}

function headingStrip({ text, level, aside }: Extract<Block, { block: 'heading' }>, width: number, parent: Tag, measure: Measure): Strip {
  const size = HEADING_PT[level];
  const of = tag(parent, `H${level}`);
  const asideWidth = aside === undefined ? 0 : measure(aside, 'text', TABLE_ASIDE_PT) + COLUMN_GAP;
  const lines = wrap(text, 'strong', size, width - asideWidth, measure);
  const bottom = lines.length * lineHeight(size) + 2;
  const ops = [...textOps(lines, 0, 0, { face: 'strong', size }, of), rule(0, bottom, width, bottom, 1.2, INK)];
  if (aside !== undefined) {
    const top = bottom - 2 - lineHeight(TABLE_ASIDE_PT);
    ops.push(...textOps([aside], width - asideWidth + COLUMN_GAP, top, { face: 'text', size: TABLE_ASIDE_PT, ink: INK_2 }, tag(parent, 'P')));
  }
  return { before: level === 1 ? 0 : 12, height: bottom, ops, keep: true };
}

const TABLE_ASIDE_PT = 9;

function paragraphStrips(text: string, width: number, parent: Tag, measure: Measure): Strip[] {
  const of = tag(parent, 'P');
  return wrap(text, 'text', BODY_PT, width, measure).map((line, i) => ({
    before: i === 0 ? 5 : 0,
    height: lineHeight(BODY_PT),
    ops: textOps([line], 0, 0, { face: 'text', size: BODY_PT }, of),
  }));
}

/** Height of the section where nothing beside it asks for another. */
const SECTION_PT = 260;
const SECTION_MIN_PT = 240;
const SECTION_MAX_PT = 300;

function columnStrips({ left, right, leftShare }: Extract<Block, { block: 'columns' }>, width: number, parent: Tag, setting: Setting): Strip[] {
  const leftWidth = (width - COLUMN_GAP) * leftShare;
  // Laid out to be measured, on a tree of its own: which way they stand decides what is kept.
  const trial: Tag = { type: 'Document', kids: [] };
  const tallest = Math.max(
    totalHeight(stripsOf(left, leftWidth, trial, setting)),
    totalHeight(stripsOf(right, width - COLUMN_GAP - leftWidth, trial, setting)),
  );
  if (tallest > setting.bodyHeight * 0.6) return [...stripsOf(right, width, parent, setting), ...stripsOf(left, width, parent, setting)];
  const rightStrips = stripsOf(right, width - COLUMN_GAP - leftWidth, parent, setting);
  const height = Math.min(SECTION_MAX_PT, Math.max(SECTION_MIN_PT, totalHeight(rightStrips)));
  const leftStrips = left.flatMap((block) =>
    block.block === 'section' ? [sectionStrip(block, leftWidth, height, parent, setting.measure)] : blockStrips(block, leftWidth, parent, setting),
  );
  const ops = [...stacked(rightStrips, leftWidth + COLUMN_GAP), ...stacked(leftStrips, 0)];
  return [{ before: 12, height: Math.max(totalHeight(rightStrips), totalHeight(leftStrips)), ops }];
}

function stacked(strips: readonly Strip[], x: number): Op[] {
  let y = 0;
  return strips.flatMap(({ before, height, ops }, i) => {
    if (i > 0) y += before;
    const placed = moved(ops, x, y);
    y += height;
    return placed;
  });
}

/** Photos beside each other, and the greatest height of one. */
const PHOTO_COLUMNS = 3;
const PHOTO_MAX_PT = 176;
const PHOTO_GAP = 18;

function photoStrips(photos: readonly Photo[], missing: string, width: number, parent: Tag, setting: Setting): Strip[] {
  const cellWidth = (width - PHOTO_GAP * (PHOTO_COLUMNS - 1)) / PHOTO_COLUMNS;
  const strips: Strip[] = [];
  for (let i = 0; i < photos.length; i += PHOTO_COLUMNS) {
    const row = photos.slice(i, i + PHOTO_COLUMNS).map((photo) => photoStrip(photo, missing, cellWidth, parent, setting));
    const ops = row.flatMap((one, k) => moved(one.ops, k * (cellWidth + PHOTO_GAP), 0));
    strips.push({ before: 14, height: Math.max(...row.map((one) => one.height)), ops });
  }
  return strips;
}

function photoStrip(photo: Photo, missing: string, width: number, parent: Tag, { measure, pictures }: Setting): Strip {
  const figure = tag(parent, 'Figure', { alt: photo.alt });
  const of = tag(figure, 'Caption');
  const found = photo.printed ? pictures.get(photo.sha256) : undefined;
  const scale = found === undefined ? 1 : Math.min(width / found.width, PHOTO_MAX_PT / found.height);
  const box = found === undefined ? { width, height: 76 } : { width: found.width * scale, height: found.height * scale };
  const frame: Op = { op: 'path', tag: figure, x: 0, y: 0, d: `M0 0H${box.width}V${box.height}H0Z`, stroke: INK, pen: 0.75 };
  const content: Op[] =
    found === undefined
      ? textOps(wrap(missing, 'text', 9, width - 20, measure), 10, 26, { face: 'text', size: 9 }, figure)
      : [{ op: 'image', tag: figure, x: 0, y: 0, sha256: photo.sha256, ...box }];
  const number = String(photo.number);
  const label = 10 + measure(number, 'strong', 10);
  const mark: Op = { op: 'path', tag: figure, x: 0, y: 0, d: `M0 0H${label}V16H0Z`, fill: '#ffffff', stroke: INK, pen: 0.75 };
  const lead = wrap(photo.lead, 'strong', 9, width, measure);
  const caption = wrap(photo.caption, 'text', 9, width, measure);
  const top = box.height + 3;
  const below = top + lead.length * lineHeight(9);
  return {
    before: 0,
    height: below + caption.length * lineHeight(9),
    ops: [
      ...content,
      frame,
      mark,
      ...textOps([number], 5, 1.5, { face: 'strong', size: 10 }, figure),
      ...textOps(lead, 0, top, { face: 'strong', size: 9 }, of),
      ...textOps(caption, 0, below, { face: 'text', size: 9, ink: INK_2 }, of),
    ],
  };
}
