import { readRoom } from '#lib/trade/sheets/room.ts';
import { describe, expect, it } from 'vitest';

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
  lowWalls: [2],
  keepOuts: [{ at: [30, 60], radius: 3 }],
  roll: { width: 39, lengths: [120.5], newLength: 600 },
  minOverlap: 2,
  upturn: 0,
  direction: 'free',
  reach: 40,
  foot: 12,
  maxStretches: 4,
  wholeMax: null,
};

const bowTie = [
  [0, 0],
  [60, 96],
  [60, 0],
  [0, 96],
];
/** A column in the middle, drawn in one line with the outline. */
const keyhole = [
  [0, 0],
  [50, 0],
  [50, 50],
  [0, 50],
  [0, 20],
  [20, 20],
  [20, 30],
  [30, 30],
  [30, 20],
  [0, 20],
];

it('reads a room in whole ten-thousandths', () => {
  expect(readRoom(ROOM)).toMatchObject({
    ok: true,
    value: {
      gauge: 1250,
      roll: { width: 390_000, atHand: [1_205_000], newLength: 6_000_000 },
      doorways: [{ wall: 0, from: 150_000, to: 450_000 }],
      keepOuts: [{ at: { x: 300_000, y: 600_000 }, radius: 30_000 }],
      pins: [],
      sets: [],
      longestPiece: null,
    },
  });
});

it('takes what is usual where nothing is said', () => {
  const { unit, gauge, floor, roll, minOverlap } = ROOM;
  const bare = { unit, gauge, floor, roll: { width: roll.width, newLength: 600 }, minOverlap };
  expect(readRoom(bare)).toMatchObject({
    ok: true,
    value: { doorways: [], upturn: 0, direction: 'free', reach: 400_000, foot: 120_000, maxStretches: 4 },
  });
  expect(readRoom({ ...bare, unit: 'mm' })).toMatchObject({ ok: true, value: { reach: 10_160_000, foot: 3_048_000 } });
});

