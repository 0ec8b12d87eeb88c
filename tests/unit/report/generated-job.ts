import { EMPTY_PLAN, planDraft, planInput } from '#lib/job/drawing/plan-input.ts';
import { shapeOf, type RoomShape } from '#lib/job/drawing/shape.ts';
import { project } from '#lib/job/project.ts';
import { roomsOf } from '#lib/job/proof.ts';
import type { Entry } from '#lib/record/entry.ts';
import { sha256HexOfText } from '#lib/record/hash.ts';
import { KINDS } from '#lib/record/kinds.ts';
import type { Drawing } from '#lib/record/kinds/drawing.ts';
import { planAnswer } from '#lib/trade/laying/plan-answer.ts';
import { planRoom } from '#lib/trade/laying/plan-room.ts';
import { readRoom } from '#lib/trade/sheets/room.ts';
import { ALCOVE, doorway, drawn, q, thing } from '../../fixtures/drawn.ts';
import { chain, type Said } from '../../fixtures/log.ts';
import { ONE_OF_EACH } from '../../fixtures/one-of-each.ts';
import { crewLog } from '../../sim/crew-log.ts';
import { random } from '../../sim/random.ts';
import { PICTURE } from '../../fixtures/shower.ts';

/** What people call things: accents, signs of mark-up, other scripts, directions, emoji, and words without a space. */
const ODD = [
  'Baño <2> & “Ñandú”',
  'שלום room',
  'Łazienka — 1½',
  '浴室',
  'x'.repeat(90),
  'W W'.repeat(20),
  '🛁 tub',
  'a\u202Eb (c)',
  '"quoted" \\ back',
  "O'Hara",
];

/** Rooms of every sort of edge and thing, in inches and in millimetres. */
const ROOMS: readonly ((room: string) => Drawing)[] = [
  (room) => drawn(ALCOVE, { room, things: [thing('drain', 1, [30, 16, null, 6]), thing('valve', 2, [15, null, 42])] }),
  (room) =>
    drawn('36; 60; 36; 14@0; 32 curb 4 5@0; 14', {
      room,
      things: [thing('niche', 1, [20, null, 40, 14, 12, 4]), thing('bench', 0, [0, null, null, 36, 18, 14]), thing('drain', 1, [40, 20, null, 4])],
    }),
  (room) =>
    drawn(
      '1500; 2400; 1500; 2400',
      {
        room,
        doorways: [doorway(0, 200, 800, 2000, 'mm')],
        things: [thing('line-drain', 1, [300, 60, null, 900, null, 70], 'mm'), thing('toilet-flange', 2, [400, 500, null, 110], 'mm'), thing('pipe', 3, [900, null, 600], 'mm')],
      },
      2500,
      'mm',
    ),
  (room) => drawn('40; 60; 40; 60 open', { room, closing: 'spread', things: [thing('floor-pipe', 1, [12, 12])] }),
  (room) => drawn('80; 60; 30 low 42; 24@-90; 50; 36', { room, doorways: [doorway(0, 20, 30)] }),
]; // prettier-ignore

/**
 * A generated day of a crew, with one entry of each kind said by a third phone, rooms drawn, planned and marked by a fourth, which also measures
 * in photos and by voice and answers a callback; odd names on what can be named.
 */
export function generatedLog(seed: number): Entry[] {
  const odd = (at: number) => ODD[(seed + at) % ODD.length]!;
  const crew = crewLog(seed).map((entry) => renamed(entry, odd));
  const kinds = KINDS.filter((kind) => kind !== 'device' && kind !== 'record' && kind !== 'amendment' && kind !== 'withdrawal');
  const device = { kind: 'device', data: { key: { alg: 'none', why: 'no-key-store' } } };
  const office = chain('office', [device, ...kinds.map((kind, i) => ({ kind, data: named(kind, ONE_OF_EACH[kind], odd(i)) }))]);
  const drafter = chain('drafter', [device, ...drafted(seed, crew, odd)]);
  // The simulated days are neither hashed nor signed.
  return [...crew, ...office, ...drafter].map((entry) => ({ ...entry, hash: sha256HexOfText(entry.raw) }));
}

