import { speaker } from '#lib/report/speaker.ts';
import { cutBlocks, wallCuts } from '#lib/report/word-cut.ts';
import { wallSheetsBlock } from '#lib/report/word-drawing.ts';
import { wallStrips } from '#lib/report/drawing.ts';
import { shapeOf } from '#lib/job/drawing/shape.ts';
import { expect, test } from 'vitest';
import { ALCOVE, drawn } from '../../fixtures/drawn.ts';
import { NOTHING } from './nothing.ts';

const strips = (wall: string, positions: string[], ids: string[]) => ({
  ...{ wall, direction: '90' as const, positions, totalCut: String(96 * ids.length), seamLength: '0', smallestOverlap: null },
  pieces: ids.map((id, i) => ({ id, strip: String(i), from: '0', to: '96', cutLength: '96', notched: id === '2B' })),
});

const walls = {
  ...{ entry: 'plan-2', at: { utc: '2026-03-05T12:00:00.000Z', offsetMin: 0 }, stale: false, width: 393_750 },
  sheets: {
    unit: 'in' as const,
    rolls: [{ length: '400', new: true, pieces: ['1A', '2A', '2B'] }],
    proven: { plan: true, packing: true },
    walls: [strips('0', ['-8.375'], ['1A']), strips('1', ['-8.375', '25.5'], ['2A', '2B'])],
  },
};

test('planned walls are cut together, and each strip goes where its edge is said to be', () => {
  const [table, note, edges] = cutBlocks(wallCuts(walls), speaker(NOTHING, 'en'), {});
  expect(table).toMatchObject({
    rows: [
      [{ text: '1A' }, { text: '8 ft 0 in' }, {}, { text: '' }],
      [{ text: '2A' }, {}, {}, {}],
      [{ text: '2B' }, {}, {}, { text: 'to be notched' }],
    ],
  });
  expect(note).toMatchObject({ text: expect.stringMatching(/^In all 24 ft 0 in\./) as string });
  expect(edges).toMatchObject({
    text: [
      '1A: Wall 1, edge of the strip: 8 3/8 in outside, from its left end.',
      '2A: Wall 2, edge of the strip: 8 3/8 in outside, from its left end.',
      '2B: Wall 2, edge of the strip: 2 ft 1 1/2 in across, from its left end.',
    ].join(' '),
  });
});

test('each planned strip is drawn on its wall, by its name', () => {
  const drawing = drawn(ALCOVE);
  const shape = shapeOf(drawing);
  if (!shape.ok) throw new Error('no shape');
  const on = { room: 'bath', entry: 'd', at: walls.at, drawing, takeoff: null, marks: [], plan: null, walls };
  const block = wallSheetsBlock(on, walls, shape.value, speaker(NOTHING, 'en'));
  expect(block.alt).toContain('1A, 2A, 2B');
  const ops = wallStrips(block, 500, { type: 'Document', kids: [] }, (text, _face, size) => (text.length * size) / 2).flatMap(
    (strip) => strip.ops,
  );
  const across = (name: string) => ops.flatMap((op) => (op.op === 'text' && op.text === name ? [op.x] : []));
  const [first, second, third] = ['1A', '2A', '2B'].map(across);
  const [wall1, wall2] = ['1', '2'].map(across);
  expect([first, second, third, wall1, wall2].map((one) => one?.length)).toEqual([1, 1, 1, 1, 1]);
  // 2A lies left of the middle of wall 2 and 2B right of it; wall 1 is left of both.
  expect([first!, second!, wall2!, third!].map(([x]) => x)).toEqual(
    [first!, second!, wall2!, third!].map(([x]) => x!).toSorted((a, b) => a - b),
  );
});
