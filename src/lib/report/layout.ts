import type { Edition, Part, TitleBlock, Worded } from './blocks.ts';
import { headingsOf } from './contents.ts';
import { INK, INK_2, lineHeight, moved, rule, tag, textOps, type Op, type Page, type Tag } from './page.ts';
import { paginate, type LaidPart } from './paginate.ts';
import type { Picture } from './photos.ts';
import { stripsOf, type Setting } from './strips.ts';
import { totalHeight } from './strip.ts';
import { oneLine, wrap, type Measure } from './text.ts';

export type Paper = 'letter' | 'a4';

/** Width and height in points. */
export const PAPER_PT: Readonly<Record<Paper, readonly [number, number]>> = { letter: [612, 792], a4: [595.28, 841.89] };

/** Frame to paper edge; the wide side is for binding. */
const EDGE = { top: 24, right: 24, bottom: 24, left: 38 };
const INSET = 12;
const TITLE_BLOCK = { width: 372, row: 33 };

export interface Laid {
  readonly pages: readonly Page[];
  readonly tree: Tag;
}

/**
 * Puts worded blocks on pages: nothing overlaps, nothing lies outside the frame, no line is lost. Laid out twice where there is a table
 * of contents: its lines are the same whatever number stands at their end, so the second time every number is right.
 */
export function layOut(worded: Worded, paper: Paper, pictures: ReadonlyMap<string, Picture>, measure: Measure): Laid {
  const first = laidOn(worded, paper, pictures, measure, new Map());
  const hasContents = worded.editions.some(({ parts }) => parts.some(({ blocks }) => blocks.some(({ block }) => block === 'contents')));
  if (!hasContents) return first;
  const pageOf = new Map(first.pages.flatMap(({ headings }, i) => headings.map(({ of }) => [of, i + 1] as const)));
  return laidOn(worded, paper, pictures, measure, pageOf);
}

function laidOn(
  { editions }: Worded,
  paper: Paper,
  pictures: ReadonlyMap<string, Picture>,
  measure: Measure,
  pageOf: ReadonlyMap<object, number>,
): Laid {
  const [paperWidth, paperHeight] = PAPER_PT[paper];
  const left = EDGE.left + INSET;
  const top = EDGE.top + INSET;
  const bottom = paperHeight - EDGE.bottom - 2 * TITLE_BLOCK.row - INSET;
  const tree: Tag = { type: 'Document', kids: [] };
  const width = paperWidth - EDGE.right - INSET - left;
  const laid = editions.flatMap((edition) => {
    const parent = editions.length === 1 ? tree : tag(tree, 'Sect', { lang: edition.lang });
    const contents = headingsOf(edition).map((heading) => ({ ...heading, page: pageOf.get(heading.of) ?? 0 }));
    const setting = { measure, pictures, contents, bodyHeight: bottom - top };
    return edition.parts.map((part) => laidPart(part, edition, width, parent, setting));
  });
  const sheets = paginate(laid, bottom - top);
  return {
    tree,
    pages: sheets.map(({ laid: { part, edition }, ops, headings }, i) => ({
      headings: headings.map((heading) => ({ ...heading, y: heading.y + top })),
      ops: [
        ...moved(ops, left, top),
        ...frameOps(paperWidth, paperHeight),
        ...titleOps(edition.titleBlock, part.name, i + 1, sheets.length, paperWidth, paperHeight, measure),
      ],
    })),
  };
}

/** A foot that would fill half the first page (a log of many phones) follows the part instead. */
function laidPart(part: Part, edition: Edition, width: number, tree: Tag, setting: Setting): LaidPart {
  const { blocks, foot = [] } = part;
  const strips = stripsOf(blocks, width, tree, setting);
  const footStrips = stripsOf(foot, width, tree, setting);
  const isTall = totalHeight(footStrips) > setting.bodyHeight / 2;
  return isTall ? { part, edition, strips: [...strips, ...footStrips], foot: [] } : { part, edition, strips, foot: footStrips };
}

function frameOps(width: number, height: number): Op[] {
  const [x1, y1, x2, y2] = [EDGE.left, EDGE.top, width - EDGE.right, height - EDGE.bottom];
  const frame: Op = { op: 'path', tag: null, x: x1, y: y1, d: `M0 0H${x2 - x1}V${y2 - y1}H0Z`, stroke: INK, pen: 1.1 };
  const [cx, cy] = [(x1 + x2) / 2, (y1 + y2) / 2];
  return [
    frame,
    rule(cx, y1 - 7, cx, y1 + 7, 0.75, INK),
    rule(cx, y2 - 7, cx, y2 + 7, 0.75, INK),
    rule(x1 - 7, cy, x1 + 7, cy, 0.75, INK),
    rule(x2 - 7, cy, x2 + 7, cy, 0.75, INK),
  ];
}

function titleOps(words: TitleBlock, part: string, page: number, pages: number, width: number, height: number, measure: Measure): Op[] {
  const [right, bottom] = [width - EDGE.right, height - EDGE.bottom];
  const left = right - TITLE_BLOCK.width;
  const [top, middle] = [bottom - 2 * TITLE_BLOCK.row, bottom - TITLE_BLOCK.row];
  const cell = (label: string, text: string, x: number, y: number, cellWidth: number): Op[] => [
    ...textOps([label], x + 7, y + 3, { face: 'text', size: 8, ink: INK_2 }, null),
    ...textOps([oneLine(text, 'strong', 10, cellWidth - 14, measure)], x + 7, y + 3 + lineHeight(8), { face: 'strong', size: 10 }, null),
  ];
  const [second, third] = [left + 112, right - 112];
  const warning = wrap(words.warning, 'strong', 10, left - EDGE.left - 2 * INSET, measure);
  return [
    ...cell(words.job.label, words.job.text, left, top, third - left),
    ...cell(words.second.label, words.second.text, third, top, right - third),
    ...cell(words.partLabel, part, left, middle, second - left),
    ...cell(words.head.label, words.head.text, second, middle, third - second),
    ...cell(words.pageLabel, words.page(page, pages), third, middle, right - third),
    { op: 'path', tag: null, x: left, y: top, d: `M0 ${bottom - top}V0H${right - left}`, stroke: INK, pen: 2.2 },
    rule(left, middle, right, middle, 0.75, INK),
    rule(second, middle, second, bottom, 0.75, INK),
    rule(third, top, third, bottom, 0.75, INK),
    ...textOps(warning, EDGE.left + INSET, bottom - INSET - warning.length * lineHeight(10), { face: 'strong', size: 10 }, null),
  ];
}