function renamed(entry: Entry, odd: (at: number) => string): Entry {
  const { kind, data, seq } = entry.body;
  if (kind !== 'job' && kind !== 'surface' && kind !== 'room') return entry;
  const body = { ...entry.body, data: { ...data, name: `${odd(seq)} ${seq}` } };
  return { ...entry, body, raw: JSON.stringify(body) };
}

function named(kind: string, data: object, odd: string): object {
  if (kind === 'job') return { ...data, name: odd, address: odd };
  if (kind === 'material') return { ...data, name: odd, lot: odd.slice(0, 40) };
  if (kind === 'deviation') return { ...data, what: odd, why: odd };
  if (kind === 'limit') return { ...data, source: { kind: 'data-sheet', text: odd } };
  return 'words' in data && kind !== 'note' ? { ...data, words: odd } : data;
}

/** What came with drawings, photos that measure, spoken values and callbacks, of this crew's rooms, surfaces and photos. */
function drafted(seed: number, crew: readonly Entry[], odd: (at: number) => string): Said[] {
  const draw = random(seed ^ 0x5eed);
  const { state } = project(crew);
  const between = (low: number, high: number) => Math.round((low + draw() * (high - low)) * 4) / 4;
  const shots = crew.filter(({ body }) => body.kind === 'shot').map(({ body }) => body.id);
  const marked = crew.filter(({ body }) => ['shot', 'reading', 'deviation', 'repair'].includes(body.kind)).map(({ body }) => body.id);
  const on = state.surfaces[Math.floor(draw() * state.surfaces.length)]?.surface ?? null;
  const surfaces = on === null ? [] : [on];

  const rooms = roomsOf(state).flatMap(({ room }, i): Said[] => {
    const data = ROOMS[(seed + i) % ROOMS.length]!(room);
    const id = `drawn-${i}`;
    const shape = shapeOf(data);
    if (!shape.ok) throw new Error(JSON.stringify(shape.fault));
    const marks = marked.slice(0, 14).map((of, k): Said => {
      const wall = Math.floor(draw() * (shape.value.walls.length + 2)) - 2;
      const xs = shape.value.outline.map(({ x }) => x / 10_000);
      const ys = shape.value.outline.map(({ y }) => y / 10_000);
      const at =
        wall < 0
          ? [between(Math.min(...xs), Math.max(...xs)), between(Math.min(...ys), Math.max(...ys))]
          : [between(0, shape.value.walls[wall]!.length / 10_000), between(0, shape.value.walls[wall]!.height / 10_000)];
      const [x, y] = at.map((one) => q(one, shape.value.unit));
      return {
        kind: 'mark',
        refs: [of],
        data: { of, room, x, y, ...(wall < 0 ? {} : { wall }), ...(k === 1 ? { spot: 'corner-0' } : {}) },
      };
    });
    return [{ kind: 'drawing', id, data }, ...planOf(room, id, shape.value), ...marks];
  });

  const measured = shots.slice(0, 4).flatMap((shot, k): Said[] => [photoLength(shot, on, k, between), photoArea(shot, on, k, between)]);
  const spoken: Said[] = [1, 2].map((coat) => ({
    kind: 'reading',
    data: {
      what: 'wet-film',
      surface: on,
      said: { text: `wet at ${22 + coat}, dry at ${24 + coat}`, value: String(22 + coat), to: String(24 + coat), unit: 'mil' },
      how: 'comb',
      coat,
      heard: `coat ${coat} ${odd(coat)} two four mils`,
      otherHeard: 'two five mils',
      engine: 'stub 1',
      confirmedHow: coat === 1 ? 'touch' : 'voice',
    },
  }));
  const callback = { surfaces, complaint: odd(3), looked: 'Dye in the pan', found: odd(4), answer: `Answered: ${odd(5)}` };
  return [...rooms, ...measured, ...spoken, { kind: 'callback', data: callback }];
}

