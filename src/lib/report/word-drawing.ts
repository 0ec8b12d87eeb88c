import { laidPieces, overlaps } from '../job/drawing/laid.ts';
import { JOINT_KINDS } from '../job/drawing/joints.ts';
import { shapeOf, type RoomShape } from '../job/drawing/shape.ts';
import { THINGS } from '../record/kinds/drawing.ts';
import { drawnLength } from '../words/drawn-length.ts';
import { spotText } from '../words/spot.ts';
import * as m from '../words/compiled/messages.js';
import type { Block, Cell, FloorBlock, WallsBlock } from './blocks.ts';
import type { RecordDocument, RecordDrawing, RecordPlan, RecordWalls } from './record-document.ts';
import { pointedText } from './said-text.ts';
import type { Speaker } from './speaker.ts';
import { thingName } from './spot-of-key.ts';
import { cutBlocks, floorCuts, orderBlocks, wallCuts } from './word-cut.ts';

const FLOOR_PT = 250;

/** Every room as it is drawn and planned: floor and walls to scale, what is marked where, what follows from the measures, and the sheets. */
export function drawingBlocks({ drawings }: Pick<RecordDocument, 'drawings'>, say: Speaker): Block[] {
  return drawings.flatMap((drawn) => {
    const shape = shapeOf(drawn.drawing);
    return shape.ok
      ? [...roomBlocks(drawn, shape.value, say), ...planBlocks(drawn, shape.value, say), ...wallPlanBlocks(drawn, shape.value, say)]
      : [];
  });
}

function roomBlocks(drawn: RecordDrawing, shape: RoomShape, say: Speaker): Block[] {
  const { locale } = say;
  const line = say.line(drawn.entry);
  const room = say.room(drawn.room);
  return [
    {
      block: 'heading',
      level: 2,
      text: m.record_drawing({ room }, { locale }),
      aside: [say.day(drawn.at), ...(line === null ? [] : [say.entry(line)])].join(', '),
    },
    {
      block: 'columns',
      leftShare: 0.62,
      left: [floorBlock(drawn, shape, say)],
      right: [{ block: 'facts', labelShare: 0.62, rows: takeoffRows(drawn, shape, say) }],
    },
    wallsBlock(drawn, shape, say),
    { block: 'paragraph', text: m.record_drawing_note({}, { locale }) },
    ...markBlocks(drawn, shape, say),
  ];
}

/** Floor and walls by the words at them. */
function drawnWords({ room }: RecordDrawing, shape: RoomShape, say: Speaker) {
  const { locale } = say;
  const names = shape.walls.map((_, i) => m.draw_wall_n({ n: i + 1 }, { locale }));
  const lengths = shape.walls.map(({ length }) => drawnLength(length, shape.unit, locale));
  const heights = shape.walls.map(({ height }) => drawnLength(height, shape.unit, locale));
  return {
    shape,
    names,
    lengths,
    heights,
    tall: names.map((name, i) => m.record_wall_tall({ wall: name, height: heights[i]! }, { locale })),
    things: Object.fromEntries(THINGS.map((thing) => [thing, say.choice('thing', thing)])),
    measured: names.map((name, i) => `${name} ${lengths[i]!}`).join(', '),
    room: say.room(room),
  };
}

export function floorBlock(drawn: RecordDrawing, shape: RoomShape, say: Speaker, more: Partial<FloorBlock> = {}): FloorBlock {
  const { names, lengths, things, measured, room } = drawnWords(drawn, shape, say);
  const marks = drawn.marks.flatMap(({ n, wall, x, y }) => (wall === null ? [{ n, at: { x, y } }] : []));
  const alt = m.record_floor_alt({ room, walls: measured }, { locale: say.locale });
  return { block: 'floor', alt, shape, names, lengths, things, isHatched: false, height: FLOOR_PT, marks, sheets: null, ...more };
}

export function wallsBlock(drawn: RecordDrawing, shape: RoomShape, say: Speaker, more: Partial<WallsBlock> = {}): WallsBlock {
  const { names, lengths, heights, tall, things, room } = drawnWords(drawn, shape, say);
  const marks = drawn.marks.flatMap(({ n, wall, x, y }) => (wall === null ? [] : [{ n, wall, at: { x, y } }]));
  const alt = m.record_walls_alt({ room }, { locale: say.locale });
  return { block: 'walls', alt, shape, names, lengths, heights, tall, things, isHatched: false, levels: [], marks, sheets: [], ...more };
}

/** Under the numbers of the drawing, the same in words. */
export function markBlocks({ marks, drawing }: Pick<RecordDrawing, 'marks' | 'drawing'>, shape: RoomShape, say: Speaker): Block[] {
  if (marks.length === 0) return [];
  const { locale } = say;
  const length = (parts: number) => drawnLength(Math.abs(parts), shape.unit, locale);
  const where = (wall: number | null, x: number, y: number) =>
    wall === null
      ? m.draw_at_floor({ x: length(x), y: length(y) }, { locale })
      : m.draw_at_wall({ wall: m.draw_wall_n({ n: wall + 1 }, { locale }), x: length(x), y: length(y) }, { locale });
  return [
    {
      block: 'table',
      columns: [
        { head: m.record_col_mark({}, { locale }), share: 1 },
        { head: m.record_col_marked({}, { locale }), share: 4 },
        { head: m.record_col_where({}, { locale }), share: 6 },
      ],
      rows: marks.map(({ n, of, wall, x, y, spot }): Cell[] => [
        { text: String(n), strong: true },
        { text: pointedText(of, say) },
        { text: where(wall, x, y), ...(spot !== null && { under: spotText(spot, (at) => thingName(drawing.things, at, say), locale) }) },
      ]),
    },
  ];
}

