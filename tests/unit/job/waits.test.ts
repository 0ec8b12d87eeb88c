import { describe, expect, it, test } from 'vitest';
import { project } from '#lib/job/project.ts';
import { bellsBetween, heldUp, openWaits, waits, waitsBegun, type WaitStand } from '#lib/job/waits.ts';
import { chain, type Said } from '../../fixtures/log.ts';

const FLOOR = 'floor';
const surface = (id: string, place: string): Said => ({
  kind: 'surface',
  data: { surface: id, name: id, place, system: 'sheet-and-liquid' },
});
const limit = (what: string, min: string | null, max: string | null, unit = 'h'): Said => ({
  kind: 'limit',
  data: { limit: `l-${what}`, what, min, max, unit, source: { kind: 'data-sheet', text: 'p. 2' } },
});
const start = (id: string, step: string, surfaces: string[], at: string): Said => ({ id, kind: 'run-start', at, data: { step, surfaces } });
const HOUR = 3_600_000;
const at = (clock: string) => Date.parse(`2026-03-02T${clock}:00.000Z`);

/** A wait of the floor from 10:00, with the entries that follow it. */
const waiting = (data: object, ...then: Said[]) =>
  project(
    chain('phone-a', [
      surface(FLOOR, 'floor'),
      surface('north', 'wall'),
      {
        id: 'w1',
        kind: 'wait',
        at: '10:00',
        data: { surfaces: [FLOOR], fromUtc: '2026-03-02T10:00:00.000Z', readyUtc: null, latestUtc: null, limit: 'l', ...data },
      },
      ...then,
    ]),
  ).state;
const readyAt = (clock: string) => `2026-03-02T${clock}:00.000Z`;
const walkOn = { what: 'walk-on', readyUtc: readyAt('14:00') };
const recoat = { what: 'recoat', readyUtc: readyAt('12:00'), latestUtc: readyAt('18:00') };
const cover = { what: 'cover-within', latestUtc: readyAt('18:00') };

describe('what begins with the end of a step', () => {
  const state = project(
    chain('phone-a', [
      surface(FLOOR, 'floor'),
      limit('walk-on', '4', null),
      limit('recoat', '2', '24'),
      limit('before-flooding', '24', '72'),
      limit('slake', '5', null, 'min'),
      limit('pot-life', null, '90', 'min'),
    ]),
  ).state;
  test.each([
    ['bond-sheets', ['walk-on 13:00 -', 'before-flooding 33:00 81:00']],
    ['liquid-coat', ['recoat 11:00 33:00', 'before-flooding 33:00 81:00']],
    ['mix-mortar', ['slake 9:05 -', 'pot-life - 10:30']],
    ['scrape', []],
  ] as const)('%s', (beginning, expected) => {
    const hours = (utc: string | null) => {
      if (utc === null) return '-';
      const minutes = (Date.parse(utc) - Date.parse('2026-03-02T00:00:00.000Z')) / 60_000;
      return `${Math.floor(minutes / 60)}:${String(minutes % 60).padStart(2, '0')}`;
    };
    const drafts = waitsBegun(state, beginning, '2026-03-02T09:00:00.000Z', [FLOOR], 'r1');
    const said = drafts.map((draft) =>
      draft.kind === 'wait' ? `${draft.data.what} ${hours(draft.data.readyUtc)} ${hours(draft.data.latestUtc)}` : draft.kind,
    );
    expect(said).toEqual(expected);
  });
});

test.each<[string, object, string, WaitStand]>([
  ['a walk-on wait an hour in', walkOn, '11:00', 'waiting'],
  ['a minute before its end', walkOn, '13:59', 'waiting'],
  ['at its end', walkOn, '14:00', 'ready'],
  ['a recoat window not open', recoat, '11:00', 'waiting'],
  ['open', recoat, '13:00', 'ready'],
  ['three quarters gone', recoat, '16:00', 'latest-soon'],
  ['closed', recoat, '18:01', 'too-late'],
  ['a latest-by just begun', cover, '11:00', 'ready'],
  ['a latest-by at 75 %', cover, '16:00', 'latest-soon'],
  ['a latest-by passed', cover, '18:01', 'too-late'],
])('%s', (_, data, clock, stand) => {
  expect(waits(waiting(data), at(clock)).map((one) => one.stand)).toEqual([stand]);
});