/** Sheets for the floor where the planner finds any in a moment. */
function planOf(room: string, drawing: string, shape: RoomShape): Said[] {
  const size =
    shape.unit === 'in' ? { width: '39 in', newLength: '33 ft', overlap: '2 in' } : { width: '1 m', newLength: '10 m', overlap: '50 mm' };
  const input = planInput({ ...EMPTY_PLAN, ...size }, shape);
  const task = input.ok ? readRoom(input.value) : null;
  if (!input.ok || task?.ok !== true) throw new Error(JSON.stringify({ input, task }));
  // Counted, not timed: a seed gives the same job on every machine.
  const steps = (most: number) => {
    let left = most;
    return () => left-- > 0;
  };
  const planned = planRoom(task.value, { sheets: steps(20_000), laying: steps(20_000), remedies: steps(200) });
  if (!planned.ok) throw new Error(JSON.stringify(planned.fault));
  return [planDraft(room, drawing, input.value, planAnswer(task.value, planned.value))];
}

const SQUARE = [['400', '300'], ['3600', '320'], ['3580', '2700'], ['420', '2680']]; // prettier-ignore

function photoLength(shot: string, surface: string | null, k: number, between: (low: number, high: number) => number): Said {
  const value = between(1, 4);
  const source = { sha256: PICTURE.sha256, width: 4032, height: 3024, method: 'plane 1', mmPerPx: '0.15' };
  const photo = {
    ...source,
    reference: { kind: 'card', barMm: '99.5', found: SQUARE },
    from: ['812.5', '1033'],
    to: ['1103', '1040.5'],
    low: String(value - 0.25),
    high: String(value + 0.25),
    ...(k % 2 === 0 ? { plane: 'edges' } : {}),
  };
  const said = { text: String(value), value: String(value), unit: 'in', resolution: '0.01' };
  const data = {
    what: 'overlap',
    surface,
    said,
    how: 'photo',
    shot,
    lap: 'both-edges',
    photo,
    ...(k % 2 === 0 ? { confirmed: 'ana' } : {}),
  };
  return { kind: 'reading', refs: [shot], data };
}

function photoArea(shot: string, surface: string | null, k: number, between: (low: number, high: number) => number): Said {
  const photo = {
    sha256: PICTURE.sha256,
    width: 4032,
    height: 3024,
    method: 'coat 1',
    mmPerPx: '0.2',
    corners: SQUARE,
    widthMm: '640',
    heightMm: '480',
  };
  const share = between(90, 99);
  const [low, high] = [String(share - 0.5), String(share + 0.5)];
  if (k % 2 === 1) {
    const worst = { share: '61', x: '100', y: '200' };
    const data = {
      surface,
      shot,
      photo,
      mortar: ['700', '500'],
      sheet: ['900', '900'],
      share: String(share),
      low,
      high,
      worst,
      confirmed: 'ana',
    };
    return { kind: 'transfer', refs: [shot], data };
  }
  const misses = Array.from({ length: 1 + k * 3 }, (_, i) => ({
    x: String(between(0, 640)),
    y: String(between(0, 480)),
    diameter: String(between(2, 12)),
    kind: i % 2 === 0 ? 'bare' : 'thin',
    ...(i === 2 ? { struck: true } : {}),
  }));
  const data = {
    surface,
    coat: 1,
    shot,
    photo,
    film: [['700', '500']],
    bare: [['900', '900']],
    covered: String(share),
    low,
    high,
    unknown: '0.2',
    smallest: '1.6',
    misses,
    confirmed: 'ana',
  };
  return { kind: 'coverage', refs: [shot], data };
}
