import { describe, expect, it, test } from 'vitest';
import {
  afterFailure,
  attempts,
  cureLeft,
  depthVerdict,
  endDrafts,
  endRefused,
  filledAgain,
  floorsUntested,
  holdLeft,
  isDepthLate,
  levelDraft,
  lookDraft,
  mayTypeDepthLate,
  seen,
  tested,
  withRun,
} from '#lib/job/flood.ts';
import { fillDraft, firstFill, planOf, PROFILES } from '#lib/job/flood-form.ts';
import { canShow, levels, loadAt, restOf } from '#lib/job/flood-levels.ts';
import type { FormFault, Typed } from '#lib/job/form-drafts.ts';
import { project } from '#lib/job/project.ts';
import { proofOwed } from '#lib/job/proof.ts';
import type { JobState } from '#lib/job/state.ts';
import { knownData } from '#lib/record/kinds.ts';
import { chain, utcOf, type Said } from '../../fixtures/log.ts';

const CURE: Said = {
  kind: 'limit',
  data: { limit: 'cure', what: 'before-flooding', min: '24', max: null, unit: 'h', source: { kind: 'data-sheet', text: 'p. 3' } },
};
const surface = (id: string, place: string, more: object = {}): Said => ({
  kind: 'surface',
  data: { surface: id, name: id, place, system: 'sheet', ...more },
});
const size = (value: string) => ({ text: value, value, unit: 'ft' });
const SET_UP: readonly Said[] = [
  { kind: 'job', data: { name: 'Hall bath', address: '', units: 'in', lang: 'en' } },
  surface('floor', 'floor', { width: size('5'), height: size('3') }),
  surface('curb', 'curb'),
  surface('wall', 'wall'),
  CURE,
];
const FILL = {
  profile: 'contract',
  holdMin: '1440',
  depth: { text: '2', value: '2', unit: 'in' },
  under: ['floor', 'curb'],
  above: '',
  plug: 'below-flange',
  line: true,
  ceiling: 'dry',
  dam: true,
  soaked: true,
  sign: true,
  pan: false,
};
/** Water in at 10:00 unless another hour is said. */
const fill = (id: string, data: object = {}, at = '10:00'): Said => ({ id, kind: 'flood-fill', at, data: { ...FILL, ...data } });
const end = (attempt: string, result: string, at?: string): Said => ({
  kind: 'flood-end',
  ...(at && { at }),
  data: { attempt, result, words: '' },
});
const look = (attempt: string, what: string, ceiling: string, at: string): Said => ({
  kind: 'flood-look',
  at,
  data: { attempt, seen: what, ceiling, words: '' },
});
const level = (value: string, at: string, more: object = {}): Said => ({
  kind: 'reading',
  at,
  data: {
    what: 'flood-level',
    surface: 'floor',
    said: { text: value, value, unit: 'mm', resolution: '1' },
    how: 'tape',
    attempt: 'f1',
    water: 'test',
    ...more,
  },
});
const job = (...said: Said[]) => project(chain('a', [...SET_UP, ...said])).state;
const HOUR = 3_600_000;
const at = (clock: string) => Date.parse(utcOf(Number(clock.slice(0, 2)) * 60 + Number(clock.slice(3))));

