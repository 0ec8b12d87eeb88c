import { planRoom, type RoomPlan } from '#lib/trade/laying/plan-room.ts';
import { readRoom } from '#lib/trade/sheets/room.ts';
import { describe, expect, it } from 'vitest';

type XY = readonly [number, number];
const always = () => true;

const BASE = {
  unit: 'in',
  gauge: 0.125,
  doorways: [{ wall: 0, from: 6, to: 54 }],
  roll: { width: 28, lengths: [], newLength: 600 },
  minOverlap: 2,
  direction: 0,
};
const BATH: XY[] = [
  [0, 0],
  [60, 0],
  [60, 96],
  [0, 96],
];

function plan(input: object, budget = always): Extract<RoomPlan, { sheets: unknown }> {
  const room = readRoom({ ...BASE, floor: BATH, ...input });
  if (!room.ok) throw new Error(`${room.fault.field} ${room.fault.code}`);
  const planned = planRoom(room.value, { sheets: always, laying: budget, remedies: always });
  if (!planned.ok) throw new Error(planned.fault.field);
  if ('impossible' in planned.value) throw new Error(planned.value.impossible.code);
  return planned.value;
}

function steps(input: object): string[] {
  const { laying } = plan(input);
  if ('trap' in laying) return [laying.trap.code];
  return laying.steps.map(({ piece, stretch: { i, of } }) => (of === 1 ? piece : `${piece} ${i + 1}/${of}`));
}

describe('by hand', () => {
  it('backwards from the door, whole where that can be', () => {
    // The strip at the door is 28 deep: from 6 outside the doorway and 12 beside the corner that is hypot(12, 34), some 36.
    expect(steps({})).toEqual(['D', 'C', 'B', 'A']);
  });

  it('just so in mm, with the clock and below zero', () => {
    const floor = BATH.map(([x, y]): XY => [x * 25 - 2000, y * 25 - 5000]).toReversed();
    // Turned, wall 2 joins what were corners 1 and 0.
    const doorways = [{ wall: 2, from: 150, to: 1350 }];
    expect(steps({ unit: 'mm', gauge: 1, floor, doorways, roll: { width: 700, lengths: [], newLength: 15000 }, minOverlap: 50 })).toEqual([
      'D',
      'C',
      'B',
      'A',
    ]);
  });

  it('in stretches where a piece is longer than may be laid whole', () => {
    expect(steps({ wholeMax: 48 })).toEqual(['D 1/2', 'D 2/2', 'C 1/2', 'C 2/2', 'B 1/2', 'B 2/2', 'A 1/2', 'A 2/2']);
    expect(steps({ wholeMax: 60 })).toEqual(['D', 'C', 'B', 'A']);
  });

  it('folds lie on the gauge, nearest to equal lengths', () => {
    const { laying } = plan({ wholeMax: 10, floor: BATH.map(([x, y]) => [x * 1.1, y]), gauge: 0.5 });
    if ('trap' in laying) throw new Error(laying.trap.code);
    expect(laying.steps.slice(0, 2).map(({ stretch }) => [stretch.from / 10_000, stretch.to / 10_000])).toEqual([
      [0, 33],
      [33, 66],
    ]);
  });

  it('the far end of a strip towards the door is out of reach when it is laid last', () => {
    expect(steps({ direction: 90 })).toEqual(['out-of-reach']);
  });

  it.each([
    ['wide enough for the foot to the hair', 12, 'D'],
    ['a hair too narrow', 11.9999, 'doorway-too-narrow'],
  ])('a doorway %s', (_, to, first) => {
    expect(steps({ doorways: [{ wall: 0, from: 24, to: 24 + to }], reach: 60 })[0]).toBe(first);
  });

  it('without a doorway there is no order', () => {
    expect(steps({ doorways: [] })).toEqual(['no-doorway']);
  });

  it('a corridor as wide as the foot is wide enough', () => {
    // A closet of 30 by 30 behind a corridor 12 wide and 40 long; from outside, 6 before the doorway, its far wall is 76 away.
    const key: XY[] = [
      [0, 0],
      [12, 0],
      [12, 40],
      [30, 40],
      [30, 70],
      [0, 70],
    ];
    const input = { floor: key, doorways: [{ wall: 0, from: 0, to: 12 }], roll: { width: 42, lengths: [], newLength: 600 }, reach: 66 };
    expect(steps(input)).toEqual(['B', 'A']);
  });

  it('a foot that does not fit wholly into a shallow apron stands half in the doorway', () => {
    // The apron is 10 deep, the foot 12 across: it stands on the sill, over the floor as long as that is bare.
    const floor: XY[] = [
      [0, 0],
      [40, 0],
      [40, 20],
      [0, 20],
    ];
    expect(
      steps({
        floor,
        doorways: [{ wall: 0, from: 10, to: 30 }],
        reach: 10,
        direction: 90,
        roll: { width: 12, lengths: [], newLength: 600 },
      })[0],
    ).toBe('out-of-reach');
  });

  it('one gets out by the doorway that is there', () => {
    const { laying } = plan({
      doorways: [
        { wall: 2, from: 15, to: 45 },
        { wall: 0, from: 15, to: 45 },
      ],
    });
    if ('trap' in laying) throw new Error(laying.trap.code);
    expect(laying.steps.every(({ exit }) => exit === 0 || exit === 1)).toBe(true);
    expect(laying.steps.length).toBe(4);
  });

  it('and by one doorway from all places of a stretch, where that is enough', () => {
    // Either doorway alone reaches the whole floor of 40 by 20, though not from one place.
    const { laying } = plan({
      floor: [
        [0, 0],
        [40, 0],
        [40, 20],
        [0, 20],
      ],
      doorways: [
        { wall: 0, from: 0, to: 40 },
        { wall: 2, from: 0, to: 40 },
      ],
      reach: 30,
    });
    if ('trap' in laying) throw new Error(laying.trap.code);
    const [{ stands, exit }, ...rest] = laying.steps as [(typeof laying.steps)[number]];
    expect(rest).toEqual([]);
    expect(stands.length).toBeGreaterThan(1);
    expect(stands.map(({ y }) => (y < 0 ? 0 : 1))).toEqual(stands.map(() => exit));
  });

  it('an arm reaches from beside a low wall over it, and not round a high one', () => {
    // An L: one kneels under its left wing, left of a wall down to (20, 0), and reaches past the wall's end, then over the low wall.
    const input = {
      floor: [
        [0, 20],
        [20, 20],
        [20, 0],
        [34, 0],
        [34, 30],
        [0, 30],
      ],
      doorways: [{ wall: 0, from: 0, to: 20 }],
      roll: { width: 40, lengths: [], newLength: 600 },
      minOverlap: 0,
      direction: 90,
      reach: 29,
      maxStretches: 1,
    };
    expect(steps({ ...input, lowWalls: [2] })).toEqual(['A']);
    expect(steps(input)).toEqual(['out-of-reach']);
  });

  it('where a wall stands close before the doorway a longer reach is found from beside it', () => {
    const floor: XY[] = [
      [0, 40],
      [30, 40],
      [20, 34],
      [60, 34],
      [60, 100],
      [0, 100],
    ];
    const input = { floor, doorways: [{ wall: 0, from: 0, to: 30 }], roll: { width: 70, lengths: [], newLength: 600 }, direction: 90 };
    expect(plan(input).remedies.map(({ kind }) => kind)).toContain('reach');
  });
});

