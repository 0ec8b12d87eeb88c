import { price, proofOwed, roomsOf, surfacesIn, type Owed } from '#lib/job/proof.ts';
import { PROOF_RULES } from '#lib/job/proof-rules.ts';
import { project } from '#lib/job/project.ts';
import { describe, expect, test } from 'vitest';
import { chain, type Said } from '../../fixtures/log.ts';
import { amend, fill, floodEnd, job, limit, notDone, OWN, reading, run, shot, surface, withdraw } from '../../fixtures/shower.ts';

const stateOf = (said: readonly Said[], other: readonly Said[] = []) => project([...chain('a', said), ...chain('b', other)]).state;
const itemsOf = (said: readonly Said[], other: readonly Said[] = []) => proofOwed(stateOf(said, other)).flatMap((layer) => layer.items);
const keys = (items: readonly Owed[]) => items.map(({ key }) => key).join(' ');
const by = (stand: Owed['stand'], said: readonly Said[], other: readonly Said[] = []) =>
  keys(itemsOf(said, other).filter((item) => item.stand === stand));
const shown = (said: readonly Said[], other: readonly Said[] = []) => by('shown', said, other);
const item = (key: string, said: readonly Said[], other: readonly Said[] = []) => itemsOf(said, other).find((one) => one.key === key);

const wall = surface('n', 'wall', 'sheet');
const floor = surface('f', 'floor', 'sheet');
const ROOM = [wall, floor];

describe('what is owed', () => {
  test.each<[what: string, said: Said[], owed: string]>([
    ['nothing without surfaces', [job()], ''],
    [
      'a sheet floor and wall, at core',
      ROOM,
      'front:no-room survey:no-room clean:no-room lap-shown:no-room overlap:f transfer:no-room bonded:no-room flange:f ' +
        'banded:no-room base-band:f drain:f corner:no-room collar:no-room band-lap:f ' +
        'plug:f filled:f line-after:f ceiling-before:f ceiling-after:f depth:f level-after:f flood-result:f whole:no-room checked:no-room',
    ],
    [
      'walls around a tub: no flood test, no drain',
      [wall],
      'front:no-room survey:no-room clean:no-room transfer:no-room bonded:no-room banded:no-room collar:no-room whole:no-room checked:no-room',
    ],
    ['a surface of a system that is not there', [surface('x', 'floor', 'own:gone')], ''],
    ['the walls of a tray', [surface('x', 'wall', 'tray')], 'front:no-room survey:no-room whole:no-room checked:no-room'],
    [
      'the crew’s own system',
      [OWN, surface('x', 'wall', 'own:ours')],
      'front:no-room survey:no-room clean:no-room transfer:no-room bonded:no-room banded:no-room collar:no-room coated:no-room:1 film-more:no-room:1 whole:no-room checked:no-room',
    ],
  ])('%s', (_, said, owed) => {
    expect(keys(itemsOf(said))).toBe(owed);
  });

  test('a dam corner is owed where a liner lies, and only there', () => {
    expect(keys(itemsOf([surface('c', 'curb', 'loose-liner')]))).toContain('dam-corner:c');
    expect(keys(itemsOf([surface('c', 'curb', 'sheet')]))).not.toContain('dam-corner');
  });

  test('each coat the sheet asks for is owed, and each the crew has begun on the surface', () => {
    const liquid = [surface('f', 'floor', 'liquid'), surface('n', 'wall', 'liquid')];
    const films = (said: Said[]) => keys(itemsOf([...liquid, ...said]).filter(({ rule }) => rule.id.startsWith('film')));
    expect(films([])).toBe('film:f:1 film-more:no-room:1');
    expect(films([limit('coats', '2', null, 'count')])).toBe('film:f:1 film:f:2 film-more:no-room:1 film-more:no-room:2');
    expect(films([limit('coats', null, '3', 'count')])).toBe('film:f:1 film-more:no-room:1');
    expect(films([limit('coats', '1.5', null, 'count')])).toBe('film:f:1 film:f:2 film-more:no-room:1 film-more:no-room:2');
    expect(films([run('liquid-coat', ['f'], { id: 'third', coat: 3 })])).toBe('film:f:1 film:f:2 film:f:3 film-more:no-room:1');
    expect(films([limit('coats', '99999999', null, 'count')]).split(' ')).toHaveLength(40);
  });
});

