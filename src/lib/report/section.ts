import type { Block, SectionCell, SectionLayer } from './blocks.ts';
import { STRATA, hatch, waterLines, type Solid } from './hatch.ts';
import { INK, lineHeight, tag, textOps, type Op, type PathOp, type Tag } from './page.ts';
import type { Strip } from './strip.ts';
import { wrap, type Measure } from './text.ts';

type Point = readonly [x: number, y: number];
type Section = Extract<Block, { block: 'section' }>;

interface Legs {
  readonly wall: boolean;
  readonly floor: boolean;
}

/** A layer's place: polygons of its legs, its whole outline, where its leader ends, and where its owed items lie. */
interface Stratum {
  readonly layer: SectionLayer & { readonly layer: Solid };
  readonly wall: readonly Point[];
  readonly floor: readonly Point[];
  readonly outline: readonly Point[];
  readonly legs: Legs;
  /** Corner of the surface it lies on, from which its hatch is laid. */
  readonly corner: Point;
  /** Legs on which it steps over a band. */
  readonly over: Legs;
  readonly ranges: { readonly wall: readonly [number, number]; readonly floor: readonly [number, number] };
}

const TOP = 9;
const WATER = 24;
/** Greatest and least step from one label to the next: the least holds a name of two lines. */
const ROW = 38;
const ROW_MIN = 27;
const HEAD = 36;

/** The least height at which the labels of all layers stand apart. */
export function sectionHeight(layers: readonly SectionLayer[]): number {
  const floor = layers.filter(hasFloor).reduce((sum, { layer }) => sum + (layer === 'flood' ? 0 : STRATA[layer].thickness), 0);
  return floor + WATER + TOP + HEAD + ROW_MIN * Math.max(0, layers.length - 1);
}

/** The assembly in section: a wall and a floor leg for each layer, substrate outermost, a gap where proof is owed. */
export function sectionStrip({ alt, layers }: Section, width: number, height: number, parent: Tag, measure: Measure): Strip {
  const figure = tag(parent, 'Figure', { alt });
  const solids = layers.filter((one): one is Stratum['layer'] => one.layer !== 'flood');
  const flood = layers.find((one) => one.layer === 'flood');
  const bandRow = layers.findIndex((one) => one.layer === 'bands');
  const floorTop = solids.filter(hasFloor).reduce((y, { layer }) => y - STRATA[layer].thickness, height);
  const level = floorTop - WATER;
  const step = Math.min(ROW, (level - TOP - HEAD) / Math.max(1, layers.length - 1));
  const rowY = (i: number) => TOP + 14 + i * step;
  const strata = placed(solids, width, height, bandRow < 0 ? TOP : rowY(bandRow) - 17);
  const inner = strata.reduce((x, one) => Math.max(x, ...(one.legs.wall ? one.wall.map(([px]) => px) : [0])), 0);
  const ops: PathOp[] = [
    ...(flood === undefined ? [] : water(flood, inner, level, width, height)),
    ...strata.flatMap(stratumOps),
    ...strata.filter((one) => one.layer.begun).flatMap((one) => [...gapOps(one, 'wall'), ...gapOps(one, 'floor')]),
    path(
      `M-1 ${TOP - 9}H${inner + 8}V${TOP}H${inner / 2 + 7}L${inner / 2 + 3} ${TOP + 6}L${inner / 2 - 3} ${TOP - 6}L${inner / 2 - 7} ${TOP}H-1Z`,
      { fill: '#ffffff' },
    ),
    path(`M-4 ${TOP}H${inner / 2 - 7}L${inner / 2 - 3} ${TOP - 6}L${inner / 2 + 3} ${TOP + 6}L${inner / 2 + 7} ${TOP}H${inner + 8}`, {
      stroke: INK,
      pen: 0.9,
    }),
    path(`M0 ${TOP}V${height}H${width}`, { stroke: INK, pen: 2.2 }),
  ];
  const cx = inner + 32;
  let hanging = 0;
  const labels = layers.flatMap((layer, i): Op[] => {
    const y = rowY(i);
    const stratum = strata.find((one) => one.layer.layer === layer.layer);
    // What hangs into the floor or the water stands beside the marks of the rows below, each on a line of its own.
    const hangs = stratum === undefined ? i < layers.length - 1 : !stratum.legs.wall;
    const x = cx - 16 - 7 * hanging;
    const end: Point = stratum === undefined ? [hangs ? x : cx, level + 12] : leaderEnd(stratum, y, x);
    if (hangs) hanging += 1;
    ops.push(...leader(end, [cx, y]));
    const name = wrap(layer.name, 'text', 10, width - cx - 15, measure);
    const number = String(i + 1);
    return [
      ...textOps([number], cx - measure(number, 'strong', 10) / 2, y - lineHeight(10) / 2, { face: 'strong', size: 10 }, figure),
      ...textOps(name, cx + 15, y - (name.length * lineHeight(10)) / 2, { face: 'text', size: 10 }, figure),
    ];
  });
  return { before: 8, height, ops: [...ops.map((one): Op => ({ ...one, tag: figure, x: 0, y: 0 })), ...labels] };
}