describe('a clock that was moved', () => {
  const jump = (wallDeltaMs: number, monoDeltaMs: number | null, clock: string): Said => ({
    kind: 'clock-jump',
    at: clock,
    data: { wallDeltaMs, monoDeltaMs },
  });
  test.each<[string, Said[], string]>([
    ['not moved', [], '14:00'],
    ['set three hours forward after ten minutes: four hours are four hours', [jump(3 * HOUR + 600_000, 600_000, '13:10')], '17:00'],
    ['set an hour back after ten minutes', [jump(-HOUR + 600_000, 600_000, '09:10')], '13:00'],
    ['forward and back again', [jump(3 * HOUR, 0, '13:00'), jump(-3 * HOUR, 0, '10:00')], '14:00'],
    ['gone back out of sight, nobody knows by how much: the stated instant stays', [jump(-HOUR, null, '09:10')], '14:00'],
  ])('%s', (_, jumps, ready) => {
    const [one] = waits(waiting(walkOn, ...jumps), at('10:00'));
    expect(one?.readyMs).toBe(at(ready));
  });

  it('on another phone moves nothing', () => {
    const here = chain('phone-a', [
      {
        id: 'w1',
        kind: 'wait',
        at: '10:00',
        data: { surfaces: [], fromUtc: readyAt('10:00'), readyUtc: readyAt('14:00'), latestUtc: null, limit: 'l', what: 'walk-on' },
      },
    ]);
    const there = chain('phone-b', [jump(3 * HOUR, 0, '13:00')]);
    expect(waits(project([...here, ...there]).state, at('10:00'))[0]?.readyMs).toBe(at('14:00'));
  });
});

test.each(['America/Chicago', 'Europe/Madrid', 'Australia/Lord_Howe', 'Pacific/Apia'])(
  '24 h is 24 h over both changes of the clocks in %s',
  (zone) => {
    for (const day of [
      '2026-03-07T20:00:00.000Z',
      '2026-10-31T20:00:00.000Z',
      '2026-03-28T20:00:00.000Z',
      '2026-04-04T10:00:00.000Z',
      '2026-10-03T10:00:00.000Z',
    ]) {
      const state = project(chain('phone-a', [limit('before-flooding', '24', null), limit('cover-within', null, '1', 'd')])).state;
      const drafts = waitsBegun(state, 'liquid-coat', day, [], null).map((draft) =>
        draft.kind === 'wait' ? (draft.data.readyUtc ?? draft.data.latestUtc) : null,
      );
      expect(
        drafts.map((utc) => Date.parse(utc ?? '') - Date.parse(day)),
        `${zone} ${day}`,
      ).toEqual([24 * HOUR, 24 * HOUR]);
    }
  },
);

describe('what a wait holds up', () => {
  test.each<[string, string, string[], number]>([
    ['bands on the floor that cures', 'band-seams', [FLOOR], 1],
    ['bands on a wall beside it', 'band-seams', ['north'], 0],
    ['scraping holds nobody', 'scrape', [FLOOR], 0],
    ['a flood test of it', 'flood-test', [FLOOR], 1],
  ])('%s', (_, step, surfaces, n) => {
    expect(heldUp(waits(waiting(walkOn), at('11:00')), step as never, surfaces)).toHaveLength(n);
  });

  it('no more once it is over, or once somebody answered for going on', () => {
    expect(heldUp(waits(waiting(walkOn), at('14:00')), 'band-seams', [FLOOR])).toEqual([]);
    const early: Said = { kind: 'early', data: { wait: 'w1', reason: 'firm', check: 'mortar-firm', held: true, words: '' } };
    expect(heldUp(waits(waiting(walkOn, early), at('11:00')), 'band-seams', [FLOOR])).toEqual([]);
  });
});

