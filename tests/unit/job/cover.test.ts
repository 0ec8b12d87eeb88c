import { clearOn, clearToCover, onlyRunning, unresolved } from '#lib/job/cover.ts';
import { proofOwed } from '#lib/job/proof.ts';
import { project } from '#lib/job/project.ts';
import { describe, expect, test } from 'vitest';
import { chain, type Said } from '../../fixtures/log.ts';
import { ONE_OF_EACH } from '../../fixtures/one-of-each.ts';
import { amend, limit, notDone, OWN, reading, run, shot, surface, withdraw } from '../../fixtures/shower.ts';

/** With every run ended, unless they go on. */
function coverOf(said: readonly Said[], on: string | null = null, going = false) {
  const stops = said.flatMap(({ kind, id }): Said[] =>
    kind === 'run-start' ? [{ kind: 'run-stop', run: id!, data: { end: 'touched' } }] : [],
  );
  const { state } = project(chain('a', going ? said : [...said, ...stops]));
  const layers = proofOwed(state);
  return on === null
    ? clearToCover(layers, state)
    : clearOn(
        state.surfaces.find((one) => one.surface === on)!,
        layers,
        state,
      );
}
const keys = (cover: ReturnType<typeof coverOf>) => cover.missing.map(({ key }) => key).join(' ');
const brief = (cover: ReturnType<typeof coverOf>) => [cover.layer, cover.clear, keys(cover)];

const [wall, floor] = [surface('n', 'wall', 'liquid'), surface('f', 'floor', 'liquid')];
const SURVEY: Said = { kind: 'survey', data: { surfaces: [], result: 'accepted', drop: 'stays', found: '', told: '' } };
const SUBSTRATE = [run('scrape', []), shot('scrape'), shot(null, { shows: ['front'] }), SURVEY];
const BANDS = [
  run('band-seams', []),
  shot('band-seams'),
  shot('band-seams', { surfaces: ['f'], shows: ['base-band', 'drain', 'corner'] }),
  shot('band-seams', { surfaces: ['n'], shows: ['collar'] }),
  reading('band-seams', 'band-lap', 'f'),
];
const COAT = [
  run('liquid-coat', []),
  shot('liquid-coat'),
  reading('liquid-coat', 'wet-film', 'f', '30', 'mil'),
  reading('liquid-coat', 'wet-film', 'n', '30', 'mil'),
];

describe('clear to cover', () => {
  test.each<[promise: string, said: Said[], layer: string | null, clear: boolean, missing: string]>([
    ['before anything is begun', [], 'substrate', false, ''],
    ['a layer with gaps', [run('scrape', []), shot('scrape')], 'substrate', false, 'front:no-room survey:no-room'],
    ['a layer all shown', SUBSTRATE, 'substrate', true, ''],
    [
      'the next begun',
      [...SUBSTRATE, run('band-seams', [])],
      'bands',
      false,
      'banded:no-room base-band:f drain:f corner:no-room collar:no-room band-lap:f',
    ],
    ['three layers, all shown', [...SUBSTRATE, ...BANDS, ...COAT], 'coat', true, ''],
    ['a gap lower down', [...SUBSTRATE.slice(0, 2), ...BANDS, ...COAT], 'coat', false, 'front:no-room survey:no-room'],
    [
      'layers skipped under one begun',
      [...SUBSTRATE, ...COAT],
      'coat',
      false,
      'banded:no-room base-band:f drain:f corner:no-room collar:no-room band-lap:f',
    ],
    [
      'a layer that owes nothing here does not make skipped ones clear',
      [run('bond-sheets', [])],
      'sheets',
      false,
      'front:no-room survey:no-room clean:no-room',
    ],
    [
      'photos alone begin a layer',
      [shot(null, { surfaces: ['f'], shows: ['drain'] })],
      'bands',
      false,
      'front:no-room survey:no-room clean:no-room banded:no-room base-band:f corner:no-room collar:no-room band-lap:f',
    ],
    [
      'what is left out with a reason is no longer missing',
      [...SUBSTRATE, run('band-seams', []), notDone('band-seams'), notDone('corners')],
      'bands',
      true,
      '',
    ],
    [
      'nor what was covered with a reason',
      [...SUBSTRATE, notDone('band-seams', [], { covered: true }), notDone('corners'), ...COAT],
      'coat',
      true,
      '',
    ],
    ['a repair begins no layer', [run('repair', ['f'])], 'substrate', false, ''],
  ])('%s', (_, said, layer, clear, missing) => {
    expect(brief(coverOf([wall, floor, ...said]))).toEqual([layer, clear, missing]);
  });

  test('a job without surfaces is never clear', () => {
    expect(coverOf([])).toEqual({ layer: null, clear: false, missing: [], outside: [], misses: [], unruled: [], running: [] });
    expect(coverOf([run('scrape', [])])).toMatchObject({ layer: 'substrate', clear: false });
  });

  test('nor is one with a surface of a system the book does not hold: it cannot say what that owes', () => {
    const odd = surface('x', 'wall', 'own:ours');
    const said = [wall, floor, odd, ...SUBSTRATE];
    expect(coverOf(said)).toMatchObject({ clear: false, missing: [], unruled: [{ surface: 'x' }] });
    expect(coverOf(said, 'x')).toMatchObject({ clear: false, unruled: [{ surface: 'x' }] });
    expect(coverOf(said, 'n')).toMatchObject({ clear: true, unruled: [] });
    expect(coverOf([OWN, ...said]).clear).toBe(true);
  });
});

