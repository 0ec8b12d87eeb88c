import { markable, markDrafts, marksIn, missDrafts, rectangleOf } from '#lib/job/drawing/marks.ts';
import { spotsOf } from '#lib/job/drawing/joints.ts';
import { shapeOf } from '#lib/job/drawing/shape.ts';
import { project } from '#lib/job/project.ts';
import { edited, isAnswered } from '#lib/job/misses.ts';
import type { Miss } from '#lib/record/kinds/photo.ts';
import { describe, expect, test } from 'vitest';
import { ALCOVE, drawn, q, thing } from '../../../fixtures/drawn.ts';
import { ONE_OF_EACH } from '../../../fixtures/one-of-each.ts';
import { chain, type Said } from '../../../fixtures/log.ts';
import { reading, shot, withdraw } from '../../../fixtures/shower.ts';

const mark = (of: string, more: object = {}): Said => ({
  kind: 'mark',
  refs: [of],
  data: { of, room: 'bath', x: q(12), y: q(20.5), ...more },
});
const note: Said = { kind: 'note', data: { words: 'Crack', surfaces: [] } };
const state = (...said: Said[]) => project(chain('a', said)).state;

test('marks are numbered in the order they were made; those of another room, and of an entry taken back, are not shown', () => {
  const job = state(note, note, mark('a-0'), mark('a-1', { wall: 1, spot: 'corner-2' }), mark('a-0', { room: 'hall' }), mark('gone'));
  expect(marksIn(job, 'bath', 'in')).toEqual([
    { n: 1, id: 'a-2', of: 'a-0', area: null, spot: null, wall: null, x: 120_000, y: 205_000 },
    { n: 2, id: 'a-3', of: 'a-1', area: null, spot: 'corner-2', wall: 1, x: 120_000, y: 205_000 },
  ]);
  const taken = project(chain('a', [note, note, mark('a-0'), mark('a-1'), withdraw('a-0')])).state;
  expect(marksIn(taken, 'bath', 'in').map(({ of }) => of)).toEqual(['a-1']);
});

test('photos, readings and notes can be marked, newest first; frames of a watch and what was taken back cannot', () => {
  const job = state(note, shot(null), shot(null, { from: 'watch' }), reading(null, 'overlap', 'floor'), note, withdraw('a-0'));
  expect(markable(job)).toEqual(['a-4', 'a-3', 'a-1']);
});

test('a mark keeps its place in the unit of the drawing, or says what is missing', () => {
  const shape = shapeOf(drawn(ALCOVE, { things: [thing('valve', 0, [16, null, 48])] }));
  if (!shape.ok) throw new Error(shape.fault.code);
  const on = { unit: 'in', room: 'bath', shape: shape.value } as const;
  const valve = spotsOf(shape.value).find(({ id }) => id === 'thing-0')!;
  expect(markDrafts('a-1', on, valve, 'thing-0')).toEqual({
    ok: true,
    value: [{ kind: 'mark', refs: ['a-1'], data: { of: 'a-1', room: 'bath', wall: 0, x: q(16), y: q(48), spot: 'thing-0' } }],
  });
  expect(markDrafts(null, on, valve, null)).toMatchObject({ ok: false, fault: [{ code: 'none-chosen' }] });
  expect(markDrafts('a-1', on, null, null)).toMatchObject({ ok: false, fault: [{ code: 'no-place' }] });
  expect(markDrafts('a-1', on, { wall: 9, x: 0, y: 0 }, null)).toMatchObject({ ok: false, fault: [{ code: 'no-place' }] });
});

test('an area of a wall and its corners in the photo come back as they were kept', () => {
  const shape = shapeOf(drawn(ALCOVE));
  if (!shape.ok) throw new Error(shape.fault.code);
  const corners = rectangleOf({ x: 300_000, y: 0 }, { x: 5_000, y: 600_000 });
  expect(corners.map(({ x, y }) => [x, y])).toEqual([[5_000, 600_000], [300_000, 600_000], [300_000, 0], [5_000, 0]]); // prettier-ignore
  const inPhoto = { width: 1280, height: 960, corners: [[10.25, 20], [1_200, 31.5], [1_190, 900], [20, 890]] as const }; // prettier-ignore
  const place = { wall: 1, x: 152_500, y: 300_000 };
  const kept = markDrafts('a-0', { unit: 'in', room: 'bath', shape: shape.value }, place, null, { corners, inPhoto });
  if (!kept.ok) throw new Error('not kept');
  const job = state(note, kept.value[0] as Said, { kind: 'drawing', data: drawn(ALCOVE) });
  expect(marksIn(job, 'bath', 'in')).toMatchObject([
    { ...place, area: { corners, inPhoto: { ...inPhoto, corners: [[10.3, 20], [1_200, 31.5], [1_190, 900], [20, 890]] } } },
  ]); // prettier-ignore
});

describe('misses of a coat', () => {
  const shape = shapeOf(drawn(ALCOVE, {}));
  if (!shape.ok) throw new Error(shape.fault.code);
  const on = { unit: 'in', room: 'bath', shape: shape.value } as const;
  const misses = [
    { x: '254', y: '25.4', diameter: '8', kind: 'bare' },
    { x: '508', y: '50.8', diameter: '6', kind: 'bare', struck: true },
    { x: '127', y: '254', kind: 'bare', added: true },
  ];
  const said: Said = { kind: 'coverage', data: { ...ONE_OF_EACH.coverage, misses } };

  test('each that stands is marked on a wall from the corner of its area, right and down; on the floor the area gets one mark', () => {
    const [coverage] = state(said).facts.coverage;
    const drafts = missDrafts(coverage!, on, { wall: 0, x: 100_000, y: 500_000 });
    expect(drafts.ok && drafts.value.map(({ data }) => data)).toEqual([
      { of: 'a-0', room: 'bath', wall: 0, x: q(20), y: q(49) },
      { of: 'a-0', room: 'bath', wall: 0, x: q(15), y: q(40) },
    ]);
    const floor = missDrafts(coverage!, on, { wall: null, x: 100_000, y: 200_000 });
    expect(floor.ok && floor.value.map(({ data }) => data)).toEqual([{ of: 'a-0', room: 'bath', x: q(10), y: q(20) }]);
    expect(missDrafts(coverage!, on, null)).toMatchObject({ ok: false, fault: [{ code: 'no-place' }] });
  });

  test('found again by the same taps, they keep what was said of them', () => {
    const again = edited(
      [
        { x: '508', y: '50.8', kind: 'bare' },
        { x: '3', y: '4', kind: 'thin' },
      ],
      [misses[1], misses[2]] as Miss[],
    );
    expect(again).toEqual([{ x: '508', y: '50.8', kind: 'bare', struck: true }, { x: '3', y: '4', kind: 'thin' }, misses[2]]);
  });

  test('a repair that names the photo answers its marks', () => {
    expect(isAnswered('a-0', state(said))).toBe(false);
    const repair: Said = { kind: 'repair', refs: ['a-0'], data: { what: 'Rolled over', of: ['a-0'], surfaces: ['f'] } };
    expect(isAnswered('a-0', state(said, repair))).toBe(true);
    expect(isAnswered('a-1', state(said, repair))).toBe(false);
  });
});
