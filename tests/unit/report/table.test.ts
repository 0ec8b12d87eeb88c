import { expect, it } from 'vitest';
import type { Block } from '#lib/report/blocks.ts';
import type { Op, Tag } from '#lib/report/page.ts';
import { stripsOf } from '#lib/report/strips.ts';
import { tableStrips } from '#lib/report/table.ts';
import type { Measure } from '#lib/report/text.ts';

const measure: Measure = (text, _face, size) => (text.length * size) / 2;
const COLUMNS = [
  { head: 'One', share: 1 },
  { head: 'Two', share: 1 },
];

function table(rows: string[][]) {
  const root: Tag = { type: 'Document', kids: [] };
  const strips = tableStrips(
    COLUMNS,
    rows.map((row) => row.map((text) => ({ text }))),
    undefined,
    200,
    root,
    measure,
  );
  return { root, strips };
}

const texts = (ops: readonly Op[]) => ops.flatMap((op) => (op.op === 'text' ? [op.text] : []));

it('breaks a row that is taller than a page, and loses no line of it', () => {
  const words = Array.from({ length: 400 }, (_, i) => `word${i}`);
  const { strips } = table([[words.join(' '), 'beside']]);
  expect(
    strips
      .flatMap((strip) => texts(strip.ops))
      .join(' ')
      .split(' ')
      .filter((word) => word.startsWith('word')),
  ).toEqual(words);
  expect(Math.max(...strips.map((strip) => strip.height))).toBeLessThan(300);
});

it('keeps its head with the first row and draws it again over the others', () => {
  const { strips } = table([
    ['a', 'b'],
    ['c', 'd'],
  ]);
  expect(strips.map((strip) => strip.keep === true)).toEqual([true, false, false]);
  expect(strips.slice(1).map((strip) => texts(strip.again?.ops ?? []))).toEqual([
    ['One', 'Two'],
    ['One', 'Two'],
  ]);
});

it('is a table of rows and cells for a reader that does not see it', () => {
  const { root } = table([['a', 'b']]);
  const shape = (tag: Tag): string => `${tag.type}${tag.kids.length > 0 ? `(${tag.kids.map(shape).join(' ')})` : ''}`;
  expect(shape(root)).toBe('Document(Table(TR(TH TH) TR(TD TD)))');
});

it.each<[after: string, lines: number, keeps: boolean]>([
  ['table', 1, true],
  ['table', 4, false],
  ['paragraph', 1, false],
])('a paragraph between a heading and a %s, of %i lines, leads to it: %s', (after, lines, keeps) => {
  const text = Array.from({ length: lines }, () => 'x'.repeat(40)).join(' ');
  const next: Block = after === 'table' ? { block: 'table', columns: COLUMNS, rows: [] } : { block: 'paragraph', text };
  const setting = { measure, bodyHeight: 700, pictures: new Map(), contents: [] };
  const blocks: Block[] = [{ block: 'heading', level: 2, text: 'Head' }, { block: 'paragraph', text }, next];
  const strips = stripsOf(blocks, 200, { type: 'Document', kids: [] }, setting);
  expect(strips.slice(1, 1 + lines).map(({ keep }) => keep === true)).toEqual(Array.from({ length: lines }, () => keeps));
});
