import { beyond, curbsOf, onWall, reachOf, seenOf, strokesOf, unfolded, type Elevation, type Stroke } from '../job/drawing/seen.ts';
import { besideWall } from '../job/drawing/shape.ts';
import { dimensionOf, leadersOf, pathOf, px, viewOf } from '../job/drawing/view.ts';
import type { Point } from '../measure/plane.ts';
import type { FloorBlock, SheetsOn, WallsBlock } from './blocks.ts';
import { DrawnTexts } from './drawn-texts.ts';
import { INK, INK_2, lineHeight, tag, textOps, type Op, type PathOp, type Tag } from './page.ts';
import type { Strip } from './strip.ts';
import { wrap, type Measure } from './text.ts';

const SIZE = 8;
const MARGIN = 34;
const CIRCLE = 9.5;
/** Dimension line to wall. */
const OFF = 18;
/** As many marks stand in one drawing; the list beside it has them all. */
const MARKS = 72;
/** As much smaller may walls be to stand in one row. */
const SMALLER = 0.6;
/** The tallest wall, and the room around a row of walls. */
const WALL_PT = 150;
const ROW = { left: 36, right: 30, above: 12, below: 34 };

type Line = Omit<PathOp, 'op' | 'd'>;

/** The floor from above: sheets under walls, dimension lines outside, marks on leaders below. What a short wall has no room for is listed under it. */
export function floorStrips(block: FloorBlock, width: number, parent: Tag, measure: Measure): Strip[] {
  const { alt, shape, names, lengths, things, isHatched, height, marks, sheets } = block;
  const figure = tag(parent, 'Figure', { alt });
  const path = (d: string, line: Line): Op => ({ op: 'path', tag: figure, x: 0, y: 0, d, ...line });
  const view = viewOf(reachOf(shape), width, height, MARGIN);
  const texts = new DrawnTexts(figure, measure);
  const placed = leadersOf(
    marks.slice(0, MARKS).map(({ n, at }) => ({ n, at: view.at(at) })),
    view,
    CIRCLE,
  );
  const outline = pathOf(shape.floor.map(view.at), true);
  const seen = seenOf(shape);
  const ops: Op[] = [
    ...(isHatched ? hatchOps(outline, view.width, view.height, path) : []),
    ...(sheets === null ? [] : sheetOps(sheets, outline, view.at, path)),
    ...curbsOf(shape).map((corners) => path(pathOf(corners.map(view.at), true), { fill: '#e9e9e9', stroke: INK, pen: 1 })),
    ...seen.flatMap((one) =>
      one.is === 'area'
        ? [path(pathOf(one.corners.map(view.at), true), { fill: '#f4f4f4', stroke: INK, pen: 1 })]
        : circleOps(view.at(one.at), Math.max(3, one.radius * view.scale), true, path),
    ),
    ...strokesOf(shape).map(({ as, a, b }) => path(pathOf([view.at(a), view.at(b)], false), WALL[as])),
  ];
  const left = shape.walls.flatMap(({ from, to }, i) => {
    const [a, b] = [view.at(from), view.at(to)];
    const { isDrawn, ops: drawn } = dimension(a, b, OFF + beyond(shape, i) * view.scale, lengths[i]!, texts, path);
    ops.push(...drawn);
    return isDrawn ? [] : [i];
  });
  sheets?.pieces.forEach(({ id, corners }) => ops.push(...pieceOps(id, corners, sheets.isAlongX, shape.floor, view.at, texts, path)));
  shape.walls.forEach((wall, i) => ops.push(...texts.at(String(i + 1), view.at(besideWall(wall, wall.length / 2, 9 / view.scale)))));
  for (const one of seen) {
    const name = things[one.thing] ?? one.thing;
    if (one.is === 'area') ops.push(...texts.at(name, middle(one.corners.map(view.at))));
    else ops.push(...texts.at(name, beside(view.at(one.at), Math.max(3, one.radius * view.scale), texts.width(name))));
  }
  ops.push(...markOps(placed.leaders, figure, measure, path));
  return withListed(ops, view.height + placed.height, left.map((i) => `${names[i]!}: ${lengths[i]!}`), width, figure, measure); // prettier-ignore
}

