import { wallsAnswer } from '#lib/trade/sheets/answer.ts';
import { planWalls, readWalls } from '#lib/trade/sheets/walls.ts';
import { describe, expect, it } from 'vitest';

type XY = [number, number];
const box = (x1: number, y1: number, x2: number, y2: number): XY[] => [
  [x1, y1],
  [x2, y1],
  [x2, y2],
  [x1, y2],
];
const face = (outline: XY[], ...holes: XY[][]) => ({ outline, holes });
const ALL = { unit: 'in', gauge: 0.125, roll: { width: 39, lengths: [], newLength: 400 }, minOverlap: 2 };

interface Answer {
  walls?: {
    wall: number;
    positions: number[];
    pieces: { id: string; cutLength: number; notched: boolean }[];
    smallestOverlap: number | null;
  }[];
  rolls?: { length: number; new: boolean; pieces: string[] }[];
  impossible?: string;
  wall?: number;
  remedies?: { kind: string }[];
}

const always = () => true;

function answerOf(input: object): Answer {
  const walls = readWalls({ ...ALL, ...input });
  if (!walls.ok) throw new Error(`${walls.fault.field}: ${walls.fault.code}`);
  return wallsAnswer(walls.value, planWalls(walls.value, always, always));
}

const cuts = ({ walls = [] }: Answer) => walls.map(({ pieces }) => pieces.map(({ id, cutLength }) => `${id} ${cutLength}`).join(', '));

describe('by hand', () => {
  it('a wall of 5 ft in two strips that stand upright, as far over each other as they go', () => {
    // Across 60 in: 2 * 39 - 60 = 18 in of overlap. Each is as long as the wall is high.
    const answer = answerOf({ walls: [{ wall: 1, faces: [face(box(0, 0, 60, 96))] }] });
    expect(answer.walls).toMatchObject([{ wall: 1, positions: [0, 21], smallestOverlap: 18 }]);
    expect(cuts(answer)).toEqual(['2A 96, 2B 96']);
  });

  it('a niche is a hole: the strips it lies in are notched, and as few as can be', () => {
    const notched = (...niche: [number, number]) =>
      answerOf({ walls: [{ wall: 0, faces: [face(box(0, 0, 60, 96), box(niche[0], 40, niche[1], 52))] }] }).walls![0]!.pieces.map(
        (piece) => `${piece.id} ${piece.notched}`,
      );
    // The first strip ends between 23 and 39, the second starts between 2 and 16 before that, and at 21 at the latest.
    expect(notched(4, 16)).toEqual(['1A true', '1B false']);
    expect(notched(25, 37)).toEqual(['1A false', '1B true']);
    expect(notched(20, 40)).toEqual(['1A true', '1B true']);
  });

  it('no overlap meets the disc around a valve', () => {
    const walls = (keepOuts: object[]) => ({ walls: [{ wall: 2, faces: [face(box(0, 0, 60, 96))], keepOuts }] });
    // Overlap from 21 to 39 before; now it ends at 26 or begins at 34: 60 - 39 = 21 to 26, or 34 to 39: 5 in either way, and the first is smaller.
    const [wall] = answerOf(walls([{ at: [30, 42], radius: 4 }])).walls!;
    expect(wall).toMatchObject({ positions: [-13, 21], smallestOverlap: 5 });
  });

  it('a doorway up to the top leaves two faces, whose pieces are lettered on', () => {
    const walls = [{ wall: 3, faces: [face(box(0, 0, 20, 96)), face(box(80, 0, 100, 96))] }];
    const [wall] = answerOf({ walls }).walls!;
    expect(wall!.pieces.map(({ id }) => id)).toEqual(['4A', '4B']);
    expect(wall!.smallestOverlap).toBeNull();
  });

  it('all walls are cut from the same rolls', () => {
    // Four pieces of 96 in on rolls of 200: two on each.
    const faces = [face(box(0, 0, 60, 96))];
    const answer = answerOf({
      roll: { width: 39, lengths: [200], newLength: 200 },
      walls: [
        { wall: 0, faces },
        { wall: 1, faces },
      ],
    });
    expect(answer.rolls!.map(({ new: isNew, pieces }) => `${isNew} ${pieces.length}`)).toEqual(['false 2', 'true 2']);
  });
});

describe('no plan', () => {
  const high = (wall: number, height: number) => ({ wall, faces: [face(box(0, 0, 60, height))] });

  it('names the wall, and a remedy that is enough for all of them', () => {
    const answer = answerOf({ roll: { width: 39, lengths: [], newLength: 90 }, walls: [high(0, 80), high(1, 96), high(2, 108)] });
    expect(answer).toMatchObject({ impossible: 'piece-too-long', wall: 1 });
    expect(answer.remedies).toContainEqual(
      expect.objectContaining({ kind: 'longer-roll', roll: { width: 39, lengths: [], newLength: 108 } }),
    );
  });

  it('rolls at hand that are too short together', () => {
    const answer = answerOf({ roll: { width: 39, lengths: [200], newLength: null }, walls: [high(0, 96), high(1, 96)] });
    expect(answer).toMatchObject({ impossible: 'rolls-too-short' });
    expect(answer.remedies).toMatchObject([{ kind: 'longer-roll', roll: { newLength: 192 } }]);
  });

  it('never lays the strips of a wall level', () => {
    const answer = answerOf({ roll: { width: 39, lengths: [], newLength: 70 }, walls: [high(0, 96)] });
    expect(answer.remedies!.map(({ kind }) => kind)).toEqual(['longer-roll']);
  });
});

it.each<[string, object, string, string]>([
  ['no walls', {}, 'walls', 'missing'],
  ['an empty list', { walls: [] }, 'walls', 'missing'],
  ['no number', { walls: [{ faces: [] }] }, 'walls[0].wall', 'no-such-wall'],
  [
    'an outline that crosses itself',
    {
      walls: [
        {
          wall: 0,
          faces: [
            face([
              [0, 0],
              [10, 10],
              [10, 0],
              [0, 10],
            ]),
          ],
        },
      ],
    },
    'walls[0].faces[0].outline',
    'no-outline',
  ],
  [
    'a hole beyond the wall',
    { walls: [{ wall: 0, faces: [face(box(0, 0, 9, 9), box(5, 5, 12, 8))] }] },
    'walls[0].faces[0].holes[0]',
    'hole-outside',
  ],
  [
    'holes over each other',
    { walls: [{ wall: 0, faces: [face(box(0, 0, 9, 9), box(1, 1, 4, 4), box(2, 2, 3, 3))] }] },
    'walls[0].faces[0].holes[1]',
    'hole-outside',
  ],
  [
    'a disc beyond the wall',
    { walls: [{ wall: 0, faces: [face(box(0, 0, 9, 9))], keepOuts: [{ at: [20, 5], radius: 1 }] }] },
    'walls[0].keepOuts[0].at',
    'outside-floor',
  ],
  ['no unit', { unit: 'ft', walls: [{ wall: 0, faces: [face(box(0, 0, 9, 9))] }] }, 'unit', 'not-a-unit'],
])('bad input: %s', (_, input, field, code) => {
  const read = readWalls({ ...ALL, ...input });
  expect(read).toEqual({ ok: false, fault: { field, code } });
});
