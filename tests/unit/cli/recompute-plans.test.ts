import { EMPTY_PLAN, planDraft, planInput, type PlanInput } from '#lib/job/drawing/plan-input.ts';
import { shapeOf } from '#lib/job/drawing/shape.ts';
import { wallPlanDrafts, wallsInput } from '#lib/job/drawing/walls-input.ts';
import { answerTo } from '#lib/trade/laying/answer.ts';
import { expect, test } from 'vitest';
import { recomputePlans } from '../../../src/cli/recompute-plans.ts';
import { ALCOVE, drawn, thing } from '../../fixtures/drawn.ts';
import { chain } from '../../fixtures/log.ts';

const DRAWING = drawn(ALCOVE, { things: [thing('niche', 1, [24, null, 46, 14, 20, 3.5]), thing('valve', 0, [16, null, 42])] });
const FORM = { ...EMPTY_PLAN, width: '39 in', newLength: '33 ft', overlap: '2 in', upturn: '6 in', clear: '2 in' };
const shape = shapeOf(DRAWING);
if (!shape.ok) throw new Error(JSON.stringify(shape.fault));
const [floor, walls] = [planInput(FORM, shape.value), wallsInput({ ...FORM, upturn: '72 in' }, shape.value)];
if (!floor.ok || !walls.ok) throw new Error('no input');

const always = () => true;
function answer(input: PlanInput): object {
  const planned = answerTo(input, { sheets: always, laying: always, remedies: always });
  if (!planned.ok) throw new Error(JSON.stringify(planned.fault));
  return planned.value;
}
const FLOOR = planDraft('bath', 'drawing-1', floor.value, answer(floor.value));
const WALLS = wallPlanDrafts('bath', 'drawing-1', walls.value, answer(walls.value));
const logOf = (drafts: readonly object[], drawing = DRAWING) =>
  chain('a', [{ kind: 'drawing', id: 'drawing-1', data: drawing }, ...drafts]);

test('a kept plan of a floor and of each wall comes out again without a difference, down to what it was made from', () => {
  const again = recomputePlans(logOf([FLOOR, ...WALLS]));
  expect(again.map(({ wall, differences }) => ({ wall, differences }))).toEqual([null, 0, 1, 2].map((wall) => ({ wall, differences: [] })));
  expect(Math.min(...again.map(({ values }) => values))).toBeGreaterThan(20);
});

test('a number changed in a plan is named, and a floor that is not the drawing’s', () => {
  const changed = structuredClone(FLOOR) as unknown as { data: { result: { totalCut: string } } };
  changed.data.result.totalCut = '12';
  expect(recomputePlans(logOf([changed]))[0]!.differences).toMatchObject([{ at: 'result.totalCut', then: '12' }]);
  const other = drawn('32; 61; 32; 61 curb 4 5');
  expect(recomputePlans(logOf([FLOOR], other))[0]!.differences!.map(({ at }) => at)).toEqual(['input.floor[2][0]', 'input.floor[3][0]']);
  const wall = recomputePlans(logOf(WALLS, other)).find((one) => one.wall === 1)!;
  expect(wall.differences!.length).toBeGreaterThan(0);
});

test.each<[string, Record<string, unknown>]>([
  ['one whose time was up', { proven: { plan: false, packing: true, laying: true } }],
  ['one of another version', { proven: 'yes' }],
])('nothing is said of %s', (_, more) => {
  const draft = structuredClone(FLOOR) as unknown as { data: { result: object } };
  draft.data.result = { ...draft.data.result, ...more };
  expect(recomputePlans(logOf([draft]))).toMatchObject([{ values: 0, differences: null }]);
});