/** The walls side by side in rows, folds dashed between them; a figure for each row. */
export function wallStrips(block: WallsBlock, width: number, parent: Tag, measure: Measure): Strip[] {
  const { shape } = block;
  const drawn = shape.walls.filter(({ as }) => as !== 'open');
  if (drawn.length === 0) return [];
  const free = width - ROW.left - ROW.right;
  const scale = Math.min(
    free / Math.max(1, ...drawn.map(({ length }) => length)),
    WALL_PT / Math.max(1, ...drawn.map(({ height }) => height)),
  );
  // In one row where that makes them little smaller.
  const inOne = free / drawn.reduce((sum, { length }) => sum + length, 0);
  const taken = inOne > scale * SMALLER ? Math.min(scale, inOne) : scale;
  return unfolded(shape, free / taken + 1).flatMap((row) => rowStrips(row, taken, block, width, parent, measure));
}

function rowStrips(row: readonly Elevation[], scale: number, block: WallsBlock, width: number, parent: Tag, measure: Measure): Strip[] {
  const { alt, shape, names, lengths, heights, things, isHatched, levels, marks, sheets } = block;
  const figure = tag(parent, 'Figure', { alt: `${alt}: ${row.map(({ wall }) => names[wall]!).join(', ')}` });
  const path = (d: string, line: Line): Op => ({ op: 'path', tag: figure, x: 0, y: 0, d, ...line });
  const height = Math.max(...row.map((one) => one.height)) * scale + ROW.above + ROW.below;
  const at = ({ x, y }: Point): Point => ({ x: ROW.left + x * scale, y: height - ROW.below - y * scale });
  const texts = new DrawnTexts(figure, measure);
  const placed = leadersOf(
    marks
      .flatMap(({ n, wall, at: mark }) =>
        row.filter((one) => one.wall === wall).map((on) => ({ n, at: at({ x: on.x + mark.x, y: mark.y }) })),
      )
      .slice(0, MARKS),
    { width, height },
    CIRCLE,
  );
  const ops: Op[] = [];
  for (const { wall, x, width: wide, height: tall } of row) {
    const box = pathOf([at({ x, y: 0 }), at({ x: x + wide, y: 0 }), at({ x: x + wide, y: tall }), at({ x, y: tall })], true);
    const laid = sheets.find((one) => one.wall === wall);
    const here = (point: Point) => at({ x: x + point.x, y: point.y });
    const surface = [
      { x: 0, y: 0 },
      { x: wide, y: tall },
    ];
    ops.push(
      path(box, { fill: '#ffffff' }),
      ...(isHatched ? hatchOps(box, width, height, path) : []),
      ...(laid === undefined ? [] : sheetOps(laid, box, here, path)),
      path(box, { stroke: INK, pen: 1 }),
    );
    // Their room is taken before that of other words, and nothing covers them.
    const pieces = (laid?.pieces ?? []).flatMap(({ id, corners }) => pieceOps(id, corners, false, surface, here, texts, path));
    if (x > 0) {
      const fold = pathOf([at({ x, y: 0 }), at({ x, y: tall })], false);
      ops.push(path(fold, { stroke: '#ffffff', pen: 2.4 }), path(fold, { stroke: INK, pen: 0.8, dash: [9, 4] }));
    }
    for (const one of onWall(shape, wall)) {
      const [near, far] = [at({ x: x + one.x, y: one.y }), at({ x: x + one.x + one.width, y: one.y + one.height })];
      const centre = { x: (near.x + far.x) / 2, y: (near.y + far.y) / 2 };
      const isPipe = one.thing === 'valve' || one.thing === 'pipe';
      if (isPipe) ops.push(...circleOps(centre, Math.max(3.5, (far.x - near.x) / 2), true, path));
      else {
        const hole = pathOf([near, { x: far.x, y: near.y }, far, { x: near.x, y: far.y }], true);
        ops.push(path(hole, { fill: '#ffffff', stroke: INK, pen: 1, ...(one.thing === 'door' && { dash: [4, 3] as const }) }));
      }
      const name = things[one.thing];
      if (name !== undefined) ops.push(...texts.at(name, isPipe ? beside(centre, 3.5, texts.width(name)) : centre));
    }
    ops.push(...pieces);
    for (const { up, text } of levels.filter((one) => one.wall === wall)) {
      const [from, to] = [at({ x, y: up }), at({ x: x + wide, y: up })];
      ops.push(path(pathOf([from, to], false), { stroke: INK, pen: 1.6, dash: [7, 3] }));
      ops.push(...texts.at(text, { x: (from.x + to.x) / 2, y: from.y - 7 }));
    }
  }
  for (const { wall, x, width: wide, height: tall } of row) {
    const [low, high] = [at({ x, y: 0 }), at({ x: x + wide, y: tall })];
    ops.push(
      ...texts.at(String(wall + 1), { x: (low.x + high.x) / 2, y: low.y - high.y < 22 ? high.y - 7 : high.y + 9 }, { isStrong: true }),
    );
  }
  const listed = row.flatMap(({ wall, x, width: wide }) => {
    const across = dimension(at({ x: x + wide, y: 0 }), at({ x, y: 0 }), OFF, lengths[wall]!, texts, path);
    ops.push(...across.ops);
    return across.isDrawn ? [] : [`${names[wall]!}: ${lengths[wall]!}`];
  });
  const [first, last] = [row[0]!, row.at(-1)!];
  const sides = [
    { of: first, off: OFF, a: at({ x: first.x, y: 0 }), b: at({ x: first.x, y: first.height }) },
    ...(last.height === first.height
      ? []
      : [{ of: last, off: OFF, a: at({ x: last.x + last.width, y: last.height }), b: at({ x: last.x + last.width, y: 0 }) }]),
  ];
  for (const { of, off, a, b } of sides) {
    const { isDrawn, ops: drawn } = dimension(a, b, off, heights[of.wall]!, texts, path);
    ops.push(...drawn);
    if (!isDrawn) listed.push(block.tall[of.wall]!);
  }
  ops.push(...markOps(placed.leaders, figure, measure, path));
  return withListed(ops, height + placed.height, listed, width, figure, measure);
}

