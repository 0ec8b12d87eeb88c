import type { Feature } from '#lib/job/behind/nearest.ts';
import type { Stratum } from '#lib/job/behind/strata.ts';
import type { JobState } from '#lib/job/state.ts';
import { LAYER, MEASURE } from '#lib/words/codes.ts';
import * as m from '#lib/words/compiled/messages.js';
import { drawnLength } from '#lib/words/drawn-length.ts';
import { saidText } from '#lib/words/number.ts';
import { clockText, dateText } from '#lib/words/time.ts';
import { featureOfRoom } from '../log/said-text.ts';

type Lang = 'en' | 'es';

/** Where it is from the place, and what shows it. */
export function featureText(one: Feature, unit: 'in' | 'mm', room: string, job: JobState, lang: Lang): { where: string; proof: string } {
  const what = featureOfRoom(one, room, job, lang);
  const where = one.away < 1 ? m.behind_on({ what }) : m.behind_away({ what, distance: drawnLength(Math.round(one.away), unit, lang) });
  if (one.lap !== null) return { where, proof: m.behind_lap({ value: saidText(one.lap.reading.said, lang) }) };
  return { where, proof: one.shownBy.length === 0 ? m.behind_not_shown() : m.behind_shown({ n: one.shownBy.length }) };
}

export function layerName({ layer, coat }: Pick<Stratum, 'layer' | 'coat'>): string {
  return coat === null ? LAYER[layer]() : m.coat_n({ n: coat });
}

export const stratumKey = ({ layer, coat }: Pick<Stratum, 'layer' | 'coat'>) => `${layer} ${coat}`;

/** When it was worked on, and by whom. */
export function workedText({ worked }: Stratum, job: JobState, lang: Lang): string {
  if (worked.length === 0) return m.behind_no_run();
  const days = [...new Set(worked.map(({ utc, offsetMin }) => dateText(utc, offsetMin, lang)))];
  const who = [...new Set(worked.map(({ by }) => job.people[by] ?? by))];
  return m.behind_runs({ when: days.length === 1 ? days[0]! : `${days[0]} – ${days.at(-1)}`, who: who.join(', ') });
}

export function photoText(photo: Stratum['photos'][number], unit: 'in' | 'mm', lang: Lang): string {
  const { utc, offsetMin } = photo.shot;
  const time = `${dateText(utc, offsetMin, lang)} ${clockText(utc, offsetMin, lang)}`;
  if (photo.area !== null) return m.behind_photo_holds({ time });
  if (photo.away === null) return m.behind_photo_somewhere({ time });
  return m.behind_photo_at({ time, distance: drawnLength(Math.round(photo.away), unit, lang) });
}

export function readingText({ reading, away }: Stratum['readings'][number], unit: 'in' | 'mm', lang: Lang): string {
  const what = MEASURE[reading.what]();
  const value = saidText(reading.said, lang);
  if (away === null) return `${what} ${value}`;
  return m.behind_reading_at({ what, value, distance: drawnLength(Math.round(away), unit, lang) });
}