describe('attempts', () => {
  test.each<[what: string, said: Said[], expected: string[]]>([
    ['one that runs', [fill('f1')], ['f1 1 open']],
    [
      'failed, then filled again and passed',
      [fill('f1'), end('f1', 'failed'), fill('f2', {}, '12:00'), end('f2', 'passed')],
      ['f1 1 failed', 'f2 2 passed'],
    ],
    [
      'of two rooms, each counted for itself',
      [fill('f1', { under: ['floor'] }), fill('f2', { under: ['curb'] }), fill('f3', { under: ['floor'] })],
      ['f1 1 open', 'f2 1 open', 'f3 2 open'],
    ],
    ['of two ends the worst stands', [fill('f1'), end('f1', 'passed'), end('f1', 'failed')], ['f1 1 failed']],
    ['nor does a pass undo a failure', [fill('f1'), end('f1', 'failed'), end('f1', 'passed')], ['f1 1 failed']],
    [
      'a withdrawn end is none',
      [fill('f1'), { ...end('f1', 'failed'), id: 'e1' }, { kind: 'withdrawal', refs: ['e1'], data: { of: 'e1', why: 'wrong room' } }],
      ['f1 1 open'],
    ],
    [
      'a withdrawn fill is no attempt',
      [fill('f1'), fill('f2', {}, '12:00'), { kind: 'withdrawal', refs: ['f1'], data: { of: 'f1', why: '' } }],
      ['f2 1 open'],
    ],
  ])('%s', (_, said, expected) => {
    expect(attempts(job(...said)).map(({ id, n, stand }) => `${id} ${n} ${stand}`)).toEqual(expected);
  });

  test('each has its own readings and looks; control and test water apart', () => {
    const state = job(
      fill('f1'),
      level('50', '10:05'),
      level('51', '10:06', { water: 'control' }),
      level('50', '10:07', { attempt: 'other' }),
      look('f1', 'no-leak', 'dry', '10:20'),
      look('f2', 'leak', 'wet', '10:21'),
    );
    const [one] = attempts(state);
    expect([one!.levels.length, one!.control.length, one!.looks.length]).toEqual([1, 1, 1]);
  });
});

describe('the hold', () => {
  const of = (holdMin: string, ...more: Said[]) => attempts(job(fill('f1', { holdMin }), ...more))[0]!;
  test.each<[holdMin: string, now: string, leftMin: number, share: number]>([
    ['15', '10:00', 15, 0],
    ['15', '10:06', 9, 0.4],
    ['15', '10:15', 0, 1],
    ['15', '11:00', 0, 1],
    ['1440', '22:00', 720, 0.5],
    ['0', '10:00', 0, 1],
  ])('of %s min at %s: %d min left', (holdMin, now, leftMin, share) => {
    expect(holdLeft(of(holdMin), at(now))).toEqual({ leftMs: leftMin * 60_000, share });
  });

  test.each(['passed', 'failed', 'void'] as const)('a minute before it is over, %s', (result) => {
    expect(endRefused(of('15'), result, at('10:14'))).toEqual(result === 'passed' ? { code: 'hold-not-over', leftMs: 60_000 } : null);
    expect(endRefused(of('15'), result, at('10:15'))).toBeNull();
  });

  test('a clock set forward by a day does not shorten it', () => {
    const jumped = of('1440', { kind: 'clock-jump', data: { wallDeltaMs: 24 * HOUR + 1000, monoDeltaMs: 1000 } });
    expect(holdLeft(jumped, at('10:01') + 24 * HOUR).leftMs).toBe(1440 * 60_000 - 60_000);
  });
});

describe('a depth that was forgotten', () => {
  const depth = (clock: string) => ({
    ...level('50', clock),
    data: { ...level('50', clock).data!, what: 'flood-depth', water: undefined },
  });
  test.each<[what: string, said: Said[], may: boolean, isLate: boolean]>([
    ['the water stands', [fill('f1')], false, false],
    ['passed without it', [fill('f1'), end('f1', 'passed', '12:00')], true, false],
    ['failed: the next attempt is measured anew', [fill('f1'), end('f1', 'failed', '12:00')], false, false],
    ['read in time', [fill('f1'), depth('11:00'), end('f1', 'passed', '12:00')], false, false],
    ['written down late', [fill('f1'), end('f1', 'passed', '12:00'), depth('13:00')], false, true],
  ])('%s', (_, said, may, isLate) => {
    const [one] = attempts(job(...said));
    expect([mayTypeDepthLate(one!), isDepthLate(one!)]).toEqual([may, isLate]);
  });

  test('is typed, not read, and answers what is owed of the attempt', () => {
    const said = [
      { kind: 'run-start', id: 'run', data: { step: 'flood-test', surfaces: [] } },
      { ...fill('f1'), run: 'run' },
      end('f1', 'passed', '12:00'),
    ];
    const before = job(...said);
    const draft = levelDraft(attempts(before)[0]!, 'depth', { text: '2', value: '2', unit: 'in' }, '', before);
    expect(draft.data).toMatchObject({ what: 'flood-depth', how: 'typed', attempt: 'f1' });
    const owed = (state: JobState) =>
      proofOwed(state)
        .flatMap(({ items }) => items)
        .find(({ rule }) => rule.id === 'depth')?.stand;
    expect([owed(before), owed(job(...said, { ...(draft as Said), at: '13:00' }))]).toEqual(['owed', 'shown']);
  });
});