describe('rooms', () => {
  const two = [
    { kind: 'room', data: { room: 'up', name: 'Upstairs' } },
    { kind: 'room', data: { room: 'down', name: 'Downstairs' } },
    surface('f-up', 'floor', 'sheet', 'up'),
    surface('f-down', 'floor', 'sheet', 'down'),
  ];

  test('what is owed once a room is owed in each', () => {
    const owed = itemsOf(two);
    expect(keys(owed.filter(({ rule }) => rule.id === 'clean'))).toBe('clean:up clean:down');
    expect(owed.map(({ room }) => room.name)).toContain('Downstairs');
  });

  test('surfaces without a room, or of one that is not there, are in the job’s own', () => {
    const state = stateOf([job(), ...two, surface('x', 'wall', 'sheet'), surface('y', 'wall', 'sheet', 'gone')]);
    expect(roomsOf(state).map(({ name }) => name)).toEqual(['Upstairs', 'Downstairs', 'Hall bath']);
    expect(surfacesIn(roomsOf(state)[2]!, state).map((one) => one.surface)).toEqual(['x', 'y']);
    expect(roomsOf(stateOf(two))).toHaveLength(2);
  });

  test('a photo proves its own room, and a run on one room’s surfaces says which', () => {
    const said = [
      ...two,
      run('scrape', ['f-up']),
      shot('scrape'),
      run('bond-sheets', ['f-up', 'f-down']),
      shot('bond-sheets', { surfaces: ['f-down'] }),
      shot('bond-sheets'),
    ];
    expect(shown(said)).toBe('clean:up bonded:down');
  });

  test('the house is the same from every room', () => {
    expect(shown([...two, shot(null, { shows: ['front'] })])).toBe('front:up front:down');
    expect(shown([...two, shot(null, { shows: ['front'], surfaces: ['f-up'] })])).toBe('front:up');
    expect(shown([job('warranty'), ...two, shot(null, { material: 'm-1' })])).toBe('label:up label:down');
  });

  test('a survey of one room says nothing of the other', () => {
    const survey = { kind: 'survey', data: { surfaces: ['f-up'], result: 'accepted', drop: 'stays', found: '', told: '' } };
    expect(shown([...two, survey])).toBe('survey:up');
  });
});

describe('a photo', () => {
  test.each<[promise: string, said: Said[], shown: string]>([
    ['of its step is the overview', [run('scrape', []), shot('scrape', { surfaces: ['n'] })], 'clean:no-room'],
    ['of another step is not', [run('pre-cut', ['n']), shot('pre-cut', { surfaces: ['n'] })], ''],
    ['in the tray proves nothing', [shot(null)], ''],
    ['of a watch proves nothing', [run('scrape', []), shot('scrape', { from: 'watch', surfaces: ['n'] })], ''],
    ['of a run on one surface', [run('scrape', ['n']), shot('scrape')], 'clean:no-room'],
    ['of a run on both, in a room', [run('scrape', []), shot('scrape')], 'clean:no-room'],
    [
      'that shows something else is no overview',
      [run('bond-sheets', []), shot('bond-sheets', { surfaces: ['f'], shows: ['flange'] })],
      'flange:f',
    ],
    ['of a label is no overview', [run('bond-sheets', []), shot('bond-sheets', { surfaces: ['f'], material: 'm-1' })], ''],
    [
      'answers several items, of several steps',
      [shot(null, { surfaces: ['f'], shows: ['flange', 'base-band', 'banded', 'clean'] })],
      'clean:no-room flange:f banded:no-room base-band:f',
    ],
    ['that shows an item on a wall shows none on the floor', [shot(null, { surfaces: ['n'], shows: ['flange'] })], ''],
    ['that names no surface shows the only floor', [run('bond-sheets', []), shot('bond-sheets', { shows: ['flange'] })], 'flange:f'],
    ['of a run on the wall shows no floor', [run('bond-sheets', ['n']), shot('bond-sheets', { surfaces: [], shows: ['flange'] })], ''],
    ['of two floors names neither', [surface('g', 'floor', 'sheet'), shot(null, { shows: ['flange'] })], ''],
    ['that shows a rule nobody knows', [shot(null, { surfaces: ['f'], shows: ['halo'] })], ''],
  ])('%s', (_, said, expected) => {
    expect(shown([...ROOM, ...said])).toBe(expected);
  });

  test('a tag answers for many at once, and takes back what the photo showed before', () => {
    const tag = (step: string | null, shows: string[], surfaces = ['f']): Said => ({
      kind: 'tag',
      refs: ['p', 'q'],
      data: { shots: ['p', 'q'], run: null, step, surfaces, shows },
    });
    const photos = [...ROOM, shot(null, {}, 'p'), shot(null, { from: 'watch' }, 'q')];
    expect(shown([...photos, tag('scrape', [])])).toBe('clean:no-room');
    expect(shown([...photos, tag('scrape', []), tag('bond-sheets', ['flange', 'transfer'])])).toBe('transfer:no-room flange:f');
    expect(item('clean:no-room', [...photos, tag('scrape', [])])!.shot!.id).toBe('q');
  });

  test('each coat has its own overview; a run that counts none is the first', () => {
    const coats = [
      surface('f', 'floor', 'liquid'),
      limit('coats', '2', null, 'count'),
      run('liquid-coat', ['f'], { id: 'c1' }),
      run('liquid-coat', ['f'], { id: 'c2', coat: 2 }),
    ];
    expect(shown([...coats, shot('c1')])).toBe('coated:no-room:1');
    expect(shown([...coats, shot('c2')])).toBe('coated:no-room:2');
  });

  test('at warranty each surface owes its own overview', () => {
    const said = [job('warranty'), ...ROOM, run('scrape', []), shot('scrape', { surfaces: ['n'] })];
    expect([shown(said), item('clean:f', said)!.stand]).toEqual(['clean:n', 'owed']);
    // A photo of a run on both, which does not say which, proves neither.
    expect(shown([job('warranty'), ...ROOM, run('scrape', []), shot('scrape')])).toBe('');
  });
});