const WALL: Readonly<Record<Stroke['as'], Line>> = {
  full: { stroke: INK, pen: 2.4 },
  low: { stroke: INK, pen: 2.4, dash: [7, 5] },
  curb: { stroke: INK, pen: 1.1 },
  open: { stroke: INK, pen: 0.8, dash: [11, 4] },
  door: { stroke: '#555555', pen: 0.9, dash: [3, 3] },
};

type PathMaker = (d: string, line: Line) => Op;

/** Slanted lines over what a path encloses. */
function hatchOps(clip: string, width: number, height: number, path: PathMaker): Op[] {
  const pitch = 9;
  const lines = Array.from(
    { length: Math.ceil((width + height) / pitch) },
    (_, i) => `M${i * pitch} 0L${px(i * pitch - height)} ${px(height)}`,
  );
  return [path(lines.join(''), { stroke: '#8a8a8a', pen: 0.6, clip })];
}

function sheetOps({ pieces, overlaps, isAlongX }: SheetsOn, clip: string, at: (p: Point) => Point, path: PathMaker): Op[] {
  const corners = pieces.flatMap((piece) => piece.corners);
  const ends = (of: 'x' | 'y') => [Math.min(...corners.map((one) => one[of])), Math.max(...corners.map((one) => one[of]))] as const;
  const seam = (level: number) => {
    const [from, to] = isAlongX ? ends('x') : ends('y');
    return pathOf((isAlongX ? [{ x: from, y: level }, { x: to, y: level }] : [{ x: level, y: from }, { x: level, y: to }]).map(at), false); // prettier-ignore
  };
  return [
    ...pieces.map(({ strip, corners: piece }) =>
      path(pathOf(piece.map(at), true), { fill: strip % 2 === 0 ? '#f1f1f1' : '#dedede', stroke: '#555555', pen: 0.5, clip }),
    ),
    ...overlaps.flatMap(({ from, to }) => [
      path(seam(from), { stroke: INK, pen: 0.9, clip }),
      path(seam(to), { stroke: INK, pen: 0.9, dash: [4, 3], clip }),
    ]),
  ];
}

