import { fail, ok, type Result } from '../result.ts';

/** `in-doubt`: figures that name more than one day, or a month alone. `days` are what they could mean, each YYYY-MM-DD. */
export type DayTextFault = { readonly code: 'not-a-day' } | { readonly code: 'in-doubt'; readonly days: readonly string[] };

/** First three letters of the months, as labels print them in English and Spanish. */
const MONTHS = ['jan ene', 'feb', 'mar', 'apr abr', 'may', 'jun', 'jul', 'aug ago', 'sep set', 'oct', 'nov', 'dec dic'] as const;

/**
 * Reads a day as a label prints it: `2026-03-31`, `31 Mar 2026`, `Mar 31, 2026`, `31 de marzo de 2026`, `31/3/26`. Where figures could be
 * day and month either way (`3/4/2026`), or name a month alone (`03/2026`, of which the last day is offered), it is asked.
 */
export function readDay(text: string): Result<string, DayTextFault> {
  const parts =
    text
      .trim()
      .toLowerCase()
      .replaceAll(/\bde\b/g, ' ')
      .match(/[a-zñ]+|\d+/g) ?? [];
  // What stands between the parts may only be what labels put there.
  if (!/^[a-zñ\d\s./,-]{4,40}$/i.test(text.trim())) return fail({ code: 'not-a-day' });
  const month = parts.map(monthOf).findIndex((one) => one !== null);
  if (month >= 0) return named(parts, month);
  const numbers = parts.map(Number);
  if (parts.some((part) => !/^\d{1,4}$/.test(part))) return fail({ code: 'not-a-day' });
  if (parts.length === 2) return lastOf(Number(parts[0]), parts[1]!);
  if (parts.length !== 3) return fail({ code: 'not-a-day' });
  if (parts[0].length === 4) return certain(day(parts[0], numbers[1]!, numbers[2]!));
  const readings = [day(parts[2]!, numbers[1]!, numbers[0]!), day(parts[2]!, numbers[0]!, numbers[1]!)];
  const days = [...new Set(readings.filter((one) => one !== null))];
  return days.length > 1 ? fail({ code: 'in-doubt', days }) : certain(days[0] ?? null);
}

function named(parts: readonly string[], at: number): Result<string, DayTextFault> {
  const month = monthOf(parts[at]!)!;
  const rest = parts.filter((_, i) => i !== at);
  if (rest.some((part) => !/^\d{1,4}$/.test(part))) return fail({ code: 'not-a-day' });
  if (rest.length === 1) return lastOf(month, rest[0]!);
  if (rest.length !== 2) return fail({ code: 'not-a-day' });
  // A year of four figures may come first; one of two comes last.
  const [first, last] = rest as [string, string];
  return certain(first.length === 4 ? day(first, month, Number(last)) : day(last, month, Number(first)));
}

/** A month without a day: usable to its end, by common practice without a source, so it is offered and not taken. */
function lastOf(month: number, year: string): Result<string, DayTextFault> {
  const last = [31, 30, 29, 28].map((date) => day(year, month, date)).find((one) => one !== null);
  return last === undefined ? fail({ code: 'not-a-day' }) : fail({ code: 'in-doubt', days: [last] });
}

function certain(read: string | null): Result<string, DayTextFault> {
  return read === null ? fail({ code: 'not-a-day' }) : ok(read);
}

/** YYYY-MM-DD of a day that is in the calendar, from 2000 to 2099; a year of two figures is of this century. */
function day(year: string, month: number, date: number): string | null {
  const full = year.length === 2 ? 2000 + Number(year) : Number(year);
  if (year.length === 1 || year.length === 3 || full < 2000 || full > 2099) return null;
  const utc = new Date(Date.UTC(full, month - 1, date));
  return utc.getUTCMonth() === month - 1 && utc.getUTCDate() === date ? utc.toISOString().slice(0, 10) : null;
}

function monthOf(word: string): number | null {
  const at = MONTHS.findIndex((names) => word.length >= 3 && names.split(' ').some((name) => word.startsWith(name)));
  return at < 0 ? null : at + 1;
}
