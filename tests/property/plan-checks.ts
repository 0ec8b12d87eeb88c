// What the property tests and the deep run hold against the planner, one room at a time.
import { planRoom } from '#lib/trade/laying/plan-room.ts';
import { planSheets } from '#lib/trade/sheets/plan.ts';
import { readRoom } from '#lib/trade/sheets/room.ts';
import { difference, union, type Geom } from 'polyclip-ts';
import { planAnswer } from '#lib/trade/laying/plan-answer.ts';
import { brutePlan, type BruteRoom } from './plan-brute.ts';
import { bruteStretches, faultsOf, type LaidRoom, type PlanText, type StepText } from './plan-replay.ts';
import { taskOf } from './plan-task.ts';

type Remedy = { readonly kind: string; readonly proven: boolean } & Readonly<Record<string, unknown>>;

export interface Answer extends PlanText {
  readonly laying: { readonly steps: readonly StepText[] } | { readonly trap: string; readonly remedies: readonly Remedy[] };
  readonly impossible?: string;
}

const always = () => true;

/** What the terminal prints for a room, however long it takes; without remedies where they do not matter. */
export function answerTo(input: object, remedies: () => boolean = always): Answer {
  const room = readRoom(input);
  if (!room.ok) throw new Error(`${room.fault.field}: ${room.fault.code}`);
  const planned = planRoom(room.value, { sheets: always, laying: always, remedies });
  if (!planned.ok) throw new Error(planned.fault.code);
  return JSON.parse(JSON.stringify(planAnswer(room.value, planned.value))) as Answer;
}

const places = (value: number) => Number(value.toFixed(5));

/** A fraction in lowest terms. */
function reduced(over: bigint, under: bigint): string {
  let [a, b] = [over, under];
  while (b !== 0n) [a, b] = [b, a % b];
  return `${over / a}/${under / a}`;
}

/** Our plan and the best of all plans, by all aims; both null where there is none. */
export function bothPlans(room: BruteRoom): { ours: object | null; brute: object | null } {
  const { plan } = planSheets(taskOf(room), always);
  const brute = brutePlan(room);
  return {
    ours: plan && {
      direction: plan.direction,
      pieces: plan.pieces.length,
      cut: places(plan.totalCut / 10_000),
      notched: plan.notched,
      seam: reduced(plan.seamLength.over, plan.seamLength.under * 10_000n),
      overlap: plan.smallestOverlap === null ? null : places(plan.smallestOverlap / 10_000),
      positions: plan.positions.map((at) => places(at / 10_000)),
      gap: plan.gap,
    },
    brute: brute && {
      direction: brute.direction,
      pieces: brute.pieces,
      cut: places(brute.cut),
      notched: brute.notched,
      seam: reduced(brute.seam.over, brute.seam.under),
      overlap: brute.overlap === null ? null : places(brute.overlap),
      positions: brute.positions.map(places),
      gap: 0,
    },
  };
}

/** How much of the floor the cuts of a plan leave bare, by the polygon library. */
export function bareArea({ floor, roll }: Pick<LaidRoom, 'floor' | 'roll'>, { direction, positions, pieces }: PlanText): number {
  // Ends are printed with four places.
  const hair = 1e-4;
  const cuts = pieces.map(({ strip, from, to }): Geom => {
    const [lo, hi] = [positions[strip]!, positions[strip]! + roll.width];
    const [a, b] = [from - hair, to + hair];
    const box: [number, number][] =
      direction === 0
        ? [
            [a, lo],
            [b, lo],
            [b, hi],
            [a, hi],
          ]
        : [
            [lo, a],
            [hi, a],
            [hi, b],
            [lo, b],
          ];
    return [box];
  });
  const bare = difference([floor.map(([x, y]): [number, number] => [x, y])], union(cuts[0]!, ...cuts.slice(1)));
  return bare
    .flat()
    .reduce(
      (sum, ring) =>
        sum +
        Math.abs(ring.reduce((twice, [x, y], i) => twice + x * ring[(i + 1) % ring.length]![1] - ring[(i + 1) % ring.length]![0] * y, 0)) /
          2,
      0,
    );
}

/** What is wrong with the order or the remedies of a room. All remedies are replayed, or only one. */
export function layingFaults(input: LaidRoom, isThorough: boolean): { kind: 'order' | 'trap' | 'impossible'; faults: string[] } {
  const answer = answerTo(input);
  if (answer.impossible !== undefined) return { kind: 'impossible', faults: [] };
  const { laying } = answer;
  if ('steps' in laying) return { kind: 'order', faults: faultsOf(input, answer, laying.steps, [], 1) };
  const faults = laying.remedies.length === 0 ? [`no remedy for ${laying.trap}`] : [];
  for (const { kind, proven, ...change } of isThorough ? laying.remedies : laying.remedies.slice(0, 1)) {
    const changed = { ...input, ...change } as unknown as LaidRoom & { readonly sets?: readonly (readonly string[])[] };
    const helped = answerTo(changed);
    if (!proven) faults.push(`${kind} is not proven`);
    if ('steps' in helped.laying)
      faults.push(...faultsOf(changed, helped, helped.laying.steps, changed.sets ?? [], 1).map((fault) => `${kind}: ${fault}`));
    else faults.push(`${kind} leads to ${helped.laying.trap}`);
  }
  return { kind: 'trap', faults };
}

/** Stretches of our order and of the best of all orders on a raster that is a little strict; Infinity for none, null where it is too much to try. */
export function bothOrders(input: LaidRoom, pieces: number): { ours: number; brute: number } | null {
  const answer = answerTo(input, () => false);
  if (answer.impossible !== undefined || answer.pieces.length > pieces) return null;
  const ours = 'steps' in answer.laying ? answer.laying.steps.length : Infinity;
  return { ours, brute: bruteStretches(input, answer, 2, 1) };
}