describe('a reading', () => {
  const lap = (value: string, id: string): Said => ({ ...reading('pre-cut', 'overlap', 'f', value), id });
  const cut = [...ROOM, limit('overlap', '2', null, 'in'), run('pre-cut', ['f'])];

  test('the latest answers, whatever its verdict, judged by the limit as it is now', () => {
    const overlap = (more: Said[]) => item('overlap:f', [...cut, lap('1.9375', 'r'), lap('2.5', 's'), ...more])!;
    expect([overlap([]).stand, overlap([]).reading?.said.value, overlap([]).reading?.judged.verdict]).toEqual(['shown', '2.5', 'within']);
    expect(overlap([limit('overlap', '3', null, 'in')]).reading?.judged).toMatchObject({ verdict: 'outside', limit: { min: '3' } });
    expect(overlap([withdraw('s')]).reading?.said.value).toBe('1.9375');
  });

  test.each<[promise: string, said: Said[], shown: string]>([
    ['of another measure', [run('pre-cut', ['f']), reading('pre-cut', 'upturn', 'f')], ''],
    ['of another surface', [run('pre-cut', []), reading('pre-cut', 'overlap', 'n')], ''],
    ['that names no surface, of a run on two', [run('pre-cut', []), reading('pre-cut', 'overlap', null)], ''],
    ['of a run on one surface', [run('pre-cut', ['f']), reading('pre-cut', 'overlap', null)], 'overlap:f'],
    ['taken outside any run', [reading(null, 'overlap', 'f')], 'overlap:f'],
    ['taken in the repair that mends it', [run('repair', ['f']), reading('repair', 'overlap', 'f')], 'overlap:f'],
    ['of another step', [run('band-seams', ['f']), reading('band-seams', 'overlap', 'f')], ''],
  ])('%s', (_, said, expected) => {
    expect(shown([...ROOM, ...said])).toBe(expected);
  });

  test('two amendments of it cross: it proves nothing until somebody decides', () => {
    const a = [...cut, lap('2', 'r'), amend('r', lap('3', 'r').data!, [], 'one')];
    const b = [amend('r', lap('4', 'r').data!, [], 'two')];
    expect(item('overlap:f', a, b)).toMatchObject({ stand: 'owed', reading: { open: true, said: { value: '2' } } });
    expect(item('overlap:f', [...a, amend('r', lap('4', 'r').data!, ['one', 'two'])], b)).toMatchObject({
      stand: 'shown',
      reading: { said: { value: '4' } },
    });
  });

  test('a contested reading beside a plain one takes nothing from it', () => {
    expect(
      item('overlap:f', [...cut, lap('2', 'q'), lap('2', 'r'), amend('r', lap('3', 'r').data!), amend('r', lap('4', 'r').data!)])!.stand,
    ).toBe('shown');
  });

  test('full takes film in three places, and the price counts each', () => {
    const film = (n: number, level: 'warranty' | 'full') =>
      item('film:f:1', [
        job(level),
        surface('f', 'floor', 'liquid'),
        run('liquid-coat', ['f']),
        ...Array.from({ length: n }, () => reading('liquid-coat', 'wet-film', 'f', '30', 'mil')),
      ])!;
    expect([film(1, 'warranty'), film(2, 'full'), film(3, 'full')].map(({ stand, times }) => [stand, times])).toEqual([
      ['shown', 1],
      ['owed', 3],
      ['shown', 3],
    ]);
    const readings = (level: 'warranty' | 'full') => price(proofOwed(stateOf([job(level), surface('f', 'floor', 'liquid')]))).readings;
    expect([readings('warranty'), readings('full')]).toEqual([6, 9]);
  });
});

