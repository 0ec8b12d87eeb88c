import { describe, expect, test } from 'vitest';
import type { TouchedPlace } from '#lib/job/behind/strata.ts';
import { callbackInHand, callbackOf, callbacks, isOpen, lookedAt, outcomeOfTest, takenOff } from '#lib/job/callback/callbacks.ts';
import { whereToLook } from '#lib/job/callback/where-to-look.ts';
import { shapeOf } from '#lib/job/drawing/shape.ts';
import { project } from '#lib/job/project.ts';
import { ALCOVE, drawn, q, thing } from '../../../fixtures/drawn.ts';
import { chain, type Said } from '../../../fixtures/log.ts';

const IN = 10_000;
const stateOf = (log: readonly Said[]) => project(chain('phone', [...log])).state;
const moisture = (value: string) => ({ moisture: { text: value, value, unit: '%' }, scale: 'wood' });
const begun = (id: string, testOf: string, below: string, more = {}): Said => ({
  id,
  kind: 'isolation',
  data: { callback: 'call', test: testOf, below, words: '', ...more },
});
const look = (isolation: string, below: string, more = {}): Said => ({
  kind: 'isolation-look',
  data: { isolation, below, words: '', ...more },
});
const call = (more = {}): Said => ({
  id: 'call',
  kind: 'callback',
  data: { surfaces: [], complaint: 'The ceiling is wet', shows: 'room-below', looked: '', found: '', answer: '', stand: 'open', ...more },
});
const JOB: Said[] = [
  { kind: 'device', data: { key: { alg: 'none', why: 'test' } } },
  { kind: 'job', data: { name: 'Hall bath', address: '', units: 'in', lang: 'en' } },
  { kind: 'room', data: { room: 'bath', name: 'Hall bath' } },
];

test.each<[what: string, log: Said[], outcome: string]>([
  ['nobody looked since', [begun('i', 'pan', 'dry')], 'open'],
  ['dry, then wet', [begun('i', 'pan', 'dry'), look('i', 'wet')], 'wetter'],
  ['wet, then a stain', [begun('i', 'pan', 'wet'), look('i', 'stained')], 'drier'],
  ['the same without a meter', [begun('i', 'pan', 'stained'), look('i', 'stained')], 'same'],
  ['the same to the eye, more by the meter', [begun('i', 'pan', 'wet', moisture('18')), look('i', 'wet', moisture('24'))], 'wetter'],
  [
    'meters of two scales say nothing',
    [begun('i', 'pan', 'wet', moisture('18')), look('i', 'wet', { ...moisture('24'), scale: 'relative' })],
    'same',
  ],
  ['no access, by the meter alone', [begun('i', 'pan', 'no-access', moisture('18')), look('i', 'no-access', moisture('12'))], 'drier'],
  ['nothing below and no meter', [begun('i', 'pan', 'none-below'), look('i', 'none-below')], 'open'],
  ['the last look counts', [begun('i', 'pan', 'dry'), look('i', 'wet'), look('i', 'dry')], 'same'],
])('a leak test, %s: %#', (_, log, outcome) => {
  const [callback] = callbacks(stateOf([...JOB, call(), ...log]));
  expect(callback!.isolations[0]!.outcome).toBe(outcome);
});

test('the series goes on with the first test that nobody began; a test that once got wetter stays so', () => {
  const log = [
    ...JOB,
    call(),
    begun('a', 'unused', 'wet'),
    begun('b', 'drain-line', 'dry'),
    look('b', 'wet'),
    begun('c', 'drain-line', 'dry'),
    look('c', 'dry'),
  ];
  const [callback] = callbacks(stateOf(log));
  expect([
    callback!.next,
    outcomeOfTest(callback!, 'drain-line'),
    outcomeOfTest(callback!, 'unused'),
    outcomeOfTest(callback!, 'walls'),
  ]).toEqual(['supply', 'wetter', 'open', null]);
});

test('closed by word; one of an older version once it was answered', () => {
  const said = { surfaces: [], complaint: 'x', looked: '', found: '', answer: '' };
  expect(
    [said, { ...said, answer: 'done' }, { ...said, answer: 'done', stand: 'open' as const }, { ...said, stand: 'closed' as const }].map(
      isOpen,
    ),
  ).toEqual([true, false, true, false]);
});