test.each<[read: string, wanted: string | null, verdict: string]>([
  ['2', '2', 'within'],
  ['1.9375', '2', 'outside'],
  ['1', null, 'no-limit'],
])('%s in deep where %s in is wanted is %s', (read, wanted, verdict) => {
  const depth: Said = {
    kind: 'reading',
    data: { what: 'flood-depth', surface: 'floor', said: { text: read, value: read, unit: 'in' }, how: 'tape', attempt: 'f1' },
  };
  const state = job(fill('f1', { depth: wanted === null ? null : { text: wanted, value: wanted, unit: 'in' } }), depth);
  expect(depthVerdict(attempts(state)[0]!)).toBe(verdict);
});

test.each<[what: string, before: string, looks: [seen: string, ceiling: string][], worst: string | null, worse: boolean]>([
  ['nobody looked', 'dry', [], null, false],
  [
    'no leak',
    'dry',
    [
      ['no-leak', 'dry'],
      ['no-leak', 'dry'],
    ],
    'no-leak',
    false,
  ],
  [
    'a leak is not unseen',
    'dry',
    [
      ['leak', 'wet'],
      ['no-leak', 'dry'],
    ],
    'leak',
    true,
  ],
  [
    'damp beside no leak',
    'dry',
    [
      ['no-leak', 'dry'],
      ['damp', 'dry'],
    ],
    'damp',
    false,
  ],
  ['an old stain is no change', 'stained', [['no-leak', 'stained']], 'no-leak', false],
  ['a new stain is', 'dry', [['no-leak', 'stained']], 'no-leak', true],
  ['a ceiling nobody saw before says nothing', 'no-access', [['no-leak', 'wet']], 'no-leak', false],
])('seen: %s', (_, ceiling, looks, worst, worse) => {
  const state = job(fill('f1', { ceiling }), ...looks.map(([what, below], i) => look('f1', what, below, `10:${20 + i}`)));
  expect(seen(attempts(state)[0]!)).toMatchObject({ worst, worse, before: ceiling });
});

test('what stood under water, and what the test says nothing of', () => {
  const state = job(fill('f1'));
  const { under, above } = tested(attempts(state)[0]!, state);
  expect([under, above].map((list) => list.map(({ surface: id }) => id))).toEqual([['floor', 'curb'], ['wall']]);
});

/*
 * Levels on a ruler of 1 mm: the difference of two readings is good to 2 sqrt(2) / sqrt(12) = 0.82 mm (GUM F.2.2.1, k = 2). Over 24 h at
 * 21 C and 50 % at most 4.3 mm evaporate (the upper edge in tests/vectors/trade).
 */
