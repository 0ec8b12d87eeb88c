import { drawingDrafts, drawingForm, sketch } from '#lib/job/drawing/form.ts';
import { SHAPES, startForm } from '#lib/job/drawing/starts.ts';
import { shapeOf } from '#lib/job/drawing/shape.ts';
import { STARTS, type DrawingForm } from '#lib/record/drawing-drafts.ts';
import { knownData, type DataOf } from '#lib/record/kinds.ts';
import { expect, test } from 'vitest';

/** A starting shape with its walls measured. */
function measured(start: (typeof STARTS)[number], lengths: readonly string[], more: Partial<DrawingForm> = {}): DrawingForm {
  const form = startForm('bath', start);
  const walls = form.walls.map((wall, i) => ({
    ...wall,
    length: lengths[i] ?? '',
    ...(wall.as === 'curb' ? { height: '4 in', depth: '5 in' } : {}),
  }));
  return { ...form, walls, height: '8 ft', ...more };
}
const ALCOVE = ['32 in', `5' 0"`, '2 ft 8 in', '60"'];

function kept(form: DrawingForm, unit: 'in' | 'mm' = 'in'): DataOf<'drawing'> {
  const drafts = drawingDrafts(form, unit);
  if (!drafts.ok) throw new Error(JSON.stringify(drafts.fault));
  return drafts.value[0]!.data as DataOf<'drawing'>;
}

test('a shower measured as the trade writes it is kept as it was said, and read back as the same form', () => {
  const form = measured('alcove', ALCOVE, {
    doorways: [],
    things: [{ thing: 'drain', wall: 1, along: '30 in', out: '16 in', up: '', width: '6 in', height: '', depth: '' }],
  });
  const data = kept(form);
  expect(data).toMatchObject({
    room: 'bath', unit: 'in', closing: 'exact', height: { text: '8 ft', value: '96', unit: 'in' },
    walls: [{ length: { text: '32 in' }, turn: '90' }, { length: { text: `5' 0"`, value: '60' } }, {}, { as: 'curb', depth: { value: '5' } }],
    things: [{ thing: 'drain', out: { value: '16' }, width: { value: '6' } }],
  }); // prettier-ignore
  expect(data.walls[3]).not.toHaveProperty('turn');
  expect(knownData('drawing', data).kind).toBe('drawing');
  expect(kept(drawingForm(data))).toEqual(data);
});

test.each([
  ['told', '4 in', { value: '4' }],
  ['not told', ' ', undefined],
])('the hole of a valve may be told: %s', (_, width, hole) => {
  const valve = { thing: 'valve', wall: 0, along: '16 in', out: '', up: '48 in', width, height: '', depth: '' } as const;
  const [thing] = kept(measured('alcove', ALCOVE, { things: [valve] })).things;
  expect(thing).toMatchObject({ thing: 'valve', up: { value: '48' } });
  if (hole === undefined) expect(thing).not.toHaveProperty('width');
  else expect(thing).toMatchObject({ width: hole });
});

test.each(STARTS)('the shape %s closes in its own proportions, before and after anything is measured', (start) => {
  const empty = sketch(startForm('bath', start), 'in');
  expect(empty.gap).toBeNull();
  const { x, y } = empty.corners.at(-1)!;
  // The cut corner's slanted side is drawn to half an inch.
  expect(Math.hypot(x, y)).toBeLessThan(1_000);
  const form = measured(start, SHAPES[start].map(([inches]) => `${inches} in`)); // prettier-ignore
  const data = kept(form);
  expect(data.closing).toBe(start === 'cut-corner' ? 'spread' : 'exact');
  expect(shapeOf(data).ok).toBe(true);
});

test('unmeasured walls keep the proportion of the measured ones', () => {
  const { corners, measured: known } = sketch(measured('alcove', ['64 in']), 'in');
  expect(known).toEqual([true, false, false, false]);
  expect(corners.map(({ x, y }) => [x / 10_000, y / 10_000])).toEqual([[0, 0], [0, 64], [120, 64], [120, 0], [0, 0]]); // prettier-ignore
});

