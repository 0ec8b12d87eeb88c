import { barrierCautions, type CautionCode } from '#lib/job/cautions.ts';
import { previewJob } from '#lib/job/preview.ts';
import { emptyRoom, emptySurface, roomDrafts, roomForm, surfaceDrafts, surfaceForm } from '#lib/job/room-form.ts';
import type { JobState } from '#lib/job/state.ts';
import type { Draft } from '#lib/record/kinds.ts';
import { Room, Surface } from '#lib/record/kinds/setup.ts';
import type { SurfaceForm } from '#lib/record/setup-drafts.ts';
import { expect, test } from 'vitest';

const room = (id: string, name: string, more: object = {}): Draft => ({ kind: 'room', data: Room.parse({ room: id, name, ...more }) });
const surface = (id: string, name: string, more: object = {}): Draft => ({
  kind: 'surface',
  data: Surface.parse({ surface: id, name, place: 'wall', system: 'sheet', room: 'hall', ...more }),
});
const JOB = previewJob([
  room('hall', 'Hall bath', { steam: true, drain: 'clamping' }),
  surface('back', 'Back wall', {
    width: { text: `5' 3-1/2"`, value: '63.5', unit: 'in' },
    substrate: 'cement-board',
    outside: 'yes',
    retarder: 'no',
  }),
  surface('floor', 'Floor', { place: 'floor', system: 'own:ours' }),
  room('main', 'Main bath'),
]);

const FORM: SurfaceForm = { ...emptySurface('left', 'hall', JOB), name: 'Left wall', system: 'sheet' };
const made = (change: Partial<SurfaceForm>, job: JobState = JOB) => surfaceDrafts({ ...FORM, ...change }, job);

test('a surface keeps its size as typed, and what was read of it', () => {
  const drafts = made({ width: ` 5' 3-1/2" `, height: '2,4 m', substrate: 'glass-mat', outside: 'yes', retarder: 'no' });
  const [draft] = drafts.ok ? drafts.value : [];
  expect(draft).toEqual({
    kind: 'surface',
    data: {
      surface: 'left',
      name: 'Left wall',
      place: 'wall',
      system: 'sheet',
      room: 'hall',
      width: { text: `5' 3-1/2"`, value: '63.5', unit: 'in' },
      height: { text: '2,4 m', value: '2.4', unit: 'm' },
      substrate: 'glass-mat',
      outside: 'yes',
      retarder: 'no',
    },
  });
  expect(surfaceForm(Surface.parse(draft!.data))).toMatchObject({ width: `5' 3-1/2"`, height: '2,4 m', substrate: 'glass-mat' });
});

test('what nobody said is not in the entry', () => {
  expect(made({ room: null })).toEqual({
    ok: true,
    value: [{ kind: 'surface', data: { surface: 'left', name: 'Left wall', place: 'wall', system: 'sheet' } }],
  });
});

test('a change keeps the id, and does not meet its own name', () => {
  const back = surfaceForm(JOB.surfaces[0]!);
  expect(surfaceDrafts({ ...back, system: 'own:ours' }, JOB)).toMatchObject({
    ok: true,
    value: [{ data: { surface: 'back', name: 'Back wall', system: 'own:ours' } }],
  });
});

test.each<[what: string, change: Partial<SurfaceForm>, faults: [field: string, code: string][]]>([
  ['no name', { name: ' ' }, [['name', 'empty']]],
  ['a name of the same room', { name: 'BACK  wall'.replace('  ', ' ') }, [['name', 'same-name']]],
  ['a name of 100,000', { name: 'x'.repeat(100_000) }, [['name', 'too-long']]],
  ['a size without its unit', { width: '63' }, [['width', 'no-unit']]],
  ['no size', { height: 'tall' }, [['height', 'not-a-length']]],
  ['a size of nothing', { height: '0 mm' }, [['height', 'not-a-length']]],
  ['a size below nothing', { height: '-57 mm' }, [['height', 'not-a-length']]],
  ['a wall of 31 m', { width: '31 m' }, [['width', 'too-large']]],
  ['a wall of 999999999999 m', { width: '999999999999 m' }, [['width', 'too-large']]],
  ['all at once', { name: '', width: '🛁', height: '5' }, [['name', 'empty'], ['width', 'not-a-length'], ['height', 'no-unit']]],
])('%s is refused by field', (_, change, faults) => {
  expect(made(change)).toEqual({ ok: false, fault: faults.map(([field, code]) => ({ field, code })) });
}); // prettier-ignore

