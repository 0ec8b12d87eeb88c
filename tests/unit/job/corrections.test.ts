import { standings } from '#lib/job/corrections.ts';
import { order } from '#lib/job/order.ts';
import { extend, EMPTY_PROJECTION, project } from '#lib/job/project.ts';
import type { Entry } from '#lib/record/entry.ts';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { ONE_OF_EACH } from '../../fixtures/one-of-each.ts';
import { chain, type Said } from '../../fixtures/log.ts';
import { amend, reading, run, shot, surface, withdraw } from '../../fixtures/shower.ts';

/** State and amendments of an entry, by its id. */
function standing(entries: readonly Entry[], id: string): [state: string, amendments: string] {
  const placed = order(entries).map(({ entry }) => entry);
  const [, one] = [...standings(placed)].find(([entry]) => entry.body.id === id)!;
  return [one.state, one.amendments.toSorted().join(' ')];
}

const lap = (value: string) => reading(null, 'overlap', 'n', value).data!;
/** A phone that wrote a reading `a-0`, and another that heard of it. */
const READ: Said = { kind: 'reading', data: lap('2') };
const shown = (entries: readonly Entry[]) =>
  project(entries)
    .state.readings.map(({ said, open }) => `${said.value}${open ? ' open' : ''}`)
    .join(', ');

describe('what stands of one reading', () => {
  test.each<[promise: string, a: Said[], b: Said[], standing: [string, string], shown: string]>([
    ['nothing said of it', [READ], [], ['stands', ''], '2'],
    ['amended', [READ, amend('a-0', lap('3'))], [], ['amended', 'a-1'], '3'],
    ['amended by another phone', [READ], [amend('a-0', lap('3'))], ['amended', 'b-0'], '3'],
    [
      'amended, then again knowing of the first',
      [READ, amend('a-0', lap('3')), amend('a-0', lap('4'), ['a-1'])],
      [],
      ['amended', 'a-2'],
      '4',
    ],
    // Two that do not know of each other: both are shown, neither counts, it says what it first said.
    [
      'amended by two who had not heard of each other',
      [READ, amend('a-0', lap('3'))],
      [amend('a-0', lap('4'))],
      ['open', 'a-1 b-0'],
      '2 open',
    ],
    ['even when both say the same', [READ, amend('a-0', lap('3'))], [amend('a-0', lap('3'))], ['open', 'a-1 b-0'], '2 open'],
    ['twice by one phone that forgot its first', [READ, amend('a-0', lap('3')), amend('a-0', lap('4'))], [], ['open', 'a-1 a-2'], '2 open'],
    [
      'until a third names both',
      [READ, amend('a-0', lap('3')), amend('a-0', lap('5'), ['a-1', 'b-0'])],
      [amend('a-0', lap('4'))],
      ['amended', 'a-2'],
      '5',
    ],
    [
      'a third that names one leaves two',
      [READ, amend('a-0', lap('3')), amend('a-0', lap('5'), ['a-1'])],
      [amend('a-0', lap('4'))],
      ['open', 'a-2 b-0'],
      '2 open',
    ],
    [
      'a third that is taken back decides nothing',
      [READ, amend('a-0', lap('3')), amend('a-0', lap('5'), ['a-1', 'b-0']), withdraw('a-2')],
      [amend('a-0', lap('4'))],
      ['open', 'a-1 b-0'],
      '2 open',
    ],
    [
      'of two amendments one taken back',
      [READ, amend('a-0', lap('3')), withdraw('a-1')],
      [amend('a-0', lap('4'))],
      ['amended', 'b-0'],
      '4',
    ],
    ['an amendment that nobody can read', [READ, amend('a-0', { what: 'overlap' })], [], ['open', 'a-1'], '2 open'],
    ['an amendment into another kind', [READ, amend('a-0', ONE_OF_EACH.shot)], [], ['open', 'a-1'], '2 open'],
    ['withdrawn', [READ, withdraw('a-0')], [], ['withdrawn', ''], ''],
    ['withdrawn by another phone', [READ], [withdraw('a-0')], ['withdrawn', ''], ''],
    ['the withdrawal withdrawn', [READ, withdraw('a-0'), withdraw('a-1')], [], ['stands', ''], '2'],
    ['that withdrawn again', [READ, withdraw('a-0'), withdraw('a-1'), withdraw('a-2')], [], ['withdrawn', ''], ''],
    ['one of two withdrawals withdrawn', [READ, withdraw('a-0'), withdraw('a-1')], [withdraw('a-0')], ['withdrawn', ''], ''],
    ['amended and withdrawn, crossing', [READ, withdraw('a-0')], [amend('a-0', lap('3'))], ['withdrawn', 'b-0'], ''],
    [
      'amended, withdrawn, and brought back: as amended',
      [READ, amend('a-0', lap('3')), withdraw('a-0'), withdraw('a-2')],
      [],
      ['amended', 'a-1'],
      '3',
    ],
    // The phone that corrects runs an hour behind and names nothing in its refs.
    ['corrected by a clock that runs behind', [READ], [{ ...withdraw('a-0'), refs: [], at: '08:00' }], ['withdrawn', ''], ''],
    ['amended by a clock that runs behind', [READ], [{ ...amend('a-0', lap('3')), refs: [], at: '08:00' }], ['amended', 'b-0'], '3'],
  ])('%s', (_, a, b, expected, said) => {
    const entries = [...chain('a', a), ...chain('b', b)];
    for (const arrived of [entries, entries.toReversed()]) {
      expect(standing(arrived, 'a-0')).toEqual(expected);
      expect(shown(arrived)).toBe(said);
      expect(project(arrived).state.lines).toHaveLength(entries.length);
    }
  });
});