describe('groups that set', () => {
  it('are laid one after the other, on what has set', () => {
    const trapped = plan({ direction: 90 });
    const set = trapped.remedies.find(({ kind }) => kind === 'set');
    expect(set).toBeDefined();
    const { laying } = plan({ direction: 90, ...set!.change });
    if ('trap' in laying) throw new Error(laying.trap.code);
    const first = set!.change.sets![0]!;
    expect(
      laying.steps
        .slice(0, first.length)
        .map(({ piece }) => piece)
        .sort(),
    ).toEqual([...first].sort());
  });

  it('of pieces that there are', () => {
    const room = readRoom({ ...BASE, floor: BATH, sets: [['A', 'Z']] });
    if (!room.ok) throw new Error(room.fault.field);
    const budgets = { sheets: always, laying: always, remedies: always };
    expect(planRoom(room.value, budgets)).toMatchObject({ ok: false, fault: { field: 'sets[0][1]', code: 'no-such-piece' } });
  });
});

it('every remedy for a trap leads to an order', () => {
  const trapped = plan({ direction: 90, maxStretches: 1 });
  expect(trapped.remedies.map(({ kind }) => kind)).toContain('reach');
  for (const { change } of trapped.remedies) {
    const inUnits = Object.fromEntries(
      Object.entries(change).map(([key, value]) => {
        if (key === 'reach') return [key, (value as number) / 10_000];
        if (key === 'pins') return [key, (value as number[]).map((pin) => pin / 10_000)];
        if (key === 'doorways')
          return [
            key,
            (value as { wall: number; from: number; to: number }[]).map(({ wall, from, to }) => ({
              wall,
              from: from / 10_000,
              to: to / 10_000,
            })),
          ];
        return [key, value];
      }),
    );
    expect([change, 'steps' in plan({ direction: 90, maxStretches: 1, ...inUnits }).laying]).toEqual([change, true]);
  }
});

it('when the time is up nothing is called proven, and no trap is claimed', () => {
  expect(plan({}, () => false).laying).toMatchObject({ isProven: false, trap: { code: 'no-time' } });
});
