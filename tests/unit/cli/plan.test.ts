import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, it } from 'vitest';
import { asked, typed } from './terminal.ts';

const folder = mkdtempSync(join(tmpdir(), 'layerbook-plan-'));
afterAll(() => rmSync(folder, { recursive: true }));

const inRoom = (text: string, ...more: string[]) => {
  writeFileSync(join(folder, 'room.json'), text);
  return ['plan', 'room.json', ...more];
};
const plan = async (text: string, ...more: string[]) => {
  const { exit, answer } = await asked(folder, inRoom(text, ...more));
  return { exit, answer: answer as Record<string, unknown> };
};

const ROOM = {
  unit: 'in',
  gauge: 0.125,
  floor: [
    [0, 0],
    [60, 0],
    [60, 96],
    [0, 96],
  ],
  doorways: [{ wall: 0, from: 15, to: 45 }],
  lowWalls: [],
  keepOuts: [{ at: [30, 60], radius: 3 }],
  roll: { width: 30, lengths: [120], newLength: 600 },
  minOverlap: 2,
  upturn: 2,
  direction: 0,
  reach: 40,
  foot: 12,
  maxStretches: 4,
  wholeMax: null,
};

it('layerbook plan prints the plan, and draws it', () => {
  const { exit, stderr, ...rest } = typed(folder, inRoom(JSON.stringify(ROOM), '--svg', 'room.svg'));
  const answer = rest.answer as Record<string, unknown>;
  expect({ exit, stderr }).toEqual({ exit: 0, stderr: '' });
  expect(answer).toMatchObject({
    unit: 'in',
    direction: 0,
    positions: [-2.125, 21.25, 44.625, 68],
    totalCut: 256,
    notched: 0,
    seamLength: 180,
    smallestOverlap: 6.625,
    upturnMissing: [],
    rolls: [
      { length: 120, new: false },
      { length: 600, new: true },
    ],
    proven: { plan: true, packing: true, laying: true },
    gap: 0,
  });
  expect(answer['pieces']).toContainEqual({ id: 'B', strip: 1, from: 0, to: 60, cutLength: 64, notched: false });
  expect(answer['laying']).toMatchObject({
    steps: ['D', 'C', 'B', 'A'].map((piece) => ({ piece, stretch: { i: 0, of: 1, from: 0, to: 60 }, exit: 0 })),
  });
  const svg = readFileSync(join(folder, 'room.svg'), 'utf8');
  expect(svg).toMatch(/^<svg .*<\/svg>\n$/s);
  for (const said of ['64 in', '60 in', '96 in', '21 1/4', '68']) expect(svg).toContain(said);
});

it('layerbook plan answers with a verdict, exit 0, where there is no plan', async () => {
  const { exit, answer } = await plan(JSON.stringify({ ...ROOM, roll: { width: 30, lengths: [50], newLength: 55 } }));
  expect(exit).toBe(0);
  expect(answer).toMatchObject({ impossible: 'piece-too-long', piece: { cutLength: 64 }, proven: true });
  expect(answer['remedies']).toContainEqual({ kind: 'longer-roll', roll: { width: 30, lengths: [50], newLength: 64 }, proven: true });
});

it.each([
  ['not JSON', '{', 'FILE', 'not-json'],
  [
    'a crossing outline',
    JSON.stringify({
      ...ROOM,
      floor: [
        [0, 0],
        [60, 96],
        [60, 0],
        [0, 96],
      ],
    }),
    'floor',
    'self-crossing',
  ],
  ['a piece that is not there', JSON.stringify({ ...ROOM, sets: [['Q']] }), 'sets[0][0]', 'no-such-piece'],
])('layerbook plan says what is wrong: %s', async (_, text, field, code) => {
  const { exit, answer } = await plan(text);
  expect(exit).toBe(2);
  expect(answer).toMatchObject({ error: { field, code } });
  expect((answer['error'] as { message: string }).message).toMatch(/\w.*\./);
});

it('layerbook plan says where it cannot draw', async () => {
  expect(await plan(JSON.stringify(ROOM), '--svg', 'no/such/folder/a.svg')).toMatchObject({
    exit: 2,
    answer: { error: { field: '--svg', code: 'cannot-write' } },
  });
});
