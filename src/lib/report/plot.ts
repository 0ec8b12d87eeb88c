import type { BarLook, PlotBlock, Tick } from './blocks.ts';
import { HAIR, INK, INK_2, lineHeight, rule, tag, textOps, type Op, type PathOp, type Tag } from './page.ts';
import type { Strip } from './strip.ts';
import { oneLine, wrap, type Measure } from './text.ts';

const LABEL_SHARE = 0.36;
const LABEL_PT = 9;
const TICK_PT = 8;
const ROW = 15;
const BAR = 6;
/** A reading of one value, a step of a minute: still to be seen. */
const LEAST = 2.4;
const END = 10;

/** A row a bar, its label at the left, the thick line of each limit through all; the scale below, the caption under it. */
export function plotStrips({ alt, caption, ticks, limits, rows }: PlotBlock, width: number, parent: Tag, measure: Measure): Strip[] {
  const figure = tag(parent, 'Figure', { alt });
  const left = width * LABEL_SHARE;
  const all = [...ticks.map(({ at }) => at), ...limits, ...rows.flatMap(({ from, to }) => [from, to])];
  const [least, most] = [Math.min(...all), Math.max(...all)];
  const per = (width - left - END) / (most - least || 1);
  const x = (at: number) => left + (at - least) * per;
  const lines = (height: number): Op[] => [
    ...ticks.map(({ at }) => rule(x(at), 0, x(at), height, 0.5, HAIR, figure)),
    ...limits.map((at) => rule(x(at), 0, x(at), height, 1.8, INK, figure)),
  ];
  const bars = rows.map(({ label, from, to, look }, i): Strip => ({
    before: i === 0 ? 6 : 0,
    height: ROW,
    keep: i === rows.length - 1,
    ops: [
      ...lines(ROW),
      ...textOps([oneLine(label, 'text', LABEL_PT, left - 10, measure)], 0, 1.5, { face: 'text', size: LABEL_PT }, figure),
      ...barOps(x(from), x(to), look, figure),
    ],
  }));
  const scale: Strip = {
    before: 0,
    height: lineHeight(TICK_PT) + 3,
    keep: true,
    ops: [...lines(3), ...tickOps(ticks, x, width, measure, figure)],
  };
  const note = tag(parent, 'P');
  return [
    ...bars,
    scale,
    ...wrap(caption, 'text', TICK_PT, width, measure).map((line) => ({
      before: 0,
      height: lineHeight(TICK_PT),
      ops: textOps([line], 0, 0, { face: 'text', size: TICK_PT, ink: INK_2 }, note),
    })),
  ];
}

/** Labels under the ticks; one that would touch its neighbour is left out, its line is not. */
function tickOps(ticks: readonly Tick[], x: (at: number) => number, width: number, measure: Measure, figure: Tag): Op[] {
  let free = 0;
  return ticks.flatMap(({ at, label }) => {
    const wide = measure(label, 'text', TICK_PT);
    const start = Math.min(x(at) - wide / 2, width - wide);
    if (start < free) return [];
    free = start + wide + 4;
    return textOps([label], start, 3, { face: 'text', size: TICK_PT }, figure);
  });
}

function barOps(from: number, to: number, look: BarLook, figure: Tag): Op[] {
  const wide = Math.max(LEAST, to - from);
  const [x1, x2] = [(from + to - wide) / 2, (from + to + wide) / 2];
  const [top, bottom] = [(ROW - BAR) / 2, (ROW + BAR) / 2];
  const path = (d: string, style: Omit<PathOp, 'op' | 'd'>): Op => ({ op: 'path', tag: figure, x: 0, y: 0, d, ...style });
  const box = `M${x1} ${top}H${x2}V${bottom}H${x1}Z`;
  if (look === 'light') return [path(box, { fill: '#e4e4e4', stroke: INK, pen: 0.6 })];
  const ends = path(`M${x1} ${top - 3}V${bottom + 3}M${x2} ${top - 3}V${bottom + 3}`, { stroke: INK, pen: 1.2 });
  if (look === 'solid') return [path(box, { fill: INK }), ends];
  const hollow = path(box, { fill: '#ffffff', stroke: INK, pen: 1 });
  if (look === 'hollow') return [hollow, ends];
  const middle = (x1 + x2) / 2;
  const cross = `M${middle - 5} ${top - 2}L${middle + 5} ${bottom + 2}M${middle - 5} ${bottom + 2}L${middle + 5} ${top - 2}`;
  return [hollow, ends, path(cross, { stroke: INK, pen: 1.4 })];
}