test('a correction is withdrawn, never amended', () => {
  const entries = chain('a', [READ, amend('a-0', lap('3')), amend('a-1', { of: 'a-0', data: lap('9'), why: '' })]);
  expect([standing(entries, 'a-1'), shown(entries)]).toEqual([['stands', ''], '3']);
});

test.each(['device', 'clock-jump', 'record'] as const)('the book’s own %s cannot be taken back or said anew', (kind) => {
  const entries = chain('a', [{ kind, data: ONE_OF_EACH[kind] }, withdraw('a-0'), amend('a-0', ONE_OF_EACH[kind])]);
  expect(standing(entries, 'a-0')).toEqual(['stands', '']);
});

test('what a newer version wrote can be withdrawn, and stays in the log', () => {
  const entries = chain('a', [{ kind: 'moisture-map', data: { cells: [1] } }, withdraw('a-0')]);
  expect(standing(entries, 'a-0')).toEqual(['withdrawn', '']);
  expect(project(entries).state.lines.map((line) => line.unknown)).toEqual([true, false]);
});

// No honest book makes a circle; whoever forges one must not make an entry vanish from the log, nor the reading run for ever.
describe('circles', () => {
  test.each<[promise: string, a: Said[], b: Said[], shown: string]>([
    ['a withdrawal of itself', [READ, { ...withdraw('x'), id: 'x' }], [], '2'],
    [
      'two that withdraw each other, and one of them the reading',
      [READ, { ...withdraw('b-0'), refs: [] }],
      [{ ...withdraw('a-1'), refs: [] }, withdraw('a-0')],
      '',
    ],
    ['an amendment of itself', [READ, amend('x', lap('9'), [], 'x')], [], '2'],
    [
      'two amendments that each claim to decide: the one read last',
      [READ, amend('a-0', lap('3'), ['b-0'])],
      [amend('a-0', lap('4'), ['a-1'])],
      '3',
    ],
    ['an amendment of what is not there', [READ, amend('nowhere', lap('9'))], [withdraw('nowhere')], '2'],
    ['a withdrawal of what comes after it', [{ ...withdraw('a-1'), refs: [] }, READ], [], ''],
  ])('%s', (_, a, b, said) => {
    const entries = [...chain('a', a), ...chain('b', b)];
    for (const arrived of [entries, entries.toReversed()]) {
      expect(shown(arrived)).toBe(said);
      expect(project(arrived).state.lines).toHaveLength(entries.length);
    }
  });

  test('a ring of a thousand withdrawals is read, the same in any order', () => {
    const ring = (device: string, other: string) =>
      chain(
        device,
        Array.from({ length: 500 }, (_, i) => ({ ...withdraw(`${other}-${(i + 1) % 500}`), refs: [] })),
      );
    const entries = [...ring('a', 'b'), ...ring('b', 'a')];
    const states = (list: readonly Entry[]) =>
      project(list)
        .state.lines.map((line) => line.standing.state)
        .join(' ');
    expect(states(entries)).toBe(states(entries.toReversed()));
    expect(project(entries).state.lines).toHaveLength(1_000);
  });
});

test('a withdrawn run-start leaves its photos in the tray and its readings without a step', () => {
  const [n, floor] = [surface('n', 'wall', 'sheet'), surface('f', 'floor', 'sheet')];
  const before = [
    n,
    floor,
    run('pre-cut', ['n']),
    shot('pre-cut'),
    shot('pre-cut', { surfaces: ['n'] }),
    reading('pre-cut', 'overlap', null),
    { kind: 'run-stop', run: 'pre-cut', data: { end: 'touched' } },
  ];
  const { state } = project(chain('a', [...before, withdraw('pre-cut')]));
  expect(state.runs).toEqual([]);
  expect(state.shots.map(({ step, sorted }) => [step, sorted])).toEqual([
    [null, false],
    [null, true],
  ]);
  expect(state.readings.map(({ step, surface: on }) => [step, on])).toEqual([[null, null]]);
  expect(state.lines).toHaveLength(8);
});

