import { keptWalls } from '#lib/job/drawing/laid.ts';
import { EMPTY_PLAN } from '#lib/job/drawing/plan-input.ts';
import { shapeOf, type RoomShape } from '#lib/job/drawing/shape.ts';
import { sheetWalls, wallFaces, wallPlanDrafts, wallsInput } from '#lib/job/drawing/walls-input.ts';
import { project } from '#lib/job/project.ts';
import type { PlanForm } from '#lib/record/drawing-drafts.ts';
import type { Drawing } from '#lib/record/kinds/drawing.ts';
import { answerTo } from '#lib/trade/laying/answer.ts';
import { describe, expect, it, test } from 'vitest';
import { ALCOVE, doorway, drawn, thing } from '../../../fixtures/drawn.ts';
import { chain } from '../../../fixtures/log.ts';

const shapeFrom = (drawing: Drawing): RoomShape => {
  const shape = shapeOf(drawing);
  if (!shape.ok) throw new Error(JSON.stringify(shape.fault));
  return shape.value;
};
const FORM: PlanForm = { ...EMPTY_PLAN, width: '39 in', newLength: '33 ft', overlap: '2 in' };

/** Faces of a wall, their corners in inches. */
function facesOf(drawing: Drawing, wall: number, top = Infinity): { outline: string; holes: string[] }[] {
  const text = (corners: readonly { x: number; y: number }[]) => corners.map(({ x, y }) => `${x / 10_000},${y / 10_000}`).join(' ');
  return wallFaces(shapeFrom(drawing), wall, top * 10_000).map(({ outline, holes }) => ({
    outline: text(outline),
    holes: holes.map(text),
  }));
}

describe('what of a wall is covered', () => {
  it.each<[string, Drawing, number, number, { outline: string; holes: string[] }[]]>([
    ['all of it', drawn(ALCOVE), 1, Infinity, [{ outline: '0,0 60,0 60,96 0,96', holes: [] }]],
    ['up to a height', drawn(ALCOVE), 1, 72, [{ outline: '0,0 60,0 60,72 0,72', holes: [] }]],
    ['a low wall no higher than it is', drawn('32; 60; 32 low 42; 60'), 2, 72, [{ outline: '0,0 32,0 32,42 0,42', holes: [] }]],
    [
      'a niche, and a valve whose hole was told',
      drawn(ALCOVE, { things: [thing('niche', 1, [24, null, 46, 14, 20, 3.5]), thing('valve', 1, [10, null, 42, 4])] }),
      1,
      Infinity,
      [{ outline: '0,0 60,0 60,96 0,96', holes: ['8,40 8,44 12,44 12,40', '24,46 24,66 38,66 38,46'] }],
    ],
    [
      'a doorway lower than the wall',
      drawn('32; 60; 32; 60', { doorways: [doorway(3, 10, 30, 80)] }),
      3,
      Infinity,
      [{ outline: '0,0 10,0 10,80 40,80 40,0 60,0 60,96 0,96', holes: [] }],
    ],
    [
      'a doorway up to the top: two faces',
      drawn('32; 60; 32; 60', { doorways: [doorway(3, 10, 30)] }),
      3,
      Infinity,
      [
        { outline: '0,0 10,0 10,96 0,96', holes: [] },
        { outline: '40,0 60,0 60,96 40,96', holes: [] },
      ],
    ],
    [
      'behind a bench from corner to corner',
      drawn(ALCOVE, { things: [thing('bench', 1, [0, null, null, 60, 18, 15])] }),
      1,
      Infinity,
      [{ outline: '0,18 60,18 60,96 0,96', holes: [] }],
    ],
    [
      'what that bench hides of the wall before it',
      drawn(ALCOVE, { things: [thing('bench', 1, [0, null, null, 60, 18, 15])] }),
      0,
      Infinity,
      [{ outline: '0,0 17,0 17,18 32,18 32,96 0,96', holes: [] }],
    ],
    [
      'and of the wall after it',
      drawn(ALCOVE, { things: [thing('bench', 1, [0, null, null, 60, 18, 15])] }),
      2,
      Infinity,
      [{ outline: '15,0 32,0 32,96 0,96 0,18 15,18', holes: [] }],
    ],
  ])('%s', (_, drawing, wall, top, expected) => {
    expect(
      facesOf(drawing, wall, top).map(({ outline, holes }) => ({ outline: fromLowest(outline), holes: holes.map(fromLowest) })),
    ).toEqual(expected);
  });
});