describe('what the levels show', () => {
  const pan = (value: string, clock: string) => level(value, clock, { water: 'control' });
  test.each<[what: string, fillData: object, said: Said[], expected: object]>([
    ['one reading', {}, [level('50', '10:05')], { state: 'few' }],
    [
      'a fall that evaporation explains',
      {},
      [level('50', '10:05'), level('47', '33:05')],
      { state: 'read', net: { netMm: 3, evidence: { conclusive: false, reason: 'may-be-evaporation' } } },
    ],
    [
      'a fall beyond it',
      {},
      [level('50', '10:05'), level('40', '33:05')],
      { state: 'read', net: { netMm: 10, evidence: { conclusive: true, finding: 'loss' } } },
    ],
    [
      'the same fall in pan and control',
      { pan: true },
      [level('50', '10:05'), pan('50', '10:06'), level('47', '33:05'), pan('47', '33:06')],
      { state: 'read', evaporates: null, net: { netMm: 0, panDropMm: 3, evidence: { conclusive: false, reason: 'no-loss-named' } } },
    ],
    [
      'and a loss that matters was named',
      { pan: true, maxLoss: { text: '3', value: '3', unit: 'mm' } },
      [level('50', '10:05'), pan('50', '10:06'), level('47', '33:05'), pan('47', '33:06')],
      { state: 'read', net: { evidence: { conclusive: true, finding: 'no-loss-above-limit' } } },
    ],
    [
      'one pan loses, the other does not',
      { pan: true },
      [level('50', '10:05'), pan('50', '10:06'), level('40', '33:05'), pan('49', '33:06')],
      { state: 'read', net: { netMm: 9, evidence: { conclusive: true, finding: 'loss', aboveLimit: null } } },
    ],
    ['two readings of one moment', {}, [level('50', '10:05'), level('49', '10:05'), level('40', '33:05')], { state: 'unclear' }],
    [
      'a reading that two amended counts for nothing',
      {},
      [
        level('50', '10:05'),
        { ...level('40', '33:05'), id: 'l2' },
        ...['x', 'y'].map((id): Said => ({ id, kind: 'amendment', refs: ['l2'], data: { of: 'l2', data: {}, why: '' } })),
      ],
      { state: 'few' },
    ],
  ])('%s', (_, data, said, expected) => {
    const state = job(fill('f1', data), ...said);
    expect(levels(attempts(state)[0]!, state)).toMatchObject(expected);
  });

  it('levels more than a year apart, by a clock that was moved, say nothing', () => {
    const state = job(fill('f1', {}), level('50', '10:05'), level('40', '33:05'));
    const attempt = attempts(state)[0]!;
    const [first, second] = attempt.levels;
    expect(levels({ ...attempt, levels: [first!, { ...second!, utc: '2028-01-01T00:00:00.000Z' }] }, state)).toMatchObject({
      state: 'unclear',
    });
  });

  test('said before the fill: a control pan and a finer ruler show more, litres where the floor has a size', () => {
    const shows = (ruler: string, withPan: boolean, under = ['floor']) =>
      canShow({ ruler: { text: ruler, value: ruler, unit: 'mm' }, holdMs: 24 * HOUR, pan: withPan, under }, job())!;
    expect(shows('1', false).detectableMm).toBeCloseTo(4.3 + 2 * 0.8165, 1);
    expect(shows('1', true).detectableMm).toBeLessThan(shows('1', false).detectableMm);
    expect(shows('0.5', true).detectableMm).toBeLessThan(shows('1', true).detectableMm);
    // 15 ft2 is 1.394 m2 (handbook of units: 1 ft2 = 0.09290304 m2, exact).
    expect(shows('1', false).litres).toBeCloseTo(shows('1', false).detectableMm * 1.3935, 1);
    expect(shows('1', false, ['curb']).litres).toBeNull();
    expect(shows('1', false).evaporates.measured).toBe(false);
  });

  test('with the air as last measured, where it was', () => {
    const air = (value: string, unit: string) => ({ text: value, value, unit });
    const dry = job({ kind: 'conditions', data: { air: air('70', 'F'), humidity: air('30', '%') } });
    expect(
      canShow({ ruler: { text: '1', value: '1', unit: 'mm' }, holdMs: 24 * HOUR, pan: false, under: [] }, dry)!.evaporates,
    ).toMatchObject({ measured: true, air: { humidityPct: 30 } });
    expect(canShow({ ruler: null, holdMs: 24 * HOUR, pan: false, under: [] }, dry)).toBeNull();
    expect(canShow({ ruler: { text: '1', value: '1', unit: 'mm' }, holdMs: 0, pan: false, under: [] }, dry)).toBeNull();
  });
});

