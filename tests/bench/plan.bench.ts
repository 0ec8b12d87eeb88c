import { layPlan } from '#lib/trade/laying/lay.ts';
import { planRoom } from '#lib/trade/laying/plan-room.ts';
import { packRolls } from '#lib/trade/sheets/packing.ts';
import { planSheets } from '#lib/trade/sheets/plan.ts';
import { readRoom, sheetTask, type Room } from '#lib/trade/sheets/room.ts';
import { bruteStrips } from '../property/plan-brute.ts';
import { answerTo } from '../property/plan-checks.ts';
import { faultsOf, type StepText } from '../property/plan-replay.ts';
import { solvePacking, solver, solveStrips } from '../property/plan-solver.ts';
import type { BenchRow } from './keep.bench.ts';

type XY = [number, number];

/** A floor about 10 ft across: along the axes with steps in its walls, or with corners anywhere on a ring. */
function floorOf(sides: number, isSlanted: boolean): XY[] {
  if (isSlanted) {
    return Array.from({ length: sides }, (_, i): XY => {
      const angle = (2 * Math.PI * i) / sides;
      const far = 48 + 16 * Math.sin(i * 2.4);
      return [Math.round((64 + far * Math.cos(angle)) * 16) / 16, Math.round((64 + far * Math.sin(angle)) * 16) / 16];
    });
  }
  // Two walls straight, and stairs of different steps on the other two.
  const steps = (sides - 4) / 2;
  const stairs = Array.from({ length: steps }, (_, i): XY[] => {
    const [x, y] = [120 - (100 * (i + 1)) / (steps + 1), 60 + (60 * (i + 1)) / (steps + 1)];
    return [
      [Math.round(x * 8) / 8, Math.round((y - 60 / (steps + 1)) * 8) / 8],
      [Math.round(x * 8) / 8, Math.round(y * 8) / 8],
    ];
  }).flat();
  return [[0, 0], [120, 0], [120, 60], ...stairs, [0, stairs.at(-1)?.[1] ?? 60]].filter(
    ([x, y], i, all) => i === 0 || x !== all[i - 1]![0] || y !== all[i - 1]![1],
  ) as XY[];
}

function inputOf(floor: XY[], change: object = {}) {
  return {
    unit: 'in',
    gauge: 0.125,
    floor,
    doorways: [{ wall: 0, from: 0, to: 20 }],
    lowWalls: [],
    keepOuts: [{ at: [64, 50] as const, radius: 4 }],
    roll: { width: 36, lengths: [], newLength: 600 },
    minOverlap: 2,
    upturn: 0,
    direction: 'free' as const,
    reach: 40,
    foot: 12,
    maxStretches: 4,
    wholeMax: null,
    ...change,
  };
}

function roomOf(input: object): Room {
  const room = readRoom(input);
  if (!room.ok) throw new Error(`${room.fault.field}: ${room.fault.code}`);
  return room.value;
}

const TURNS = 9;
const always = () => true;

/** Times of some turns, after one that does not count. */
function times(work: () => unknown, turns: number): number[] {
  work();
  return Array.from({ length: turns }, () => {
    const from = performance.now();
    work();
    return performance.now() - from;
  }).sort((a, b) => a - b);
}

function row(name: string, ours: number[], ref: number, aim: string): BenchRow {
  const [median, low, high] = [0.5, 0.25, 0.75].map((share) => ours[Math.round(share * (ours.length - 1))]!) as [number, number, number];
  const two = (value: number) => Number(value.toPrecision(3));
  return {
    name,
    ref: two(ref),
    ours: two(median),
    ratio: two(median / ref),
    unit: 'ms',
    spread: `${two(low / ref)} to ${two(high / ref)}`,
    aim,
  };
}

const middle = (all: readonly number[]) => all[all.length >> 1]!;

/**
 * Plans, packings and orders. References: the general mixed-integer solver on the same case, on a gauge of 2 in, as it takes minutes on a
 * finer one; and the replay of the same order on a raster of 1 in.
 */
export async function run(): Promise<BenchRow[]> {
  const highs = await solver();
  const rows: BenchRow[] = [];
  for (const isSlanted of [false, true]) {
    for (const sides of [4, 8, 12, 20, 40]) {
      const coarse = { ...inputOf(floorOf(sides, isSlanted), { gauge: 2, doorways: [] }) };
      const ref = middle(times(() => [0, 90].map((direction) => solveStrips(highs, bruteStrips(coarse, direction as 0 | 90))), 1));
      const name = `${sides} sides${isSlanted ? ', slanted' : ''}`;
      rows.push(
        row(
          `plan ${name}, gauge 2 in`,
          times(() => planSheets(sheetTask(roomOf(coarse)), always), TURNS),
          ref,
          'below the solver',
        ),
      );
      const fine = sheetTask(roomOf(inputOf(floorOf(sides, isSlanted), { doorways: [] })));
      rows.push(
        row(
          `plan ${name}, gauge 1/8 in`,
          times(() => planSheets(fine, always), TURNS),
          ref,
          sides <= 12 ? 'at most 100 ms' : 'at most 2000 ms',
        ),
      );
    }
  }
  for (const pieces of [4, 8, 12]) {
    const cuts = Array.from({ length: pieces }, (_, i) => 30 + ((i * 37) % 61));
    const stock = { atHand: [90, 120], newLength: 200 };
    const ref = middle(times(() => solvePacking(highs, cuts, stock.atHand, stock.newLength), 1));
    rows.push(
      row(
        `pack ${pieces} pieces`,
        times(() => packRolls(cuts, stock, always), TURNS),
        ref,
        'below the solver',
      ),
    );
  }
  for (const pieces of [1, 2, 4, 8, 16, 24]) {
    // A corridor laid from its far end: strips across it, a doorway as wide as it at the other end.
    const floor: XY[] = [
      [0, 0],
      [60, 0],
      [60, 26 * pieces + 2],
      [0, 26 * pieces + 2],
    ];
    const input = inputOf(floor, {
      direction: 0,
      doorways: [{ wall: 0, from: 6, to: 54 }],
      keepOuts: [],
      roll: { width: 28, lengths: [], newLength: 600 },
    });
    const answer = answerTo(input);
    const room = roomOf(input);
    const { plan } = planSheets(sheetTask(room), always);
    const steps = (answer.laying as { steps: StepText[] }).steps;
    const ref = middle(times(() => faultsOf(input, answer, steps, [], 1), 1));
    rows.push(
      row(
        `order of ${pieces} pieces`,
        times(() => layPlan(room, plan!, always), 3),
        ref,
        'at most 2000 ms',
      ),
    );
  }
  // A trap: what helps is looked for too.
  const trapped = roomOf(
    inputOf(
      [
        [0, 0],
        [60, 0],
        [60, 96],
        [0, 96],
      ],
      { keepOuts: [], direction: 90, doorways: [{ wall: 0, from: 15, to: 45 }] },
    ),
  );
  const budgets = { sheets: always, laying: always, remedies: always };
  const alone = middle(times(() => planSheets(sheetTask(trapped), always), 3));
  rows.push(
    row(
      'a bathroom that is a trap, with all remedies (reference: its plan alone)',
      times(() => planRoom(trapped, budgets), 3),
      alone,
      'at most 2000 ms',
    ),
  );
  return rows;
}