const JOINT = {
  'floor-wall': m.draw_joint_floor_wall,
  'wall-wall-inside': m.draw_joint_inside,
  'wall-wall-outside': m.draw_joint_outside,
  curb: m.draw_joint_curb,
  bench: m.draw_joint_bench,
  niche: m.draw_joint_niche,
} as const;

/** What follows from the measures; nothing of what the room has not. */
function takeoffRows({ takeoff }: RecordDrawing, { unit }: RoomShape, say: Speaker): { label: Cell; text: string }[] {
  if (takeoff === null) return [];
  const { locale } = say;
  const { joints } = takeoff;
  const area = (size: string) => {
    const [per, digits, of] = unit === 'in' ? ([144, 1, 'ft2'] as const) : ([1e6, 2, 'm2'] as const);
    return say.quantity({ value: (Number(size) / per).toFixed(digits), to: null, unit: of });
  };
  const length = (size: string) => drawnLength(Number(size) * 10_000, unit, locale);
  const rows: readonly (readonly [string, string, (size: string) => string])[] = [
    [m.draw_area_floor({}, { locale }), takeoff.floor, area],
    [m.draw_area_walls({}, { locale }), takeoff.walls, area],
    [m.draw_area_curbs({}, { locale }), takeoff.curbs, area],
    [m.draw_area_benches({}, { locale }), takeoff.benches, area],
    [m.draw_perimeter({}, { locale }), takeoff.perimeter, length],
    ...JOINT_KINDS.map((kind) => [JOINT[kind]({}, { locale }), joints[kind], length] as const),
    [m.draw_inside_corners({}, { locale }), String(takeoff.insideCorners), String],
    [m.draw_outside_corners({}, { locale }), String(takeoff.outsideCorners), String],
    [m.draw_collars({}, { locale }), String(takeoff.collars), String],
  ];
  return rows.filter(([, size]) => Number(size) > 0).map(([name, size, text]) => ({ label: { text: name }, text: text(size) }));
}

/** The floor with the sheets on it. */
export function sheetsBlock(drawn: RecordDrawing, plan: RecordPlan, shape: RoomShape, say: Speaker, height: number): FloorBlock {
  const { sheets, width } = plan;
  const alt = m.record_sheets_alt(
    { room: say.room(drawn.room), pieces: sheets.pieces.map(({ id }) => id).join(', ') },
    { locale: say.locale },
  );
  const laid = { pieces: laidPieces(sheets, width), overlaps: overlaps(sheets, width), isAlongX: sheets.direction === '0' };
  return floorBlock(drawn, shape, say, { alt, height, marks: [], sheets: laid });
}

/** The walls with the sheets on them, in as many rows as their widths need. */
export function wallSheetsBlock(drawn: RecordDrawing, { sheets, width }: RecordWalls, shape: RoomShape, say: Speaker): WallsBlock {
  const { locale } = say;
  const pieces = sheets.walls.flatMap((own) => own.pieces.map(({ id }) => id));
  const room = `${say.room(drawn.room)}, ${m.plan_walls({}, { locale })}`;
  return wallsBlock({ ...drawn, marks: [] }, shape, say, {
    alt: m.record_sheets_alt({ room, pieces: pieces.join(', ') }, { locale }),
    sheets: sheets.walls.map((own) => ({
      wall: Number(own.wall),
      pieces: laidPieces({ ...own, rolls: sheets.rolls }, width),
      overlaps: overlaps(own, width),
      isAlongX: false,
    })),
  });
}

function planBlocks(drawn: RecordDrawing, shape: RoomShape, say: Speaker): Block[] {
  const { plan } = drawn;
  if (plan === null) return [];
  const { locale } = say;
  const line = say.line(plan.entry);
  return [
    {
      block: 'heading',
      level: 2,
      text: m.record_plan({ room: say.room(drawn.room) }, { locale }),
      aside: [say.day(plan.at), ...(line === null ? [] : [say.entry(line)])].join(', '),
    },
    ...(plan.stale
      ? [{ block: 'paragraph' as const, strong: true, text: `${m.plan_stale({}, { locale })}.` }]
      : [sheetsBlock(drawn, plan, shape, say, FLOOR_PT)]),
    ...cutBlocks(floorCuts(plan), say, {}),
    ...orderBlocks(plan, say),
  ];
}

/** The sheets of the walls: what is cut, and where each goes. */
function wallPlanBlocks(drawn: RecordDrawing, shape: RoomShape, say: Speaker): Block[] {
  const { room, walls } = drawn;
  if (walls === undefined) return [];
  const { locale } = say;
  const line = say.line(walls.entry);
  return [
    {
      block: 'heading',
      level: 2,
      text: m.record_plan({ room: `${say.room(room)}, ${m.plan_walls({}, { locale })}` }, { locale }),
      aside: [say.day(walls.at), ...(line === null ? [] : [say.entry(line)])].join(', '),
    },
    ...(walls.stale
      ? [{ block: 'paragraph' as const, strong: true, text: `${m.plan_stale({}, { locale })}.` }]
      : [wallSheetsBlock(drawn, walls, shape, say)]),
    ...cutBlocks(wallCuts(walls), say, {}),
  ];
}
