import { readdirSync, readFileSync } from 'node:fs';
import type { Result } from '#lib/result.ts';
import { boundsUncertainty } from '#lib/trade/_reading-error.ts';
import { againstProfile, MODEL_CODE_PROFILE } from '#lib/trade/flood-profile.ts';
import { expect, test } from 'vitest';
import { CATALOGUE } from '../../../src/cli/compute/catalogue.ts';
import { PARTS } from '../../../src/cli/compute/row.ts';

interface Row {
  readonly part: string;
  readonly fn: string;
  readonly given: object;
  readonly expect: number | string;
  readonly tolerance: number | string;
  readonly source: string;
  readonly clause: string;
}

/** A number as printed with its unit, in the unit of the field it goes to: C, ms, µm, mm, m2, L, kg, Pa, K. */
const UNITS: Readonly<Record<string, (printed: number) => number>> = {
  C: (c) => c,
  deltaC: (c) => c,
  F: (f) => (f - 32) / 1.8,
  K: (k) => k - 273.15,
  h: (h) => h * 3_600_000,
  d: (d) => d * 86_400_000,
  min: (min) => min * 60_000,
  hC: (degreeHours) => degreeHours,
  dC: (degreeDays) => degreeDays * 24,
  'kJ/mol': (kilojoules) => (kilojoules * 1000) / 8.314,
  um: (um) => um,
  mil: (mil) => mil * 25.4,
  mm: (mm) => mm,
  in: (inches) => inches * 25.4,
  ft: (feet) => feet * 304.8,
  ft2: (ft2) => ft2 * 0.09290304,
  'm2/L': (rate) => rate,
  'ft2/gal': (rate) => (rate * 0.09290304) / 3.785411784,
  L: (litres) => litres,
  qt: (quarts) => quarts * 0.946352946,
  gal: (gallons) => gallons * 3.785411784,
  ft3: (ft3) => ft3 * 28.316846592,
  lb: (pounds) => pounds * 0.45359237,
  psf: (psf) => psf * 47.88025898,
};

const FUNCTIONS: Readonly<Record<string, (given: never) => Result<object, { readonly field: string; readonly code: string }>>> = {
  ...Object.fromEntries(CATALOGUE.map(({ name, call }) => [name, call])),
  againstProfile: (given: object) => againstProfile({ ...(given as { depthMm: number; heldMs: number }), profile: MODEL_CODE_PROFILE }),
  combined: ({ standard, halfWidths }: { standard: number[]; halfWidths: number[] }) => ({
    ok: true,
    value: { combined: Math.hypot(...standard, ...halfWidths.map(boundsUncertainty)) },
  }),
};

const FOLDER = new URL('../../vectors/trade/', import.meta.url);
const ROWS = readdirSync(FOLDER)
  .filter((name) => name.endsWith('.json'))
  .flatMap((name) => JSON.parse(readFileSync(new URL(name, FOLDER), 'utf8')) as Row[]);
const NAMED = ROWS.map((row) => [`${row.part}: ${row.source}, ${row.clause}, ${row.fn}`, row] as const);

/** Texts with a unit become numbers, at any depth; all else stays. */
function si(value: unknown): unknown {
  if (typeof value === 'string') {
    const [, printed, unit] = /^(-?\d+(?:\.\d+)?) (\S+)$/.exec(value) ?? [];
    return printed === undefined ? value : UNITS[unit!]!(Number(printed));
  }
  if (Array.isArray(value)) return value.map(si);
  if (typeof value === 'object' && value !== null) return Object.fromEntries(Object.entries(value).map(([key, one]) => [key, si(one)]));
  return value;
}

const number = (value: number | string) => si(value) as number;
/** A tolerance is a difference, so what a unit's zero stands for drops out. */
const width = (value: number | string) => number(value) - (typeof value === 'string' ? number(value.replace(/\S+/, '0')) : 0);

function computed({ fn, given }: Row): number {
  const [name = '', field = name] = fn.split('.');
  const result = FUNCTIONS[name]!(si(given) as never);
  if (!result.ok) throw new RangeError(`${fn}: ${result.fault.field} ${result.fault.code}`);
  return (result.value as Record<string, number>)[field]!;
}

const agrees = (value: number, expected: number, tolerance: number) => Math.abs(value - expected) <= tolerance;

test.each(NAMED)('%s', (_, row) => {
  expect(Math.abs(computed(row) - number(row.expect))).toBeLessThanOrEqual(width(row.tolerance));
});

test.each(NAMED)('moved by three tolerances either way it is red: %s', (_, row) => {
  const [value, expected, tolerance] = [computed(row), number(row.expect), width(row.tolerance)];
  expect([3, -3].filter((by) => agrees(value, expected + by * tolerance, tolerance))).toEqual([]);
});

test('a tolerance is at most half of the last digit that was printed', () => {
  const lastDigit = (printed: number | string) => {
    const digits = /\.(\d+)|e-(\d+)/.exec(String(printed));
    return digits ? 10 ** -(digits[1]?.length ?? Number(digits[2])) : 1;
  };
  const printed = ({ expect: value, tolerance }: Row) =>
    width(typeof tolerance === 'string' ? tolerance.replace(/\S+/, String(lastDigit(value))) : lastDigit(value));
  const loose = ROWS.filter(
    (row) => row.expect !== 0 && !FRACTIONS.has(String(row.expect)) && width(row.tolerance) > printed(row) * 0.5000001,
  );
  expect(loose.map(({ fn, source, clause }) => `${fn}, ${source}, ${clause}`)).toEqual([]);
});

/** Printed as fractions of an inch, whose last digit is the denominator: 3/16, 1/8, 1/4. */
const FRACTIONS = new Set(['0.1875 in', '0.125 in', '0.25 in', '0.5 in']);

test.each(PARTS)('at least ten rows of %s, each with its source and its place there', (part) => {
  const rows = ROWS.filter((row) => row.part === part);
  expect(rows.length).toBeGreaterThanOrEqual(10);
  expect(rows.filter(({ source, clause }) => source.length < 5 || clause.length < 2)).toEqual([]);
});

test('at least 150 rows, from at least 40 places in documents, none of them twice', () => {
  const places = new Set(ROWS.map(({ source, clause }) => `${source}, ${clause}`));
  expect(ROWS.length).toBeGreaterThanOrEqual(150);
  expect(places.size).toBeGreaterThanOrEqual(40);
  expect(new Set(ROWS.map((row) => JSON.stringify([row.fn, row.given, row.source, row.clause]))).size).toBe(ROWS.length);
});
