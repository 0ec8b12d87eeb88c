import { speaker } from '#lib/report/speaker.ts';
import { cutBlocks, wallCuts } from '#lib/report/word-cut.ts';
import { expect, test } from 'vitest';
import { NOTHING } from './nothing.ts';

const strips = (wall: string, positions: string[], ids: string[]) => ({
  ...{ wall, direction: '90' as const, positions, totalCut: String(96 * ids.length), seamLength: '0', smallestOverlap: null },
  pieces: ids.map((id, i) => ({ id, strip: String(i), from: '0', to: '96', cutLength: '96', notched: id === '2B' })),
});

test('planned walls are cut together, and each strip goes where its edge is said to be', () => {
  const cuts = wallCuts({
    ...{ entry: 'plan-2', at: { utc: '2026-03-05T12:00:00.000Z', offsetMin: 0 }, stale: false, width: 393_750 },
    sheets: {
      unit: 'in',
      rolls: [{ length: '400', new: true, pieces: ['1A', '2A', '2B'] }],
      proven: { plan: true, packing: true },
      walls: [strips('0', ['-8.375'], ['1A']), strips('1', ['-8.375', '25.5'], ['2A', '2B'])],
    },
  });
  const [table, note, edges] = cutBlocks(cuts, speaker(NOTHING, 'en'), {});
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