describe('how a wait ends', () => {
  test.each<[string, object, Said[], { early: boolean; late: boolean } | null]>([
    ['nothing came after it', walkOn, [], null],
    ['a step elsewhere', walkOn, [start('r', 'band-seams', ['north'], '15:00')], null],
    ['kept', walkOn, [start('r', 'band-seams', [FLOOR], '15:00')], { early: false, late: false }],
    ['gone on early', walkOn, [start('r', 'band-seams', [FLOOR], '12:00')], { early: true, late: false }],
    ['in the recoat window', recoat, [start('r', 'liquid-coat', [FLOOR], '17:00')], { early: false, late: false }],
    ['after it', recoat, [start('r', 'liquid-coat', [FLOOR], '19:00')], { early: false, late: true }],
    [
      'early by a clock set forward',
      walkOn,
      [{ kind: 'clock-jump', at: '14:10', data: { wallDeltaMs: 4 * HOUR, monoDeltaMs: 0 } }, start('r', 'band-seams', [FLOOR], '14:30')],
      { early: true, late: false },
    ],
  ])('%s', (_, data, then, ended) => {
    const [one] = waits(waiting(data, ...then), at('20:00'));
    expect(one?.ended === null ? null : { early: one?.ended.early, late: one?.ended.late }).toEqual(ended);
  });
});

describe('a wait that something later has outlived', () => {
  const flood = { what: 'before-flooding', readyUtc: readyAt('12:00') };
  test.each<[string, object, Said[], string, listed: boolean]>([
    ['the last coat, nothing after it', recoat, [], '13:00', true],
    ['the last coat, in the flood test', recoat, [start('r', 'flood-test', [FLOOR], '12:30')], '13:00', false],
    ['nor is it too late for another', recoat, [start('r', 'flood-test', [FLOOR], '12:30')], '19:00', false],
    ['its own time is still said', recoat, [start('r', 'flood-test', [FLOOR], '11:00')], '11:30', true],
    ['flooded elsewhere', recoat, [start('r', 'flood-test', ['other'], '12:30')], '13:00', true],
    ['a repair outlives nothing', recoat, [start('r', 'repair', [FLOOR], '12:30')], '13:00', true],
    ['to flood, protected without', flood, [start('r', 'protect', [FLOOR], '12:30')], '13:00', false],
    ['too late to cover, looked at before tile', cover, [start('r', 'check', [FLOOR], '17:00')], '19:00', true],
  ])('%s', (_, data, then, clock, listed) => {
    const standing = waits(waiting(data, ...then), at(clock));
    expect(openWaits(standing, at(clock)).map((one) => one.wait.id)).toEqual(listed ? ['w1'] : []);
    expect(bellsBetween(standing, at('10:00'), at(clock)).length > 0).toBe(listed && !clock.startsWith('11'));
  });

  it('is kept as it was: nobody went on early or late', () => {
    const [one] = waits(waiting(recoat, start('r', 'flood-test', [FLOOR], '12:30')), at('13:00'));
    expect([one?.outlived, one?.ended, one?.stand]).toEqual([true, null, 'ready']);
  });
});

it('lists what is due first on top, and forgets a bucket a day after it died', () => {
  const state = project(
    chain('phone-a', [
      {
        id: 'far',
        kind: 'wait',
        data: {
          what: 'before-flooding',
          surfaces: [],
          fromUtc: readyAt('09:00'),
          readyUtc: '2026-03-03T09:00:00.000Z',
          latestUtc: null,
          limit: 'l',
        },
      },
      {
        id: 'near',
        kind: 'wait',
        data: { what: 'recoat', surfaces: [], fromUtc: readyAt('09:00'), readyUtc: readyAt('11:00'), latestUtc: null, limit: 'l' },
      },
      {
        id: 'pail',
        kind: 'wait',
        data: { what: 'pot-life', surfaces: [], fromUtc: readyAt('09:00'), readyUtc: null, latestUtc: readyAt('10:00'), limit: 'l' },
      },
    ]),
  ).state;
  const ids = (ms: number) => openWaits(waits(state, ms), ms).map((one) => one.wait.id);
  expect(ids(at('09:30'))).toEqual(['pail', 'near', 'far']);
  expect(ids(at('10:30') + 24 * HOUR)).toEqual(['near', 'far']);
});

