import { calendarFile, type CalendarEvent } from '#lib/job/calendar.ts';
import { extension } from '#lib/job/extension.ts';
import type { JobState } from '#lib/job/state.ts';
import type { StandingWait } from '#lib/job/waits.ts';
import type { DaySpan, WaitView } from '#lib/ui/wait/wait-view.ts';
import { WAIT } from '#lib/words/codes.ts';
import * as m from '#lib/words/compiled/messages.js';
import { limitSourceText } from '#lib/words/limit.ts';
import { clockText, dayText, durationText } from '#lib/words/time.ts';

type Lang = 'en' | 'es';
const HOUR_MS = 3_600_000;

/** Where the clock on the wall stands at an instant: the phone's own offset then, so that a night of changed clocks is told right. */
function here(ms: number) {
  const at = new Date(ms);
  return { utc: at.toISOString(), offsetMin: -at.getTimezoneOffset() };
}

/** `3:40 pm`, with its day before it when that is not the day of `nowMs`. */
export function momentText(ms: number, nowMs: number, lang: Lang): { day: string | null; time: string } {
  const [at, now] = [here(ms), here(nowMs)];
  const day = dayText(at.utc, at.offsetMin, lang);
  return { day: day === dayText(now.utc, now.offsetMin, lang) ? null : day, time: clockText(at.utc, at.offsetMin, lang) };
}

export function momentLine(ms: number, nowMs: number, lang: Lang): string {
  const { day, time } = momentText(ms, nowMs, lang);
  return day === null ? time : `${day} ${time}`;
}

/** A stretch of time in words; the last minute is not called none. */
export function stretchText(ms: number, lang: Lang): string {
  return durationText(ms <= 0 ? 0 : Math.max(1, Math.round(ms / 60_000)), lang);
}

export function whereText(job: JobState, ids: readonly string[]): string {
  const names = job.surfaces.filter(({ surface }) => ids.includes(surface)).map(({ name }) => name);
  return ids.length === 0 || names.length === job.surfaces.length ? m.wait_everywhere() : names.join(', ');
}

export function waitName(job: JobState, { wait }: StandingWait): string {
  return m.wait_on({ what: WAIT[wait.data.what](), where: whereText(job, wait.data.surfaces) });
}

export function sourceOf(job: JobState, { wait }: StandingWait): string {
  const limit = job.limits.find((one) => one.limit === wait.data.limit);
  return limit === undefined ? '' : limitSourceText(limit);
}

/** What a wait shows large: when it is over while it is waited for, and then by when the next must come. */
export function waitView(job: JobState, standing: StandingWait, nowMs: number, lang: Lang): WaitView {
  const { readyMs, latestMs, warnMs, fromMs, stand, clockMovedMs } = standing;
  const waiting = stand === 'waiting' && readyMs !== null;
  const shownMs = (waiting ? readyMs : (latestMs ?? readyMs)) ?? fromMs;
  const advice = waiting ? extension(job, standing) : null;
  const endMs = Math.max(shownMs, advice?.readyMs ?? 0);
  const share = (ms: number) => (endMs === fromMs ? 1 : Math.min(1, Math.max(0, (ms - fromMs) / (endMs - fromMs))));
  const { day, time } = momentText(shownMs, nowMs, lang);
  const bare = { time: '' };
  const head = waiting
    ? m.wait_ready_at(bare)
    : latestMs === null
      ? m.wait_ready_now(bare)
      : stand === 'too-late'
        ? m.wait_too_late(bare)
        : m.wait_latest(bare);
  const left = Math.abs(shownMs - nowMs);
  return {
    key: standing.wait.id,
    stand,
    head: head.trim(),
    day,
    time,
    what: waitName(job, standing),
    left: shownMs > nowMs ? m.wait_left({ time: stretchText(left, lang) }) : '',
    source: sourceOf(job, standing),
    remarks: [
      ...(advice === null
        ? []
        : [advice.readyMs === null ? m.wait_advice_frost() : m.wait_advice({ time: momentLine(advice.readyMs, nowMs, lang) })]),
      ...(advice === null || advice.unknownMs < HOUR_MS ? [] : [m.wait_unknown_hours({ time: stretchText(advice.unknownMs, lang) })]),
      ...(waiting && latestMs !== null
        ? [m.wait_latest_left({ time: momentLine(latestMs, nowMs, lang), left: stretchText(latestMs - nowMs, lang) })]
        : []),
      ...(clockMovedMs === 0 ? [] : [m.wait_clock_moved({ time: stretchText(Math.abs(clockMovedMs), lang) })]),
    ],
    share: share(nowMs),
    statedShare: share(shownMs),
    warnShare: waiting || warnMs === null ? null : share(warnMs),
  };
}

export function daySpan(job: JobState, standing: StandingWait, nowMs: number): DaySpan {
  const end = standing.readyMs ?? standing.latestMs ?? standing.fromMs;
  return { key: standing.wait.id, name: waitName(job, standing), fromH: (standing.fromMs - nowMs) / HOUR_MS, toH: (end - nowMs) / HOUR_MS };
}

/** The waits as alarms for the phone's calendar: when each is over, and when three quarters of a latest-by are gone. */
export function waitCalendar(job: JobState, waits: readonly StandingWait[], nowMs: number): string {
  const events = waits.flatMap((standing): CalendarEvent[] => {
    const facts = { job: job.name, what: WAIT[standing.wait.data.what](), where: whereText(job, standing.wait.data.surfaces) };
    const event = (uid: string, ms: number | null, summary: string): CalendarEvent[] =>
      ms === null || ms <= nowMs
        ? []
        : [
            {
              uid: `${uid}-${standing.wait.id}`,
              atUtc: new Date(ms).toISOString(),
              madeUtc: new Date(nowMs).toISOString(),
              summary,
              description: m.event_text({ source: sourceOf(job, standing) }),
            },
          ];
    return [...event('ready', standing.readyMs, m.event_wait(facts)), ...event('latest', standing.warnMs, m.event_latest(facts))];
  });
  return calendarFile(events);
}
