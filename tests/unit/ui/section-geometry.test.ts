import fc from 'fast-check';
import type { Layer } from '#lib/job/systems.ts';
import { buildUp, strata, stratumAt, wallMiddle, type Point, type StrataInput } from '#lib/ui/section/geometry.ts';
import type { ItemView, LayerView } from '#lib/ui/section/layer-view.ts';
import { floorKeys, wallLeader } from '#lib/ui/section/leaders.ts';
import { measures, planSection } from '#lib/ui/section/plan.ts';
import { expect, test } from 'vitest';

const THICKNESS = { frame: 22, liner: 11, tray: 20, guard: 12, board: 26, mortar: 18, sheet: 13, band: 12, coat: 12, water: 45 };
const ALL: Layer[] = ['substrate', 'sheets', 'bands', 'coat', 'flood'];

function input(layers: StrataInput['layers'], more: Partial<StrataInput> = {}): StrataInput {
  return { width: 390, height: 578, thickness: THICKNESS, layers, band: { wallTop: 162, floorEnd: 258 }, breakLine: 14, ...more };
}
const both = (layers: Layer[], wall = 4, floor = 2) => layers.map((layer) => ({ layer, wall: layer === 'flood' ? 0 : wall, floor }));

/** Any subset of the layers in order, each with or without items on either leg. */
const anyLayers = fc
  .subarray(ALL, { minLength: 1 })
  .chain((layers) => fc.tuple(...layers.map((layer) => fc.record({ layer: fc.constant(layer), wall: fc.nat(10), floor: fc.nat(10) }))));

/** Shoelace formula. */
function area(points: readonly Point[]): number {
  return (
    Math.abs(
      points.reduce((sum, { x, y }, i) => sum + x * points[(i + 1) % points.length]!.y - points[(i + 1) % points.length]!.x * y, 0),
    ) / 2
  );
}

test('no point of any layer lies outside the drawing', () => {
  fc.assert(
    fc.property(anyLayers, fc.integer({ min: 320, max: 560 }), fc.integer({ min: 480, max: 1200 }), (layers, width, height) => {
      for (const stratum of strata(input(layers, { width, height, band: { wallTop: height * 0.3, floorEnd: width * 0.62 } }))) {
        const points = [
          stratum.outline,
          ...stratum.beds.map((bed) => bed.points),
          ...[...stratum.wall, ...stratum.floor].map((cell) => cell.points),
        ].flat();
        const [xs, ys] = [points.map(({ x }) => x), points.map(({ y }) => y)];
        expect(
          points.length === 0 || (Math.min(...xs) >= 0 && Math.max(...xs) <= width && Math.min(...ys) >= 0 && Math.max(...ys) <= height),
        ).toBe(true);
      }
    }),
    { seed: 20251014, numRuns: 200 },
  );
});

test('the beds of a layer fill its outline, without gap or overlap', () => {
  fc.assert(
    fc.property(anyLayers, (layers) => {
      for (const { outline, beds } of strata(input(layers))) {
        expect(beds.reduce((sum, bed) => sum + area(bed.points), 0)).toBeCloseTo(area(outline), 3);
      }
    }),
    { seed: 20251014, numRuns: 200 },
  );
});

test('a hatch is drawn within its bed, each piece once, and only where a step is left plain is there less of it', () => {
  fc.assert(
    fc.property(anyLayers, (layers) => {
      for (const bed of strata(input(layers)).flatMap(({ beds }) => beds)) {
        const plain = area(bed.points) - bed.hatched.reduce((sum, piece) => sum + area(piece.points), 0);
        expect(plain).toBeGreaterThan(-0.01);
        if (bed.hatched.length === 1) expect(plain).toBeLessThan(0.01);
        expect(new Set(bed.hatched.map(({ v }) => v)).size).toBe(bed.hatched.length);
      }
    }),
    { seed: 20251014, numRuns: 200 },
  );
});

test('the cells of a leg follow each other from end to end, evenly', () => {
  fc.assert(
    fc.property(anyLayers, (layers) => {
      strata(input(layers)).forEach(({ wall, floor, layer, sides }, i) => {
        expect(wall).toHaveLength(layer === 'flood' ? 0 : layers[i]!.wall);
        expect(floor).toHaveLength(layers[i]!.floor);
        for (const cells of [wall, floor]) {
          const lengths = cells.map(({ from, to }) => to - from);
          for (const length of lengths) expect(length).toBeCloseTo(lengths[0]!, 6);
          cells.slice(1).forEach(({ from }, k) => expect(from).toBeCloseTo(cells[k]!.to, 6));
        }
        if (wall.length > 0) expect(wall.at(-1)!.to).toBeCloseTo(578 - (sides.floor?.inner.near ?? floorBelow(layers, i)), 6);
      });
    }),
    { seed: 20251014, numRuns: 200 },
  );
});