describe('a step that is going on', () => {
  const done: Said[] = [...SUBSTRATE, { kind: 'run-stop', run: 'scrape', data: { end: 'touched' } }];
  const again = (step: 'scrape' | 'repair', on: string) => [...done, run(step, [on], { id: 'again' })];
  test.each<[promise: string, said: Said[], on: string | null, clear: boolean, running: string]>([
    ['is not covered, though all is shown', SUBSTRATE, null, false, 'scrape'],
    ['nor on a surface that owes nothing more of it', again('scrape', 'n'), 'n', false, 'scrape'],
    ['holds up no other surface', again('scrape', 'n'), 'f', true, ''],
    ['and holds up the job', again('scrape', 'n'), null, false, 'scrape'],
    ['a repair too', again('repair', 'f'), 'f', false, 'repair'],
  ])('%s', (_, said, on, clear, running) => {
    const cover = coverOf([wall, floor, ...said], on, true);
    expect([cover.clear, cover.running.map(({ step }) => step).join(' '), onlyRunning(cover)]).toEqual([clear, running, !clear]);
  });

  test('is not all that is in the way while something is owed', () => {
    expect(onlyRunning(coverOf([wall, floor, ...SUBSTRATE.slice(0, 2)], null, true))).toBe(false);
  });
});

describe('on one surface', () => {
  const bench = surface('b', 'bench', 'liquid');
  test.each<[promise: string, said: Said[], on: string, layer: string | null, clear: boolean, missing: string]>([
    ['nothing begun', [], 'n', 'substrate', false, ''],
    ['shown for the room is shown for each', SUBSTRATE, 'n', 'substrate', true, ''],
    ['the floor owes its own', [...SUBSTRATE, ...BANDS.slice(0, 2)], 'f', 'bands', false, 'base-band:f drain:f corner:no-room band-lap:f'],
    ['the wall owes what the room owes', [...SUBSTRATE, ...BANDS.slice(0, 2)], 'n', 'bands', false, 'collar:no-room'],
    ['a run on the floor alone begins nothing on the wall', [...SUBSTRATE, run('band-seams', ['f'])], 'n', 'substrate', true, ''],
    [
      'and covers what is skipped under it on the floor',
      [run('liquid-coat', ['f'])],
      'f',
      'coat',
      false,
      'front:no-room survey:no-room clean:no-room banded:no-room base-band:f drain:f corner:no-room band-lap:f coated:no-room:1 film:f:1',
    ],
    [
      'a layer worked on without owing it covers those below',
      [run('bond-sheets', ['n'])],
      'n',
      'sheets',
      false,
      'front:no-room survey:no-room clean:no-room',
    ],
  ])('%s', (_, said, on, layer, clear, missing) => {
    expect(brief(coverOf([wall, floor, bench, ...said], on))).toEqual([layer, clear, missing]);
  });

  test('a value outside on the floor does not hold up the wall, and one that says no surface holds up both', () => {
    const off = (on: string | null) => [wall, floor, limit('band-lap', '2', null, 'in'), ...SUBSTRATE, reading(null, 'band-lap', on, '1')];
    const clear = (said: Said[]) => [coverOf(said, 'n').clear, coverOf(said, 'f').clear, coverOf(said).clear];
    expect(clear(off('curb'))).toEqual([true, true, false]);
    expect(clear(off(null))).toEqual([false, false, false]);
    expect(coverOf(off('f'), 'n').outside).toEqual([]);
    expect(coverOf(off('f'), 'f').outside).toHaveLength(1);
  });
});

