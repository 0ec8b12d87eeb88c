import { PROOF_RULES } from '#lib/job/proof-rules.ts';
import {
  CORNERS,
  COVER_ORDER,
  LAYERS,
  LAYER_OF_STEP,
  layersOn,
  MEASURES_OF_STEP,
  stepsOn,
  type Place,
  type System,
} from '#lib/job/systems.ts';
import { MEASURE_KINDS } from '#lib/job/measures.ts';
import { MEASURES } from '#lib/record/kinds/reading.ts';
import { PLACES, STEPS, SYSTEMS, type Surface } from '#lib/record/kinds/setup.ts';
import { REASON } from '#lib/words/codes.ts';
import { expect, test } from 'vitest';

const on = (place: Place, system: Surface['system']): Surface => ({ surface: 's', name: 'S', place, system });
const steps = (place: Place, system: Surface['system']) => stepsOn(on(place, system), { ownSystems: [] }).join(' ');
const layers = (place: Place, system: Surface['system']) => layersOn(on(place, system), { ownSystems: [] }).join(' ');

const SHEET = 'scrape pre-cut bond-sheets band-seams corners';

test('bonded sheet: cut dry, bonded, banded; corner pieces as the data sheet says', () => {
  expect(steps('wall', 'sheet')).toBe(`${SHEET} protect check`);
  expect(steps('floor', 'sheet')).toBe(`${SHEET} flood-test protect check`);
  expect(steps('curb', 'sheet')).toBe(`${SHEET} protect check`);
  expect(layers('floor', 'sheet')).toBe('substrate sheets bands flood protect');
  expect(CORNERS.sheet.when).toBe('either');
});

test('liquid with fabric corners: the fabric goes in before the coats', () => {
  expect(steps('wall', 'liquid')).toBe('scrape band-seams corners liquid-coat protect check');
  expect(steps('floor', 'liquid')).toBe('scrape band-seams corners liquid-coat flood-test protect check');
  expect(steps('curb', 'liquid')).toBe('scrape band-seams corners liquid-coat protect check');
  expect(layers('wall', 'liquid')).toBe('substrate bands coat protect');
  expect(CORNERS.liquid.when).toBe('before');
});

test('sheet and liquid stacked: the coat hides the bands', () => {
  expect(steps('wall', 'sheet-and-liquid')).toBe(`${SHEET} liquid-coat protect check`);
  expect(steps('floor', 'sheet-and-liquid')).toBe(`${SHEET} liquid-coat flood-test protect check`);
  expect(steps('curb', 'sheet-and-liquid')).toBe(`${SHEET} liquid-coat protect check`);
  expect(layers('floor', 'sheet-and-liquid')).toBe('substrate sheets bands coat flood protect');
  expect(CORNERS['sheet-and-liquid'].when).toBe('either');
});

test('sheet floor, liquid walls: the band turns up the wall and the coat laps onto it', () => {
  const system = 'sheet-floor-liquid-walls';
  expect(steps('floor', system)).toBe(`${SHEET} flood-test protect check`);
  expect(steps('curb', system)).toBe(`${SHEET} protect check`);
  expect(steps('wall', system)).toBe('scrape band-seams corners liquid-coat protect check');
  expect([layers('floor', system), layers('wall', system)]).toEqual([
    'substrate sheets bands flood protect',
    'substrate bands coat protect',
  ]);
  const lapped = COVER_ORDER.find((row) => row.system === system && row.places.includes('wall') && row.step === 'liquid-coat');
  expect([lapped?.covers, lapped?.reason]).toEqual(['band-seams', 'coat-laps-band']);
  expect(CORNERS[system].when).toBe('either');
});

test('loose liner in a clamping drain: dam corners over the liner, which turns up behind the board', () => {
  expect(steps('floor', 'loose-liner')).toBe('scrape lay-liner corners flood-test protect check');
  expect(steps('curb', 'loose-liner')).toBe('scrape lay-liner corners protect check');
  expect(steps('wall', 'loose-liner')).toBe('lay-liner protect check');
  expect([layers('floor', 'loose-liner'), layers('wall', 'loose-liner')]).toEqual(['substrate liner bands flood protect', 'liner protect']);
  expect(CORNERS['loose-liner'].when).toBe('after');
});

test('factory tray: its joints are banded once it lies; the walls are of another system', () => {
  expect(steps('floor', 'tray')).toBe('scrape set-tray band-seams corners flood-test protect check');
  expect(steps('curb', 'tray')).toBe('scrape set-tray band-seams corners protect check');
  expect(steps('wall', 'tray')).toBe('protect check');
  expect(layers('floor', 'tray')).toBe('substrate tray bands flood protect');
  expect(CORNERS.tray.when).toBe('before');
});