describe('left out on purpose', () => {
  test.each<[promise: string, said: Said, notDone: string, covered: string]>([
    ['a whole step', notDone('scrape'), 'clean:no-room', ''],
    ['a step on one surface leaves the room’s item owed', notDone('scrape', ['n']), '', ''],
    ['a step on all surfaces', notDone('scrape', ['n', 'f']), 'clean:no-room', ''],
    ['a step on the floor', notDone('bond-sheets', ['f']), 'flange:f', ''],
    ['single items', notDone('bond-sheets', [], { items: ['flange:f', 'base-band:f'] }), 'flange:f base-band:f', ''],
    ['covered all the same', notDone('bond-sheets', [], { items: ['flange:f'], covered: true }), '', 'flange:f'],
    ['an item nobody owes', notDone('bond-sheets', [], { items: ['flange:gone'] }), '', ''],
  ])('%s', (_, said, out, covered) => {
    expect([by('not-done', [...ROOM, said]), by('covered', [...ROOM, said]), shown([...ROOM, said])]).toEqual([out, covered, '']);
  });

  test('a layer counts it apart from what is shown, and owes nothing once both are all it has', () => {
    const [front, survey] = [
      shot(null, { shows: ['front'] }),
      { kind: 'survey', data: { surfaces: [], result: 'accepted', drop: 'stays', found: '', told: '' } },
    ];
    const counts = (said: Said[]) => {
      const { shown, leftOut, items, stand } = proofOwed(stateOf([...ROOM, ...said]))[0]!;
      return [shown, leftOut, items.length, stand];
    };
    expect(counts([run('scrape', []), front])).toEqual([1, 0, 3, 'owed']);
    expect(counts([run('scrape', []), front, survey])).toEqual([2, 0, 3, 'owed']);
    expect(counts([run('scrape', []), front, survey, notDone('scrape')])).toEqual([2, 1, 3, 'shown']);
    expect(counts([run('scrape', []), front, survey, notDone('scrape', [], { covered: true })])).toEqual([2, 1, 3, 'shown']);
    expect(counts([notDone('scrape')])).toEqual([0, 1, 3, 'not-begun']);
  });

  test('what is shown after all is shown, and what is taken back is owed again', () => {
    const left = [...ROOM, notDone('scrape', [], {}, 'left')];
    expect(item('clean:no-room', [...left, run('scrape', []), shot('scrape')])).toMatchObject({ stand: 'shown', notDone: null });
    expect(item('clean:no-room', [...left, withdraw('left')])!.stand).toBe('owed');
    expect(item('clean:no-room', left)!.notDone!.data.reason).toBe('no-time');
  });

  test('a contested one leaves nothing out', () => {
    const other = { ...notDone('scrape').data!, reason: 'phone' };
    expect(item('clean:no-room', [...ROOM, notDone('scrape', [], {}, 'left'), amend('left', other), amend('left', other)])!.stand).toBe(
      'owed',
    );
  });
});