describe('a value outside its limit', () => {
  const LAP = limit('band-lap', '2', null, 'in');
  const bad: Said = { ...reading('band-seams', 'band-lap', 'f', '1'), id: 'bad' };
  const again = (value: string, on = 'f'): Said => reading('repair', 'band-lap', on, value);
  const repair = (of: string[]): Said => ({ kind: 'repair', id: 'mend', refs: of, data: { surfaces: ['f'], what: 'patched', of } });
  const deviation = (against: string | null): Said => ({
    kind: 'deviation',
    id: 'own',
    refs: against === null ? [] : [against],
    data: { surfaces: ['f'], what: 'short', why: 'sheet too short', against, accepted: 'the owner' },
  });
  const REPAIR = run('repair', ['f']);
  test.each<[promise: string, said: Said[], open: number]>([
    ['is unresolved', [], 1],
    ['stays so beside a second reading that is within: every one counts', [again('3')], 1],
    ['is owned up to', [deviation('bad')], 0],
    ['is not, by a deviation about something else', [deviation(null)], 1],
    ['is not, once that is taken back', [deviation('bad'), withdraw('own')], 1],
    ['is mended and measured again', [repair(['bad']), REPAIR, again('3')], 0],
    ['is mended, not yet measured', [repair(['bad'])], 1],
    ['is mended and still outside: both count', [repair(['bad']), REPAIR, again('1.5')], 2],
    ['is mended and measured elsewhere', [repair(['bad']), REPAIR, again('3', 'n')], 1],
    ['something else was mended', [repair(['other']), REPAIR, again('3')], 1],
    ['its repair is taken back', [repair(['bad']), REPAIR, again('3'), withdraw('mend')], 1],
    ['is amended to what was meant', [amend('bad', { ...bad.data!, said: { text: '3', value: '3', unit: 'in' } })], 0],
    ['is withdrawn', [withdraw('bad')], 0],
    ['is within a limit set later', [limit('band-lap', '0.5', null, 'in')], 0],
    ['is outside of one of two limits', [{ kind: 'limit', data: { ...limit('band-lap', '0.5', null, 'in').data!, limit: 'other' } }], 1],
  ])('%s', (_, said, open) => {
    const all = [floor, LAP, run('band-seams', ['f']), bad, ...said];
    expect(unresolved(project(chain('a', all)).state)).toHaveLength(open);
    if (open > 0) expect(coverOf(all).clear).toBe(false);
  });

  test('stands in the way of a layer that shows all it owes', () => {
    const said = [wall, floor, LAP, ...SUBSTRATE, ...BANDS.slice(0, -1), bad];
    expect([coverOf(said).missing, coverOf(said).outside.map(({ id }) => id), coverOf(said).clear]).toEqual([[], ['bad'], false]);
    expect(coverOf([...said, deviation('bad')]).clear).toBe(true);
  });

  test('one that two people contest is no mending', () => {
    const fixed: Said = { ...again('3'), id: 'fixed' };
    const a = [floor, LAP, run('band-seams', ['f']), bad, repair(['bad']), REPAIR, fixed, amend('fixed', fixed.data!)];
    expect(unresolved(project([...chain('a', a), ...chain('b', [amend('fixed', fixed.data!)])]).state).map(({ id }) => id)).toEqual([
      'bad',
    ]);
  });
});

describe('misses of a coat in a photo', () => {
  const [bare, struck] = (ONE_OF_EACH.coverage as { misses: object[] }).misses;
  const seen = (misses: unknown[]): Said => ({
    kind: 'coverage',
    id: 'seen',
    data: { ...ONE_OF_EACH.coverage, surface: 'f', misses },
  });
  const mend = (of: string): Said => ({ kind: 'repair', data: { surfaces: ['f'], what: 'Rolled over', of: [of] } });
  const own: Said = { kind: 'deviation', data: { surfaces: ['f'], what: 'Left', why: '', against: 'seen', accepted: '' } };
  test.each<[what: string, said: Said[], open: string[]]>([
    ['stand in the way until they are mended', [seen([bare])], ['seen']],
    ['are closed by a repair that names them', [seen([bare]), mend('seen')], []],
    ['are not by one that names another entry', [seen([bare]), mend('else')], ['seen']],
    ['are owned up to in a deviation', [seen([bare]), own], []],
    ['struck out by the person are none', [seen([struck])], []],
    ['a photo without any has none', [seen([])], []],
  ])('%s', (_, said, open) => {
    const all = [wall, floor, ...SUBSTRATE, ...BANDS, ...COAT, ...said];
    const cover = coverOf(all);
    expect(cover.misses.map(({ id }) => id)).toEqual(open);
    expect(cover.clear).toBe(open.length === 0);
    expect(coverOf(all, 'f').misses).toHaveLength(open.length);
    expect(coverOf(all, 'n').misses).toEqual([]);
  });
});
