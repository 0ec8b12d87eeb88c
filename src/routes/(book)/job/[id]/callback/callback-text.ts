import type { Outcome } from '#lib/job/callback/callbacks.ts';
import type { PlaceToLook, Reason } from '#lib/job/callback/where-to-look.ts';
import type { JobState } from '#lib/job/state.ts';
import type { IsolationTest } from '#lib/record/kinds/callback.ts';
import { KIND, MEASURE } from '#lib/words/codes.ts';
import * as m from '#lib/words/compiled/messages.js';
import { drawnLength } from '#lib/words/drawn-length.ts';
import { saidText } from '#lib/words/number.ts';
import { wallName } from '../draw/drawing-text.ts';
import { featureOfRoom } from '../log/said-text.ts';

type Lang = 'en' | 'es';

/** How each test of the series is done. Common practice, no source: what a plumber or an inspector says goes before it. */
export const HOW: Readonly<Record<IsolationTest, () => string>> = {
  unused: m.callback_how_unused,
  supply: m.callback_how_supply,
  'drain-line': m.callback_how_drain_line,
  pan: m.callback_how_pan,
  walls: m.callback_how_walls,
  valve: m.callback_how_valve,
  door: m.callback_how_door,
  'curb-ends': m.callback_how_curb_ends,
};

export const OUTCOME: Readonly<Record<Outcome, () => string>> = {
  wetter: m.callback_outcome_wetter,
  same: m.callback_outcome_same,
  drier: m.callback_outcome_drier,
  open: m.callback_outcome_open,
};

const REASON: Readonly<Record<Reason, () => string>> = {
  'got-wetter': m.reason_got_wetter,
  'wetter-unused': m.reason_wetter_unused,
  'not-tried': m.reason_not_tried,
  outside: m.reason_outside,
  deviation: m.reason_deviation,
  repaired: m.reason_repaired,
  'not-proven': m.reason_not_proven,
  'not-shown': m.reason_not_shown,
  'lap-least': m.reason_lap_least,
  'stayed-same': m.reason_stayed_same,
};

/** A place to look at: what it is, how far off, and why it is on the list. */
export function placeToLookText(
  { what, away, reasons }: PlaceToLook,
  { room, unit }: { readonly room: string; readonly unit: 'in' | 'mm' },
  job: JobState,
  lang: Lang,
): { what: string; why: string } {
  const far = away === null ? m.look_somewhere() : m.look_away({ distance: drawnLength(Math.round(away), unit, lang) });
  const why = reasons.map((one) => REASON[one]()).join('. ');
  switch (what.is) {
    case 'outside-membrane':
      return { what: what.test === 'supply' ? m.look_supply() : m.look_drain_line(), why };
    case 'feature': {
      const name = featureOfRoom(what.feature, room, job, lang);
      const { lap } = what.feature;
      const measured = lap === null ? [] : [m.behind_lap({ value: saidText(lap.reading.said, lang) })];
      return { what: [name, ...(what.wall === null ? [] : [wallName(what.wall)]), ...measured, far].join(', '), why };
    }
    case 'reading': {
      const { reading } = what;
      const on = job.surfaces.find(({ surface }) => surface === reading.surface)?.name;
      const where = [...(on === undefined ? [] : [on]), far].join(', ');
      return { what: m.look_reading({ what: MEASURE[reading.what](), value: saidText(reading.said, lang), where }), why };
    }
    case 'stated':
      return { what: `${KIND['of' in what.fact.data ? 'repair' : 'deviation']()}: ${what.fact.data.what}, ${far}`, why };
  }
}

export function placeToLookKey({ what }: PlaceToLook): string {
  switch (what.is) {
    case 'outside-membrane':
      return what.test;
    case 'feature':
      return `${what.wall} ${what.feature.is} ${what.feature.id}`;
    case 'reading':
      return what.reading.id;
    case 'stated':
      return what.fact.id;
  }
}
