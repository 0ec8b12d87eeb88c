import type { Drawing } from '../record/kinds/drawing.ts';
import * as m from '../words/compiled/messages.js';
import { FIELD } from '../words/fields.ts';
import { spotText } from '../words/spot.ts';
import type { Speaker } from './speaker.ts';

/** What stands at a place of a drawing's list, with its number among its kind where there are several; by its place where that is unknown. */
export function thingName(things: Drawing['things'], at: number, say: Pick<Speaker, 'locale' | 'choice'>): string {
  const { locale } = say;
  const kind = things[at]?.thing;
  if (kind === undefined) return m.draw_thing_n({ thing: FIELD.thing({}, { locale }), n: at + 1 }, { locale });
  const name = say.choice('thing', kind);
  const before = things.slice(0, at).filter(({ thing }) => thing === kind).length;
  const isOnly = things.filter(({ thing }) => thing === kind).length === 1;
  return isOnly ? name : m.draw_thing_n({ thing: name, n: before + 1 }, { locale });
}

/** A place of a room's drawing by its id, as the drawing that stands names it. */
export function spotName(spot: string, room: string, say: Pick<Speaker, 'locale' | 'choice' | 'things'>): string {
  return spotText(spot, (at) => thingName(say.things(room), at, say), say.locale);
}

/** The place that an owed item names in its key, as `corner:bath@corner-2`; nothing where it names none. */
export function spotOfKey(key: string, say: Pick<Speaker, 'locale' | 'choice' | 'things'>): string[] {
  const [, room, spot] = /([^:]+)@([^:]+)/.exec(key) ?? [];
  return room === undefined || spot === undefined ? [] : [spotName(spot, room, say)];
}
