import { fromTenThousandths } from '#lib/measure/exact.ts';
import type { Point } from '#lib/measure/plane.ts';
import { groundOf, inApron } from '#lib/trade/laying/ground.ts';
import type { RoomPlan } from '#lib/trade/laying/plan-room.ts';
import type { SheetPlan } from '#lib/trade/sheets/plan.ts';
import type { Room } from '#lib/trade/sheets/room.ts';
import * as m from '#lib/words/compiled/messages.js';
import { numberText, quantityText } from '#lib/words/number.ts';

type Locale = 'en' | 'es';

/** Long side of the floor in the drawing, and the margin around it for dimension lines. */
const SIDE_PX = 640;
const MARGIN_PX = 90;

/** Places of the drawing in its own pixels, y downwards. */
interface Sheet {
  readonly locale: Locale;
  readonly unit: Room['unit'];
  /** Pixels a ten-thousandth. */
  readonly scale: number;
  readonly width: number;
  readonly height: number;
  at(point: Point): Point;
}

/**
 * The floor to scale with its sheets: pieces with their letters and cuts, overlaps, keep-outs, doorways, numbered places to kneel in the order of
 * laying, and dimension lines after the drafting conventions (extension lines, thin lines with strokes at their ends, figures above them).
 */
export function planSvg(room: Room, planned: RoomPlan, locale: Locale): string {
  const sheet = sheetFor(room, locale);
  const drawn =
    'sheets' in planned ? piecesOf(sheet, planned.sheets, room) + kneelsOf(sheet, planned) + positionsOf(sheet, planned.sheets) : '';
  const { width, height } = sheet;
  const title = m.plan_drawing({}, { locale });
  return `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${round(width)} ${round(height)}" width="${round(width)}" height="${round(height)}" font-family="sans-serif" font-size="13" fill="#1d2327">
<title>${title}</title>
<rect width="100%" height="100%" fill="#fff"/>
${wallsOf(sheet, room)}${drawn}${keepOutsOf(sheet, room)}${overallOf(sheet, room)}</svg>
`;
}

function sheetFor({ floor, unit }: Room, locale: Locale): Sheet {
  const xs = floor.map(({ x }) => x);
  const ys = floor.map(({ y }) => y);
  const [x1, x2, y1, y2] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
  const scale = SIDE_PX / Math.max(x2 - x1, y2 - y1);
  const [width, height] = [(x2 - x1) * scale + 2 * MARGIN_PX, (y2 - y1) * scale + 2 * MARGIN_PX];
  return {
    locale,
    unit,
    scale,
    width,
    height,
    at: ({ x, y }) => ({ x: MARGIN_PX + (x - x1) * scale, y: height - MARGIN_PX - (y - y1) * scale }),
  };
}

const round = (value: number) => Number(value.toFixed(1));

function path(sheet: Sheet, points: readonly Point[]): string {
  return `${points.map((point, i) => `${i === 0 ? 'M' : 'L'}${spot(sheet.at(point))}`).join('')}Z`;
}

const spot = ({ x, y }: Point) => `${round(x)} ${round(y)}`;

function line(from: Point, to: Point, style: string): string {
  return `<line x1="${round(from.x)}" y1="${round(from.y)}" x2="${round(to.x)}" y2="${round(to.y)}" ${style}/>\n`;
}

function text({ x, y }: Point, said: string, style: string): string {
  return `<text x="${round(x)}" y="${round(y)}" ${style}>${said}</text>\n`;
}

const THIN = 'stroke="#3d474f" stroke-width="0.7"';
const MIDDLE = 'text-anchor="middle"';

