import { project } from '#lib/job/project.ts';
import { clearToCover, proofOwed } from '#lib/job/proof.ts';
import { PROOF_RULES, SYSTEM_LAYERS, type Place, type System } from '#lib/job/systems.ts';
import { STEPS, type Step } from '#lib/record/kinds.ts';
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { chain, type Said } from '../../fixtures/log.ts';

type SurfaceRow = [surface: string, place: Place, system: System];
const surfaces = (rows: readonly SurfaceRow[]): Said[] => rows.map(([surface, place, system]) => ({ kind: 'surface', data: { surface, name: surface, place, system } }));
const run = (step: Step, on: string[]): Said => ({ kind: 'run-start', id: `run-${step}`, data: { step, surfaces: on } });
const shot = (step: Step, surface: string): Said => ({
  kind: 'shot',
  run: `run-${step}`,
  data: { picture: { sha256: 'a'.repeat(64), bytes: 9, type: 'image/jpeg' }, from: 'viewfinder', surface },
});
const reading = (step: Step, what: string, surface: string, value = '3', unit = 'in'): Said => ({
  kind: 'reading',
  run: `run-${step}`,
  data: { what, surface, said: { text: value, value, unit }, how: 'tape' },
});
const limit = (what: string, min: string): Said => ({ kind: 'limit', data: { limit: what, what, min, max: null, unit: 'in', source: { kind: 'crew', text: 'ours' } } });

const layersOf = (said: readonly Said[]) => proofOwed(project(chain('a', said)).state);
const coverOf = (said: readonly Said[]) => clearToCover(layersOf(said));
const keys = (items: readonly { key: string }[]) => items.map(({ key }) => key).join(' ');

const ROOM = (system: System): SurfaceRow[] => [['north', 'wall', system], ['floor', 'floor', system], ['curb', 'curb', system]];

// Counted by hand from what each step of a system hides: layer, and the items it owes.
test.each<[what: string, rows: SurfaceRow[], owed: string]>([
  ['nothing', [], ''],
  ['a sheet room', ROOM('sheet'), 'substrate 3, sheets 6, bands 6, flood 2'],
  ['a liquid room', ROOM('liquid'), 'substrate 3, bands 6, coat 6, flood 2'],
  ['sheet and liquid', ROOM('sheet-and-liquid'), 'substrate 3, sheets 6, bands 6, coat 6, flood 2'],
  ['sheet floor, liquid walls', [['n', 'wall', 'liquid'], ['e', 'wall', 'liquid'], ['f', 'floor', 'sheet']], 'substrate 3, sheets 2, bands 6, coat 4, flood 2'],
  ['a liquid floor by itself', [['f', 'floor', 'liquid']], 'substrate 1, bands 2, coat 2, flood 2'],
  ['walls around a tub: no flood test', [['n', 'wall', 'sheet'], ['e', 'wall', 'sheet'], ['w', 'wall', 'sheet']], 'substrate 3, sheets 6, bands 6'],
  ['a curb by itself', [['c', 'curb', 'liquid']], 'substrate 1, bands 2, coat 2'],
])('%s', (_, rows, owed) => {
  const layers = layersOf(surfaces(rows));
  expect(layers.map(({ layer, items }) => `${layer} ${items.length}`).join(', ')).toBe(owed);
  expect(layers.every(({ stand, shown, running }) => stand === 'not-begun' && shown === 0 && running.length === 0)).toBe(true);
});

test('each item by name, layer by layer, rule by rule', () => {
  expect(layersOf(surfaces(ROOM('sheet').slice(0, 2))).map(({ items }) => keys(items))).toEqual([
    'clean:north clean:floor',
    'overlap:north overlap:floor bonded:north bonded:floor',
    'banded:north banded:floor band-lap:north band-lap:floor',
    'filled:floor level:floor',
  ]);
});

test.each<[promise: string, said: Said[], shown: string, stand: string]>([
  ['a run begins its layer', [run('scrape', ['north', 'floor'])], '', 'owed'],
  ['a shot of its step on its surface answers', [run('scrape', []), shot('scrape', 'north')], 'clean:north', 'owed'],
  ['all shown', [run('scrape', []), shot('scrape', 'north'), shot('scrape', 'floor')], 'clean:north clean:floor', 'shown'],
  ['a shot of another step does not answer', [run('scrape', []), run('pre-cut', []), shot('pre-cut', 'north')], '', 'owed'],
  ['a shot without a surface does not answer', [run('scrape', ['north', 'floor']), { ...shot('scrape', 'x'), data: { ...shot('scrape', 'x').data, surface: null } }], '', 'owed'],
  ['a shot in the tray does not answer, nor begin', [{ kind: 'shot', data: shot('scrape', 'north').data! }], '', 'not-begun'],
])('substrate: %s', (_, said, shown, stand) => {
  const [substrate] = layersOf([...surfaces(ROOM('sheet').slice(0, 2)), ...said]);
  expect([keys(substrate!.items.filter((item) => item.shown)), substrate!.stand]).toEqual([shown, stand]);
});

