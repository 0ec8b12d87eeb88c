import { clearOn, clearToCover } from '#lib/job/cover.ts';
import { proofOwed } from '#lib/job/proof.ts';
import { EMPTY_PROJECTION, extend, project, type Projection } from '#lib/job/project.ts';
import type { Entry } from '#lib/record/entry.ts';
import { isDeepStrictEqual } from 'node:util';
import { expect, test } from 'vitest';
import { crewLog } from '../sim/crew-log.ts';
import { plainCount } from '../sim/plain-count.ts';
import { random } from '../sim/random.ts';

const DAYS = 2_000;
const FIRST = 20_261_125;
const seeds = Array.from({ length: DAYS }, (_, i) => FIRST + i);

function shuffled<T>(list: readonly T[], draw: () => number): T[] {
  return list
    .map((one) => ({ one, at: draw() }))
    .toSorted((a, b) => a.at - b.at)
    .map(({ one }) => one);
}

function batches(entries: readonly Entry[], draw: () => number): Entry[][] {
  const parts: Entry[][] = [[], [], [], [], []];
  for (const entry of entries) parts[Math.floor(draw() * parts.length)]!.push(entry);
  return parts;
}

/** The whole state, or nothing when they agree: a deep comparison by the runner is slow, and only wanted when it fails. */
function expectSame(a: Projection, b: Projection, what: string): void {
  if (!isDeepStrictEqual(a, b)) expect(a, what).toEqual(b);
}

/** What the covers say, against a count by loops. Answers how many surfaces were clear. */
function expectHonest({ state }: Projection, what: string): number {
  const plain = plainCount(state.lines.map(({ entry }) => entry));
  const layers = proofOwed(state);
  expect(
    state.surfaces.map(({ surface }) => surface),
    what,
  ).toEqual(plain.surfaces);
  let clear = 0;
  for (const surface of state.surfaces) {
    const cover = clearOn(surface, layers, state);
    const outside = plain.outside.filter(([, on]) => on === null || on === surface.surface);
    expect(cover.missing.map(({ key }) => key).toSorted(), `${what} ${surface.surface}`).toEqual(
      plain.missing[surface.surface]!.toSorted(),
    );
    expect(
      cover.outside.map(({ id }) => id),
      `${what} ${surface.surface}`,
    ).toEqual(outside.map(([id]) => id));
    if (cover.clear) clear += 1;
    if (cover.clear) expect([plain.missing[surface.surface], outside], `${what} ${surface.surface}`).toEqual([[], []]);
  }
  const all = clearToCover(layers, state);
  if (all.clear) expect([Object.values(plain.missing).flat(), plain.outside], what).toEqual([[], []]);
  return clear + (all.clear ? 1 : 0);
}

test('two thousand days of two people: the same however they arrive, nothing unshown, and never clear while anything is owed', () => {
  let clear = 0;
  let corrected = 0;
  for (const seed of seeds) {
    const entries = crewLog(seed);
    const whole = project(entries);
    const draw = random(seed ^ 0x5eed);
    const arrived = batches(shuffled(entries, draw), draw).reduce((sum, part) => extend(sum, part), EMPTY_PROJECTION);
    expectSame(arrived, whole, `day ${seed}, bit by bit`);
    expectSame(project(entries.toReversed()), whole, `day ${seed}, backwards`);
    const lines = new Set(whole.state.lines.map(({ entry }) => entry));
    expect([lines.size, entries.every((entry) => lines.has(entry))], `day ${seed}`).toEqual([entries.length, true]);
    clear += expectHonest(whole, `day ${seed}`);
    corrected += whole.state.lines.filter(({ standing }) => standing.state !== 'stands').length;
  }
  // The days are worth nothing unless some of them end clear, and some entries are amended, contested and withdrawn.
  expect(clear).toBeGreaterThan(DAYS / 4);
  expect(corrected).toBeGreaterThan(DAYS);
});

test('a phone that has heard only part of the day is no more hasty than one that has heard all', () => {
  for (const seed of seeds.slice(0, 200)) {
    const draw = random(seed);
    let sum = EMPTY_PROJECTION;
    for (const part of batches(crewLog(seed), draw)) {
      sum = extend(sum, part);
      expectHonest(sum, `day ${seed}, after ${sum.placed.length}`);
    }
  }
});

test('the last five entries of a day in every one of their 120 orders mean the same', () => {
  for (const seed of seeds.slice(0, 12)) {
    const entries = crewLog(seed);
    const before = project(entries.slice(0, -5));
    const whole = project(entries);
    for (const last of orders(entries.slice(-5))) {
      expectSame(
        last.reduce((sum, entry) => extend(sum, [entry]), before),
        whole,
        `day ${seed}: ${last.map(({ body }) => body.id).join(' ')}`,
      );
    }
  }
});

function orders<T>(list: readonly T[]): T[][] {
  if (list.length < 2) return [[...list]];
  return list.flatMap((one, i) => orders(list.toSpliced(i, 1)).map((rest) => [one, ...rest]));
}

test('a day is its seed’s alone', () => {
  expect(crewLog(FIRST)).toEqual(crewLog(FIRST));
  expect(crewLog(FIRST)).not.toEqual(crewLog(FIRST + 1));
});