test('a run whose start two people amended is in dispute: its photos wait in the tray, its readings are open, until one decides', () => {
  const start = { step: 'liquid-coat', surfaces: ['n'] };
  const a = [
    surface('n', 'wall', 'liquid'),
    run('liquid-coat', ['n']),
    shot('liquid-coat'),
    reading('liquid-coat', 'wet-film', null, '30', 'mil'),
    amend('liquid-coat', { ...start, coat: 1 }, [], 'one'),
  ];
  const b = [amend('liquid-coat', { ...start, coat: 2 }, [], 'two')];
  const disputed = project([...chain('a', a), ...chain('b', b)]).state;
  expect([disputed.runs[0]!.open, disputed.shots[0]!.sorted, disputed.readings[0]!.open]).toEqual([true, false, true]);
  const decided = project([...chain('a', [...a, amend('liquid-coat', { ...start, coat: 2 }, ['one', 'two'])]), ...chain('b', b)]).state;
  expect([decided.runs[0]!.open, decided.shots[0]!.sorted, decided.readings[0]!.open, decided.readings[0]!.coat]).toEqual([
    false,
    true,
    false,
    2,
  ]);
});

test('an amended tag sorts anew; a contested one sorts nothing, and the tag before it stands', () => {
  const tag = (step: string, id?: string): Said => ({
    kind: 'tag',
    ...(id && { id }),
    refs: ['p'],
    data: { shots: ['p'], run: null, step, surfaces: ['n'] },
  });
  const tagged = (...said: Said[]) => {
    const { step, sorted } = project(chain('a', [shot(null, {}, 'p'), ...said])).state.shots[0]!;
    return [step, sorted];
  };
  const [scrape, cut, band] = ['scrape', 'pre-cut', 'band-seams'].map((step) => tag(step)) as [Said, Said, Said];
  expect(tagged()).toEqual([null, false]);
  expect(tagged(tag('scrape', 't'), amend('t', cut.data!))).toEqual(['pre-cut', true]);
  expect(tagged(tag('scrape', 't'), withdraw('t'))).toEqual([null, false]);
  expect(tagged(scrape, tag('pre-cut', 't'), amend('t', band.data!), amend('t', scrape.data!))).toEqual(['scrape', true]);
  expect(tagged(tag('pre-cut', 't'), amend('t', band.data!), amend('t', scrape.data!))).toEqual([null, false]);
});

test('every kind but the fixed ones can be taken back, and then says nothing', () => {
  const fixed = ['device', 'clock-jump', 'record', 'amendment', 'withdrawal'];
  const before = { ...project(chain('a', [{ kind: 'withdrawal', data: { of: 'x', why: '' } }])).state, lines: [] };
  for (const [kind, data] of Object.entries(ONE_OF_EACH).filter(([kind]) => !fixed.includes(kind))) {
    expect({ ...project(chain('a', [{ kind, data }, withdraw('a-0')])).state, lines: [] }, kind).toEqual(before);
  }
});

// Amendments and withdrawals of a few entries and of each other, by two phones that have heard of some of it.
const correction = fc.record({
  phone: fc.nat(1),
  of: fc.nat(11),
  withdraws: fc.boolean(),
  value: fc.nat(9),
  over: fc.array(fc.nat(11), { maxLength: 2 }),
  names: fc.boolean(),
});

test('any tangle of corrections: the same in any order and bit by bit, no entry lost, and no amendment counts beside another', () => {
  fc.assert(
    fc.property(fc.array(correction, { maxLength: 10 }), fc.array(fc.nat(100), { minLength: 14, maxLength: 14 }), (made, turn) => {
      const said: Said[][] = [
        [
          { ...READ, id: 'e-0' },
          { ...READ, id: 'e-1' },
        ],
        [],
      ];
      made.forEach(({ phone, of, withdraws, value, over, names }, i) => {
        const one = withdraws
          ? withdraw(`e-${of}`, `e-${i + 2}`)
          : amend(
              `e-${of}`,
              lap(`${value + 3}`),
              over.map((n) => `e-${n}`),
              `e-${i + 2}`,
            );
        said[phone]!.push(names ? one : { ...one, refs: [] });
      });
      const entries = said.flatMap((one, phone) => chain(`phone-${phone}`, one));
      const whole = project(entries);
      const shuffled = entries
        .map((entry, i) => ({ entry, at: turn[i]! }))
        .toSorted((a, b) => a.at - b.at)
        .map(({ entry }) => entry);
      expect(project(shuffled)).toEqual(whole);
      expect(shuffled.reduce((sum, entry) => extend(sum, [entry]), EMPTY_PROJECTION)).toEqual(whole);
      expect(whole.state.lines).toHaveLength(entries.length);
      for (const { standing: one } of whole.state.lines) {
        if (one.state === 'amended') expect(one.amendments).toHaveLength(1);
        if (one.state === 'stands') expect(one.amendments).toHaveLength(0);
      }
    }),
    { seed: 20261125, numRuns: 600 },
  );
});
