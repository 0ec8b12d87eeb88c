import { describe, expect, test } from 'vitest';
import { cornersKnown, partAround } from '#lib/job/behind/in-register.ts';
import { featuresNear } from '#lib/job/behind/nearest.ts';
import { strataAt, surfacesAt, type TouchedPlace } from '#lib/job/behind/strata.ts';
import { shapeOf } from '#lib/job/drawing/shape.ts';
import { project } from '#lib/job/project.ts';
import { ALCOVE, drawn, q, thing } from '../../../fixtures/drawn.ts';
import { chain, type Said } from '../../../fixtures/log.ts';

const IN = 10_000;
const file = (letter: string) => ({ sha256: letter.repeat(64), bytes: 9, type: 'image/jpeg' });
const shot = (id: string, run: string, surface: string): Said => ({
  id,
  run,
  kind: 'shot',
  data: { picture: file('a'), from: 'viewfinder', surface, surfaces: [surface] },
});
const read = (id: string, run: string, what: string, value: string, unit: string, surface: string, more = {}): Said => ({
  id,
  run,
  kind: 'reading',
  data: { what, surface, said: { text: value, value, unit }, how: 'tape', ...more },
});
const mark = (of: string, wall: number | null, x: number, y: number, spot?: string): Said => ({
  kind: 'mark',
  refs: [of],
  data: { of, room: 'bath', ...(wall === null ? {} : { wall }), x: q(x), y: q(y), ...(spot === undefined ? {} : { spot }) },
});
const start = (id: string, step: string, surfaces: string[], more = {}): Said => ({
  id,
  kind: 'run-start',
  data: { step, surfaces, ...more },
});

/** An alcove, its back wall of sheet and two coats, with a valve 24 in along and 40 up on wall 1. */
const LOG: Said[] = [
  { kind: 'device', data: { key: { alg: 'none', why: 'test' } } },
  { kind: 'job', data: { name: 'Hall bath', address: '', units: 'in', lang: 'en' } },
  { kind: 'room', data: { room: 'bath', name: 'Hall bath' } },
  { kind: 'surface', data: { surface: 'back', name: 'Back wall', place: 'wall', system: 'sheet-and-liquid', room: 'bath' } },
  { kind: 'surface', data: { surface: 'left', name: 'Left wall', place: 'wall', system: 'sheet-and-liquid', room: 'bath' } },
  { kind: 'surface', data: { surface: 'pan', name: 'Floor', place: 'floor', system: 'sheet-and-liquid', room: 'bath' } },
  { kind: 'material', data: { material: 'glue', what: 'mortar', name: 'Mortar', lot: '4471', useBy: null } },
  { id: 'drawing', kind: 'drawing', data: drawn(ALCOVE, { things: [thing('valve', 1, [24, null, 40])] }) },
  start('bond', 'bond-sheets', ['back'], { materials: ['glue'] }),
  shot('far', 'bond', 'back'),
  shot('near', 'bond', 'back'),
  shot('other-wall', 'bond', 'back'),
  shot('unmarked', 'bond', 'back'),
  start('coat-1', 'liquid-coat', ['back'], { coat: 1 }),
  read('film-1', 'coat-1', 'wet-film', '22', 'mil', 'back', { coat: 1 }),
  start('coat-2', 'liquid-coat', ['back'], { coat: 2 }),
  read('film-2', 'coat-2', 'wet-film', '24', 'mil', 'back', { coat: 2 }),
  {
    id: 'odd',
    run: 'coat-2',
    kind: 'deviation',
    data: { surfaces: ['back'], what: 'Thin by the valve', why: '', against: null, accepted: '' },
  },
  mark('far', 1, 50, 60),
  mark('near', 1, 26, 40),
  mark('other-wall', 0, 10, 10),
  mark('film-2', 1, 24, 42),
];
const { state } = project(chain('phone', LOG));
const at: TouchedPlace = { room: 'bath', unit: 'in', wall: 1, x: 24 * IN, y: 40 * IN };