function hasFloor({ cells }: SectionLayer): boolean {
  return cells.some((cell) => cell.leg === 'floor');
}

/** A path before it has its figure: everything here is drawn from the section's own upper left. */
function path(d: string, style: Omit<PathOp, 'op' | 'd'>): PathOp {
  return { op: 'path', d, ...style };
}

function polygon(points: readonly Point[]): string {
  return `M${points.map(([x, y]) => `${x} ${y}`).join('L')}Z`;
}

function placed(solids: readonly Stratum['layer'][], width: number, height: number, bandTop: number): Stratum[] {
  let w = 0;
  let f = height;
  let band: Legs = { wall: false, floor: false };
  const bt = STRATA.bands.thickness;
  return solids.map((layer) => {
    const t = STRATA[layer.layer].thickness;
    const legs: Legs = { wall: layer.cells.some((cell) => cell.leg === 'wall'), floor: hasFloor(layer) };
    const isBand = layer.layer === 'bands';
    const over = band;
    const bandEnd = w + (width - w) * 0.55;
    // A later coat steps over a band with a slanted jog; a band ends square.
    const side = (o: number): { wall: Point[]; corner: Point; floor: Point[] } => ({
      wall: !legs.wall
        ? []
        : over.wall
          ? [
              [w + o, TOP],
              [w + o, bandTop - 8 + o / 8],
              [w + bt + o, bandTop + 4 + o / 8],
            ]
          : [[w + o, isBand ? bandTop : TOP]],
      corner: [w + (over.wall ? bt : 0) + (legs.wall ? o : 0), f - (over.floor ? bt : 0) - (legs.floor ? o : 0)],
      floor: !legs.floor
        ? []
        : over.floor
          ? [
              [bandEnd - 4 - o / 8, f - bt - o],
              [bandEnd + 8 - o / 8, f - o],
              [width, f - o],
            ]
          : [[isBand ? bandEnd : width, f - o]],
    });
    const [outer, inner] = [side(0), side(t)];
    const stratum: Stratum = {
      layer,
      legs,
      over,
      corner: [w, f],
      wall: [...outer.wall, outer.corner, inner.corner, ...inner.wall.toReversed()],
      floor: [outer.corner, ...outer.floor, ...inner.floor.toReversed(), inner.corner],
      outline: [...outer.wall, outer.corner, ...outer.floor, ...inner.floor.toReversed(), inner.corner, ...inner.wall.toReversed()],
      ranges: {
        wall: [over.wall ? bandTop + 12 : isBand ? bandTop : TOP + 6, inner.corner[1]],
        floor: [inner.corner[0], over.floor ? bandEnd - 12 : isBand ? bandEnd : width],
      },
    };
    if (isBand) band = legs;
    else {
      if (legs.wall) w += t;
      if (legs.floor) f -= t;
    }
    return stratum;
  });
}

function stratumOps(stratum: Stratum): PathOp[] {
  const { layer, legs, outline } = stratum;
  if (!layer.begun) return [path(polygon(outline), { fill: '#ffffff', stroke: '#555555', pen: 0.9, dash: [4, 3] })];
  return [
    ...(legs.wall ? legOps(stratum, 'wall') : []),
    ...(legs.floor ? legOps(stratum, 'floor') : []),
    path(polygon(outline), { stroke: INK, pen: 1.1 }),
  ];
}

/** A leg in tint and hatch. Over a band the hatch is laid twice, at both depths, and the clip leaves what belongs. */
function legOps({ layer: { layer }, corner: [w, f], over, ...stratum }: Stratum, leg: 'wall' | 'floor'): PathOp[] {
  const clip = polygon(stratum[leg]);
  const length = Math.max(...stratum[leg].flat());
  const depths = over[leg] ? [0, STRATA.bands.thickness] : [0];
  return [
    path(clip, { fill: STRATA[layer].tint }),
    ...depths.flatMap((depth) =>
      hatch(layer, length).map(({ d, pen }) =>
        path(d, { stroke: INK, pen, clip, matrix: leg === 'wall' ? [0, 1, 1, 0, w + depth, 0] : [1, 0, 0, -1, 0, f - depth] }),
      ),
    ),
  ];
}

