import { price, proofOwed, toMark } from '#lib/job/proof.ts';
import { project } from '#lib/job/project.ts';
import type { Drawing } from '#lib/record/kinds/drawing.ts';
import { expect, test } from 'vitest';
import { ALCOVE, drawn, q, thing } from '../../../fixtures/drawn.ts';
import { chain, type Said } from '../../../fixtures/log.ts';
import { amend, job, notDone, reading, run, shot, surface, withdraw } from '../../../fixtures/shower.ts';

const ROOM: readonly Said[] = [
  { kind: 'room', data: { room: 'bath', name: 'Bath' } },
  surface('n', 'wall', 'sheet', 'bath'),
  surface('f', 'floor', 'sheet', 'bath'),
  surface('c', 'curb', 'sheet', 'bath'),
];
const VALVE = thing('valve', 0, [16, null, 48]);
const draw = (drawing: Drawing, id = 'd-1'): Said => ({ kind: 'drawing', id, data: drawing });
const SHOWER = draw(drawn(ALCOVE, { things: [VALVE] }));
const PLAN: Said = {
  kind: 'plan', id: 'p-1', refs: ['d-1'],
  data: {
    room: 'bath', drawing: 'd-1', input: { roll: { width: '20' } },
    result: {
      unit: 'in', direction: '0', positions: ['-2', '14'], totalCut: '128', seamLength: '60', smallestOverlap: '4', upturnMissing: [],
      pieces: [{ id: 'A', strip: '0', from: '0', to: '60', cutLength: '64', notched: false }, { id: 'B', strip: '1', from: '0', to: '60', cutLength: '64', notched: false }],
      rolls: [], laying: { steps: [] }, proven: { plan: true, packing: true, laying: true },
    },
  },
}; // prettier-ignore
const mark = (of: string, spot: string, more: object = {}): Said => ({
  kind: 'mark',
  refs: [of],
  data: { of, room: 'bath', x: q(0), y: q(0), spot, ...more },
});
const items = (...said: readonly Said[]) => proofOwed(project(chain('a', [...ROOM, ...said])).state).flatMap((layer) => layer.items);
const keys = (rule: string, ...said: readonly Said[]) =>
  items(...said)
    .filter((item) => item.rule.id === rule)
    .map(({ key }) => key);
const shown = (...said: readonly Said[]) =>
  items(...said).flatMap(({ key, spot, stand }) => (spot !== null && stand === 'shown' ? [key] : []));

test('without a drawing each is owed as before; with one, of each place', () => {
  expect(keys('corner')).toEqual(['corner:bath']);
  expect(keys('corner', SHOWER)).toEqual(['corner:bath@corner-0', 'corner:bath@corner-3']);
  expect(keys('collar', SHOWER)).toEqual(['collar:bath@thing-0']);
  expect(keys('overlap', SHOWER)).toEqual(['overlap:f']);
  expect(keys('overlap', SHOWER, PLAN)).toEqual(['overlap:bath@seam-0']);
});

test('a shower of 2 curb ends owes at core one photo more than without its drawing', () => {
  const core = (...said: Said[]) => price(proofOwed(project(chain('a', [...ROOM, ...said])).state));
  expect(core(SHOWER).photos - core().photos).toBe(1);
  expect(core(SHOWER).readings).toBe(core().readings);
});

// Corners of the floor where walls meet, both ends of the curb with their upper edges; at full those of a niche besides.
test.each<[level: 'core' | 'warranty' | 'full', corners: number]>([
  ['core', 2],
  ['warranty', 2 + 2 * 3],
  ['full', 2 + 2 * 3 + 8],
])('at %s a shower with a niche owes %d corners', (level, corners) => {
  const niche = thing('niche', 1, [24, null, 46, 14, 20, 3.5]);
  const owed = keys('corner', job(level), draw(drawn(ALCOVE, { things: [VALVE, niche] })));
  expect(owed).toHaveLength(corners);
  // Risk places first.
  expect(owed.slice(0, 2).every((key) => /@corner-[03]/.test(key))).toBe(true);
});

