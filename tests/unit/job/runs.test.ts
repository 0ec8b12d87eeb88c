import { describe, expect, it, test } from 'vitest';
import { project } from '#lib/job/project.ts';
import { PROOF_RULES } from '#lib/job/proof-rules.ts';
import { lastMaterials, nextCoat, runFor, stopDrafts } from '#lib/job/runs.ts';
import { chain, type Said } from '../../fixtures/log.ts';

const run = (step: string, more: object = {}): Said => ({
  id: 'run',
  kind: 'run-start',
  at: '09:00',
  data: { step, surfaces: ['floor'], ...more },
});
const limit: Said = {
  kind: 'limit',
  data: { limit: 'l', what: 'walk-on', min: '4', max: null, unit: 'h', source: { kind: 'data-sheet', text: 'p. 2' } },
};

describe('the end of a run', () => {
  const ends = (step: string, at: string) => {
    const { state } = project(chain('phone-a', [limit, run(step)]));
    return stopDrafts(state, state.runs[0]!, at).map(({ kind, data }) =>
      'end' in data ? `${kind} ${String(data.end)}` : `${kind} ${'readyUtc' in data ? String(data.readyUtc) : ''}`,
    );
  };
  test.each([
    [
      'touched in time, with the wait it begins',
      'bond-sheets',
      '2026-03-02T12:00:00.000Z',
      ['run-stop touched', 'wait 2026-03-02T16:00:00.000Z'],
    ],
    [
      'forgotten over night: its wait counts from when somebody noticed',
      'bond-sheets',
      '2026-03-03T07:00:00.000Z',
      ['run-stop about', 'wait 2026-03-03T11:00:00.000Z'],
    ],
    ['water that stood for a day', 'flood-test', '2026-03-03T09:00:00.000Z', ['run-stop touched']],
  ])('%s', (_, step, at, expected) => expect(ends(step, at)).toEqual(expected));
});

test.each([
  ['the first on these surfaces', [run('liquid-coat', { surfaces: ['north'], coat: 1 })], 1],
  ['after the first', [run('liquid-coat', { coat: 1 })], 2],
  ['after one that counted no coats', [run('liquid-coat')], 2],
  ['no further than twenty', [run('liquid-coat', { coat: 20 })], 20],
])('the next coat: %s', (_, said, coat) => expect(nextCoat(project(chain('phone-a', said)).state, ['floor'])).toBe(coat));

it('has the lots of the last run of a step in hand again', () => {
  const { state } = project(chain('phone-a', [run('bond-sheets', { materials: ['m1', 'm2'] }), { ...run('bond-sheets'), id: 'later' }]));
  expect(lastMaterials(state, 'bond-sheets')).toEqual(['m1', 'm2']);
  expect(lastMaterials(state, 'liquid-coat')).toEqual([]);
});

describe('the run that what is owed is given in', () => {
  const surfaces = [{ surface: 'floor', name: 'floor', place: 'floor', system: 'sheet-and-liquid' } as const];
  const given = (id: string, coat: number | null, ...runs: Said[]) => {
    const rule = PROOF_RULES.find((one) => one.id === id)!;
    return runFor({ rule, coat, surfaces }, project(chain('phone-a', runs)).state.runs)?.step ?? null;
  };
  test.each<[why: string, owed: string, coat: number | null, runs: Said[], step: string | null]>([
    ['of its step', 'banded', null, [run('band-seams')], 'band-seams'],
    ['a photo that says what it shows, in another step of the layer', 'corner', null, [run('band-seams')], 'band-seams'],
    ['its own step before another', 'corner', null, [{ ...run('corners'), id: 'own' }, run('band-seams')], 'corners'],
    ['another step of the layer, elsewhere', 'corner', null, [run('band-seams', { surfaces: ['north'] })], null],
    ['another layer', 'corner', null, [run('liquid-coat')], null],
    ['an overview is of its own step', 'banded', null, [run('corners')], null],
    ['a reading is of its own step', 'band-lap', null, [run('corners')], null],
    ['another coat', 'coated', 2, [run('liquid-coat', { coat: 1 })], null],
  ])('%s', (_, owed, coat, runs, step) => expect(given(owed, coat, ...runs)).toBe(step));
});
