import { whyImpossible, type Impossible } from '#lib/trade/sheets/impossible.ts';
import { planSheets, type SheetTask } from '#lib/trade/sheets/plan.ts';
import { describe, expect, it } from 'vitest';

const parts = (value: number) => Math.round(value * 10_000);
const TASK: SheetTask = {
  rings: [
    [
      [0, 0],
      [60, 0],
      [60, 96],
      [0, 96],
    ].map(([x, y]) => ({ x: parts(x!), y: parts(y!) })),
  ],
  gauge: parts(0.5),
  roll: { width: parts(36), atHand: [], newLength: parts(600) },
  minOverlap: parts(2),
  upturn: 0,
  direction: 'free',
  keepOuts: [],
  pins: [],
  longestPiece: null,
};
const always = () => true;
const drain = (x: number, y: number, radius: number) => ({ at: { x: parts(x), y: parts(y) }, radius: parts(radius) });

function why(change: Partial<SheetTask>): Impossible & { task: SheetTask } {
  const task = { ...TASK, ...change };
  const planned = planSheets(task, always);
  if (planned.plan !== null) throw new Error('there is a plan');
  return { ...whyImpossible(task, planned.why, always), task };
}

const roll = (change: Partial<SheetTask['roll']>) => ({ roll: { ...TASK.roll, ...change } });

describe('says which limit stands in the way', () => {
  it.each<[string, Partial<SheetTask>, Impossible['code'], string[]]>([
    ['a room larger than every roll', roll({ newLength: parts(50) }), 'piece-too-long', ['longer-roll']],
    [
      'a roll too short in the direction asked for',
      { ...roll({ newLength: parts(70) }), direction: 90 },
      'piece-too-long',
      ['direction', 'longer-roll'],
    ],
    ['a cap on the pieces', { longestPiece: parts(50) }, 'piece-too-long', ['longer-piece']],
    ['a drain wider than a sheet', { keepOuts: [drain(30, 48, 20)] }, 'keep-out', ['smaller-keep-out', 'wider-roll']],
    [
      'both',
      { ...roll({ newLength: parts(50) }), keepOuts: [drain(30, 48, 20)] },
      'piece-too-long-and-keep-out',
      ['longer-piece-and-smaller-keep-out'],
    ],
    // Three pieces of 60 where the seams are nearer to the drain, or two under a wider roll: more than the roll at hand holds.
    [
      'a drain wider than a sheet, and too little on the roll',
      { ...roll({ atHand: [parts(96)], newLength: null }), keepOuts: [drain(30, 48, 20)] },
      'keep-out',
      ['smaller-keep-out', 'wider-roll'],
    ],
    ['a seam pinned outside', { direction: 90, pins: [parts(70)] }, 'pins', ['free-seams']],
    ['an upturn deeper than the roll is wide', { upturn: parts(40) }, 'upturn-too-deep', ['smaller-upturn', 'wider-roll']],
    [
      'a gauge wider than the roll',
      { gauge: parts(64), minOverlap: 0, rings: [TASK.rings[0]!.map(({ x, y }) => ({ x: x + 1, y: y + 1 }))] },
      'gauge-too-coarse',
      ['finer-gauge', 'wider-roll'],
    ],
    // Along x two pieces of 40, of which the rolls hold one; along y three of 30, which they hold.
    [
      'rolls at hand too short for the best plan only',
      {
        rings: [[0, 40].flatMap((x) => (x === 0 ? [0, 30] : [30, 0]).map((y) => ({ x: parts(x), y: parts(y) })))],
        roll: { width: parts(20), atHand: [parts(60), parts(35)], newLength: null },
      },
      'rolls-too-short',
      ['direction', 'longer-roll'],
    ],
    ['rolls at hand too short for all pieces', roll({ atHand: [parts(100)], newLength: null }), 'rolls-too-short', ['longer-roll']],
  ])('%s', (_, change, code, kinds) => {
    const { task, ...found } = why(change);
    expect({ code: found.code, kinds: found.remedies.map(({ kind }) => kind) }).toEqual({ code, kinds });
    for (const remedy of found.remedies) expect(planSheets({ ...task, ...remedy.change }, always).plan).not.toBeNull();
    expect(found.isProven).toBe(true);
  });

  it('and names the piece with the length it needs', () => {
    expect(why(roll({ newLength: parts(50) })).piece).toMatchObject({ direction: 0, cutLength: parts(60) });
  });

  it('and the keep-out in the way', () => {
    expect(why({ keepOuts: [drain(30, 20, 3), drain(30, 48, 20)] }).keepOuts).toEqual([1]);
  });

  it('and when only the time was up', () => {
    expect(whyImpossible(TASK, { kind: 'none', isProven: false }, always)).toMatchObject({
      code: 'no-time',
      isProven: false,
      remedies: [],
    });
  });
});

it('a roll that is just long enough is what is asked for', () => {
  const { remedies, task } = why(roll({ atHand: [parts(100)], newLength: null }));
  const { newLength } = remedies[0]!.change.roll!;
  const shorter = { ...task.roll, atHand: [...task.roll.atHand, newLength! - task.gauge] };
  expect(planSheets({ ...task, roll: { ...task.roll, atHand: [...task.roll.atHand, newLength!] } }, always).plan).not.toBeNull();
  expect(planSheets({ ...task, roll: shorter }, always).plan).toBeNull();
});