// 5.19 lb/ft2 per inch (ASTM D5957, note 1): 2 in is 10.4 lb/ft2 or 497 Pa, a quarter of 40 lb/ft2. 100 mm is the head of clause 5.3.
test.each<[value: string, unit: 'in' | 'mm', pa: number, sharePct: number, engineerFirst: boolean]>([
  ['2', 'in', 498, 26, false],
  ['4', 'in', 996, 52, true],
  ['100', 'mm', 981, 51, false],
])('%s %s of water: %d Pa, engineer first %s', (value, unit, pa, sharePct, engineerFirst) => {
  const load = loadAt({ text: value, value, unit })!;
  expect([Math.round(load.pa), Math.round(load.shareOfDwelling * 100), load.engineerFirst]).toEqual([pa, sharePct, engineerFirst]);
});

describe('the plan', () => {
  const typed: Typed = {
    profile: 'ipc-312.9',
    under: ['floor'],
    plug: 'below-flange',
    ceiling: 'dry',
    line: 'yes',
    dam: 'no',
    soaked: 'yes',
    sign: 'yes',
    pan: 'no',
    ruler: '0.0625',
  };
  test.each<[what: string, typed: Typed, expected: object]>([
    ['model code: 2 in at the threshold, 15 min', typed, { profile: 'ipc-312.9', holdMin: '15', depth: { value: '2', unit: 'in' } }],
    ['UPC family: to the threshold, no time', { ...typed, profile: 'upc-408.7.5' }, { profile: 'upc-408.7.5', holdMin: '0', depth: null }],
    ['UPC family, the hours the inspector asks for', { ...typed, profile: 'upc-408.7.5', hold: '0.25' }, { holdMin: '15', depth: null }],
    [
      'contract: hours and depth as typed',
      { ...typed, profile: 'contract', hold: '24', depth: '2 1/4', maxLoss: '1/8' },
      { holdMin: '1440', depth: { value: '2.25', unit: 'in' }, maxLoss: { value: '0.125', unit: 'in' } },
    ],
    ['what is not prepared is written down too', typed, { dam: false, line: true, ruler: { value: '0.0625', unit: 'in' } }],
  ])('%s', (_, said, expected) => {
    const draft = fillDraft(said, 'in');
    expect(draft).toMatchObject({ ok: true, value: { data: expected } });
    expect(draft.ok && knownData('flood-fill', draft.value.data).kind).toBe('flood-fill');
  });

  test.each<[what: string, typed: Typed, faults: FormFault[]]>([
    [
      'nothing is preset',
      {},
      ['profile', 'under', 'plug', 'ceiling', 'line', 'dam', 'soaked', 'sign', 'pan', 'ruler'].map((field) => ({
        field,
        code: field === 'under' ? 'no-surface' : ['line', 'dam', 'soaked', 'sign', 'pan'].includes(field) ? 'not-answered' : 'not-chosen',
      })),
    ],
    [
      'a contract says hours and depth',
      { ...typed, profile: 'contract' },
      [
        { field: 'hold', code: 'empty' },
        { field: 'depth', code: 'empty' },
      ],
    ],
    [
      'in numbers that can be meant',
      { ...typed, profile: 'contract', hold: 'a day', depth: '40', maxLoss: '-1' },
      [
        { field: 'hold', code: 'not-a-number' },
        { field: 'depth', code: 'too-large' },
        { field: 'maxLoss', code: 'too-small' },
      ],
    ],
  ])('%s', (_, said, faults) => expect(fillDraft(said, 'in')).toEqual({ ok: false, fault: faults }));

  test('it says what it can while it is typed', () => {
    expect(planOf({}, 'in')).toMatchObject({ profile: null, holdMs: 0, depth: null, ruler: null, pan: false });
    expect(planOf({ profile: 'contract', hold: '24', depth: '60', deepest: '70', ruler: '0.5', pan: 'yes' }, 'mm')).toMatchObject({
      holdMs: 24 * HOUR,
      depth: { value: '60', unit: 'mm' },
      deepest: { value: '70' },
      ruler: { unit: 'mm' },
      pan: true,
    });
  });

  test('the next attempt takes the plan over, not what must be looked at anew', () => {
    const [before] = attempts(job(fill('f1', { maxLoss: { text: '1/8', value: '0.125', unit: 'in' } })));
    expect(firstFill(before!, 'in')).toEqual({
      profile: 'contract',
      depth: '2',
      hold: '24',
      maxLoss: '0.125',
      ruler: '',
      under: ['floor', 'curb'],
      above: '',
      plug: 'below-flange',
    });
    expect(firstFill(before!, 'mm')).toMatchObject({ depth: '', maxLoss: '' });
    expect(PROFILES).toContain(firstFill(before!, 'in')['profile']);
  });
});

