import { expect, test } from 'vitest';
import { nextSteps, standOn } from '#lib/job/next-steps.ts';
import { project } from '#lib/job/project.ts';
import { waits } from '#lib/job/waits.ts';
import type { Step } from '#lib/record/kinds/setup.ts';
import { chain, type Said } from '../../fixtures/log.ts';

const surface = (id: string, place: string, system = 'sheet-and-liquid'): Said => ({
  kind: 'surface',
  data: { surface: id, name: id, place, system },
});
const run = (step: string, surfaces: string[], coat?: number): Said => ({
  kind: 'run-start',
  data: { step, surfaces, ...(coat === undefined ? {} : { coat }) },
});
const coats: Said = {
  kind: 'limit',
  data: { limit: 'c', what: 'coats', min: '2', max: null, unit: 'count', source: { kind: 'data-sheet', text: 'p. 3' } },
};
const wait: Said = {
  kind: 'wait',
  data: {
    what: 'walk-on',
    surfaces: ['floor'],
    fromUtc: '2026-03-02T09:00:00.000Z',
    readyUtc: '2026-03-02T13:00:00.000Z',
    latestUtc: null,
    limit: 'l',
  },
};
const ROOM = [surface('north', 'wall'), surface('floor', 'floor')];

test.each<[string, Said[], string[]]>([
  ['nothing begun', ROOM, ['scrape north floor']],
  ['the floor goes ahead of the wall', [...ROOM, run('scrape', []), run('pre-cut', ['floor'])], ['pre-cut north', 'bond-sheets floor']],
  ['a cured-for floor is held, the wall is free', [...ROOM, run('bond-sheets', []), wait], ['band-seams north floor held']],
  ['a coat again until both are on', [...ROOM, coats, run('liquid-coat', ['north'], 1)], ['scrape floor', 'liquid-coat north']],
  [
    'bands after corner pieces that went on first',
    [...ROOM, run('scrape', ['north']), run('corners', ['floor'])],
    ['pre-cut north', 'band-seams floor'],
  ],
  ['then what comes after', [...ROOM, coats, run('liquid-coat', [], 1), run('liquid-coat', [], 2)], ['flood-test floor', 'protect north']],
  ['everything begun', [surface('north', 'wall'), run('check', [])], []],
])('%s', (_, said, expected) => {
  const state = project(chain('phone-a', said)).state;
  const next = nextSteps(state, waits(state, Date.parse('2026-03-02T10:00:00.000Z')));
  expect(
    next.map(({ step, surfaces, held }) => [step, ...surfaces.map((one) => one.name), ...(held.length > 0 ? ['held'] : [])].join(' ')),
  ).toEqual(expected);
});

const stop = (of: string): Said => ({ kind: 'run-stop', run: of, data: { end: 'touched' } });
const done = (id: string, step: string, on: string[], coat?: number): Said[] => [{ ...run(step, on, coat), id }, stop(id)];
test.each<[string, Said[], step: Step, stands: string]>([
  ['nothing begun', [], 'bond-sheets', 'to-do to-do'],
  ['the wall is bonded', done('r', 'bond-sheets', ['north']), 'bond-sheets', 'done to-do'],
  ['all are', done('r', 'bond-sheets', []), 'bond-sheets', 'done done'],
  ['another step is done', done('r', 'bond-sheets', []), 'band-seams', 'to-do to-do'],
  ['the floor is being bonded', [run('bond-sheets', ['floor'])], 'bond-sheets', 'to-do running'],
  ['one coat of two', [coats, ...done('r', 'liquid-coat', [], 1)], 'liquid-coat', 'to-do to-do'],
  ['both on the wall', [coats, ...done('r', 'liquid-coat', [], 1), ...done('s', 'liquid-coat', ['north'], 2)], 'liquid-coat', 'done to-do'],
  ['what was mended may be mended again', done('r', 'repair', []), 'repair', 'to-do to-do'],
])('how far the wall and the floor are: %s', (_, said, step, stands) => {
  const { state } = project(chain('a', [...ROOM, ...said]));
  expect(state.surfaces.map((surface) => standOn(state, surface, step)).join(' ')).toBe(stands);
});
