import { takeoff } from '#lib/job/drawing/areas.ts';
import { JOINT_KINDS } from '#lib/job/drawing/joints.ts';
import type { RoomShape } from '#lib/job/drawing/shape.ts';
import type { DrawnMark } from '#lib/job/drawing/marks.ts';
import { isAnswered } from '#lib/job/misses.ts';
import type { JobState } from '#lib/job/state.ts';
import { drawnLength } from '#lib/words/drawn-length.ts';
import { placeText } from '#lib/words/place.ts';
import { quantityText } from '#lib/words/number.ts';
import * as m from '#lib/words/compiled/messages.js';
import { pointedText, spotOfRoom } from '../log/said-text.ts';

type Lang = 'en' | 'es';

export const wallName = (wall: number) => m.draw_wall_n({ n: wall + 1 });

/** A mark in a line: what, where, and of which place. */
export function markText(mark: DrawnMark, shape: RoomShape, room: string, job: JobState, lang: Lang): { what: string; where: string } {
  const where = placeText(mark, shape.unit, lang);
  return {
    what: isAnswered(mark.of, job) ? `${pointedText(mark.of, job, lang)}. ${m.draw_mark_answered()}` : pointedText(mark.of, job, lang),
    where: mark.spot === null ? where : `${spotOfRoom(mark.spot, room, job)}. ${where}`,
  };
}

const JOINT: Readonly<Record<(typeof JOINT_KINDS)[number], () => string>> = {
  'floor-wall': m.draw_joint_floor_wall,
  'wall-wall-inside': m.draw_joint_inside,
  'wall-wall-outside': m.draw_joint_outside,
  curb: m.draw_joint_curb,
  bench: m.draw_joint_bench,
  niche: m.draw_joint_niche,
};

/** What follows from the drawing, row by row; nothing of what the room has not. */
export function takeoffRows(shape: RoomShape, lang: Lang): { name: string; value: string }[] {
  const found = takeoff(shape);
  const { unit } = shape;
  const area = (size: number) =>
    quantityText(
      { value: (unit === 'in' ? size / 144 : size / 1e6).toFixed(unit === 'in' ? 1 : 2), unit: unit === 'in' ? 'ft2' : 'm2' },
      lang,
    );
  const length = (size: number) => drawnLength(size * 10_000, unit, lang);
  const walls = found.walls.reduce((sum, one) => sum + one, 0);
  const rows: readonly (readonly [string, number, (size: number) => string])[] = [
    [m.draw_area_floor(), found.floor, area],
    [m.draw_area_walls(), walls, area],
    [m.draw_area_curbs(), found.curbs, area],
    [m.draw_area_benches(), found.benches, area],
    [m.draw_perimeter(), found.perimeter, length],
    ...JOINT_KINDS.map((kind) => [JOINT[kind](), found.joints[kind], length] as const),
    [m.draw_inside_corners(), found.insideCorners, String],
    [m.draw_outside_corners(), found.outsideCorners, String],
    [m.draw_collars(), found.collars, String],
  ];
  return rows.filter(([, size]) => size > 0).map(([name, size, say]) => ({ name, value: say(size) }));
}
