import { starterDrafts } from '#lib/job/starter-limits.ts';
import { isPlausible } from '#lib/job/measures.ts';
import { baseOf } from '#lib/measure/dimension.ts';
import { Limit } from '#lib/record/kinds/setup.ts';
import { SOURCES } from '#lib/trade/sources.ts';
import { STARTER_FAMILIES, STARTERS, startersOf, WATER_CLASSES, type Starter } from '#lib/trade/starters.ts';
import { expect, test } from 'vitest';

// Each row beside what its source says, in the source's own words and units.
const PUBLISHED: readonly (readonly [
  id: string,
  says: string,
  measure: Starter['measure'],
  min: string | null,
  max: string | null,
  unit: Starter['unit'],
])[] = [
  [
    'irc-slope',
    'IRC 2009 P2709.1: floor slopes 1/4 unit vertical in 12 to 1/2 unit in 12, toward the drain',
    'slope',
    '0.25',
    '0.5',
    'in/ft',
  ],
  [
    'irc-curb',
    'IRC 2009 P2709.1: from the top of the curb to the top of the drain at least 2 in, at most 9 in',
    'curb-height',
    '2',
    '9',
    'in',
  ],
  ['ipc-flood-depth', 'IPC 312.9: water not less than 2 in deep, measured at the threshold', 'flood-depth', '2', null, 'in'],
  ['ipc-flood-hold', 'IPC 312.9: retained for a test period of not less than 15 min', 'flood-hold', '15', null, 'min'],
  ['upc-upturn', 'UPC 408.7: lining not less than 3 in above the finished dam or threshold', 'upturn', '3', null, 'in'],
  ['upc-slope', 'UPC 408.7: lining on a slope of 1/4 in per foot (20.8 mm/m) to the weep holes', 'slope', '0.25', null, 'in/ft'],
  [
    'ncc-wall-height',
    'NCC Housing Provisions 10.2.2: shower walls not less than 1800 mm above the floor substrate',
    'upturn',
    '1800',
    null,
    'mm',
  ],
  ['ncc-joint', 'NCC Housing Provisions 10.2.2: wall joints not less than 40 mm either side of the junction', 'band-lap', '40', null, 'mm'],
  ['ncc-fall', 'NCC 2022 10.2.12: fall to the waste from 1:80 to 1:50', 'slope', '1.25', '2', '%'],
  ['din-dispersion', 'DIN 18534-3: polymer dispersion 0.5 mm dry', 'dry-film', '0.5', null, 'mm'],
  ['din-resin', 'DIN 18534-3: reaction resin 1.0 mm dry', 'dry-film', '1.0', null, 'mm'],
  ['din-slurry', 'DIN 18534-3: crack-bridging cement slurry 2.0 mm dry', 'dry-film', '2.0', null, 'mm'],
];

test.each(PUBLISHED)('%s is what %s', (id, _says, measure, min, max, unit) => {
  expect(STARTERS.find((row) => row.id === id)).toMatchObject({ measure, min, max, unit });
});

test('there is no row beside them', () => {
  expect(STARTERS.map(({ id }) => id)).toEqual(PUBLISHED.map(([id]) => id));
});

test.each(STARTERS.map((row) => [row.id, row] as const))(
  '%s cites a source that was opened, and no value of memory',
  (_, { source, cite }) => {
    const { title, opened } = SOURCES[source];
    expect(opened).not.toBe('');
    expect(`${title} ${opened} ${cite}`).not.toMatch(/memory|common practice/i);
    // The section cited is that of the source.
    expect(title).toContain(cite.split(' ').at(-1)!);
  },
);

test('a fall of 1:80 is 1.25 %, and of 1:50 2 %; 1/4 in per foot is a 48th', () => {
  const ratio = (value: string, unit: '%' | 'in/ft') => baseOf(value, unit);
  expect(ratio('1.25', '%')).toEqual({ ok: true, value: 12_000_000_000 / 80 });
  expect(ratio('2', '%')).toEqual({ ok: true, value: 12_000_000_000 / 50 });
  expect(ratio('0.25', 'in/ft')).toEqual({ ok: true, value: 12_000_000_000 / 48 });
});

test('dispersions end at W2-I, on which alone the families look', () => {
  const ids = WATER_CLASSES.map((water) => startersOf('din-18534', water).map(({ id }) => id));
  const all = ['din-dispersion', 'din-resin', 'din-slurry'];
  expect(ids).toEqual([all, all, all, ['din-resin', 'din-slurry']]);
  for (const family of STARTER_FAMILIES.filter((one) => one !== 'din-18534'))
    expect(startersOf(family, 'W0-I')).toEqual(startersOf(family, 'W3-I'));
});

let ids = 0;
const chosen = (rows: readonly string[], edition = '') =>
  starterDrafts({ family: 'irc-ipc', water: 'W2-I', edition, chosen: [...rows] }, () => `id-${++ids}`);

test('nothing is set that was not touched, and what was touched becomes limits that can be sealed', () => {
  expect(chosen([])).toEqual({ ok: false, fault: [{ field: 'chosen', code: 'none-chosen' }] });
  const made = chosen(
    STARTERS.map(({ id }) => id),
    '2021',
  );
  const limits = made.ok ? made.value.map(({ data }) => Limit.parse(data)) : [];
  expect(limits.map(({ what, min, max, unit }) => [what, min, max, unit])).toEqual(
    STARTERS.map(({ measure, min, max, unit }) => [measure, min, max, unit]),
  );
  for (const { what, min, max, unit } of limits)
    for (const bound of [min, max]) if (bound !== null) expect(isPlausible(what, bound, unit)).toBe(true);
  expect(new Set(limits.map(({ limit }) => limit)).size).toBe(STARTERS.length);
});

test('the edition in force is the person’s, and stands beside the place', () => {
  expect(chosen(['ipc-flood-depth'], ' 2021, city ')).toMatchObject({
    value: [{ data: { source: { kind: 'code', text: 'IPC 312.9; 2021, city' } } }],
  });
  expect(chosen(['ipc-flood-depth'])).toMatchObject({ value: [{ data: { source: { kind: 'code', text: 'IPC 312.9' } } }] });
  expect(chosen(['ipc-flood-depth'], 'x'.repeat(100_000))).toEqual({ ok: false, fault: [{ field: 'edition', code: 'too-long' }] });
});