/** Height of the floor that a wall leg without a floor of its own stands on. */
function floorBelow(layers: StrataInput['layers'], i: number): number {
  return buildUp(strata(input(layers.slice(0, i))), 'floor');
}

test('the mitre is 45 degrees in every layer that turns the corner', () => {
  const drawn = strata(input(both(['substrate', 'sheets', 'bands', 'coat'])));
  const corners = drawn.map(({ sides }) => {
    const { outer, inner } = { outer: sides.wall!.outer.near, inner: sides.wall!.inner.near };
    return { x: inner - outer, y: sides.floor!.inner.near - sides.floor!.outer.near };
  });
  expect(corners).toEqual([26, 31, 12, 12].map((t) => ({ x: t, y: t })));
});

test('each layer lies on the face the one before it left', () => {
  const drawn = strata(input(both(ALL)));
  drawn.slice(1).forEach(({ sides }, i) => {
    expect(sides.floor!.outer).toEqual(drawn[i]!.sides.floor!.inner);
    if (sides.wall !== null) expect(sides.wall.outer).toEqual(drawn[i]!.sides.wall!.inner);
  });
  expect(buildUp(drawn, 'wall')).toBe(81);
});

test('a coat keeps its thickness on both sides of the end of a band and goes down at 45 degrees', () => {
  const { inner, outer } = strata(input(both(['substrate', 'bands', 'coat'])))[2]!.sides.wall!;
  expect([inner.near - outer.near, inner.far - outer.far]).toEqual([12, 12]);
  expect(inner.to - inner.from).toBe(outer.near - outer.far);
});

test('a leg without items is not there, and the layers inside it lie on what is', () => {
  const [substrate, sheets, coat] = strata(
    input([
      { layer: 'substrate', wall: 3, floor: 1 },
      { layer: 'sheets', wall: 0, floor: 2 },
      { layer: 'coat', wall: 3, floor: 0 },
    ]),
  );
  expect(sheets!.sides.wall).toBeNull();
  expect(coat!.sides.wall!.outer).toEqual(substrate!.sides.wall!.inner);
  expect(wallMiddle(coat!, 100, 578)).toBe(32);
  // It stands on the floor's sheet: 26 board, 18 bed, 13 sheet.
  expect(Math.max(...coat!.outline.map(({ y }) => y))).toBe(578 - 57);
});

test.each<[x: number, y: number, layer: Layer]>([
  [10, 100, 'substrate'],
  [40, 300, 'sheets'],
  [63, 400, 'bands'],
  [90, 300, 'coat'],
  [200, 570, 'substrate'],
  [300, 470, 'flood'],
])('a touch at %i, %i means the %s', (x, y, layer) => {
  expect(stratumAt(strata(input(both(ALL))), { x, y }, 578)?.layer).toBe(layer);
});

test('a leader runs level to a row beside its gap, and bends once to any other', () => {
  const gap = { from: 200, to: 260, face: 69 };
  expect(wallLeader(gap, { x: 104, y: 230 })).toEqual([
    { x: 66, y: 230 },
    { x: 104, y: 230 },
  ]);
  expect(wallLeader(gap, { x: 104, y: 400 })).toEqual([
    { x: 66, y: 254 },
    { x: 98, y: 400 },
    { x: 104, y: 400 },
  ]);
});

test('up to eight cells name each gap; more show one mark for a run, with its count', () => {
  const cells = (letters: string) =>
    [...letters].map((one, i) => ({ from: i * 30, to: i * 30 + 30, face: 500, letter: one === '.' ? null : one }));
  expect(floorKeys(cells('a.b..c')).map(({ x, text }) => [x, text])).toEqual([
    [15, 'a'],
    [75, 'b'],
    [165, 'c'],
  ]);
  expect(floorKeys(cells('ab.c..def')).map(({ x, text }) => [x, text])).toEqual([
    [30, '2'],
    [105, 'c'],
    [225, '3'],
  ]);
});

test.each(['sheets', 'bands', 'coat', 'flood', 'protect'] as const)(
  'the letters over the floor stand clear of the rows: %s open',
  (open) => {
    const item = (layer: Layer, i: number): ItemView => ({
      key: `${layer}-${i}`,
      name: '',
      place: 'floor',
      want: 'shot',
      stand: 'owed',
      shown: false,
    });
    const layers = [...ALL, 'protect' as const].map((layer): LayerView => {
      const items = Array.from({ length: 6 }, (_, i) => item(layer, i));
      return { layer, name: layer, note: '', stand: 'owed', shown: 0, leftOut: 0, total: 6, open: layer === open, items };
    });
    const room = measures(layers, 390);
    const height = 700 + room.below;
    const { keys } = planSection(layers, { width: 390, height, rowY: () => 100 }, room);
    expect(keys.map(({ text }) => text).join('')).toBe('abcdef');
    for (const { y } of keys) expect(y - 10).toBeGreaterThanOrEqual(height - room.below);
  },
);
