import * as m from './compiled/messages.js';
import type { Locale } from './compiled/runtime.js';

const CORNER = /^corner-(\d+)(-top-in|-top-out)?$/;
const THING = /^thing-(\d+)(?:-(back|face|a|b)-(.+))?$/;

/**
 * A place of the drawing by its id: `Corner 2`, `Curb end at corner 3, top edge inside`, `Valve, 1`. `thing` names what stands at an index.
 * An id of a newer version stands for itself.
 */
export function spotText(id: string, thing: (at: number) => string, locale?: Locale): string {
  const options = locale === undefined ? {} : { locale };
  const corner = CORNER.exec(id);
  if (corner !== null) {
    const n = Number(corner[1]) + 1;
    if (corner[2] === undefined) return m.spot_corner({ n }, options);
    return (corner[2] === '-top-in' ? m.spot_top_in : m.spot_top_out)({ n }, options);
  }
  const at = THING.exec(id);
  if (at === null) return id.startsWith('seam-') ? m.spot_seam({ n: Number(id.slice(5)) + 1 }, options) : id;
  const name = thing(Number(at[1]));
  const [, , part, place = ''] = at;
  if (part === undefined) return name;
  if (part === 'back' || part === 'face')
    return (part === 'back' ? m.spot_niche_back : m.spot_niche_face)({ name, n: Number(place) + 1 }, options);
  const PLACE = {
    front: m.spot_bench_front,
    wall: m.spot_bench_wall,
    'seat-front': m.spot_bench_seat_front,
    'seat-wall': m.spot_bench_seat_wall,
  } as const;
  const word = Object.hasOwn(PLACE, place) ? PLACE[place as keyof typeof PLACE]({}, options) : place;
  return m.spot_bench({ name, end: part === 'a' ? 1 : 2, place: word }, options);
}
