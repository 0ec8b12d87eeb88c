import type { ClearToCover } from '#lib/job/cover.ts';
import { judgeReading } from '#lib/job/judged.ts';
import type { LayerProof, Owed } from '#lib/job/proof.ts';
import type { JobState } from '#lib/job/state.ts';
import { MEASURES_OF_STEP, type Layer } from '#lib/job/systems.ts';
import type { Measure } from '#lib/record/kinds/reading.ts';
import type { LayerView } from '#lib/ui/section/layer-view.ts';
import { LAYER, OWED, VERDICT } from '#lib/words/codes.ts';
import * as m from '#lib/words/compiled/messages.js';
import { saidText } from '#lib/words/number.ts';
import { clockText } from '#lib/words/time.ts';
import { spotOfRoom } from './log/said-text.ts';

type Lang = 'en' | 'es';

/** The section's layers in words: each with the one fact that matters most about it. */
export function layerViews(layers: readonly LayerProof[], job: JobState, open: Layer | null, lang: Lang): LayerView[] {
  return layers.map((layer) => ({
    layer: layer.layer,
    name: LAYER[layer.layer](),
    note: note(layer, job, lang),
    stand: layer.stand,
    shown: layer.shown,
    leftOut: layer.leftOut,
    total: layer.items.length,
    open: layer.layer === open,
    items: layer.items.map((item) => ({
      key: item.key,
      name: owedName(item, job),
      place: item.surface.place,
      want: 'reading' in item.rule.want ? 'reading' : 'shot' in item.rule.want ? 'shot' : 'entry',
      stand: item.stand,
      shown: item.shown,
      ...(item.reading === null ? {} : { verdict: item.reading.judged.verdict }),
    })),
  }));
}

/** What is owed and where: on a surface, or once a room, whose name is said only where there are several. */
export function owedName(item: Owed, job: JobState): string {
  const own = job.ownRules.find(({ rule }) => item.rule.id === `own-${rule}`)?.name;
  const what = own ?? OWED[item.rule.id as keyof typeof OWED]();
  const rooms = new Set(job.surfaces.map(({ room }) => room)).size;
  const where =
    item.surfaces.length === 1 && item.key.split(':')[1] === item.surface.surface ? item.surface.name : rooms > 1 ? item.room.name : null;
  const named = where === null ? what : m.room_of({ item: what, room: where });
  if (item.spot !== null) return m.room_of({ item: named, room: spotOfRoom(item.spot, item.room.room, job) });
  return item.coat === null ? named : m.room_of({ item: named, room: m.coat_n({ n: item.coat }) });
}

function note(layer: LayerProof, job: JobState, lang: Lang): string {
  const run = layer.running.at(-1);
  if (run !== undefined) return m.running_since({ time: clockText(run.startUtc, run.startOffsetMin, lang) });
  const last = layer.items.flatMap((item) => (item.reading === null ? [] : [item.reading])).at(-1);
  if (last !== undefined) return `${VERDICT[judgeReading(last, job.limits).verdict]()}. ${saidText(last.said, lang)}`;
  if (layer.stand === 'not-begun') return m.state_not_begun();
  if (layer.stand === 'owed') return m.photos_taken();
  return layer.leftOut > 0 ? m.state_nothing_owed() : m.state_shown();
}

/** What still stands in the way of covering, as one sentence. */
export function missingText({ missing }: ClearToCover): string {
  const readings = missing.filter((item) => 'reading' in item.rule.want).length;
  const shots = missing.filter((item) => 'shot' in item.rule.want).length;
  const entries = missing.length - readings - shots;
  if (missing.length === 0) return m.nothing_missing();
  if (entries === 0 && readings === 0) return m.owes_shots({ n: shots });
  if (entries === 0 && shots === 0) return m.owes_readings({ n: readings });
  if (entries === 0) return m.owes_both({ shots: m.n_shots({ n: shots }), readings: m.n_readings({ n: readings }) });
  const parts = [
    ...(shots === 0 ? [] : [m.n_shots({ n: shots })]),
    ...(readings === 0 ? [] : [m.n_readings({ n: readings })]),
    m.entries_owed({ n: entries }),
  ];
  return parts.length === 1 ? m.owes_entries({ n: entries }) : m.owes_list({ list: parts.join(', ') });
}

/** Where a reading is taken: of a measure, or of whatever the run measures. */
export function readHref(
  job: string,
  measure: Measure | null,
  run: string | null,
  surface: string | null,
  coat: number | null = null,
  spot: string | null = null,
): string {
  return `/job/${job}/read?${query({ run, what: measure, surface, coat, spot })}`;
}

/** Where a photo is taken; `shows` names the owed item it is for, `at` the `ROOM@SPOT` of a drawing. */
export function shootHref(
  job: string,
  run: string | null,
  surface: string | null,
  shows: string | null = null,
  at: string | null = null,
): string {
  return `/job/${job}/shoot?${query({ run, surface, shows, at })}`;
}

function query(parts: Readonly<Record<string, string | number | null>>): URLSearchParams {
  return new URLSearchParams(Object.entries(parts).flatMap(([name, value]) => (value === null ? [] : [[name, String(value)]])));
}

/**
 * Where what is owed is given: its photo, its reading, or the page its entry is written on. What is owed of a place of the drawing is taken
 * first and marked there next: `of` is the entry to mark, once there is one.
 */
export function owedHref(
  job: string,
  { rule, room, surface, surfaces, coat, spot }: Owed,
  run: string | null,
  of: string | null = null,
): string {
  if (spot !== null && of !== null) return `/job/${job}/draw/mark?${query({ room: room.room, of, spot })}`;
  // Depth and levels belong to an attempt, and its photos are listed with it.
  const ofAttempt = 'reading' in rule.want ? MEASURES_OF_STEP['flood-test'].includes(rule.want.reading) : 'entry' in rule.want;
  if (rule.layer === 'flood' && (run === null || ofAttempt)) return `/job/${job}/flood`;
  // A seam of the plan lies on the floor.
  const at = spot === null ? surface : surfaces.find(({ place }) => place === 'floor');
  const on = spot === null && surfaces.length === 1 ? surface.surface : null;
  if ('reading' in rule.want) return readHref(job, rule.want.reading, run, at?.surface ?? null, coat, spot);
  const place = spot === null ? null : `${room.room}@${spot}`;
  if ('shot' in rule.want) return shootHref(job, run, on, rule.overview === true ? null : rule.id, place);
  return `/job/${job}/write?${query({ kind: rule.want.entry, surfaces: surfaces.map((one) => one.surface).join(',') })}`;
}