describe('what people state', () => {
  const survey = (result: string, surfaces: string[] = []): Said => ({
    kind: 'survey',
    data: { surfaces, result, drop: 'stays', found: '', told: '' },
  });
  const check = (good: boolean, surfaces: string[] = []): Said => ({
    kind: 'tile-check',
    data: { surfaces, whole: good, dry: true, undamaged: true, words: '' },
  });
  test.each<[promise: string, said: Said[], shown: string]>([
    ['a substrate accepted', [survey('accepted')], 'survey:no-room'],
    ['accepted with reservation', [survey('with-reservation', ['n'])], 'survey:no-room'],
    ['refused', [survey('refused')], ''],
    ['refused, made good, accepted', [survey('refused'), survey('accepted')], 'survey:no-room'],
    ['accepted on the wall, refused on the floor', [survey('refused', ['f']), survey('accepted', ['n'])], ''],
    ['a check that finds all well', [check(true)], 'checked:no-room'],
    ['a check that finds a cut', [check(true), check(false, ['n'])], ''],
    ['mended and checked again', [check(false, ['n']), check(true)], 'checked:no-room'],
    ['checked again elsewhere', [check(false, ['n']), check(true, ['f'])], ''],
  ])('%s', (_, said, expected) => {
    expect(shown([...ROOM, ...said])).toBe(expected);
  });

  test('a contested check says no', () => {
    const bad = { ...check(true).data!, whole: false };
    expect(shown([...ROOM, { ...check(true), id: 'c' }, amend('c', bad), amend('c', check(true).data!)])).toBe('');
  });
});

describe('the flood test', () => {
  const flood = (said: readonly Said[], other: readonly Said[] = []) => shown([floor, ...said], other);
  test.each<[promise: string, said: Said[], shown: string]>([
    ['passed', [fill('one'), floodEnd('one', 'passed')], 'flood-result:f'],
    ['failed', [fill('one'), floodEnd('one', 'failed')], ''],
    ['void', [fill('one'), floodEnd('one', 'void')], ''],
    ['still standing', [fill('one')], ''],
    ['failed, then passed', [fill('one'), floodEnd('one', 'failed'), fill('two'), floodEnd('two', 'passed')], 'flood-result:f'],
    ['passed, then filled again', [fill('one'), floodEnd('one', 'passed'), fill('two')], ''],
    ['passed, then failed', [fill('one'), floodEnd('one', 'passed'), fill('two'), floodEnd('two', 'failed')], ''],
    ['an end of an attempt nobody began', [floodEnd('gone', 'passed')], ''],
    ['another floor under water', [surface('g', 'floor', 'sheet'), fill('one', ['g']), floodEnd('one', 'passed')], 'flood-result:g'],
    ['said passed by one and failed by another', [fill('one'), floodEnd('one', 'passed'), floodEnd('one', 'failed')], ''],
    ['passed, and that taken back', [fill('one'), floodEnd('one', 'passed', 'end'), withdraw('end')], ''],
    ['the second attempt taken back', [fill('one'), floodEnd('one', 'passed'), fill('two'), withdraw('two')], 'flood-result:f'],
  ])('%s', (_, said, expected) => {
    expect(flood(said)).toBe(expected);
  });

  test('a contested end proves nothing', () => {
    const end = (result: string) => ({ attempt: 'one', result, words: '' });
    expect(flood([fill('one'), floodEnd('one', 'passed', 'end'), amend('end', end('passed'))], [amend('end', end('failed'))])).toBe('');
  });

  test('what was photographed and measured of a failed attempt proves nothing of the next', () => {
    const proof = (attempt: string) => [
      shot('flood-test', { surfaces: ['f'], shows: ['plug', 'ceiling-before'] }),
      fill(attempt),
      shot('flood-test', { surfaces: ['f'] }),
      reading('flood-test', 'flood-depth', 'f', '2', 'in', { attempt }),
      reading('flood-test', 'flood-level', 'f', '2', 'in', { attempt }),
      shot('flood-test', { surfaces: ['f'], shows: ['line-after', 'ceiling-after'] }),
    ];
    const all = 'plug:f filled:f line-after:f ceiling-before:f ceiling-after:f depth:f level-after:f';
    const first = [run('flood-test', ['f']), ...proof('one')];
    expect(flood(first)).toBe(all);
    expect(flood([...first, floodEnd('one', 'failed')])).toBe('');
    expect(flood([...first, floodEnd('one', 'failed'), ...proof('two'), floodEnd('two', 'passed')])).toBe(`${all} flood-result:f`);
  });

  test('the control pan beside it is not the floor', () => {
    const level = (water: 'test' | 'control') =>
      flood([run('flood-test', ['f']), fill('one'), reading('flood-test', 'flood-level', 'f', '2', 'in', { water })]);
    expect([level('control'), level('test')]).toEqual(['', 'level-after:f']);
  });
});