describe('where the water of a failed attempt came to rest, by the mark read most', () => {
  const series = (...mm: number[]) => mm.map((value, hour) => level(String(value), `${10 + hour}:00`));
  test.each<[what: string, said: Said[], rest: object | null]>([
    ['two levels tell nothing', series(60, 52), null],
    ['stopped', series(60, 52, 47, 45, 45, 45, 45), { state: 'stopped', levelMm: 45 }],
    ['still falling', series(60, 55, 50, 45), { state: 'falling' }],
    ['no fall', series(60, 60, 60), { state: 'no-fall' }],
    [
      'another mark is another series',
      [...series(60, 52, 47, 45, 45, 45, 45), level('80', '10:30', { spot: 'door' })],
      { state: 'stopped' },
    ],
  ])('%s', (_, said, rest) => {
    const state = job(fill('f1'), ...said, end('f1', 'failed', '20:00'));
    const found = restOf(attempts(state)[0]!, state);
    if (rest === null) expect(found).toBeNull();
    else expect(found).toMatchObject(rest);
  });
});

describe('where a failed attempt leads', () => {
  const failed = [fill('f1'), end('f1', 'failed', '11:00')];
  const patch: Said = { id: 'p1', kind: 'repair', at: '12:00', data: { surfaces: ['floor'], what: 'Patch', of: ['f1'] } };
  const cure: Said = {
    kind: 'wait',
    at: '12:01',
    data: {
      what: 'before-flooding',
      surfaces: ['floor'],
      fromUtc: utcOf(721),
      readyUtc: utcOf(721 + 1440),
      latestUtc: null,
      limit: 'cure',
    },
  };
  test.each<[what: string, said: Said[], now: string, patched: boolean, cure: string | null, again: boolean]>([
    ['drain and dry', failed, '11:30', false, null, false],
    ['patched', [...failed, patch], '12:30', true, null, false],
    ['curing', [...failed, patch, cure], '12:30', true, 'waiting', false],
    ['cured', [...failed, patch, cure], '37:00', true, 'ready', false],
    ["the cure of an older layer is not the patch's", [{ ...cure, at: '09:30' }, ...failed, patch], '12:30', true, null, false],
    ['filled again', [...failed, patch, cure, fill('f2', {}, '37:00')], '37:10', true, 'ready', true],
  ])('%s', (_, said, now, patched, stand, again) => {
    const state = job(...said);
    const after = afterFailure(attempts(state)[0]!, state, at(now));
    expect([after.patch !== null, after.cure?.stand ?? null, filledAgain(attempts(state)[0]!, state) !== null]).toEqual([
      patched,
      stand,
      again,
    ]);
  });

  test('water before the cure is over is told of, until somebody says why', () => {
    const early: Said = { kind: 'early', data: { wait: 'w', reason: 'told-to', check: 'none', held: true, words: '' } };
    expect(cureLeft(['floor'], job({ ...cure, id: 'w' }), at('13:00')).length).toBe(1);
    expect(cureLeft(['wall'], job({ ...cure, id: 'w' }), at('13:00'))).toEqual([]);
    expect(cureLeft(['floor'], job({ ...cure, id: 'w' }, early), at('13:00'))).toEqual([]);
    expect(cureLeft(['floor'], job({ ...cure, id: 'w' }), at('37:00'))).toEqual([]);
  });
});

