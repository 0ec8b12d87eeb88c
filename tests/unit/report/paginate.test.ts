import { expect, it } from 'vitest';
import type { Edition } from '#lib/report/blocks.ts';
import { paginate, type LaidPart } from '#lib/report/paginate.ts';
import type { Strip } from '#lib/report/strip.ts';
import type { Op } from '#lib/report/page.ts';

const PAGE = 100;

/** A strip that shows its name at its own top. */
function strip(name: string, height: number, more: Partial<Strip> = {}): Strip {
  return { before: 10, height, ops: [mark(name)], ...more };
}

function mark(name: string): Op {
  return { op: 'text', tag: { type: 'P', kids: [] }, x: 0, y: 0, text: name, face: 'text', size: 9, ink: '#000000' };
}

function shown(parts: readonly LaidPart[]): string[][] {
  return paginate(parts, PAGE).map(({ ops }) => ops.flatMap((op) => (op.op === 'text' ? [`${op.text} ${op.y}`] : [])));
}

const EDITION: Edition = {
  lang: 'en',
  parts: [],
  titleBlock: {
    job: { label: '', text: '' },
    second: { label: '', text: '' },
    partLabel: '',
    head: { label: '', text: '' },
    pageLabel: '',
    page: String,
    warning: '',
  },
};

const part = (strips: Strip[], foot: Strip[] = [], name = 'one', edition = EDITION): LaidPart => ({
  part: { name, blocks: [] },
  edition,
  strips,
  foot,
});

it.each<{ title: string; parts: LaidPart[]; pages: string[][] }>([
  { title: 'drops the space above what begins a page', parts: [part([strip('a', 60), strip('b', 60)])], pages: [['a 0'], ['b 0']] },
  { title: 'fills a page to its last point', parts: [part([strip('a', 45), strip('b', 45)])], pages: [['a 0', 'b 55']] },
  {
    title: 'takes a heading over to what it leads to',
    parts: [part([strip('a', 60), strip('head', 10, { keep: true }), strip('b', 30)])],
    pages: [['a 0'], ['head 0', 'b 20']],
  },
  {
    title: 'draws the head of a table again where the table goes on',
    parts: [part([strip('a', 95), strip('row', 20, { again: { height: 12, ops: [mark('head')] } })])],
    pages: [['a 0'], ['head 0', 'row 12']],
  },
  {
    title: 'keeps a foot on the first page and runs on behind it',
    parts: [part([strip('a', 50), strip('b', 50)], [strip('foot', 30)])],
    pages: [['a 0', 'foot 70'], ['b 0']],
  },
  {
    title: 'begins a part on a page of its own',
    parts: [part([strip('a', 20)]), part([strip('b', 20)], [], 'two')],
    pages: [['a 0'], ['b 0']],
  },
  {
    title: 'goes on with the next part where one ran over by little',
    parts: [part([strip('a', 90), strip('b', 20)]), part([strip('c', 20)], [], 'two')],
    pages: [['a 0'], ['b 0', 'c 54']],
  },
  {
    title: 'begins another language on a page of its own',
    parts: [part([strip('a', 90), strip('b', 20)]), part([strip('c', 20)], [], 'two', { ...EDITION, lang: 'es' })],
    pages: [['a 0'], ['b 0'], ['c 0']],
  },
])('$title', ({ parts, pages }) => {
  expect(shown(parts)).toEqual(pages);
});

it('has no page for a strip that no page holds', () => {
  expect(() => paginate([part([strip('a', PAGE + 1)])], PAGE)).toThrow(RangeError);
});