/** The outline, open at doorways; low walls dashed. */
function wallsOf(sheet: Sheet, { floor, doorways, lowWalls, reach }: Room): string {
  const { edges, aprons } = groundOf({ floor, doorways, lowWalls, reach });
  // The sides of aprons come last, and are no walls.
  const low = new Set(lowWalls.map((wall) => floor[wall]!));
  const outline = edges.filter(({ a, b }) => isOnOutline(floor, a, b));
  const walls = outline.map(({ a, b }) =>
    line(sheet.at(a), sheet.at(b), `stroke="#1d2327" stroke-width="3"${low.has(a) ? ' stroke-dasharray="8 5"' : ''}`),
  );
  const sills = aprons.map((apron, i) => {
    const [from, to] = [apron.at, inApron(apron, apron.width, 0)];
    const middle = sheet.at(inApron(apron, apron.width / 2, 14 / sheet.scale));
    return (
      line(sheet.at(from), sheet.at(to), 'stroke="#1d2327" stroke-width="1" stroke-dasharray="2 3"') +
      text({ x: middle.x, y: middle.y + 4 }, `&#8599;${i}`, MIDDLE)
    );
  });
  return walls.join('') + sills.join('');
}

function isOnOutline(floor: readonly Point[], a: Point, b: Point): boolean {
  return floor.some((c, i) => {
    const d = floor[(i + 1) % floor.length]!;
    const length = Math.hypot(d.x - c.x, d.y - c.y);
    return [a, b].every((p) => Math.abs((d.x - c.x) * (p.y - c.y) - (d.y - c.y) * (p.x - c.x)) / length < 1);
  });
}

function piecesOf(sheet: Sheet, { pieces, positions, direction }: SheetPlan, { roll, unit }: Room): string {
  const fills = pieces.map(({ parts, strip }) => {
    const tone = strip % 2 === 0 ? '#d9dfd6' : '#e6dccb';
    return `<path d="${parts.map((part) => path(sheet, part)).join('')}" fill="${tone}" fill-opacity="0.7" stroke="${tone}" stroke-width="0.3"/>\n`;
  });
  const names = pieces.map(({ id, parts, cutLength }) => {
    const largest = parts.reduce((a, b) => (areaOf(b) > areaOf(a) ? b : a));
    const middle = sheet.at({ x: mean(largest.map(({ x }) => x)), y: mean(largest.map(({ y }) => y)) });
    const turn = direction === 90 ? ` transform="rotate(-90 ${spot(middle)})"` : '';
    const cut = quantityText({ value: String(fromTenThousandths(cutLength)), unit }, sheet.locale);
    return text(middle, `<tspan font-size="20" font-weight="700">${id}</tspan> &#8594; ${cut}`, MIDDLE + turn);
  });
  const seams = positions
    .slice(1)
    .flatMap((at, k) => [at, positions[k]! + roll.width].map((level) => seamLine(sheet, pieces, level, k, direction)));
  return fills.join('') + seams.join('') + names.join('');
}

/** Where the edge of a strip runs over the floor: dashed, as the upper sheet hides the lower one's edge. */
function seamLine(sheet: Sheet, pieces: SheetPlan['pieces'], level: number, k: number, direction: 0 | 90): string {
  const [across, along] = direction === 0 ? (['y', 'x'] as const) : (['x', 'y'] as const);
  return pieces
    .filter(({ strip }) => strip === k || strip === k + 1)
    .flatMap(({ parts }) =>
      parts.flatMap((part) => {
        const ends = part.filter((point) => Math.abs(point[across] - level) < 1).map((point) => point[along]);
        if (ends.length < 2) return [];
        const point = (end: number): Point => (direction === 0 ? { x: end, y: level } : { x: level, y: end });
        return [
          line(
            sheet.at(point(Math.min(...ends))),
            sheet.at(point(Math.max(...ends))),
            'stroke="#4a5560" stroke-width="1" stroke-dasharray="7 3"',
          ),
        ];
      }),
    )
    .join('');
}