/** A piece's letter and the arrow along its strip, a quarter along what of it lies on the surface. */
function pieceOps(
  id: string,
  corners: readonly Point[],
  isAlongX: boolean,
  surface: readonly Point[],
  at: (p: Point) => Point,
  texts: DrawnTexts,
  path: PathMaker,
): Op[] {
  const within = (of: 'x' | 'y', of2: readonly number[]) =>
    [
      Math.max(Math.min(...of2), Math.min(...surface.map((one) => one[of]))),
      Math.min(Math.max(...of2), Math.max(...surface.map((one) => one[of]))),
    ] as const;
  const [x1, x2] = within(
    'x',
    corners.map((one) => one.x),
  );
  const [y1, y2] = within(
    'y',
    corners.map((one) => one.y),
  );
  const place = at(isAlongX ? { x: x1 + (x2 - x1) / 4, y: (y1 + y2) / 2 } : { x: (x1 + x2) / 2, y: y1 + (y2 - y1) / 4 });
  const arrow: Line = { stroke: INK, pen: 1.2, matrix: isAlongX ? [1, 0, 0, 1, place.x, place.y] : [0, -1, 1, 0, place.x, place.y] };
  return [
    ...texts.at(id, { x: place.x - (isAlongX ? 9 : 0), y: place.y + (isAlongX ? 0 : 9) }, { isStrong: true, size: 13 }),
    path('M2 0H20M15 -4L20 0L15 4', arrow),
  ];
}

function circleOps({ x, y }: Point, r: number, isCrossed: boolean, path: PathMaker): Op[] {
  return [
    path(`M${px(x - r)} ${px(y)}a${px(r)} ${px(r)} 0 1 0 ${px(2 * r)} 0a${px(r)} ${px(r)} 0 1 0 ${px(-2 * r)} 0Z`, {
      fill: '#ffffff',
      stroke: INK,
      pen: 1,
    }),
    ...(isCrossed
      ? [path(`M${px(x - r - 3)} ${px(y)}h${px(2 * r + 6)}M${px(x)} ${px(y - r - 3)}v${px(2 * r + 6)}`, { stroke: INK, pen: 0.7 })]
      : []),
  ];
}

/** A dimension line with its number; where the number has no room, nothing is drawn. */
function dimension(a: Point, b: Point, off: number, said: string, texts: DrawnTexts, path: PathMaker): { isDrawn: boolean; ops: Op[] } {
  const { lines, ticks, text, turn, length } = dimensionOf(a, b, off);
  const number = texts.width(said) + 6 > length ? [] : texts.at(said, text, { turn });
  if (number.length === 0) return { isDrawn: false, ops: [] };
  return { isDrawn: true, ops: [path(lines, { stroke: '#555555', pen: 0.6 }), path(ticks, { stroke: INK, pen: 1.2 }), ...number] };
}

function markOps(leaders: ReturnType<typeof leadersOf>['leaders'], figure: Tag, measure: Measure, path: PathMaker): Op[] {
  return leaders.flatMap(({ n, x, y, path: d, dot }) => [
    path(d, { stroke: '#ffffff', pen: 2.6 }),
    path(d, { stroke: INK, pen: 0.8 }),
    path(`M${px(dot.x - 2.4)} ${px(dot.y)}a2.4 2.4 0 1 0 4.8 0a2.4 2.4 0 1 0 -4.8 0Z`, { fill: INK, stroke: '#ffffff', pen: 0.8 }),
    path(`M${px(x - CIRCLE)} ${y}a${CIRCLE} ${CIRCLE} 0 1 0 ${2 * CIRCLE} 0a${CIRCLE} ${CIRCLE} 0 1 0 ${-2 * CIRCLE} 0Z`, {
      fill: '#ffffff',
      stroke: INK,
      pen: 1,
    }),
    ...textOps([String(n)], x - measure(String(n), 'strong', 9) / 2, y - lineHeight(9) / 2, { face: 'strong', size: 9 }, figure),
  ]);
}

/** The drawing, and below it what had no room in it. */
function withListed(ops: readonly Op[], height: number, listed: readonly string[], width: number, figure: Tag, measure: Measure): Strip[] {
  const lines = listed.length === 0 ? [] : wrap(listed.join('; '), 'text', SIZE, width, measure);
  return [
    { before: 6, height, ops },
    ...lines.map((line) => ({
      before: 0,
      height: lineHeight(SIZE),
      ops: textOps([line], 0, 0, { face: 'text', size: SIZE, ink: INK_2 }, figure),
    })),
  ];
}

/** To the right of what is round: leaders run down from it. */
function beside({ x, y }: Point, radius: number, width: number): Point {
  return { x: x + radius + 6 + width / 2, y };
}

function middle(corners: readonly Point[]): Point {
  const mean = (all: readonly number[]) => all.reduce((sum, one) => sum + one, 0) / all.length;
  return { x: mean(corners.map(({ x }) => x)), y: mean(corners.map(({ y }) => y)) };
}
