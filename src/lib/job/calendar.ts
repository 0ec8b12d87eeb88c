/** One alarm in a calendar file. */
export interface CalendarEvent {
  /** Unique and lasting: the same wait twice is the same event. */
  readonly uid: string;
  readonly atUtc: string;
  readonly madeUtc: string;
  readonly summary: string;
  readonly description: string;
}

/**
 * A calendar file with an alarm at each instant (RFC 5545: VEVENT with a VALARM at its start), in UTC so that no zone is guessed at.
 * A page cannot ring while it is closed; the phone's calendar can.
 */
export function calendarFile(events: readonly CalendarEvent[]): string {
  const lines = events.flatMap(({ uid, atUtc, madeUtc, summary, description }) => [
    'BEGIN:VEVENT',
    `UID:${uid}@layerbook`,
    `DTSTAMP:${stamp(madeUtc)}`,
    `DTSTART:${stamp(atUtc)}`,
    `DTEND:${stamp(atUtc)}`,
    `SUMMARY:${escaped(summary)}`,
    `DESCRIPTION:${escaped(description)}`,
    'TRANSP:TRANSPARENT',
    'BEGIN:VALARM',
    'ACTION:DISPLAY',
    'TRIGGER:PT0S',
    `DESCRIPTION:${escaped(summary)}`,
    'END:VALARM',
    'END:VEVENT',
  ]);
  return ['BEGIN:VCALENDAR', 'VERSION:2.0', 'PRODID:-//Layerbook//waits//EN', ...lines, 'END:VCALENDAR']
    .map((line) => `${folded(line)}\r\n`)
    .join('');
}

function stamp(utc: string): string {
  return `${new Date(utc).toISOString().slice(0, 19).replaceAll(/[-:]/g, '')}Z`;
}

/** Text of a property, section 3.3.11. */
function escaped(text: string): string {
  return text.replaceAll(/[\\;,]/g, (sign) => `\\${sign}`).replaceAll(/\r\n|\r|\n/g, '\\n');
}

/** Lines of at most 75 octets, section 3.1: the rest goes on after a line break and a space, no character cut in two. */
function folded(line: string): string {
  const encoder = new TextEncoder();
  let out = '';
  let octets = 0;
  for (const character of line) {
    const size = encoder.encode(character).length;
    if (octets + size > 75) {
      out += '\r\n ';
      octets = 1;
    }
    out += character;
    octets += size;
  }
  return out;
}
