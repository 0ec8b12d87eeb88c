import { EMPTY_JOB } from '#lib/job/state.ts';
import type { Room, Surface } from '#lib/record/kinds/setup.ts';
import { roomOf, surfaceLabels } from '#lib/ui/photo/labels.ts';
import { nextOfPlace } from '#lib/ui/photo/pairs.ts';
import { pickedSurfaces, toggled } from '#lib/ui/photo/picks.ts';
import { expect, test } from 'vitest';

test.each([
  ['the first of a new photo stands alone', ['north'], 'floor', false, ['floor']],
  ['the second before the shutter is added', ['north'], 'floor', true, ['north', 'floor']],
  ['a touch on a picked one lets it go', ['north', 'floor'], 'north', false, ['floor']],
  ['also between two photos', ['north', 'floor'], 'north', true, ['floor']],
  ['nothing picked yet', [], 'floor', false, ['floor']],
] as const)('%s', (_, before, touched, sincePhoto, after) => {
  expect(pickedSurfaces(before, touched, sincePhoto)).toEqual(after);
});

test('a touch takes up what was not, and lays back what was', () => {
  expect(toggled(toggled([], 'a'), 'b')).toEqual(['a', 'b']);
  expect(toggled(['a', 'b'], 'a')).toEqual(['b']);
});

test.each([
  ['wide', null, { step: 'closer', distance: 'mid' }],
  ['mid', 'wide', { step: 'closer', distance: 'close' }],
  ['close', 'mid', null],
  ['close', null, { step: 'back', distance: 'mid' }],
  ['mid', 'close', { step: 'back', distance: 'wide' }],
  ['wide', 'mid', null],
  ['mid', null, { step: 'closer', distance: 'close' }],
  [null, null, null],
] as const)('after a photo from %s, itself after %s, the same place is offered as %j', (last, before, next) => {
  expect(nextOfPlace(last, before)).toEqual(next);
});

test('a surface is called by its room too only where two rooms have one of that name', () => {
  const rooms: Room[] = [
    { room: 'hall', name: 'Hall bath' },
    { room: 'main', name: 'Main bath' },
  ];
  const surface = (id: string, name: string, room?: string): Surface => ({
    surface: id,
    name,
    place: 'floor',
    system: 'sheet',
    ...(room === undefined ? {} : { room }),
  });
  const labels = surfaceLabels(
    [surface('a', 'Floor', 'hall'), surface('b', 'Floor', 'main'), surface('c', 'Niche', 'main'), surface('d', 'Floor')],
    rooms,
  );
  expect([...labels.values()]).toEqual(['Floor, Hall bath', 'Floor, Main bath', 'Niche', 'Floor']);
});

test('the room stands large where all that is picked is in one; else the job', () => {
  const surface = (id: string, room?: string): Surface => ({
    surface: id,
    name: id,
    place: 'floor',
    system: 'sheet',
    ...(room === undefined ? {} : { room }),
  });
  const rooms = [
    { room: 'hall', name: 'Hall bath' },
    { room: 'main', name: 'Main bath' },
  ];
  const job = { ...EMPTY_JOB, name: 'Elm Street', rooms, surfaces: [surface('a', 'hall'), surface('b', 'hall'), surface('c', 'main')] };
  expect([['a', 'b'], ['a', 'c'], ['c'], []].map((picked) => roomOf(picked, job))).toEqual([
    'Hall bath',
    'Elm Street',
    'Main bath',
    'Elm Street',
  ]);
  expect(roomOf(['a'], { ...job, rooms: [] })).toBe('Elm Street');
});