describe('names what is wrong', () => {
  it.each([
    ['no object', [], 'FILE', 'not-an-object'],
    ['no unit', { ...ROOM, unit: undefined }, 'unit', 'missing'],
    ['a unit we do not have', { ...ROOM, unit: 'ft' }, 'unit', 'not-a-unit'],
    ['no gauge', { ...ROOM, gauge: undefined }, 'gauge', 'missing'],
    ['a gauge of nothing', { ...ROOM, gauge: 0 }, 'gauge', 'not-positive'],
    ['a number as text', { ...ROOM, gauge: '0.125' }, 'gauge', 'not-a-number'],
    ['five places', { ...ROOM, gauge: 0.00005 }, 'gauge', 'too-many-places'],
    ['a point that is none', { ...ROOM, floor: [[0, 0], [1], [1, 1]] }, 'floor[1]', 'not-a-point'],
    [
      'a far point',
      {
        ...ROOM,
        floor: [
          [0, 0],
          [1e6, 0],
          [0, 1],
        ],
      },
      'floor[1][0]',
      'too-far',
    ],
    [
      'two corners',
      {
        ...ROOM,
        floor: [
          [0, 0],
          [1, 1],
        ],
      },
      'floor',
      'few-corners',
    ],
    [
      'a zero-length wall',
      {
        ...ROOM,
        floor: [
          [0, 0],
          [60, 0],
          [60, 0],
          [0, 96],
        ],
      },
      'floor',
      'zero-wall',
    ],
    ['a self-crossing outline', { ...ROOM, floor: bowTie }, 'floor', 'self-crossing'],
    [
      'an outline that runs back along itself',
      {
        ...ROOM,
        floor: [
          [0, 0],
          [60, 0],
          [30, 0],
          [30, 96],
        ],
      },
      'floor',
      'self-touching',
    ],
    ['an island drawn in one line', { ...ROOM, floor: keyhole }, 'floor', 'self-touching'],
    [
      'an island as a second outline',
      {
        ...ROOM,
        floor: [
          ROOM.floor,
          [
            [10, 10],
            [20, 10],
            [20, 20],
          ],
        ],
      },
      'floor',
      'islands',
    ],
    ['islands beside the floor', { ...ROOM, islands: [[[10, 10]]] }, 'islands', 'islands'],
    ['a name nearly right', { ...ROOM, keep_out: [] }, 'keep_out', 'misspelt'],
    ['more corners than can be', { ...ROOM, floor: Array.from({ length: 401 }, (_, i) => [i, (i * i) / 4]) }, 'floor', 'many-corners'],
    ['a doorway in no wall', { ...ROOM, doorways: [{ wall: 4, from: 0, to: 1 }] }, 'doorways[0].wall', 'no-such-wall'],
    ['a doorway longer than its wall', { ...ROOM, doorways: [{ wall: 0, from: 15, to: 60.125 }] }, 'doorways[0]', 'doorway-too-long'],
    ['a doorway that ends before it starts', { ...ROOM, doorways: [{ wall: 0, from: 15, to: 15 }] }, 'doorways[0]', 'doorway-turned'],
    ['a low wall that is none', { ...ROOM, lowWalls: [-1] }, 'lowWalls[0]', 'no-such-wall'],
    ['a drain outside the floor', { ...ROOM, keepOuts: [{ at: [60.001, 5], radius: 3 }] }, 'keepOuts[0].at', 'outside-floor'],
    ['a drain of less than nothing', { ...ROOM, keepOuts: [{ at: [6, 5], radius: -3 }] }, 'keepOuts[0].radius', 'negative'],
    ['a roll narrower than twice the overlap', { ...ROOM, roll: { ...ROOM.roll, width: 3.9999 } }, 'roll.width', 'roll-too-narrow'],
    ['no roll at all', { ...ROOM, roll: { width: 39, lengths: [], newLength: null } }, 'roll', 'no-roll'],
    ['a roll of no length', { ...ROOM, roll: { width: 39, lengths: [0], newLength: null } }, 'roll.lengths[0]', 'not-positive'],
    ['a slanted direction', { ...ROOM, direction: 45 }, 'direction', 'not-a-direction'],
    ['no stretch', { ...ROOM, maxStretches: 0 }, 'maxStretches', 'not-a-count'],
    ['half a stretch', { ...ROOM, maxStretches: 1.5 }, 'maxStretches', 'not-a-count'],
    ['a pin off the gauge', { ...ROOM, direction: 0, pins: [0.1] }, 'pins[0]', 'off-gauge'],
    ['a pin in either direction', { ...ROOM, pins: [10] }, 'pins', 'pins-need-direction'],
    ['a list that is none', { ...ROOM, doorways: {} }, 'doorways', 'not-a-list'],
    ['a piece without a name', { ...ROOM, sets: [[1]] }, 'sets[0][0]', 'no-such-piece'],
  ])('%s', (_, input, field, code) => {
    expect(readRoom(input)).toMatchObject({ ok: false, fault: { field, code } });
  });

  it.each([
    ['a drain that touches a wall from inside', { ...ROOM, keepOuts: [{ at: [60, 5], radius: 3 }] }],
    ['a field of somebody else, and no islands', { ...ROOM, note: 'left bath', islands: [] }],
    ['a doorway as long as its wall', { ...ROOM, doorways: [{ wall: 0, from: 0, to: 60 }] }],
    ['a roll twice as wide as the overlap', { ...ROOM, roll: { ...ROOM.roll, width: 4 } }],
    [
      'a corner on a straight wall',
      {
        ...ROOM,
        doorways: [],
        floor: [
          [0, 0],
          [30, 0],
          [60, 0],
          [60, 96],
          [0, 96],
        ],
      },
    ],
    ['an outline with the clock', { ...ROOM, floor: ROOM.floor.toReversed() }],
  ])('and takes %s', (_, input) => {
    expect(readRoom(input)).toMatchObject({ ok: true });
  });
});
