import { exitWall, keptPlan, laidPieces, overlaps } from '#lib/job/drawing/laid.ts';
import { EMPTY_PLAN, planDraft, planInput } from '#lib/job/drawing/plan-input.ts';
import { shapeOf, type RoomShape } from '#lib/job/drawing/shape.ts';
import { project } from '#lib/job/project.ts';
import { frozen, readPlan, thawed } from '#lib/record/plan-result.ts';
import { planAnswer } from '#lib/trade/laying/plan-answer.ts';
import { planRoom } from '#lib/trade/laying/plan-room.ts';
import { readRoom } from '#lib/trade/sheets/room.ts';
import type { PlanForm } from '#lib/record/drawing-drafts.ts';
import type { Drawing } from '#lib/record/kinds/drawing.ts';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { ALCOVE, doorway, drawn, thing } from '../../../fixtures/drawn.ts';
import { chain } from '../../../fixtures/log.ts';

const shapeFrom = (drawing: Drawing): RoomShape => {
  const shape = shapeOf(drawing);
  if (!shape.ok) throw new Error(JSON.stringify(shape.fault));
  return shape.value;
};
const FORM: PlanForm = { ...EMPTY_PLAN, width: '20 in', newLength: '33 ft', overlap: '2 in' };
const inputFor = (drawing: Drawing, more: Partial<PlanForm> = {}) => {
  const input = planInput({ ...FORM, ...more }, shapeFrom(drawing));
  if (!input.ok) throw new Error(JSON.stringify(input.fault));
  return input.value;
};
function answerTo(input: object): object {
  const room = readRoom(input);
  if (!room.ok) throw new Error(JSON.stringify(room.fault));
  const always = () => true;
  const planned = planRoom(room.value, { sheets: always, laying: always, remedies: always });
  if (!planned.ok) throw new Error(JSON.stringify(planned.fault));
  return planAnswer(room.value, planned.value);
}

test('a shower with its drain as the planner reads it: the curb is the way in, and no seam comes near the drain', () => {
  const drain = thing('drain', 1, [30, 16, null, 6]);
  expect(inputFor(drawn(ALCOVE, { things: [drain] }), { clear: '2 in', upturn: '3 in', atHand: '12 ft\n5 ft' })).toEqual({
    unit: 'in',
    gauge: 0.125,
    floor: [[0, 0], [0, 32], [60, 32], [60, 0]],
    doorways: [{ wall: 3, from: 0, to: 60 }],
    lowWalls: [],
    keepOuts: [{ at: [30, 16], radius: 5 }],
    roll: { width: 20, lengths: [144, 60], newLength: 396 },
    minOverlap: 2,
    upturn: 3,
    direction: 'free',
    wholeMax: 48,
  }); // prettier-ignore
});

test('doorways, low walls and benches are found on the outline that benches have changed', () => {
  const bench = thing('bench', 1, [0, null, null, 60, 18, 15]);
  const input = inputFor(drawn('32; 60; 32 low 42; 60', { things: [bench], doorways: [doorway(3, 20, 28)] }));
  expect(input).toMatchObject({ floor: [[0, 0], [0, 17], [60, 17], [60, 0]], doorways: [{ wall: 3, from: 20, to: 48 }], lowWalls: [2] }); // prettier-ignore
});

test('a line drain is covered by discs, and each stands for its part of it', () => {
  const input = inputFor(drawn(ALCOVE, { things: [thing('line-drain', 1, [10, 2, null, 40, null, 4])] }));
  const discs = input['keepOuts'] as { at: [number, number]; radius: number }[];
  expect(discs.map(({ at }) => at)).toEqual(Array.from({ length: 10 }, (_, i) => [12 + 4 * i, 28]));
  for (const { radius } of discs) expect(radius).toBeCloseTo(Math.hypot(4, 4) / 2, 3);
});

