import type { Edition } from './blocks.ts';
import { HAIR, lineHeight, rule, tag, textOps, type Heading, type Tag } from './page.ts';
import type { Strip } from './strip.ts';
import { oneLine, type Measure } from './text.ts';

/** A line of the contents: a heading and the page it stands on. */
export interface ContentsLine extends Heading {
  readonly page: number;
}

const SIZE = 9.5;
const INDENT = 14;
const TITLE_PT = 18;
const PAGE_WIDTH = 34;

/** Parts and the headings within them, in order, but for the contents themselves. */
export function headingsOf({ parts }: Edition): Heading[] {
  return parts
    .filter(({ blocks }) => !blocks.some(({ block }) => block === 'contents'))
    .flatMap((part): Heading[] => [
      { of: part, level: 1, text: part.name },
      ...part.blocks.flatMap((block): Heading[] =>
        block.block === 'heading' && block.level === 2 ? [{ of: block, level: 2, text: block.text }] : [],
      ),
    ]);
}

/** A heading a line, its page at the right end. A line is one line, so that its page does not depend on its number. */
export function contentsStrips(text: string, lines: readonly ContentsLine[], width: number, parent: Tag, measure: Measure): Strip[] {
  const title = textOps([text], 0, 0, { face: 'strong', size: TITLE_PT }, tag(parent, 'H1'));
  const bottom = lineHeight(TITLE_PT) + 2;
  const toc = tag(parent, 'TOC');
  return [
    { before: 0, height: bottom, ops: [...title, rule(0, bottom, width, bottom, 1.2, '#000000')], keep: true },
    ...lines.map((line): Strip => {
      const face = line.level === 1 ? 'strong' : 'text';
      const item = tag(toc, 'TOCI');
      const x = line.level === 1 ? 0 : INDENT;
      const page = String(line.page);
      const height = lineHeight(SIZE) + 1;
      return {
        before: line.level === 1 ? 5 : 0,
        height,
        ops: [
          ...textOps([oneLine(line.text, face, SIZE, width - x - PAGE_WIDTH, measure)], x, 0, { face, size: SIZE }, item),
          ...textOps([page], width - measure(page, face, SIZE), 0, { face, size: SIZE }, item),
          rule(x, height, width, height, 0.5, HAIR),
        ],
      };
    }),
  ];
}