test('the crew’s own: as they wrote it, on every place; nothing where the book does not hold it', () => {
  const ours = { system: 'ours', name: 'Ours', steps: ['scrape', 'corners', 'bond-sheets', 'liquid-coat'] } as const;
  const job = { ownSystems: [{ ...ours, steps: [...ours.steps] }] };
  for (const place of PLACES) expect(stepsOn(on(place, 'own:ours'), job)).toEqual(ours.steps);
  expect(layersOn(on('floor', 'own:ours'), job)).toEqual(['substrate', 'sheets', 'bands', 'coat']);
  expect(stepsOn(on('floor', 'own:theirs'), job)).toEqual([]);
});

const PLACED = COVER_ORDER.flatMap((row) => row.places.map((place) => ({ ...row, place })));

test('each row covers a step that was done before it on that very surface, so that no step ever covers itself', () => {
  for (const { system, place, step, covers } of PLACED) {
    const order = steps(place, system).split(' ');
    expect(order.indexOf(step), `${step} on ${system} ${place}`).toBeGreaterThan(covers === null ? -1 : order.indexOf(covers));
    if (covers !== null) expect(order, `${step} covers ${covers} on ${system} ${place}`).toContain(covers);
  }
});

test('each step stands once on a surface, and the first covers nothing', () => {
  for (const system of SYSTEMS)
    for (const place of PLACES) {
      const rows = PLACED.filter((row) => row.system === system && row.place === place);
      expect(new Set(rows.map(({ step }) => step)).size).toBe(rows.length);
      expect(rows.filter(({ covers }) => covers === null)).toEqual([rows[0]]);
    }
});

test.each([...COVER_ORDER, ...Object.values(CORNERS)])('$system $step: the reason $reason is said in both languages', ({ reason }) => {
  const say = REASON[reason as keyof typeof REASON];
  expect([say({}, { locale: 'en' }).length > 10, say({}, { locale: 'es' }).length > 10]).toEqual([true, true]);
});

test('corner pieces before the bands, after them or either way, for every named system', () => {
  const after = (system: System) => steps('floor', system).indexOf('corners');
  for (const system of SYSTEMS) expect(after(system)).toBeGreaterThan(0);
  expect(Object.keys(CORNERS).toSorted()).toEqual([...SYSTEMS].toSorted());
});

test('only floors are flooded, everything is checked before tile, and what protects comes between', () => {
  for (const system of SYSTEMS)
    for (const place of PLACES) {
      const order = steps(place, system).split(' ');
      expect(order.includes('flood-test')).toBe(place === 'floor');
      expect(order.slice(-2)).toEqual(['protect', 'check']);
    }
});

test('each layer is worked on by a step, and only a repair works on whichever it mends', () => {
  expect(LAYERS.filter((layer) => !Object.values(LAYER_OF_STEP).includes(layer))).toEqual([]);
  expect(STEPS.filter((step) => LAYER_OF_STEP[step] === null)).toEqual(['repair']);
});

test.each(PROOF_RULES)('$id is owed by the layer its step works on, and its step can take it', ({ layer, step, want, places }) => {
  expect(LAYER_OF_STEP[step]).toBe(layer);
  expect(places.length).toBeGreaterThan(0);
  if ('reading' in want) {
    expect(MEASURES_OF_STEP[step]).toContain(want.reading);
    expect(MEASURE_KINDS[want.reading].read).toBe(true);
  }
});

test('rules have ids of their own, and stand layer by layer', () => {
  expect(new Set(PROOF_RULES.map(({ id }) => id)).size).toBe(PROOF_RULES.length);
  const at = PROOF_RULES.map(({ layer }) => LAYERS.indexOf(layer));
  expect(at).toEqual(at.toSorted((a, b) => a - b));
});

test('what core asks, warranty asks, and what warranty asks, full asks: never less, never wider', () => {
  const size = { null: 0, room: 1, surface: 2 };
  for (const { id, core, warranty, full } of PROOF_RULES) {
    const [a, b, c] = [core, warranty, full].map((scope) => size[`${scope}`]) as [number, number, number];
    expect(a <= b && b <= c, id).toBe(true);
  }
});

test('a measure that no step takes is one that is only limited, taken by the weather, or in a photo of any step', () => {
  const taken = new Set(Object.values(MEASURES_OF_STEP).flat());
  expect(MEASURES.filter((what) => !taken.has(what) && MEASURE_KINDS[what].read)).toEqual(['air-temperature', 'humidity', 'distance']);
  expect([...taken].filter((what) => !MEASURE_KINDS[what].read)).toEqual([]);
});
