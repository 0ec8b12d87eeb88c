import * as m from './compiled/messages.js';
import type { Locale } from './compiled/runtime.js';

/** An instant as the clock on the wall showed it where it was captured. The zone of the machine that reads it plays no part. */
function onTheWall(utc: string, offsetMin: number): Date {
  const ms = Date.parse(utc);
  if (Number.isNaN(ms) || !Number.isSafeInteger(offsetMin))
    throw new RangeError(`time: expected an instant and whole minutes, got "${utc}", ${offsetMin}`);
  return new Date(ms + offsetMin * 60_000);
}

/** Time of day where it was captured: `1:30 pm`, `1:30 p. m.` `utc` is an RFC 3339 instant, `offsetMin` minutes east of UTC. */
export function clockText(utc: string, offsetMin: number, locale: Locale): string {
  const wall = onTheWall(utc, offsetMin);
  const hour = wall.getUTCHours();
  const clock = `${hour % 12 === 0 ? 12 : hour % 12}:${String(wall.getUTCMinutes()).padStart(2, '0')}`;
  return hour < 12 ? m.clock_am({ clock }, { locale }) : m.clock_pm({ clock }, { locale });
}

/** Day where it was captured, month by name so that no order of figures is guessed at: `Tue 14 Oct`, `mar 14 oct`. */
export function dayText(utc: string, offsetMin: number, locale: Locale): string {
  const wall = onTheWall(utc, offsetMin);
  const weekday = m.weekday_names({}, { locale }).split(' ')[wall.getUTCDay()]!;
  const month = m.month_names({}, { locale }).split(' ')[wall.getUTCMonth()]!;
  return `${weekday} ${wall.getUTCDate()} ${month}`;
}

/** The day with its year, for what is read years later: `Tue 14 Oct 2025`. */
export function dateText(utc: string, offsetMin: number, locale: Locale): string {
  return `${dayText(utc, offsetMin, locale)} ${onTheWall(utc, offsetMin).getUTCFullYear()}`;
}

/** Whole minutes as `42 min`, `2 h`, `2 h 10 min`; part of a minute is dropped. */
export function durationText(minutes: number, locale: Locale): string {
  if (!(minutes >= 0 && minutes < 1e7)) throw new RangeError(`duration: expected minutes from 0, got ${minutes}`);
  const hours = Math.floor(minutes / 60);
  const rest = Math.floor(minutes % 60);
  if (hours === 0) return m.duration_minutes({ minutes: rest }, { locale });
  return rest === 0 ? m.duration_hours({ hours }, { locale }) : m.duration_hours_minutes({ hours, minutes: rest }, { locale });
}