test('what was taken off since the parties were told: photos of those surfaces, dry film by calliper', () => {
  const shot = (id: string, surface: string | null): Said => ({
    id,
    kind: 'shot',
    data: { picture: { sha256: 'a'.repeat(64), bytes: 9, type: 'image/jpeg' }, from: 'viewfinder', surface },
  });
  const film = (how: string): Said => ({
    kind: 'reading',
    data: { what: 'dry-film', surface: 'back', said: { text: '30', value: '30', unit: 'mil' }, how },
  });
  const opening: Said = { kind: 'opening', data: { callback: 'call', surfaces: ['back'], told: 'told', who: '', sample: '' } };
  const state = stateOf([
    ...JOB,
    call(),
    shot('before', 'back'),
    film('caliper'),
    opening,
    shot('at-it', 'back'),
    shot('other', 'left'),
    film('caliper'),
    film('typed'),
  ]);
  expect(takenOff(callbacks(state)[0]!.opening!, state)).toEqual({ photos: 1, dryFilm: 1 });
});

describe('where to look', () => {
  const mark = (of: string, wall: number | null, x: number, y: number): Said => ({
    kind: 'mark',
    refs: [of],
    data: { of, room: 'bath', ...(wall === null ? {} : { wall }), x: q(x), y: q(y) },
  });
  const lap = (id: string, value: string): Said => ({
    id,
    kind: 'reading',
    data: { what: 'band-lap', surface: 'back', said: { text: value, value, unit: 'in' }, how: 'tape' },
  });
  const WORK: Said[] = [
    ...JOB,
    { kind: 'surface', data: { surface: 'back', name: 'Back wall', place: 'wall', system: 'sheet', room: 'bath' } },
    {
      kind: 'limit',
      data: { limit: 'l', what: 'band-lap', min: '2', max: null, unit: 'in', source: { kind: 'data-sheet', text: 'p. 2' } },
    },
    { kind: 'drawing', data: drawn(ALCOVE, { things: [thing('valve', 1, [24, null, 40])] }) },
    // The foot of wall 2 has a lap that holds, its left end one that is too short.
    lap('foot', '2.25'),
    mark('foot', 1, 30, 0),
    lap('end', '1.5'),
    mark('end', 1, 0, 40),
    call(),
    mark('call', 1, 30, 4),
  ];
  const listOf = (log: readonly Said[], at: TouchedPlace) => {
    const state = stateOf(log);
    const shape = shapeOf(state.drawings[0]!.data);
    if (!shape.ok) throw new Error(shape.fault.code);
    return whereToLook(state, shape.value, at, callbacks(state)[0]!).map(({ what, reasons, away }) => ({
      is:
        what.is === 'feature'
          ? `${what.wall === null ? 'floor' : `wall ${what.wall + 1}`} ${what.feature.id}`
          : what.is === 'outside-membrane'
            ? what.test
            : what.is,
      why: reasons.join(' '),
      away: away === null ? null : Math.round(away / IN),
    }));
  };
  const at: TouchedPlace = { room: 'bath', unit: 'in', wall: 1, x: 30 * IN, y: 4 * IN };

  test('the place marked for the callback is where it looks from', () => {
    expect(lookedAt('call', stateOf(WORK))).toEqual([at]);
  });

  test('causes outside the membrane first, then by steps of distance, in each the weakest proof, then the nearest', () => {
    const list = listOf(WORK, at);
    expect(list.slice(0, 2).map(({ is }) => is)).toEqual(['supply', 'drain-line']);
    const parts = list.slice(2);
    // Within a foot: the foot of the wall once, though it is an edge of wall and floor; the lap read on the wall shows it on both.
    expect(parts[0]).toEqual({ is: 'wall 2 floor', why: 'not-tried lap-least', away: 4 });
    expect(parts.filter(({ is }) => is === 'floor wall-1')).toEqual([]);
    // Within 3 ft: outside its limit before what nobody showed, though that is nearer or as near.
    const end = parts.find(({ is }) => is === 'wall 2 corner-1')!;
    expect(end).toEqual({ is: 'wall 2 corner-1', why: 'not-tried outside', away: 30 });
    const second = parts.filter(({ away }) => away !== null && away > 12 && away <= 36);
    expect(second[0]).toEqual(end);
  });

  test('what got wetter in its test leads, what stayed as it was comes last, whatever its proof', () => {
    const log = [
      ...WORK,
      begun('p', 'pan', 'dry'),
      look('p', 'wet'),
      begun('s', 'supply', 'wet'),
      look('s', 'wet'),
      begun('w', 'walls', 'dry'),
      look('w', 'dry'),
    ];
    const list = listOf(log, at);
    expect(list[0]!.why).toContain('got-wetter');
    expect(list[0]!.is).toBe('wall 2 floor');
    const places = list.map(({ is }) => is);
    expect(places.indexOf('drain-line')).toBeGreaterThan(0);
    expect(places.indexOf('supply')).toBe(-1);
    const same = list.findIndex(({ why }) => why.includes('stayed-same'));
    expect(list.slice(same === -1 ? list.length : same).every(({ why }) => why.includes('stayed-same'))).toBe(true);
    // Too short, but its wall was sprayed and nothing came.
    expect(places.indexOf('wall 2 corner-1')).not.toBe(1);
  });

  test('wetter while nobody ran water: the supply leads', () => {
    const [first] = listOf([...WORK, begun('u', 'unused', 'stained'), look('u', 'wet')], at);
    expect(first).toEqual({ is: 'supply', why: 'wetter-unused', away: null });
  });

  test('a reading outside its limit, a deviation and a repair without a mark are on the list, as their place is not known', () => {
    const log: Said[] = [
      ...WORK,
      lap('loose', '1'),
      { id: 'dev', kind: 'deviation', data: { surfaces: ['back'], what: 'No band at the head', why: '', against: null, accepted: '' } },
      { id: 'rep', kind: 'repair', data: { surfaces: ['back'], what: 'Patched', of: [] } },
    ];
    const away = listOf(log, at).map(({ away }) => away);
    const list = listOf(log, at);
    expect(list.filter(({ is }) => is === 'reading' || is === 'stated').map(({ why }) => why)).toEqual([
      'outside',
      'deviation',
      'repaired',
    ]);
    expect(away.length).toBeLessThanOrEqual(12);
  });
});