test.each<[what: string, more: Partial<PlanForm>, faults: string[]]>([
  ['nothing said of the roll', { width: '', newLength: '', overlap: '' }, ['newLength no-length', 'width no-length', 'overlap no-length']],
  ['a width without its unit', { width: '39' }, ['width no-unit']],
  ['no length', { overlap: 'two' }, ['overlap not-a-length']],
  ['a roll as long as a street', { newLength: '200 km' }, ['newLength not-a-length']],
])('%s: every field in the way is named', (_, more, faults) => {
  const input = planInput({ ...FORM, ...more }, shapeFrom(drawn(ALCOVE)));
  expect(input.ok ? [] : input.fault.map(({ field, code }) => `${field} ${code}`)).toEqual(faults);
});

test('a seam that was dragged falls on the gauge, and a remedy that was taken stands in place of what was typed', () => {
  const input = inputFor(drawn(ALCOVE), { direction: '0', pins: '10.03 in\n0', taken: '{"reach":"52.5","maxStretches":"3"}' });
  expect(input).toMatchObject({ direction: 0, pins: [10, 0], reach: 52.5, maxStretches: 3 });
  expect(inputFor(drawn(ALCOVE), { taken: 'no json' })).toEqual(inputFor(drawn(ALCOVE)));
});

test('a plan kept in the log is the answer of the planner, and its input gives the same answer again', () => {
  const drawing = drawn(ALCOVE);
  const input = inputFor(drawing, { upturn: '2 in' });
  const draft = planDraft('bath', 'd-1', input, answerTo(input));
  const { state } = project(chain('a', [{ kind: 'drawing', id: 'd-1', data: drawing }, draft]));
  const kept = keptPlan(state, 'bath')!;
  expect(kept).toMatchObject({ width: 200_000, isStale: false });
  expect(frozen(answerTo(thawed(kept.fact.data.input) as object))).toEqual(kept.fact.data.result);
  // By hand: 32 in and two upturns of 2 are 36, which two strips of 20 cover with 4 to lap; each is 60 in and two upturns long.
  const pieces = laidPieces(kept.sheets, kept.width);
  expect(pieces.map(({ id, cut, roll }) => [id, cut / 10_000, roll])).toEqual([['A', 64, 0], ['B', 64, 0]]); // prettier-ignore
  const [lap] = overlaps(kept.sheets, kept.width);
  expect((lap!.to - lap!.from) / 10_000).toBe(4);
  expect(exitWall(shapeFrom(drawing), kept.fact.data.input, 0)).toBe(3);
  const anew = project(chain('a', [{ kind: 'drawing', id: 'd-1', data: drawing }, draft, { kind: 'drawing', id: 'd-2', data: drawing }]));
  expect(keptPlan(anew.state, 'bath')).toMatchObject({ isStale: true });
  expect(keptPlan(state, 'hall')).toBeNull();
});

test('frozen and thawed are each other’s way back, and no number is left in what is frozen', () => {
  const json = fc.letrec((tie) => ({
    any: fc.oneof({ maxDepth: 3 }, fc.integer(), fc.integer().map((n) => n / 10_000), fc.constantFrom('in', 'A', 'free', true, null), fc.array(tie('any')), fc.dictionary(fc.constantFrom('a', 'b'), tie('any'))),
  })).any; // prettier-ignore
  fc.assert(
    fc.property(json, (value) => {
      const plain = JSON.parse(JSON.stringify(value)) as unknown;
      expect(thawed(frozen(plain))).toEqual(plain);
      expect(JSON.stringify(frozen(plain))).not.toMatch(/[[:,]-?\d/);
    }),
    { numRuns: 200 },
  );
});

test('an answer of no plan is read as one, and what another version wrote as nothing', () => {
  const none = readPlan(frozen(answerTo({ ...inputFor(drawn(ALCOVE)), roll: { width: 20, lengths: [30], newLength: null } })));
  expect(none).toMatchObject({ sheets: null, none: { impossible: expect.any(String) as string } });
  expect(readPlan({ pieces: 3 })).toBeNull();
});