test.each<[what: string, said: Said[], shown: string[]]>([
  ['a photo of the layer marked there', [run('band-seams', []), shot('band-seams', {}, 's'), mark('s', 'corner-3')], ['corner:bath@corner-3']],
  ['a photo that says it shows it', [shot(null, { shows: ['corner'], surfaces: ['c'] }, 's'), mark('s', 'corner-0')], ['corner:bath@corner-0']],
  ['one photo marked at both ends', [run('corners', []), shot('corners', {}, 's'), mark('s', 'corner-0'), mark('s', 'corner-3')], ['corner:bath@corner-0', 'corner:bath@corner-3']],
  ['a photo of another layer', [run('scrape', []), shot('scrape', {}, 's'), mark('s', 'corner-3')], []],
  ['a photo that is not marked', [run('band-seams', []), shot('band-seams', { shows: ['corner'] })], []],
  ['a mark in another room', [run('band-seams', []), shot('band-seams', {}, 's'), mark('s', 'corner-3', { room: 'hall' })], []],
  ['a lap measured at its seam', [PLAN, run('pre-cut', []), { ...reading('pre-cut', 'overlap', 'f', '4'), id: 'r' }, mark('r', 'seam-0')], ['overlap:bath@seam-0']],
  ['another measure marked there', [PLAN, run('band-seams', []), { ...reading('band-seams', 'band-lap', 'f', '4'), id: 'r' }, mark('r', 'seam-0')], []],
  ['a mark taken back', [run('band-seams', []), shot('band-seams', {}, 's'), { ...mark('s', 'corner-3'), id: 'm' }, withdraw('m')], []],
])('%s', (_, said, keysShown) => {
  expect(shown(SHOWER, ...said)).toEqual(keysShown);
}); // prettier-ignore

test.each<[what: string, key: string, said: Said[], of: string | null]>([
  ['nothing taken yet', 'overlap:bath@seam-0', [run('pre-cut', [])], null],
  ['a photo of the room is no lap', 'overlap:bath@seam-0', [run('pre-cut', []), shot('pre-cut', {}, 's')], null],
  ['a lap read and not marked', 'overlap:bath@seam-0', [run('pre-cut', []), { ...reading('pre-cut', 'overlap', 'f', '4'), id: 'r' }], 'r'],
  ['a lap marked at another seam', 'overlap:bath@seam-0', [{ ...reading(null, 'overlap', 'f', '4'), id: 'r' }, mark('r', 'seam-1')], null],
  ['another measure', 'overlap:bath@seam-0', [{ ...reading(null, 'band-lap', 'f', '4'), id: 'r' }], null],
  ['a photo of the substrate', 'corner:bath@corner-0', [run('scrape', []), shot('scrape', {}, 's')], null],
  ['a photo that says it shows a corner', 'corner:bath@corner-0', [run('corners', []), shot('corners', { shows: ['corner'] }, 's')], 's'],
])('to mark there: %s', (_, key, said, of) => {
  const { state } = project(chain('a', [...ROOM, SHOWER, PLAN, ...said]));
  const item = proofOwed(state).flatMap((layer) => layer.items).find((one) => one.key === key)!;
  expect(toMark(item, state)).toBe(of);
}); // prettier-ignore

test('what was left out of a place on purpose is no longer owed there', () => {
  const stand = (key: string, ...said: Said[]) => items(SHOWER, ...said).find((item) => item.key === key)?.stand;
  expect(stand('corner:bath@corner-3', notDone('corners', [], { items: ['corner:bath@corner-3'] }))).toBe('not-done');
  expect(stand('corner:bath@corner-0', notDone('corners', [], { items: ['corner:bath@corner-3'] }))).toBe('owed');
  expect(stand('corner:bath@corner-0', notDone('corners'))).toBe('not-done');
});

test('a drawing in dispute, one that cannot be drawn, and a plan of an earlier drawing ask for nothing', () => {
  const other = { ...drawn(ALCOVE), height: q(90) };
  expect(keys('corner', SHOWER, amend('d-1', other, [], 'x'), amend('d-1', drawn(ALCOVE), [], 'y'))).toEqual(['corner:bath']);
  expect(keys('corner', draw(drawn('32; 60; 32; 59 curb 4 5')))).toEqual(['corner:bath']);
  expect(keys('overlap', SHOWER, PLAN, draw(drawn(ALCOVE), 'd-2'))).toEqual(['overlap:f']);
});
