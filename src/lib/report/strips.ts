import type { Block } from './blocks.ts';
import { contentsStrips, type ContentsLine } from './contents.ts';
import { curveStrip } from './curve.ts';
import { floorStrips, wallStrips } from './drawing.ts';
import { INK, INK_2, lineHeight, moved, rule, tag, textOps, type Tag } from './page.ts';
import { chainStrips, photoStrips, type Picture } from './photos.ts';
import { plotStrips } from './plot.ts';
import { sectionHeight, sectionStrip } from './section.ts';
import { stacked, totalHeight, type Strip } from './strip.ts';
import { factStrips, tableStrips } from './table.ts';
import { wrap, type Measure } from './text.ts';

/** What laying out needs beside the blocks. */
export interface Setting {
  readonly measure: Measure;
  /** Height of a page's body, which nothing unbroken may exceed. */
  readonly bodyHeight: number;
  /** Pictures by the hash of the photo each was made from. */
  readonly pictures: ReadonlyMap<string, Picture>;
  /** Headings of the edition, with their pages. */
  readonly contents: readonly ContentsLine[];
}

const TITLE_PT = 22;
const UNDER_PT = 10.5;
const BODY_PT = 9.5;
const ASIDE_PT = 9;
const COLUMN_GAP = 20;
const HEADING_PT = { 1: 18, 2: 12 } as const;

/** The strips of blocks, one under the other, `width` points wide. */
export function stripsOf(blocks: readonly Block[], width: number, parent: Tag, setting: Setting): Strip[] {
  return blocks.flatMap((block, i) => {
    const strips = blockStrips(block, width, parent, setting);
    return leads(blocks, i) && strips.length <= LEAD_LINES ? strips.map((strip) => ({ ...strip, keep: true })) : strips;
  });
}

/** A paragraph of so few lines below a heading says what the photos or the table after it show, and does not stay behind alone. */
const LEAD_LINES = 3;

function leads(blocks: readonly Block[], i: number): boolean {
  const [before, after] = [blocks[i - 1]?.block, blocks[i + 1]?.block];
  return blocks[i]!.block === 'paragraph' && before === 'heading' && (after === 'photos' || after === 'table');
}

function blockStrips(block: Block, width: number, parent: Tag, setting: Setting): Strip[] {
  const { measure } = setting;
  switch (block.block) {
    case 'title':
      return titleStrips(block, width, parent, measure);
    case 'heading':
      return [headingStrip(block, width, parent, measure)];
    case 'paragraph':
      return paragraphStrips(block, width, parent, measure);
    case 'facts':
      return factStrips(block.rows, block.labelShare, width, parent, measure);
    case 'table':
      return tableStrips(block.columns, block.rows, block.points, width, parent, measure);
    case 'photos':
      return photoStrips(block, width, parent, setting.pictures, measure);
    case 'chains':
      return chainStrips(block, width, parent, setting.pictures, measure);
    case 'plot':
      return plotStrips(block, width, parent, measure);
    case 'curve':
      return [curveStrip(block, width, parent, measure)];
    case 'floor':
      return floorStrips(block, width, parent, measure);
    case 'walls':
      return wallStrips(block, width, parent, measure);
    case 'contents':
      return contentsStrips(block.text, setting.contents, width, parent, measure);
    case 'section':
      return [sectionStrip(block, width, Math.max(SECTION_PT, sectionHeight(block.layers)), parent, measure)];
    case 'columns':
      return columnStrips(block, width, parent, setting);
  }
}

/** Lines beside the date that stay in one strip with the title; what is longer runs on below. */
const TITLE_LINES = 10;