/** Gaps for what is not shown, each in its even share of the leg; over eight items, neighbours run together. */
function gapOps({ layer, corner: [w, f], over, ranges }: Stratum, leg: 'wall' | 'floor'): PathOp[] {
  const cells = layer.cells.filter((cell) => cell.leg === leg);
  const t = STRATA[layer.layer].thickness;
  const depth = over[leg] ? STRATA.bands.thickness : 0;
  const [from, to] = ranges[leg];
  const share = (to - from) / Math.max(1, cells.length);
  return gaps(cells).flatMap(({ first, last, stand }) => {
    const u = from + first * share + 3;
    const length = (last - first + 1) * share - 6;
    const box: Point[] =
      leg === 'wall'
        ? [
            [w + depth, u],
            [w + depth + t, u],
            [w + depth + t, u + length],
            [w + depth, u + length],
          ]
        : [
            [u, f - depth],
            [u, f - depth - t],
            [u + length, f - depth - t],
            [u + length, f - depth],
          ];
    if (stand === 'owed') return [path(polygon(box), { fill: '#ffffff', stroke: INK, pen: 1.2, dash: [3, 2] })];
    const [[x1, y1], , [x2, y2]] = [box[0]!, box[1]!, box[2]!];
    return [
      path(polygon(box), { fill: '#ffffff', stroke: '#555555', pen: 0.9 }),
      path(`M${x1} ${y1}L${x2} ${y2}`, { stroke: '#555555', pen: 0.9 }),
    ];
  });
}

interface Gap {
  readonly first: number;
  last: number;
  readonly stand: 'owed' | 'left-out';
}

function gaps(cells: readonly SectionCell[]): Gap[] {
  const runs: Gap[] = [];
  cells.forEach(({ stand }, i) => {
    if (stand === 'shown') return;
    const last = runs.at(-1);
    if (cells.length > 8 && last?.last === i - 1 && last.stand === stand) last.last = i;
    else runs.push({ first: i, last: i, stand });
  });
  return runs;
}

function water(flood: SectionLayer, x: number, level: number, width: number, height: number): PathOp[] {
  const full = flood.begun && flood.cells.every((cell) => cell.stand !== 'owed');
  const box = `M${x} ${level}H${width}V${height}H${x}Z`;
  const surface = path(`M${x} ${level}H${width}`, full ? { stroke: INK, pen: 0.9 } : { stroke: '#555555', pen: 0.9, dash: [4, 3] });
  const mark = path(`M${width - 30} ${level - 9}h12l-6 8z`, { stroke: INK, pen: 1, fill: '#ffffff' });
  if (!full) return [surface, mark];
  const lines = path(waterLines(width - x, height - level), { stroke: INK, pen: 0.8, clip: box, matrix: [1, 0, 0, 1, x, level + 2] });
  return [path(box, { fill: '#f4f4f4' }), lines, surface, mark];
}

/** Where the leader of a layer ends: in its wall leg at the height of its row, or in its floor leg at `x`. */
function leaderEnd({ layer, legs, corner: [w, f], over }: Stratum, y: number, x: number): Point {
  const half = STRATA[layer.layer].thickness / 2;
  if (legs.wall) return [w + (over.wall ? STRATA.bands.thickness : 0) + half, y];
  return [x, f - (over.floor ? STRATA.bands.thickness : 0) - half];
}

function leader([ex, ey]: Point, [cx, cy]: Point): PathOp[] {
  const line = ex === cx ? `M${cx} ${cy}V${ey}` : ey === cy ? `M${cx} ${cy}H${ex}` : `M${cx} ${cy}H${ex}V${ey}`;
  return [
    path(line, { stroke: '#ffffff', pen: 3 }),
    path(line, { stroke: INK, pen: 0.8 }),
    path(`M${ex - 2.4} ${ey}a2.4 2.4 0 1 0 4.8 0a2.4 2.4 0 1 0 -4.8 0z`, { fill: INK, stroke: '#ffffff', pen: 0.8 }),
    path(`M${cx - 9.5} ${cy}a9.5 9.5 0 1 0 19 0a9.5 9.5 0 1 0 -19 0z`, { fill: '#ffffff', stroke: INK, pen: 1 }),
  ];
}
