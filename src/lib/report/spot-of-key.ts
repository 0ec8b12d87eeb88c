import { FIELD } from '../words/fields.ts';
import * as m from '../words/compiled/messages.js';
import { spotText } from '../words/spot.ts';
import type { Speaker } from './speaker.ts';

/** A place of a room's drawing by its id; what stands in the room by its number, as the drawing lists it. */
export function spotName(spot: string, { locale }: Pick<Speaker, 'locale'>): string {
  return spotText(spot, (at) => m.draw_thing_n({ thing: FIELD.thing({}, { locale }), n: at + 1 }, { locale }), locale);
}

/** The place that an owed item names in its key, as `corner:bath@corner-2`; nothing where it names none. */
export function spotOfKey(key: string, say: Pick<Speaker, 'locale'>): string[] {
  const spot = /@([^:]+)/.exec(key)?.[1];
  return spot === undefined ? [] : [spotName(spot, say)];
}
