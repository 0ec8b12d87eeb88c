import type { Times } from '#lib/record/entry.ts';
import { randomId } from './random-id.ts';

/**
 * The phone's clocks as the book keeps them. A session is one stretch of the page in sight: while the phone sleeps the monotonic
 * clock may stand still (hazard: every nap would look like a clock set forward), and a phone only sleeps with the page out of sight.
 * So each change of sight begins a session, and out of sight every moment is a session of its own.
 */
export function deviceClock(): () => Times {
  let session = randomId();
  let zone = zoneName();
  let zoneOffsetMin = offsetMinOf(new Date());
  const begin = () => {
    session = randomId();
    zone = zoneName();
  };
  document.addEventListener('visibilitychange', begin);
  // Frozen and thawed, or taken back from the page cache, a page may come into sight without a change of sight.
  document.addEventListener('resume', begin);
  addEventListener('pageshow', begin);
  return () => {
    if (document.visibilityState === 'hidden') begin();
    const at = new Date();
    const offsetMin = offsetMinOf(at);
    // The name is asked for again only when it may have changed: asking costs more than hashing and signing together.
    if (offsetMin !== zoneOffsetMin) {
      zone = zoneName();
      zoneOffsetMin = offsetMin;
    }
    return { utc: at.toISOString(), offsetMin, zone, monoMs: Math.floor(performance.now()), session };
  };
}

function offsetMinOf(at: Date): number {
  return 0 - at.getTimezoneOffset();
}

/** IANA name of the phone's zone; `unknown` where the browser does not tell. */
function zoneName(): string {
  const { timeZone } = Intl.DateTimeFormat().resolvedOptions() as { timeZone?: string };
  return timeZone === undefined || timeZone.length > 64 ? 'unknown' : timeZone;
}