test.each(['حمام الممر', 'חדר \u200famit', 'Baño 🛁 👩🏽‍🔧'])('a name such as %j is kept', (name) => {
  expect(made({ name })).toMatchObject({ ok: true, value: [{ data: { name } }] });
});

test('another room may have a wall of the same name', () => {
  expect(made({ name: 'Back wall', room: 'main' })).toMatchObject({ ok: true });
});

let ids = 0;
test('a copied room has its surfaces under new ids, with all that is known of them', () => {
  const form = { ...roomForm(JOB.rooms[0]!), room: 'copy', copyOf: 'hall', name: ' Upstairs ' };
  const drafts = roomDrafts(form, JOB, () => `new-${++ids}`);
  expect(drafts).toEqual({
    ok: true,
    value: [
      { kind: 'room', data: { room: 'copy', name: 'Upstairs', steam: true, drain: 'clamping' } },
      { kind: 'surface', data: { ...JOB.surfaces[0], surface: 'new-1', room: 'copy' } },
      { kind: 'surface', data: { ...JOB.surfaces[1], surface: 'new-2', room: 'copy' } },
    ],
  });
});

test('a room must have a name of its own', () => {
  const faults = (name: string) => roomDrafts({ ...emptyRoom('new'), name }, JOB, () => 'none');
  expect(faults('')).toEqual({ ok: false, fault: [{ field: 'name', code: 'empty' }] });
  expect(faults(' hall BATH ')).toEqual({ ok: false, fault: [{ field: 'name', code: 'same-name' }] });
  expect(faults('x'.repeat(201))).toEqual({ ok: false, fault: [{ field: 'name', code: 'too-long' }] });
  expect(roomDrafts(roomForm(JOB.rooms[0]!), JOB, () => 'none')).toMatchObject({ ok: true });
});

test('the next surface of a room begins with the system beside it', () => {
  expect(emptySurface('new', 'hall', JOB).system).toBe('own:ours');
  expect(emptySurface('new', null, previewJob([])).system).toBe('sheet-and-liquid');
});

test.each<[what: string, on: object, steam: boolean, code: CautionCode | null]>([
  ['a plain wall', {}, false, null],
  ['a retarder behind a membrane', { retarder: 'yes' }, false, 'two-barriers'],
  ['the same on an outside wall', { retarder: 'yes', outside: 'yes' }, false, 'outside-two-barriers'],
  ['an outside wall behind which nobody looked', { outside: 'yes' }, false, 'outside-unknown'],
  ['an outside wall known to have none', { outside: 'yes', retarder: 'no' }, false, null],
  ['an inside wall behind which nobody looked', { retarder: 'unknown' }, false, null],
  ['a steam room', {}, true, 'steam'],
  ['a steam room known to have none', { outside: 'no', retarder: 'no' }, true, 'steam'],
  ['a steam room on an outside wall', { outside: 'yes', retarder: 'no' }, true, 'steam-outside'],
  ['a steam room with a retarder', { retarder: 'yes' }, true, 'two-barriers'],
  ['a niche', { place: 'niche', retarder: 'yes' }, false, 'two-barriers'],
  ['a liquid', { system: 'liquid', retarder: 'yes' }, false, 'two-barriers'],
  // A loose liner lies behind the board, a tray on the floor: no membrane in front.
  ['a loose liner', { system: 'loose-liner', retarder: 'yes', outside: 'yes' }, true, null],
  ['a tray', { system: 'tray', retarder: 'yes' }, true, null],
  ['a floor', { place: 'floor', retarder: 'yes', outside: 'yes' }, true, null],
  ['a system of the crew with sheets', { system: 'own:ours', retarder: 'yes' }, false, 'two-barriers'],
  ['a system of the crew without', { system: 'own:bare', retarder: 'yes' }, false, null],
])('%s: %#', (_, on, steam, code) => {
  const own = (system: string, steps: ('bond-sheets' | 'scrape')[]): Draft => ({
    kind: 'own-system',
    data: { system, name: system, steps },
  });
  const job = previewJob([
    own('ours', ['scrape', 'bond-sheets']),
    own('bare', ['scrape']),
    room('hall', 'Hall', steam ? { steam } : {}),
    surface('w', 'Wall', on),
  ]);
  expect(barrierCautions(job).map((one) => one.code)).toEqual(code === null ? [] : [code]);
});