describe('rules of the crew’s own', () => {
  const rule = (want: string, places: string[], step = 'band-seams'): Said => ({
    kind: 'own-rule',
    data: { rule: 'sill', step, want, places, name: 'Sill', reason: 'it leaked once' },
  });
  test.each<[promise: string, said: Said[], owed: string, shown: string]>([
    ['a photo on each wall', [rule('shot', ['wall'])], 'own-sill:n', ''],
    ['answered by its name', [rule('shot', ['wall']), shot(null, { surfaces: ['n'], shows: ['own-sill'] })], 'own-sill:n', 'own-sill:n'],
    [
      'not by just any photo of the step',
      [rule('shot', ['wall']), run('band-seams', ['n']), shot('band-seams')],
      'own-sill:n',
      'banded:no-room',
    ],
    ['a reading', [rule('upturn', ['floor']), run('band-seams', ['f']), reading('band-seams', 'upturn', 'f')], 'own-sill:f', 'own-sill:f'],
    ['where no surface has the step', [rule('shot', ['wall'], 'set-tray')], '', ''],
    ['of a step that has no layer', [rule('shot', ['wall'], 'repair')], '', ''],
    ['taken back', [{ ...rule('shot', ['wall']), id: 'r' }, withdraw('r')], '', ''],
  ])('%s', (_, said, owed, expected) => {
    const items = itemsOf([...ROOM, ...said]);
    expect([keys(items.filter(({ rule: one }) => one.id === 'own-sill')), shown([...ROOM, ...said])]).toEqual([owed, expected]);
  });

  test('its reason is in the crew’s own words', () => {
    expect(item('own-sill:n', [...ROOM, rule('shot', ['wall'])])!.rule).toMatchObject({ reason: 'it leaked once', layer: 'bands' });
  });
});

test('a layer the crew worked on without owing it is named, and owes nothing', () => {
  const layers = proofOwed(stateOf([wall, run('liquid-coat', ['n'])]));
  expect(layers.map(({ layer, items, stand, running }) => [layer, items.length, stand, running.length])).toEqual([
    ['substrate', 3, 'not-begun', 0],
    ['sheets', 2, 'not-begun', 0],
    ['bands', 2, 'not-begun', 0],
    ['coat', 0, 'shown', 1],
    ['protect', 2, 'not-begun', 0],
  ]);
});

test('a run that was stopped no longer runs, and its layer stays begun', () => {
  const layers = proofOwed(stateOf([wall, run('scrape', ['n']), { kind: 'run-stop', run: 'scrape', data: { end: 'touched' } }]));
  expect([layers[0]!.stand, layers[0]!.running]).toEqual(['owed', []]);
});

test('every rule can be owed and shown: what it wants exists, and answers it', () => {
  const surfaces = (['sheet', 'liquid', 'loose-liner', 'tray'] as const).flatMap((system) =>
    (['wall', 'floor', 'curb', 'bench', 'niche'] as const).map((place) => surface(`${place}-${system}`, place, system)),
  );
  const all = [job('full'), ...surfaces];
  const facts: Said[] = [
    fill('one'),
    floodEnd('one', 'passed'),
    { kind: 'survey', data: { surfaces: [], result: 'accepted', drop: 'stays', found: '', told: '' } },
    { kind: 'conditions', data: {} },
    { kind: 'protect', data: { surfaces: [], how: 'boards' } },
    { kind: 'tile-check', data: { surfaces: [], whole: true, dry: true, undamaged: true, words: '' } },
  ];
  const answers = itemsOf(all).flatMap(({ rule, surface: on, times }): Said[] => {
    if ('shot' in rule.want) return [shot(null, { surfaces: [on.surface], shows: [rule.id] })];
    const { want } = rule;
    return 'reading' in want ? Array.from({ length: times }, () => reading(null, want.reading, on.surface)) : [];
  });
  const items = itemsOf([...all, ...facts, ...answers]);
  expect(items.filter(({ stand }) => stand !== 'shown').map(({ key }) => key)).toEqual([]);
  expect(new Set(items.map(({ rule }) => rule.id))).toEqual(new Set(PROOF_RULES.map(({ id }) => id)));
});
