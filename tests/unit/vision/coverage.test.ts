import { type Coverage, measureCoverage } from '#lib/vision/coverage.ts';
import { codeOf, type Quad } from '#lib/vision/raster.ts';
import { describe, expect, test } from 'vitest';
import { coatPhoto, type CoatPhoto, type CoatWishes } from '../../camera/coat.ts';
import { photograph } from '../../camera/develop.ts';
import { tap } from '../../camera/lap.ts';
import { random } from '../../sim/random.ts';

const TAP_PX = 2;
const FEW: CoatWishes = { width: 2016, mmPerPx: [0.25, 0.4], holidays: [4, 10], diametersMm: [2, 15] };

async function measured(wishes: CoatWishes, seed: number) {
  const chance = random(seed);
  const photo = coatPhoto(wishes, chance);
  const { raster } = await photograph(photo.camera, photo.scene, photo.photoFilm, chance);
  const taps = (points: readonly (readonly [number, number])[]) => points.map((point) => tap(point, TAP_PX, chance));
  const points = {
    quad: taps(photo.quad) as unknown as Quad,
    widthMm: photo.widthMm,
    heightMm: photo.heightMm,
    film: taps(photo.filmTaps),
    bare: taps(photo.bareTaps),
  };
  return { photo, raster, points, result: measureCoverage(raster, points) };
}

function held({ result, photo }: Awaited<ReturnType<typeof measured>>): Coverage {
  if (!result.ok) throw new Error(`refused: ${result.fault}`);
  expect(photo.coveredShare).toBeGreaterThanOrEqual(result.value.low);
  expect(photo.coveredShare).toBeLessThanOrEqual(result.value.high);
  return result.value;
}

/** Which spot speaks of each hole, and the spots that speak of none. */
function matched({ holes }: CoatPhoto, { holidays }: Coverage) {
  const spotOf = holes.map((hole) =>
    holidays.find(({ xMm, yMm }) => Math.hypot(xMm - hole.x, yMm - hole.y) < Math.max(3, 0.8 * hole.diameterMm)),
  );
  return { spotOf, rest: holidays.filter((spot) => !spotOf.includes(spot)) };
}

describe('a coat with a few holidays', () => {
  test.each([1, 2, 3])(
    'photo %i: share within half a point, every holiday of 4 mm with its place and size, no other spot',
    async (seed) => {
      const one = await measured(FEW, seed);
      const value = held(one);
      expect(Math.abs(value.coveredShare - one.photo.coveredShare)).toBeLessThan(0.005);
      expect((value.high - value.low) / 2).toBeLessThan(0.01);
      const { spotOf, rest } = matched(one.photo, value);
      expect(rest).toEqual([]);
      for (const [i, { x, y, diameterMm }] of one.photo.holes.entries()) {
        const spot = spotOf[i];
        if (diameterMm < 4) continue;
        expect(Math.hypot(spot!.xMm - x, spot!.yMm - y)).toBeLessThan(2);
        expect(Math.abs(spot!.diameterMm - diameterMm)).toBeLessThan(1);
        expect(spot!.kind).toBe('bare');
      }
    },
  );

  test.each([4, 5])('photo %i of a coat that ends in the area: share within a point', async (seed) => {
    const one = await measured({ ...FEW, unfinished: true }, seed);
    const value = held(one);
    expect(Math.abs(value.coveredShare - one.photo.coveredShare)).toBeLessThan(0.01);
    expect(value.holidays[0]!.diameterMm).toBeGreaterThan(60);
  });

  // Shadow edges and lamps of which the film near by tells nothing: 12 spots were made of the ground, or holidays taken for glare.
  test.each([108, 22])(
    'photo %i of a coat that ends in the area, in uneven light: the ground is one place, nothing shines',
    async (seed) => {
      const wishes: CoatWishes = { width: 1008, mmPerPx: [0.68, 0.7], holidays: [2, 6], diametersMm: [8, 15], unfinished: true };
      const one = await measured(wishes, seed);
      const value = held(one);
      expect(value.unknownShare).toBeLessThan(0.001);
      const { spotOf, rest } = matched(one.photo, value);
      expect(rest.map(({ diameterMm }) => diameterMm > 60)).toEqual([true]);
      for (const [i, { diameterMm }] of one.photo.holes.entries()) expect(Math.abs(spotOf[i]!.diameterMm - diameterMm)).toBeLessThan(2);
    },
  );

  test('a full coat, bare taught beside the area: nothing found, and no more said than that', async () => {
    const value = held(await measured({ ...FEW, holidays: [0, 0] }, 6));
    expect(value.holidays).toEqual([]);
    expect(value.high).toBe(1);
    expect(value.low).toBeGreaterThan(0.99);
    expect(value.smallestFoundMm).toBeGreaterThanOrEqual(8 * value.mmPerPx);
  });

  test('the lamp in wet film: what shines is unknown, the interval is as much wider, and no spot is made of it', async () => {
    const one = await measured({ ...FEW, glareMm: 25 }, 7);
    const value = held(one);
    expect(value.unknownShare).toBeGreaterThan(0.02);
    expect(value.high - value.low).toBeGreaterThan(value.unknownShare);
    expect(matched(one.photo, value).rest).toEqual([]);
    expect(value.map.data).toContain(2);
  });
});

