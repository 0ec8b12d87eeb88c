import * as m from './compiled/messages.js';
import type { Locale } from './compiled/runtime.js';
import { drawnLength } from './drawn-length.ts';
import { spotText } from './spot.ts';

/** Where a place of a drawing is, by tape: lengths in ten-thousandths of its unit. */
export function placeText(
  { wall, x, y }: { readonly wall: number | null; readonly x: number; readonly y: number },
  unit: 'in' | 'mm',
  locale: Locale,
): string {
  const [across, up] = [drawnLength(Math.abs(x), unit, locale), drawnLength(Math.abs(y), unit, locale)];
  const options = { locale };
  return wall === null
    ? m.draw_at_floor({ x: across, y: up }, options)
    : m.draw_at_wall({ wall: m.draw_wall_n({ n: wall + 1 }, options), x: across, y: up }, options);
}

/** What a seam, joint, corner piece or collar is called by its id; `thing` names what stands at an index of the drawing. */
export function featureName(
  { is, id }: { readonly is: string; readonly id: string },
  thing: (at: number) => string,
  locale: Locale,
): string {
  if (is !== 'joint') return spotText(id, thing, locale);
  if (id === 'floor') return m.behind_joint_floor({}, { locale });
  const n = Number(id.slice(id.indexOf('-') + 1)) + 1;
  return id.startsWith('wall') ? m.behind_joint_wall({ n }, { locale }) : m.behind_joint_corner({ n }, { locale });
}