describe('what is written', () => {
  const draft = () => {
    const read = fillDraft(
      {
        profile: 'ipc-312.9',
        under: ['floor'],
        plug: 'unsure',
        ceiling: 'wet',
        line: 'no',
        dam: 'no',
        soaked: 'no',
        sign: 'no',
        pan: 'no',
        ruler: '1',
      },
      'in',
    );
    if (!read.ok) throw new Error('plan');
    return read.value;
  };
  test('a fill begins its step, or joins the one that runs there', () => {
    expect(withRun(draft(), job(), 'r1')).toMatchObject([
      { kind: 'run-start', id: 'r1', data: { step: 'flood-test', surfaces: ['floor'] } },
      { kind: 'flood-fill', run: 'r1' },
    ]);
    const running: Said = { id: 'r0', kind: 'run-start', data: { step: 'flood-test', surfaces: ['floor'] } };
    expect(withRun(draft(), job(running), 'r1')).toMatchObject([{ kind: 'flood-fill', run: 'r0' }]);
  });

  test('an end stops the step of its attempt, once', () => {
    const run: Said = { id: 'r0', kind: 'run-start', data: { step: 'flood-test', surfaces: ['floor'] } };
    const state = job(run, { ...fill('f1'), run: 'r0' });
    expect(endDrafts(attempts(state)[0]!, 'void', 'plug slipped', state).map(({ kind }) => kind)).toEqual(['flood-end', 'run-stop']);
    const stopped = job(run, { ...fill('f1'), run: 'r0' }, { kind: 'run-stop', run: 'r0', data: { end: 'touched' } });
    expect(endDrafts(attempts(stopped)[0]!, 'void', '', stopped).map(({ kind }) => kind)).toEqual(['flood-end']);
  });

  test('a level belongs to the floor and to its attempt; a look must say both', () => {
    const state = job(fill('f1'));
    const [attempt] = attempts(state);
    const said = { text: '50', value: '50', unit: 'mm', resolution: '0.5' } as const;
    expect(levelDraft(attempt!, 'control', said, 'left', state)).toMatchObject({
      refs: ['f1'],
      data: { what: 'flood-level', surface: 'floor', water: 'control', spot: 'left', attempt: 'f1' },
    });
    expect(levelDraft(attempt!, 'depth', said, '', state).data).not.toHaveProperty('water');
    expect(lookDraft(attempt!, { seen: 'damp' })).toEqual({ ok: false, fault: [{ field: 'ceiling', code: 'not-chosen' }] });
    expect(lookDraft(attempt!, { seen: 'damp', ceiling: 'dry', words: ' left corner ' })).toMatchObject({
      ok: true,
      value: { data: { seen: 'damp', ceiling: 'dry', words: 'left corner' } },
    });
  });
});

test.each<[why: string, then: Said[], untested: string[]]>([
  ['before any water', [], ['floor', 'pan-2']],
  ['water in one pan', [fill('f')], ['pan-2']],
  ['water that failed there is water all the same', [fill('f'), end('f', 'failed')], ['pan-2']],
  ['no surface named stands for all', [fill('f', { under: [] })], []],
])('floors that no water stood on: %s', (_, then, untested) => {
  const { state } = project(chain('phone-a', [...SET_UP, surface('pan-2', 'floor'), ...then]));
  expect(floorsUntested(state).map(({ surface: id }) => id)).toEqual(untested);
});