test('bare places in full light are bare and no glare, though bare was taught in the shade', () => {
  const [width, height] = [600, 400];
  const rgba = new Uint8Array(4 * width * height).fill(255);
  const holes = [80, 300, 520].map((x) => ({ x, y: 200, radius: 14 }));
  for (let at = 0; at < width * height; at++) {
    const [x, y] = [(at % width) + 0.5, Math.floor(at / width) + 0.5];
    const lit = 0.3 + 0.7 / (1 + Math.exp((200 - x) / 12));
    const bare = holes.some((hole) => Math.hypot(x - hole.x, y - hole.y) < hole.radius);
    for (const [i, light] of (bare ? [0.45, 0.44, 0.41] : [0.06, 0.3, 0.32]).entries()) rgba[4 * at + i] = Math.round(codeOf(light * lit));
  }
  const quad: Quad = [
    [20, 20],
    [580, 20],
    [580, 380],
    [20, 380],
  ];
  const measured = measureCoverage(
    { width, height, rgba },
    { quad, widthMm: 280, heightMm: 180, film: [[400, 100]], bare: [[holes[0]!.x, holes[0]!.y]] },
  );
  const { unknownShare, holidays } = measured.ok ? measured.value : { unknownShare: NaN, holidays: [] };
  expect(unknownShare).toBe(0);
  expect(holidays.map(({ diameterMm }) => Math.abs(diameterMm - 14) < 1)).toEqual([true, true, true]);
});

describe('is refused with its reason', () => {
  test.each<[what: string, wishes: Partial<CoatWishes>]>([
    ['a coat of the same colour', { film: [0.3, 0.31, 0.29], bare: [0.3, 0.31, 0.29] }],
    ['a second coat a shade lighter', { film: [0.05, 0.2, 0.25], bare: [0.055, 0.21, 0.26] }],
  ])('%s', async (_, wishes) => {
    expect((await measured({ ...FEW, width: 1008, mmPerPx: [0.5, 0.6], ...wishes }, 8)).result).toEqual({
      ok: false,
      fault: 'low-contrast',
    });
  });

  test('without film or bare taught, corners that cross, a tap outside, an area that is too small', async () => {
    const picture = { width: 400, height: 300, rgba: new Uint8Array(4 * 400 * 300).fill(90) };
    const quad: Quad = [
      [50, 50],
      [350, 50],
      [350, 250],
      [50, 250],
    ];
    const points = { quad, widthMm: 150, heightMm: 100, film: [[100, 100]], bare: [[200, 200]] } as const;
    const why = (change: object) => {
      const result = measureCoverage(picture, { ...points, ...change });
      return result.ok ? null : result.fault;
    };
    expect(why({ film: [] })).toBe('no-film');
    expect(why({ bare: [] })).toBe('no-bare');
    expect(why({ quad: [quad[0], quad[2], quad[1], quad[3]] })).toBe('not-a-rectangle');
    expect(why({ bare: [[500, 20]] })).toBe('outside-picture');
    expect(why({ widthMm: 1500, heightMm: 1000 })).toBe('area-too-small');
    expect(why({})).toBe('low-contrast');
  });
});
