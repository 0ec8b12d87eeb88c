import type { CurveBlock } from './blocks.ts';
import { HAIR, INK, INK_2, lineHeight, rule, tag, textOps, type Op, type PathOp, type Tag } from './page.ts';
import type { Strip } from './strip.ts';
import { oneLine, wrap, type Measure } from './text.ts';

const HEIGHT = 128;
const SIZE = 8;
const LEFT = 46;
const LEGEND = 132;
const MARK = 6;

/** Points over time, falling as the water falls, with the give or take of each as an upright bar and the fall that is too much as a thick line. */
export function curveStrip(block: CurveBlock, width: number, parent: Tag, measure: Measure): Strip {
  const { alt, caption, across, down, limit, series } = block;
  const figure = tag(parent, 'Figure', { alt });
  const points = series.flatMap((one) => one.points);
  const xs = [...across.map(({ at }) => at), ...points.map((one) => one.x)];
  const ys = [...down.map(({ at }) => at), ...points.flatMap(({ y, take }) => [y - take, y + take]), ...(limit === null ? [] : [limit])];
  const scale = (all: readonly number[], from: number, to: number) => {
    const [least, most] = [Math.min(...all), Math.max(...all)];
    return (at: number) => from + ((at - least) / (most - least || 1)) * (to - from);
  };
  const right = width - LEGEND - 16;
  const x = scale(xs, LEFT + 8, right);
  const y = scale(ys, 8, HEIGHT);
  const path = (d: string, style: Omit<PathOp, 'op' | 'd'>): Op => ({ op: 'path', tag: figure, x: 0, y: 0, d, ...style });
  const text = (said: string, at: number, top: number): Op[] => textOps([said], at, top, { face: 'text', size: SIZE }, figure);
  const grid = [
    ...down.flatMap(({ at, label }) => [
      rule(LEFT, y(at), right, y(at), 0.5, HAIR, figure),
      ...text(label, LEFT - 5 - measure(label, 'text', SIZE), y(at) - lineHeight(SIZE) / 2),
    ]),
    ...across.flatMap(({ at, label }) => [
      rule(x(at), HEIGHT, x(at), HEIGHT + 4, 0.75, INK, figure),
      ...text(label, Math.min(x(at) - measure(label, 'text', SIZE) / 2, right - measure(label, 'text', SIZE) + 8), HEIGHT + 4),
    ]),
    path(`M${LEFT} 2V${HEIGHT}H${right}`, { stroke: INK, pen: 1 }),
    ...(limit === null ? [] : [rule(LEFT, y(limit), right, y(limit), 1.8, INK, figure)]),
  ];
  const drawn = series.flatMap(({ look, points: line }) => [
    path(`M${line.map((one) => `${x(one.x)} ${y(one.y)}`).join('L')}`, {
      stroke: INK,
      pen: 0.9,
      ...(look === 'ring' && { dash: [4, 2.5] as const }),
    }),
    ...line
      .filter(({ take }) => take > 0)
      .map((one) => rule(x(one.x), y(one.y - one.take), x(one.x), y(one.y + one.take), 0.9, INK, figure)),
    ...line.map((one) => markOp(x(one.x), y(one.y), look, path)),
  ]);
  const legend = series.flatMap(({ name, look }, i) => [
    markOp(right + 20, 8 + i * 14, look, path),
    ...text(oneLine(name, 'text', SIZE, LEGEND - 14, measure), right + 30, 8 + i * 14 - lineHeight(SIZE) / 2),
  ]);
  const note = tag(parent, 'P');
  const top = 8 + series.length * 14;
  const lines = wrap(caption, 'text', SIZE, LEGEND, measure);
  return {
    before: 8,
    height: Math.max(HEIGHT + 4 + lineHeight(SIZE), top + lines.length * lineHeight(SIZE)),
    ops: [...grid, ...drawn, ...legend, ...textOps(lines, right + 16, top, { face: 'text', size: SIZE, ink: INK_2 }, note)],
  };
}

function markOp(x: number, y: number, look: 'square' | 'ring', path: (d: string, style: Omit<PathOp, 'op' | 'd'>) => Op): Op {
  const r = MARK / 2;
  if (look === 'square') return path(`M${x - r} ${y - r}h${MARK}v${MARK}h${-MARK}Z`, { fill: INK });
  return path(`M${x - r} ${y}a${r} ${r} 0 1 0 ${MARK} 0a${r} ${r} 0 1 0 ${-MARK} 0Z`, { fill: '#ffffff', stroke: INK, pen: 1.1 });
}