function areaOf(polygon: readonly Point[]): number {
  return Math.abs(polygon.reduce((sum, b, i) => sum + polygon.at(i - 1)!.x * b.y - polygon.at(i - 1)!.y * b.x, 0));
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

/** The number of the step where one kneels for it, as a circle. */
function kneelsOf(sheet: Sheet, { laying }: Extract<RoomPlan, { sheets: SheetPlan }>): string {
  if (!('steps' in laying)) return '';
  const byPlace = new Map<string, { at: Point; steps: number[] }>();
  laying.steps.forEach(({ stands }, i) => {
    for (const stand of stands) {
      const key = `${Math.round(stand.x)} ${Math.round(stand.y)}`;
      const place = byPlace.get(key) ?? { at: stand, steps: [] };
      place.steps.push(i + 1);
      byPlace.set(key, place);
    }
  });
  return [...byPlace.values()]
    .map(({ at, steps }) => {
      const { x, y } = sheet.at(at);
      const said = steps.join(' ');
      return `<circle cx="${round(x)}" cy="${round(y)}" r="${round(6 + 3 * said.length)}" fill="#fff" stroke="#1d2327"/>\n${text({ x, y: y + 4 }, said, `${MIDDLE} font-size="11"`)}`;
    })
    .join('');
}

function keepOutsOf(sheet: Sheet, { keepOuts }: Room): string {
  return keepOuts
    .map(({ at, radius }) => {
      const { x, y } = sheet.at(at);
      const r = radius * sheet.scale;
      const cross = line({ x: x - r - 5, y }, { x: x + r + 5, y }, THIN) + line({ x, y: y - r - 5 }, { x, y: y + r + 5 }, THIN);
      return `<circle cx="${round(x)}" cy="${round(y)}" r="${round(r)}" fill="none" stroke="#8a3b2a" stroke-width="1.5"/>\n${cross}`;
    })
    .join('');
}

/** Overall width and height. */
function overallOf(sheet: Sheet, { floor, unit }: Room): string {
  const xs = floor.map(({ x }) => x);
  const ys = floor.map(({ y }) => y);
  const [x1, x2, y1, y2] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
  const low = sheet.at({ x: x1, y: y1 });
  const high = sheet.at({ x: x2, y: y2 });
  const said = (parts: number) => quantityText({ value: String(fromTenThousandths(parts)), unit }, sheet.locale);
  const top = MARGIN_PX - 50;
  const side = sheet.width - MARGIN_PX + 50;
  return (
    dimension({ x: low.x, y: top }, { x: high.x, y: top }, said(x2 - x1)) +
    dimension({ x: side, y: low.y }, { x: side, y: high.y }, said(y2 - y1))
  );
}

function dimension(from: Point, to: Point, said: string): string {
  const middle = { x: (from.x + to.x) / 2, y: (from.y + to.y) / 2 };
  const isUpright = from.x === to.x;
  const strokes = [from, to].map(({ x, y }) => line({ x: x - 4, y: y + 4 }, { x: x + 4, y: y - 4 }, THIN)).join('');
  const where = isUpright ? { x: middle.x - 5, y: middle.y } : { x: middle.x, y: middle.y - 5 };
  return line(from, to, THIN) + strokes + text(where, said, MIDDLE + (isUpright ? ` transform="rotate(-90 ${spot(where)})"` : ''));
}

/** Where strips start, measured from zero of the drawing: figures beside it, on extension lines. */
function positionsOf(sheet: Sheet, { positions, direction }: SheetPlan): string {
  return positions
    .map((at) => {
      const said = numberText(String(fromTenThousandths(at)), sheet.unit, sheet.locale);
      if (direction === 0) {
        const { y } = sheet.at({ x: 0, y: at });
        return line({ x: 48, y }, { x: MARGIN_PX - 6, y }, THIN) + text({ x: 44, y: y + 4 }, said, 'text-anchor="end"');
      }
      const { x } = sheet.at({ x: at, y: 0 });
      const y = sheet.height - MARGIN_PX;
      return line({ x, y: y + 50 }, { x, y: y + 62 }, THIN) + text({ x, y: y + 76 }, said, MIDDLE);
    })
    .join('');
}
