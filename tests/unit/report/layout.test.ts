import { expect, it } from 'vitest';
import { project } from '#lib/job/project.ts';
import { buildDocument } from '#lib/report/document.ts';
import { layOut, PAPER_PT } from '#lib/report/layout.ts';
import type { Op, Tag } from '#lib/report/page.ts';
import type { Measure } from '#lib/report/text.ts';
import { wordRecord } from '#lib/report/word.ts';
import { fullJob, logOf, photoHash, pictureOf, recordOf } from './job-fixture.ts';

/** Half an em a character, about the width of the face. */
const measure: Measure = (text, _face, size) => (text.length * size) / 2;

/** Wide, tall, square and thread-thin: what cameras and scanners give. */
const SHAPES = [
  [1200, 900],
  [900, 1200],
  [1000, 1000],
  [1200, 12],
  [12, 1200],
] as const;

const entries = await logOf(fullJob());
const hashes = [1, 2, 3, 4, 5, 6, 8].map(photoHash);
const pictures = new Map(
  hashes.map((sha256, i) => [sha256, pictureOf(new Uint8Array(), SHAPES[i % SHAPES.length]![0], SHAPES[i % SHAPES.length]![1])]),
);
const { built, by } = recordOf(entries, pictures);
const document = buildDocument({
  job: project(entries).state,
  unreadable: 0,
  built,
  by,
  printed: new Map(hashes.map((one) => [one, one])),
});

interface Box {
  readonly x1: number;
  readonly y1: number;
  readonly x2: number;
  readonly y2: number;
}

/** Ink of a picture, or of a line of text from its ascenders to its descenders. */
function boxOf(op: Op): Box | null {
  if (op.op === 'image') return { x1: op.x, y1: op.y, x2: op.x + op.width, y2: op.y + op.height };
  if (op.op === 'path') return null;
  return { x1: op.x, y1: op.y - op.size * 0.75, x2: op.x + measure(op.text, op.face, op.size), y2: op.y + op.size * 0.25 };
}

const cross = (a: Box, b: Box) => a.x1 < b.x2 && b.x1 < a.x2 && a.y1 < b.y2 && b.y1 < a.y2;

it.each(['letter', 'a4'] as const)(
  'keeps pictures of every shape on the page of %s, whole, with nothing over them but their number',
  (paper) => {
    const [width, height] = PAPER_PT[paper];
    const { pages } = layOut(wordRecord(document, ['en']), paper, pictures, measure);
    let count = 0;
    for (const { ops } of pages) {
      const drawn = ops.flatMap((op) => (boxOf(op) === null ? [] : [{ op, box: boxOf(op)! }]));
      for (const { op, box } of drawn) {
        expect(box.x1 >= 0 && box.y1 >= 0 && box.x2 <= width && box.y2 <= height, JSON.stringify({ op: op.op, box })).toBe(true);
        if (op.op !== 'image') continue;
        count += 1;
        const picture = pictures.get(op.sha256)!;
        expect(op.width / op.height).toBeCloseTo(picture.width / picture.height, 6);
        expect(drawn.filter((other) => other.op !== op && other.op.tag !== op.tag && cross(box, other.box))).toEqual([]);
      }
    }
    expect(count).toBe(hashes.length);
  },
);

it('hangs every word on the tree but what a page repeats', () => {
  const { pages, tree } = layOut(wordRecord(document, ['es']), 'letter', pictures, measure);
  const tags = new Set<Tag>();
  const walk = (one: Tag) => {
    tags.add(one);
    one.kids.forEach(walk);
  };
  walk(tree);
  const used = new Set(pages.flatMap(({ ops }) => ops.map((op) => op.tag)).filter((one) => one !== null));
  expect([...used].filter((one) => !tags.has(one))).toEqual([]);
  // Empty cells have no ink; every other leaf has.
  const leaves = [...tags].filter((one) => one.kids.length === 0 && one.type !== 'TD' && one.type !== 'TH');
  expect(leaves.filter((one) => !used.has(one))).toEqual([]);
});