test('the latest reading answers, whatever its verdict, judged by the limit as it is now', () => {
  const said = [...surfaces([['n', 'wall', 'sheet']]), limit('overlap', '2'), run('pre-cut', ['n']), reading('pre-cut', 'overlap', 'n', '1.9375'), reading('pre-cut', 'overlap', 'n', '2.5')];
  const overlap = (more: Said[]) => layersOf([...said, ...more])[1]!.items[0]!;
  expect([overlap([]).shown, overlap([]).reading?.said.value, overlap([]).reading?.judged.verdict]).toEqual([true, '2.5', 'within']);
  expect(overlap([limit('overlap', '3')]).reading?.judged).toMatchObject({ verdict: 'outside', limit: { min: '3' } });
  expect(overlap([reading('pre-cut', 'band-lap', 'n')]).reading?.said.value).toBe('2.5');
});

test('a layer the crew worked on without owing it is named, and owes nothing', () => {
  const layers = layersOf([...surfaces([['n', 'wall', 'sheet']]), run('liquid-coat', ['n'])]);
  expect(layers.map(({ layer, items, stand, running }) => [layer, items.length, stand, running.length])).toEqual([
    ['substrate', 1, 'not-begun', 0],
    ['sheets', 2, 'not-begun', 0],
    ['bands', 2, 'not-begun', 0],
    ['coat', 0, 'shown', 1],
  ]);
});

const MIXED: SurfaceRow[] = [['n', 'wall', 'sheet'], ['f', 'floor', 'liquid']];
test.each<[promise: string, said: Said[], layer: string | null, clear: boolean, missing: string]>([
  ['before anything is begun', [], 'substrate', false, ''],
  ['a layer with gaps', [run('scrape', []), shot('scrape', 'n')], 'substrate', false, 'clean:f'],
  ['a layer all shown', [run('scrape', []), shot('scrape', 'n'), shot('scrape', 'f')], 'substrate', true, ''],
  ['a gap lower down', [run('scrape', []), shot('scrape', 'n'), run('pre-cut', ['n']), reading('pre-cut', 'overlap', 'n'), run('bond-sheets', []), shot('bond-sheets', 'n')], 'sheets', false, 'clean:f'],
  // The coat goes on the floor: what was skipped under it counts there, and not on the wall, where nothing is covered.
  ['layers skipped under one begun', [run('liquid-coat', ['f']), shot('liquid-coat', 'f'), reading('liquid-coat', 'wet-film', 'f', '30', 'mil')], 'coat', false, 'clean:f banded:f band-lap:f'],
  ['a flood test before anything', [run('flood-test', ['f']), shot('flood-test', 'f'), reading('flood-test', 'flood-depth', 'f')], 'flood', false, 'clean:f banded:f band-lap:f coated:f film:f'],
])('clear to cover, %s', (_, said, layer, clear, missing) => {
  const cover = coverOf([...surfaces(MIXED), ...said]);
  expect([cover.layer, cover.clear, keys(cover.missing), cover.outside]).toEqual([layer, clear, missing, []]);
});

test('a job without surfaces is never clear', () => {
  expect(coverOf([])).toEqual({ layer: null, clear: false, missing: [], outside: [] });
});

test('a value outside its limit is named and does not count as missing', () => {
  const said = [...surfaces([['n', 'wall', 'sheet']]), limit('overlap', '2'), run('scrape', []), shot('scrape', 'n'), run('pre-cut', ['n']), reading('pre-cut', 'overlap', 'n', '1.5'), run('bond-sheets', []), shot('bond-sheets', 'n')];
  const cover = coverOf(said);
  expect([cover.clear, keys(cover.missing), keys(cover.outside)]).toEqual([true, '', 'overlap:n']);
});

test('on one surface: clear just when everything from the substrate to the last layer begun is shown', () => {
  const done = fc.subarray(PROOF_RULES.map(({ id }) => id));
  fc.assert(
    fc.property(fc.constantFrom<System>('sheet', 'liquid', 'sheet-and-liquid'), fc.subarray([...STEPS]), done, (system, steps, ids) => {
      const own = SYSTEM_LAYERS[system];
      const rules = PROOF_RULES.filter(({ layer }) => own.includes(layer));
      const begun = rules.filter(({ step }) => steps.includes(step));
      const answered = begun.filter(({ id }) => ids.includes(id));
      const top = Math.max(-1, ...begun.map(({ layer }) => own.indexOf(layer)));
      const missing = rules.filter((rule) => own.indexOf(rule.layer) <= top && !answered.includes(rule));
      const cover = coverOf([
        ...surfaces([['f', 'floor', system]]),
        ...steps.filter((step) => begun.some((rule) => rule.step === step)).map((step) => run(step, ['f'])),
        ...answered.map(({ step, want }) => ('reading' in want ? reading(step, want.reading, 'f') : shot(step, 'f'))),
      ]);
      expect(cover.missing.map(({ rule }) => rule)).toEqual(missing);
      expect(cover.clear).toBe(top >= 0 && missing.length === 0);
    }),
    { seed: 20260302, numRuns: 300 },
  );
});