/** A ring from its lowest corner, of those the one furthest left. */
function fromLowest(ring: string): string {
  const corners = ring.split(' ');
  const at = corners.map((one) => one.split(',').map(Number) as [number, number]);
  const first = at.reduce((best, [x, y], i) => (y < at[best]![1] || (y === at[best]![1] && x < at[best]![0]) ? i : best), 0);
  return [...corners.slice(first), ...corners.slice(0, first)].join(' ');
}

test('curbs and open sides get no wall sheets; walls left out are not asked for, and no overlap comes near a valve', () => {
  const shape = shapeFrom(drawn(ALCOVE, { things: [thing('valve', 0, [16, null, 42]), thing('pipe', 2, [10, null, 80])] }));
  expect(sheetWalls(shape)).toEqual([0, 1, 2]);
  const input = wallsInput({ ...FORM, without: ['2'], clear: '3 in' }, shape);
  expect(input).toMatchObject({
    ok: true,
    value: {
      gauge: 0.125,
      roll: { width: 39, lengths: [], newLength: 396 },
      minOverlap: 2,
      walls: [
        { wall: 0, keepOuts: [{ at: [16, 42], radius: 3 }] },
        { wall: 1, keepOuts: [] },
      ],
    },
  });
});

test.each<[string, Partial<PlanForm>, string[]]>([
  ['nothing said of the roll', { width: '', newLength: '', overlap: '' }, ['newLength no-length', 'width no-length', 'overlap no-length']],
  ['no wall chosen', { without: ['0', '1', '2'] }, ['without none-chosen']],
  ['a height that is none', { upturn: 'high' }, ['upturn not-a-length']],
])('%s: every field in the way is named', (_, more, faults) => {
  const input = wallsInput({ ...FORM, ...more }, shapeFrom(drawn(ALCOVE)));
  expect(input.ok ? [] : input.fault.map(({ field, code }) => `${field} ${code}`)).toEqual(faults);
});

test('a plan of walls is one entry a wall; those planned together last are read together', () => {
  const always = () => true;
  const drawing = { kind: 'drawing', data: drawn(ALCOVE) };
  const entriesFor = (form: Partial<PlanForm>) => {
    const input = wallsInput({ ...FORM, ...form }, shapeFrom(drawing.data));
    if (!input.ok) throw new Error(JSON.stringify(input.fault));
    const answer = answerTo(input.value, { sheets: always, laying: always, remedies: always });
    if (!answer.ok) throw new Error(JSON.stringify(answer.fault));
    return wallPlanDrafts('bath', 'drawing-1', input.value, answer.value);
  };
  const { state } = project(chain('a', [{ ...drawing, id: 'drawing-1' }, ...entriesFor({}), ...entriesFor({ without: ['1'] })]));
  const kept = keptWalls(state, 'bath');
  // Walls of 32 in take one strip each; the second plan left out the back wall.
  expect(
    kept?.sheets.walls.map(({ wall, pieces }) => `${wall}: ${pieces.map(({ id, cutLength }) => `${id} ${cutLength}`).join()}`),
  ).toEqual(['0: 1A 96', '2: 3A 96']);
  expect(kept?.sheets.rolls).toEqual([{ length: '396', new: true, pieces: ['1A', '3A'] }]);
  expect(kept).toMatchObject({ width: 390_000, isStale: false });
});
