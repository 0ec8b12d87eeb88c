import { EMPTY_JOB, type Shot } from '#lib/job/state.ts';
import type { Draft } from '#lib/record/kinds.ts';
import type { OpenJob } from '#lib/state/job.svelte.ts';
import type { Measuring } from '#lib/state/measuring.svelte.ts';
import * as m from '#lib/words/compiled/messages.js';
import { expect, test } from 'vitest';
import { AreaTask } from '../../../src/routes/(book)/job/[id]/measure/area-task.svelte.ts';
import { LengthTask } from '../../../src/routes/(book)/job/[id]/measure/length-task.svelte.ts';

const QUAD = [
  [100, 100],
  [900, 100],
  [900, 700],
  [100, 700],
] as const;

/** What a photo answers that shows one miss, and a card beside a lap. */
const ANSWERS: Readonly<Record<string, unknown>> = {
  coverage: {
    ok: true,
    value: {
      ...{ coveredShare: 0.9, low: 0.89, high: 0.91, unknownShare: 0, mmPerPx: 0.5, smallestFoundMm: 2, overlay: null },
      holidays: [{ xMm: 40, yMm: 30, diameterMm: 8, areaMm2: 50, kind: 'bare' }],
    },
  },
  reference: { ok: true, value: { corners: QUAD, mmPerPx: 0.2 } },
  length: { ok: true, value: { lengthMm: 60, lowMm: 59, highMm: 61, wideLowMm: 59, wideHighMm: 61, planeShown: true } },
};

function stand(units: 'in' | 'mm' = 'mm') {
  const kept: Draft[] = [];
  const job = {
    state: { ...EMPTY_JOB, units },
    person: 'ana',
    add: (drafts: Draft[]) => {
      kept.push(...drafts);
      const times = { utc: '2026-11-03T15:00:00.000Z', offsetMin: 0 };
      return Promise.resolve({ ok: true, value: [{ body: { id: `kept-${kept.length}`, times } }] });
    },
  } as unknown as OpenJob;
  const shot = { id: 'photo', run: null, step: 'pre-cut', coat: null, picture: { sha256: 'a'.repeat(64) } } as unknown as Shot;
  const measuring = {
    ...{ photo: { width: 1000, height: 800 }, step: null },
    ask: ({ do: what }: { do: string }) => Promise.resolve(ANSWERS[what]),
  } as unknown as Measuring;
  return { job, shot, measuring, kept };
}

/** A coat measured and confirmed: an area of 400 by 300 mm, half a millimetre a pixel. */
async function coat() {
  const { job, shot, measuring, kept } = stand();
  const task = new AreaTask('coverage', job, shot, measuring, () => 'north');
  for (const [i, at] of QUAD.entries()) task.place(`corner-${i}`, at, true);
  [task.corners.first, task.corners.second] = ['400', '300'];
  task.place('next', [300, 300], false);
  task.next = 'bare';
  task.place('next', [180, 160], false);
  await task.measure();
  await task.keep();
  return { task, kept };
}

test.each<[string, (task: AreaTask) => void]>([
  ['a miss struck out', (task) => task.strike(1)],
  ['a photo to compare with', (task) => (task.before = 'earlier')],
  ['another surface', (task) => task.surfaceChanged()],
])('after Confirm, %s is confirmed anew and not shown as saved', async (_, change) => {
  const { task, kept } = await coat();
  expect([task.kept?.id, task.canKeep]).toEqual(['kept-1', false]);
  change(task);
  expect([task.kept, task.canKeep]).toEqual([null, true]);
  await task.keep();
  // The same photo is not counted twice.
  expect(kept.map(({ kind }) => kind)).toEqual(['coverage', 'withdrawal', 'coverage']);
  expect(kept[1]).toMatchObject({ refs: ['kept-1'], data: { of: 'kept-1' } });
});

test('another area measured after Confirm leaves what was confirmed', async () => {
  const { task, kept } = await coat();
  task.strike(1);
  task.place('corner-0', [120, 100], true);
  await task.measure();
  await task.keep();
  expect(kept.map(({ kind }) => kind)).toEqual(['coverage', 'coverage']);
});

test('a side typed anew takes away what was measured of the area as it was', async () => {
  const { task } = await coat();
  task.corners.first = '800';
  task.sidesChanged();
  expect([task.coverage, task.misses, task.canKeep, task.canMeasure]).toEqual([null, [], false, true]);
});

test.each<[string, readonly [number, number], number]>([
  ['inside the marked area is added', [500, 400], 2],
  ['beside it is none', [60, 400], 1],
  ['below it is none', [500, 760], 1],
])('a miss tapped %s', async (_, at, count) => {
  const { task } = await coat();
  task.next = 'miss';
  task.place('next', at, false);
  expect(task.misses).toHaveLength(count);
});

test.each<[string, (task: LengthTask) => void]>([
  ['what shows', (task) => (task.lap = 'lap-line')],
  ['what it is', (task) => (task.what = 'distance')],
  ['the surface', (task) => task.surfaceChanged()],
])('after Confirm of a length, %s chosen anew is confirmed anew', async (_, change) => {
  const { job, shot, measuring, kept } = stand();
  const task = new LengthTask(
    job,
    shot,
    measuring,
    () => 'north',
    () => '100',
  );
  await task.look();
  task.place('end-0', [200, 200], true);
  task.place('end-1', [200, 500], true);
  await Promise.resolve();
  await task.keep();
  expect([task.kept?.id, task.canKeep]).toEqual(['kept-1', false]);
  change(task);
  expect([task.kept, task.canKeep]).toEqual([null, true]);
  await task.keep();
  expect(kept).toHaveLength(2);
});

test('a coat is led from film to bare to its sides', () => {
  const { job, shot, measuring } = stand();
  const task = new AreaTask('coverage', job, shot, measuring, () => null);
  for (const [i, at] of QUAD.entries()) task.place(`corner-${i}`, at, true);
  expect(task.hint).toBe(m.tap_film());
  task.place('next', [300, 300], false);
  task.place('next', [400, 300], false);
  expect(task.hint).toBe(m.tap_bare_next());
  task.next = 'bare';
  expect(task.hint).toBe(m.tap_bare());
  task.place('next', [180, 160], false);
  expect(task.hint).toBe(m.type_sides());
  [task.corners.first, task.corners.second] = ['400', '300'];
  expect([task.hint, task.canMeasure]).toEqual([m.tap_bare(), true]);
});

test.each([
  ['mm', '100', '140', '90'],
  ['mm', '98.5', '137.9', '88.7'],
  ['in', '100', '5.512', '3.543'],
] as const)('in %s the frame of a card whose bar measures %s mm is %s by %s', (units, barMm, first, second) => {
  const { job, shot, measuring } = stand(units);
  const task = new LengthTask(
    job,
    shot,
    measuring,
    () => null,
    () => barMm,
  );
  task.measureBy('rectangle');
  task.byFrame();
  expect([task.corners.first, task.corners.second]).toEqual([first, second]);
});