test('of several callbacks the one asked for is in hand, else the latest open, else the latest', () => {
  const said = (id: string, stand: string): Said => ({
    id,
    kind: 'callback',
    data: { surfaces: [], complaint: 'x', looked: '', found: '', answer: '', stand },
  });
  const of = (...stands: string[]) => callbacks(stateOf([...JOB, ...stands.map((stand, i) => said(`c-${i}`, stand))]));
  const inHand = (all: ReturnType<typeof of>, asked: string | null) => callbackInHand(all, asked)?.fact.id;
  expect(inHand(of('open', 'open', 'closed'), null)).toBe('c-1');
  expect(inHand(of('open', 'open', 'closed'), 'c-2')).toBe('c-2');
  expect(inHand(of('open', 'open', 'closed'), 'gone')).toBe('c-1');
  expect(inHand(of('closed', 'closed'), null)).toBe('c-1');
  expect(inHand(of(), null)).toBeUndefined();
});

test('which callback an entry is about, an amended one too', () => {
  const isolation = (id: string, callback: string): Said => ({
    id,
    kind: 'isolation',
    data: { callback, test: 'unused', below: 'wet', words: '' },
  });
  const state = stateOf([
    ...JOB,
    call(),
    { ...call(), id: 'second' },
    isolation('i', 'second'),
    { ...look('i', 'wet'), id: 'l' },
    { id: 'a', kind: 'amendment', refs: ['second'], data: { of: 'second', data: call({ answer: 'x' }).data, why: '' } },
    { id: 'o', kind: 'opening', data: { callback: 'call', told: 'told', who: '', surfaces: [], sample: '' } },
  ]);
  const about = Object.fromEntries(['call', 'second', 'i', 'l', 'a', 'o', 'gone'].map((id) => [id, callbackOf(id, state)]));
  expect(about).toEqual({ call: 'call', second: 'second', i: 'second', l: 'second', a: 'second', o: 'call', gone: null });
});
