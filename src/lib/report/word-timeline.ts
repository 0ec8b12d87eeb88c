import * as m from '../words/compiled/messages.js';
import type { BarLook, Block, Tick } from './blocks.ts';
import type { Moment, RecordDocument } from './record-document.ts';
import type { Speaker } from './speaker.ts';
import { attemptName } from './word-flood.ts';

const DAY_MS = 86_400_000;
const MOST_DAYS = 8;

interface Row {
  readonly label: string;
  readonly from: number;
  readonly to: number;
  readonly look: BarLook;
}

/** Steps, waits and flood tests over the days, in the order they began. What has no end yet runs to the day the record was built. */
export function timelineBlocks(document: RecordDocument, say: Speaker): Block[] {
  const { locale } = say;
  const now = Date.parse(document.built.utc);
  const row = (label: string, from: Moment, to: string | null, look: BarLook): Row => {
    const start = Date.parse(from.utc);
    return { label, from: start, to: Math.max(start, to === null ? now : Date.parse(to)), look };
  };
  const rows = [
    ...document.runs.map(({ step, surfaces, start, stop }) =>
      row(`${say.step(step)}, ${say.surfaces(surfaces)}`, start, stop?.utc ?? null, stop === null ? 'hollow' : 'solid'),
    ),
    ...document.waits.flatMap(({ what, surfaces, from, ready, latest }) => {
      const end = ready ?? latest;
      return end === null ? [] : [row(`${say.wait(what)}, ${say.surfaces(surfaces)}`, from, end.utc, 'light')];
    }),
    ...document.attempts.map((attempt) => {
      const ends = attempt.ends.flatMap((id) => say.line(id)?.at.utc ?? []);
      return row(attemptName(attempt, say), attempt.at, ends.at(-1) ?? null, attempt.stand === 'open' ? 'hollow' : 'solid');
    }),
  ].toSorted((a, b) => a.from - b.from);
  const [first] = rows;
  if (first === undefined) return [];
  const offsetMin = document.runs[0]?.start.offsetMin ?? document.built.offsetMin;
  const last = Math.max(...rows.map(({ to }) => to));
  return [
    { block: 'heading', level: 2, text: m.record_timeline({}, { locale }) },
    {
      block: 'plot',
      alt: m.record_timeline_alt(
        { rows: rows.map(({ label, from }) => `${label} ${say.dayClock(at(from, offsetMin))}`).join('; ') },
        { locale },
      ),
      caption: m.record_timeline_key({}, { locale }),
      ticks: midnights(first.from, last, offsetMin, say),
      limits: [],
      rows,
    },
  ];
}

function at(ms: number, offsetMin: number): Moment {
  return { utc: new Date(ms).toISOString(), offsetMin };
}

/** Midnights from the day of the first to the day after the last, at most eight steps of whole days. */
function midnights(first: number, last: number, offsetMin: number, say: Speaker): Tick[] {
  const dayOf = (ms: number) => Math.floor((ms + offsetMin * 60_000) / DAY_MS);
  const [from, to] = [dayOf(first), dayOf(last) + 1];
  const step = Math.max(1, Math.ceil((to - from) / MOST_DAYS));
  return Array.from({ length: Math.ceil((to - from) / step) + 1 }, (_, i) => {
    const midnight = (from + i * step) * DAY_MS - offsetMin * 60_000;
    return { at: midnight, label: say.dayShort(at(midnight, offsetMin)) };
  });
}