function titleStrips({ text, under, aside }: Extract<Block, { block: 'title' }>, width: number, parent: Tag, measure: Measure): Strip[] {
  const asideWidth = 172;
  const mainWidth = width - asideWidth - COLUMN_GAP;
  const title = textOps([text], 0, 0, { face: 'strong', size: TITLE_PT }, tag(parent, 'H1'));
  const asideLines = aside.flatMap((said) => wrap(said, 'text', ASIDE_PT, asideWidth, measure));
  const asideTag = tag(parent, 'P');
  const asideOps = asideLines.flatMap((line, i) =>
    textOps(
      [line],
      width - measure(line, 'text', ASIDE_PT),
      8 + i * lineHeight(ASIDE_PT),
      { face: 'text', size: ASIDE_PT, ink: INK_2 },
      asideTag,
    ),
  );
  const lines = under.flatMap(({ text: said, strong }) => {
    const face = strong === true ? 'strong' : 'text';
    const of = tag(parent, 'P');
    return wrap(said, face, UNDER_PT, mainWidth, measure).map((line) => textOps([line], 0, 0, { face, size: UNDER_PT }, of));
  });
  const top = lineHeight(TITLE_PT);
  const step = lineHeight(UNDER_PT);
  const beside = lines.slice(0, TITLE_LINES);
  const height = Math.max(top + beside.length * step, 8 + asideLines.length * lineHeight(ASIDE_PT));
  const ops = [...title, ...beside.flatMap((line, i) => moved(line, 0, top + i * step)), ...asideOps];
  return [{ before: 0, height, ops }, ...lines.slice(TITLE_LINES).map((line) => ({ before: 0, height: step, ops: line }))];
}

function headingStrip(block: Extract<Block, { block: 'heading' }>, width: number, parent: Tag, measure: Measure): Strip {
  const { text, level, aside } = block;
  const size = HEADING_PT[level];
  const of = tag(parent, `H${level}`);
  const asideWidth = aside === undefined ? 0 : measure(aside, 'text', ASIDE_PT) + COLUMN_GAP;
  const lines = wrap(text, 'strong', size, width - asideWidth, measure);
  const bottom = lines.length * lineHeight(size) + 2;
  const ops = [...textOps(lines, 0, 0, { face: 'strong', size }, of), rule(0, bottom, width, bottom, 1.2, INK)];
  if (aside !== undefined) {
    const top = bottom - 2 - lineHeight(ASIDE_PT);
    ops.push(...textOps([aside], width - asideWidth + COLUMN_GAP, top, { face: 'text', size: ASIDE_PT, ink: INK_2 }, tag(parent, 'P')));
  }
  const strip = { before: level === 1 ? 0 : 12, height: bottom, ops, keep: true };
  // The part that a level 1 heading names is itself what is led to.
  return level === 1 ? strip : { ...strip, heading: { of: block, level, text } };
}

function paragraphStrips({ text, strong }: Extract<Block, { block: 'paragraph' }>, width: number, parent: Tag, measure: Measure): Strip[] {
  const of = tag(parent, 'P');
  const face = strong === true ? 'strong' : 'text';
  return wrap(text, face, BODY_PT, width, measure).map((line, i) => ({
    before: i === 0 ? 5 : 0,
    height: lineHeight(BODY_PT),
    ops: textOps([line], 0, 0, { face, size: BODY_PT }, of),
  }));
}

/** Height of the section where nothing beside it asks for another. */
const SECTION_PT = 260;
const SECTION_MIN_PT = 240;
const SECTION_MAX_PT = 300;

function columnStrips(
  { left, right, leftShare }: Extract<Block, { block: 'columns' }>,
  width: number,
  parent: Tag,
  setting: Setting,
): Strip[] {
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
    block.block === 'section'
      ? [sectionStrip(block, leftWidth, Math.max(height, sectionHeight(block.layers)), parent, setting.measure)]
      : blockStrips(block, leftWidth, parent, setting),
  );
  const ops = [...stacked(rightStrips, leftWidth + COLUMN_GAP, 0), ...stacked(leftStrips, 0, 0)];
  return [{ before: 12, height: Math.max(totalHeight(rightStrips), totalHeight(leftStrips)), ops }];
}
