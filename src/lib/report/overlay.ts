import type { PhotoOverlay } from './blocks.ts';
import { DrawnTexts } from './drawn-texts.ts';
import { INK, type Op, type PathOp, type Tag } from './page.ts';
import type { Measure } from './text.ts';

type Size = { readonly width: number; readonly height: number };

const PENS = { found: { pen: 1, dash: [4, 2.5] }, measured: { pen: 2.2 }, worst: { pen: 1.6 } } as const satisfies Readonly<
  Record<PhotoOverlay['lines'][number]['look'], Pick<PathOp, 'pen' | 'dash'>>
>;
const CROSS = 4;
/** The least radius of a ring, that it be seen. */
const RING = 4;

/** Over a picture of `box` points: every line in ink on white, so that it is seen on any ground. Its plate in the corner keeps its place. */
export function overlayOps(
  { width, height, lines, taps, rings }: PhotoOverlay,
  box: Size,
  plate: Size,
  figure: Tag,
  measure: Measure,
): Op[] {
  const [across, down] = [box.width / width, box.height / height];
  const at = ([x, y]: readonly [number, number]) => ({ x: round(x * across), y: round(y * down) });
  const clip = `M0 0H${box.width}V${box.height}H0Z`;
  const stroke = (d: string, more: Pick<PathOp, 'pen' | 'dash'>): Op[] => [
    { op: 'path', tag: figure, x: 0, y: 0, d, clip, stroke: '#ffffff', pen: (more.pen ?? 1) + 1.8 },
    { op: 'path', tag: figure, x: 0, y: 0, d, clip, stroke: INK, ...more },
  ];
  const texts = new DrawnTexts(figure, measure);
  texts.reserve({ x1: 0, y1: 0, x2: plate.width, y2: plate.height });
  return [
    ...lines.flatMap(({ points, isClosed, look }) => {
      const corners = points.map(at);
      return stroke(`M${corners.map(({ x, y }) => `${x} ${y}`).join('L')}${isClosed ? 'Z' : ''}`, PENS[look]);
    }),
    ...rings.flatMap(({ at: centre, radius, isStruck }) => {
      const { x, y } = at(centre);
      const r = round(Math.max(RING, radius * across));
      const circle = `M${x - r} ${y}a${r} ${r} 0 1 0 ${2 * r} 0a${r} ${r} 0 1 0 ${-2 * r} 0Z`;
      return stroke(isStruck ? `${circle}M${x - r} ${y + r}L${x + r} ${y - r}` : circle, { pen: 1.1 });
    }),
    ...taps.flatMap((tap) => {
      const { x, y } = at(tap);
      return stroke(`M${x - CROSS} ${y}h${2 * CROSS}M${x} ${y - CROSS}v${2 * CROSS}`, { pen: 1.1 });
    }),
    ...rings.flatMap(({ n, at: centre, radius }) => {
      const { x, y } = at(centre);
      const off = Math.max(RING, radius * across) + 6;
      // Beside its ring, and never out of the picture.
      const beside = { x: x + off + 6 > box.width ? x - off : x + off, y: Math.min(box.height - 6, Math.max(6, y)) };
      const isInside = beside.x > 6 && beside.x < box.width - 6;
      return isInside ? texts.at(String(n), beside) : [];
    }),
  ];
}

function round(value: number): number {
  return Math.round(value * 100) / 100;
}