test.each<[what: string, form: DrawingForm, faults: string[]]>([
  ['nothing measured', startForm('bath', 'open-side'), ['height no-length', ...[0, 1, 2, 3].map((i) => `walls.${i}.length no-length`)]],
  ['a number without its unit', measured('alcove', ['32', ...ALCOVE.slice(1)]), ['walls.0.length no-unit']],
  ['a half inch of gap', measured('alcove', [...ALCOVE.slice(0, 3), '60 1/2 in']), ['closing gap-open']],
  ['a turn of a circle', measured('alcove', ALCOVE, { walls: measured('alcove', ALCOVE).walls.map((wall) => ({ ...wall, turn: '180' })) }), [0, 1, 2].map((i) => `walls.${i}.turn not-a-turn`)],
  ['a curb without its height', measured('alcove', ALCOVE, { walls: measured('alcove', ALCOVE).walls.map((wall) => ({ ...wall, height: '' })) }), ['walls.3.height no-length']],
  ['a doorway too wide', measured('whole-room', ['60 in', '96 in', '60 in', '96 in'], { doorways: [{ wall: 3, along: '80 in', width: '28 in', height: '' }] }), ['doorways.0 beyond-wall']],
  ['a niche without its depth', measured('alcove', ALCOVE, { things: [{ thing: 'niche', wall: 1, along: '20 in', out: '', up: '40 in', width: '12 in', height: '12 in', depth: '' }] }), ['things.0.depth no-length']],
])('%s: every field that stands in the way is named', (_, form, faults) => {
  const drafts = drawingDrafts(form, 'in');
  expect(drafts.ok ? [] : drafts.fault.map(({ field, code }) => `${field} ${code}`)).toEqual(faults);
}); // prettier-ignore

test.each<[what: string, lengths: string[], more: Partial<DrawingForm>, closing: object]>([
  ['what a tape leaves is spread unasked', [...ALCOVE.slice(0, 3), '60 1/16 in'], {}, { closing: 'spread' }],
  ['a larger gap as somebody said', [...ALCOVE.slice(0, 3), '60 1/2 in'], { closing: 'spread' }, { closing: 'spread' }],
  ['to the wall somebody chose', [...ALCOVE.slice(0, 3), '60 1/2 in'], { closing: 'one-wall', givenTo: 1 }, { closing: 'one-wall', givenTo: 1 }],
])('%s', (_, lengths, more, closing) => {
  expect(kept(measured('alcove', lengths, more))).toMatchObject(closing);
}); // prettier-ignore

test('a gap is small, worth a question, or a slip of a wall', () => {
  const gap = (last: string) => sketch(measured('alcove', [...ALCOVE.slice(0, 3), last]), 'in').gap;
  expect(gap('60 1/16 in')).toMatchObject({ isSmall: true, isLarge: false, length: 625 });
  expect(gap('60 1/2 in')).toMatchObject({ isSmall: false, isLarge: false });
  expect(gap('58 in')).toMatchObject({ isSmall: false, isLarge: true });
});

const DRAIN = { thing: 'drain', wall: 1, along: '30 in', out: '16 in', up: '', width: '6 in', height: '', depth: '' } as const;
test.each<[what: string, more: Partial<DrawingForm>, things: string[] | null]>([
  ['a drain', { things: [DRAIN] }, ['drain']],
  ['a drain, while a valve and a doorway are half typed', { things: [DRAIN, { ...DRAIN, thing: 'valve', along: '' }], doorways: [{ wall: 3, along: '', width: '28 in', height: '' }] }, ['drain']],
  ['no height yet', { things: [DRAIN], height: '' }, null],
  ['a drain beyond its wall', { things: [{ ...DRAIN, along: '300 in' }] }, null],
])('the sketch shows what is told so far: %s', (_, more, things) => {
  expect(sketch(measured('alcove', ALCOVE, more), 'in').shape?.things.map(({ thing }) => thing) ?? null).toEqual(things);
}); // prettier-ignore
