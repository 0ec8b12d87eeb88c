import { price, proofOwed } from '#lib/job/proof.ts';
import { project } from '#lib/job/project.ts';
import { expect, test } from 'vitest';
import { chain } from '../../fixtures/log.ts';
import { ASSEMBLIES, job, limit, SHOWERS, showerOf, type Shower } from '../../fixtures/shower.ts';

/** The price of a shower of two coats, where it has any. */
function priceOf(shower: Shower, assembly: (typeof ASSEMBLIES)[number], proof: 'core' | 'warranty' | 'full') {
  const said = [job(proof), limit('coats', '2', null, 'count'), ...showerOf(shower, assembly)];
  return price(proofOwed(project(chain('a', said)).state));
}

const CASES = (Object.keys(SHOWERS) as Shower[]).flatMap((shower) =>
  ASSEMBLIES.map((assembly) => ({ shower, assembly, name: assembly.join(' below ') })),
);

test.each(CASES)('$shower, $name: at core at most 20 photos and 12 readings, and a quarter of an hour', ({ shower, assembly }) => {
  const { photos, readings, entries, minutes } = priceOf(shower, assembly, 'core');
  expect(photos).toBeLessThanOrEqual(20);
  expect(readings).toBeLessThanOrEqual(12);
  expect(entries).toBeLessThanOrEqual(3);
  expect(minutes).toBeLessThanOrEqual(15);
  // No shower is so simple that it owes next to nothing: floor, curb, corners, drain and the test are photographed whatever the system.
  expect(photos).toBeGreaterThanOrEqual(10);
});

test.each(CASES)('$shower, $name: warranty asks more than core, and full more than warranty', ({ shower, assembly }) => {
  const [core, warranty, full] = (['core', 'warranty', 'full'] as const).map((level) => priceOf(shower, assembly, level)) as [
    Price,
    Price,
    Price,
  ];
  expect(warranty.photos).toBeGreaterThan(core.photos);
  expect(warranty.readings).toBeGreaterThan(core.readings);
  expect(warranty.entries).toBeGreaterThanOrEqual(core.entries);
  expect(full.photos).toBeGreaterThanOrEqual(warranty.photos);
  expect(full.readings).toBeGreaterThan(warranty.readings);
  expect([core.minutes < warranty.minutes, warranty.minutes < full.minutes]).toEqual([true, true]);
});
type Price = ReturnType<typeof price>;

test.each<[shower: Shower, system: 'sheet' | 'liquid' | 'sheet-and-liquid', photos: number, readings: number, minutes: number]>([
  // Counted by hand from the rules: front, clean, (lap, transfer, bonded, flange), banded, base band, drain, corner, collar, (two coats), five of the test, whole.
  ['alcove', 'sheet', 17, 5, 9],
  ['alcove', 'liquid', 15, 10, 11],
  ['walk-in', 'sheet', 17, 4, 8],
  ['neo-angle', 'sheet-and-liquid', 19, 11, 12],
])('%s of %s: %d photos, %d readings, about %d min', (shower, system, photos, readings, minutes) => {
  expect(priceOf(shower, [system, system], 'core')).toEqual({ photos, readings, entries: 3, minutes });
});

test('a job without surfaces costs nothing', () => {
  expect(price(proofOwed(project(chain('a', [job()])).state))).toEqual({ photos: 0, readings: 0, entries: 0, minutes: 0 });
});