describe('what lies behind a place', () => {
  test('what was stated without a step stands with its layer: protection, a repair and a deviation of a reading', () => {
    const stated: Said[] = [
      { id: 'p', kind: 'protect', data: { surfaces: ['back'], how: 'Board' } },
      { id: 'p2', kind: 'protect', data: { surfaces: ['left'], how: 'Board' } },
      { id: 'fixed', kind: 'repair', data: { surfaces: ['back'], what: 'Second pass', of: ['film-1'] } },
      { id: 'owned', kind: 'deviation', data: { surfaces: ['back'], what: 'Thin', why: '', against: 'film-2', accepted: '' } },
      { id: 'loose', kind: 'deviation', data: { surfaces: ['back'], what: 'Dust', why: '', against: null, accepted: '' } },
    ];
    const { state } = project(chain('phone', [...LOG, ...stated]));
    const strata = strataAt(state, { room: 'bath', unit: 'in', wall: 1, x: 24 * IN, y: 40 * IN }, [state.surfaces[0]!]);
    expect(strata.flatMap(({ layer, coat, deviations }) => deviations.map(({ of }) => [layer, coat, of.id]))).toEqual([
      ['coat', 1, 'fixed'],
      ['coat', 2, 'odd'],
      ['coat', 2, 'owned'],
    ]);
    expect(strata.map(({ layer, runs, worked }) => [layer, runs.length, worked.length])).toContainEqual(['protect', 0, 1]);
  });

  test('the surfaces are those marked on the same wall, or all of its kind where nothing is', () => {
    const names = (place: TouchedPlace) => surfacesAt(state, place).map(({ surface }) => surface);
    expect(names(at)).toEqual(['back']);
    expect(names({ ...at, wall: 2 })).toEqual(['back', 'left']);
    expect(names({ ...at, wall: null })).toEqual(['pan']);
    expect(names({ ...at, room: 'attic' })).toEqual([]);
  });

  const strata = strataAt(state, at);
  test('its layers from the substrate inwards, coat by coat', () => {
    expect(strata.map(({ layer, coat }) => (coat === null ? layer : `${layer} ${coat}`))).toEqual([
      'substrate', 'sheets', 'bands', 'coat 1', 'coat 2', 'protect',
    ]); // prettier-ignore
  });

  test('photos by the distance of their marks, those without one after them, those marked on another wall not at all', () => {
    const { photos, lots, missing } = strata[1]!;
    expect(photos.map(({ shot: { id }, away }) => [id, away === null ? null : away / IN])).toEqual([
      ['near', 2],
      ['far', Math.hypot(26, 20)],
      ['unmarked', null],
    ]);
    expect(lots.map(({ lot }) => lot)).toEqual(['4471']);
    expect(missing).toBeGreaterThan(0);
  });

  test('a photo whose marked area holds the place comes first, however far its middle; one beside the place by its edge', () => {
    const area = (of: string, [left, low, right, high]: readonly [number, number, number, number]): Said => {
      const corners = [[left, high], [right, high], [right, low], [left, low]].map((at) => at.map(String)); // prettier-ignore
      const inPhoto = { width: 400, height: 300, corners: [['10', '20'], ['390', '20'], ['390', '280'], ['10', '280']] }; // prettier-ignore
      return {
        kind: 'mark',
        refs: [of],
        data: { of, room: 'bath', wall: 1, x: q((left + right) / 2), y: q((low + high) / 2), corners, inPhoto },
      };
    };
    const log = [...LOG, area('unmarked', [0, 0, 60, 90]), area('far', [30, 38, 40, 50])];
    const { photos } = strataAt(project(chain('phone', log)).state, at)[1]!;
    expect(photos.map(({ shot: { id }, away }) => [id, away! / IN])).toEqual([
      ['unmarked', 0],
      ['near', 2],
      ['far', 6],
    ]);
    const known = cornersKnown(photos[0]!.area!, 'in')!;
    expect(known.onPlane.map((one) => one.map((mm) => Math.round(mm)))).toEqual([[0, -2286], [1524, -2286], [1524, 0], [0, 0]]); // prettier-ignore
    expect(known.inPhoto[2]).toEqual([390, 280]);
    const { xMm, yMm, widthMm, heightMm } = partAround(at);
    expect([xMm + widthMm / 2, yMm + heightMm / 2].map((mm) => Math.round(mm * 10) / 10)).toEqual([609.6, -1016]);
  });

  test('readings and deviations of each coat by itself', () => {
    const [, , , first, second] = strata;
    expect(first!.readings.map(({ reading: { id }, away }) => [id, away])).toEqual([['film-1', null]]);
    expect(second!.readings.map(({ reading: { id }, away }) => [id, away! / IN])).toEqual([['film-2', 2]]);
    expect([first!.deviations, second!.deviations].map((of) => of.map(({ of: { id } }) => id))).toEqual([[], ['odd']]);
  });
});

describe('what lies near a place', () => {
  const shape = shapeOf(state.drawings[0]!.data);
  if (!shape.ok) throw new Error(shape.fault.code);
  const near = (log: Said[], place: TouchedPlace) => featuresNear(project(chain('phone', log)).state, shape.value, place);
  const told = (log: Said[], place: TouchedPlace) => near(log, place).map(({ is, id, away }) => `${is} ${id} ${away / IN}`);

  test('on a wall: its collar, its foot and its ends', () => {
    expect(told(LOG, { ...at, x: 20 * IN, y: 37 * IN })).toEqual([
      'collar thing-0 5',
      'joint corner-1 20',
      'joint floor 37',
      'joint corner-2 40',
    ]);
  });

  test('on the floor: the foot of every wall and the corner pieces', () => {
    const [first] = near(LOG, { ...at, wall: null, x: 5 * IN, y: 10 * IN });
    expect(first).toMatchObject({ is: 'joint', id: 'wall-0', away: 5 * IN, to: { x: 0, y: 10 * IN } });
  });

  // Two strips 39.375 wide, laid upright: they overlap from 30 to 39.375 along the wall.
  const plan: Said = {
    kind: 'plan',
    data: {
      room: 'bath',
      drawing: 'drawing',
      wall: 1,
      input: { roll: { width: '39.375' } },
      result: { positions: ['0', '30'], direction: 90 },
    },
  };
  const lap = [read('lap', 'bond', 'overlap', '2.5', 'in', 'back'), mark('lap', 1, 34, 20)];
  test('a seam of the plan by the middle of its overlap, with the lap that was read on it', () => {
    const seam = near([...LOG, plan, ...lap], at).find(({ is }) => is === 'seam');
    expect(seam).toMatchObject({ id: 'seam-0', away: 10.6875 * IN, shownBy: ['lap'], lap: { reading: { id: 'lap' } } });
    expect(near([...LOG, plan], at).find(({ is }) => is === 'seam')).toMatchObject({ shownBy: [], lap: null });
  });

  test('a photo marked for a collar shows it', () => {
    const collar = (log: Said[]) => near(log, at).find(({ is }) => is === 'collar')!.shownBy;
    expect(collar(LOG)).toEqual(['near', 'film-2']);
    expect(collar([...LOG, shot('close', 'bond', 'back'), mark('close', 1, 0, 0, 'thing-0')])).toContain('close');
  });
});