describe('of two waits for the same thing the one that lasts longer on all surfaces of the other is shown', () => {
  const wait = (id: string, what: string, surfaces: string[], ready: string | null, latest: string | null = null): Said => ({
    id,
    kind: 'wait',
    data: {
      what,
      surfaces,
      fromUtc: readyAt('09:00'),
      readyUtc: ready === null ? null : readyAt(ready),
      latestUtc: latest === null ? null : readyAt(latest),
      limit: 'l',
    },
  });
  const cure = (id: string, surfaces: string[], ready: string, latest?: string) => wait(id, 'before-flooding', surfaces, ready, latest);
  test.each<[why: string, waits: Said[], shown: string[]]>([
    ['over, while the coat above still cures', [cure('a', [FLOOR], '10:00'), cure('b', [], '20:00')], ['b']],
    ['the later one is of fewer surfaces', [cure('a', [], '10:00'), cure('b', [FLOOR], '20:00')], ['a', 'b']],
    ['other surfaces', [cure('a', ['north'], '10:00'), cure('b', [FLOOR], '20:00')], ['a', 'b']],
    ['both at once', [cure('a', [FLOOR], '20:00'), cure('b', [FLOOR], '20:00')], ['b']],
    ['begun later and over before', [cure('a', [], '20:00'), cure('b', [FLOOR], '10:00')], ['a']],
    ['another thing is waited for', [cure('a', [FLOOR], '10:00'), wait('b', 'recoat', [FLOOR], '20:00')], ['a', 'b']],
    ['a latest-by is never left out', [cure('a', [FLOOR], '10:00', '18:00'), cure('b', [FLOOR], '20:00')], ['a', 'b']],
    ['each pail for itself', [wait('a', 'slake', [], '10:00'), wait('b', 'slake', [], '11:00')], ['a', 'b']],
  ])('%s', (_, said, shown) => {
    const { state } = project(chain('phone-a', [surface(FLOOR, 'floor'), surface('north', 'wall'), ...said]));
    const ms = at('10:30');
    expect(
      openWaits(waits(state, ms), ms)
        .map((one) => one.wait.id)
        .toSorted(),
    ).toEqual(shown);
  });
});

describe('a wait that is over is no more shown once what it was for has passed', () => {
  const cure = { what: 'before-flooding', surfaces: ['north'], readyUtc: readyAt('12:00') };
  const handed = (surfaces: string[], when: string): Said => ({
    kind: 'hand-over',
    at: when,
    data: { surfaces, who: 'Kit', role: 'tile-setter', words: '' },
  });
  test.each<[why: string, wait: object, then: Said[], shown: number]>([
    ['nothing since', cure, [], 1],
    ['water on the floor after the wall had cured', cure, [start('r', 'flood-test', [FLOOR], '12:00')], 0],
    ['water on the floor before the wall had cured', cure, [start('r', 'flood-test', [FLOOR], '11:59')], 1],
    ['water on the coat that a recoat was for', recoat, [start('r', 'flood-test', [FLOOR], '12:30')], 0],
    ['water elsewhere, for a recoat', recoat, [start('r', 'flood-test', ['north'], '12:30')], 1],
    ['the whole job handed over', recoat, [handed([], '12:30')], 0],
    ['the whole job handed over before it was over', recoat, [handed([], '11:30')], 1],
    ['a part handed over', recoat, [handed([FLOOR], '12:30')], 1],
  ])('%s', (_, wait, then, shown) => {
    expect(openWaits(waits(waiting(wait, ...then), at('13:00')), at('13:00'))).toHaveLength(shown);
  });
});

it('rings once as each moment passes', () => {
  const state = waiting(recoat);
  const rings = (from: string, to: string) => bellsBetween(waits(state, at(to)), at(from), at(to));
  expect(rings('11:59', '12:00')).toEqual(['ready']);
  expect(rings('12:00', '12:01')).toEqual([]);
  expect(rings('15:59', '16:00')).toEqual(['warn']);
  expect(rings('17:59', '18:01')).toEqual(['late']);
});
