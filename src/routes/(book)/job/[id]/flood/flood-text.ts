import type { StopLevel } from '#lib/trade/flood-stop.ts';
import { seen, tested, type Attempt, type FloodStand, type Seen } from '#lib/job/flood.ts';
import type { CanShow, Levels, MayEvaporate } from '#lib/job/flood-levels.ts';
import type { JobState } from '#lib/job/state.ts';
import { nmText } from '#lib/measure/quantity.ts';
import type { LevelEvidence } from '#lib/trade/flood-evidence.ts';
import type { GlyphState } from '#lib/ui/parts/glyph-shapes.ts';
import { CHOICE } from '#lib/words/fields.ts';
import * as m from '#lib/words/compiled/messages.js';
import { quantityText } from '#lib/words/number.ts';
import { clockText } from '#lib/words/time.ts';
import { stretchText } from '../../../wait-views.ts';

export type Lang = 'en' | 'es';
type Units = 'in' | 'mm';

/** A statement with its mark: the fact first, then what it rests on, a sentence each. */
export interface Statement {
  readonly glyph: GlyphState;
  readonly word: string;
  readonly lines: readonly string[];
}

export const STAND = { open: m.flood_open, passed: m.flood_passed, failed: m.flood_failed, void: m.flood_void } as const satisfies Record<
  FloodStand,
  () => string
>;
export const STAND_GLYPH = { open: 'flood-open', passed: 'flood-passed', failed: 'flood-failed', void: 'void' } as const satisfies Record<
  FloodStand,
  GlyphState
>;

const NM_PER_MM = 1_000_000;

/** A small height in the units of the job: hundredths of an inch, tenths of a millimetre. */
export function heightText(mm: number, units: Units, lang: Lang): string {
  const value = nmText(Math.round(mm * NM_PER_MM), units, units === 'in' ? 2 : 1);
  return quantityText({ value, unit: units }, lang);
}

export function seenStatement(attempt: Attempt, job: JobState, lang: Lang): Statement {
  const what = seen(attempt);
  const looked = what.looks.map(({ utc, offsetMin }) => clockText(utc, offsetMin, lang));
  const { under, above } = tested(attempt, job);
  const names = (surfaces: typeof under) => surfaces.map(({ name }) => name).join(', ');
  const rest = [names(above), attempt.fill.data.above].filter((one) => one !== '').join('; ');
  return {
    ...SEEN[what.worst ?? 'none'],
    word: SEEN[what.worst ?? 'none'].word(),
    lines: [
      ...(looked.length === 0 ? [] : [m.flood_looked_at({ times: looked.join(', ') })]),
      ceilingText(what),
      ...(what.worse ? [m.flood_ceiling_worse()] : []),
      m.flood_tested({ surfaces: names(under) }),
      ...(rest === '' ? [] : [m.flood_not_tested({ surfaces: rest })]),
    ],
  };
}

const SEEN = {
  leak: { glyph: 'flood-failed', word: m.flood_seen_leak },
  damp: { glyph: 'deviate', word: m.flood_seen_damp },
  'no-leak': { glyph: 'flood-open', word: m.flood_seen_no_leak },
  none: { glyph: 'not-begun', word: m.flood_not_looked },
} as const;

function ceilingText({ before, after }: Seen): string {
  const word = (code: Seen['before']) => CHOICE[`ceiling.${code}`]().toLowerCase();
  return after === null
    ? m.flood_ceiling_only_before({ before: word(before) })
    : m.flood_ceiling_was({ before: word(before), after: word(after) });
}

/** `read`: how many levels of the test water there are. `open`: while the test runs, another can still be read. */
export function levelsStatement(levels: Levels, read: number, open: boolean, shows: CanShow | null, units: Units, lang: Lang): Statement {
  const smallest = shows === null ? [] : [m.flood_smallest({ loss: heightText(shows.detectableMm, units, lang) })];
  if (levels.state === 'few' && !open) return { glyph: 'not-proven', word: m.flood_levels_silent(), lines: [m.flood_levels_silent_text()] };
  if (levels.state === 'few' && read === 0)
    return { glyph: 'not-begun', word: m.flood_no_level(), lines: [m.flood_no_level_text(), ...smallest] };
  if (levels.state === 'few') return { glyph: 'not-begun', word: m.flood_few_levels(), lines: [m.flood_few_levels_text(), ...smallest] };
  if (levels.state === 'unclear') return { glyph: 'not-proven', word: m.flood_unclear(), lines: [m.flood_unclear_text()] };
  const { netMm, expandedMm, panDropMm, evidence } = levels.net;
  const net = netMm === null || expandedMm === null ? [] : [netText(netMm, expandedMm, units, lang)];
  const beside =
    levels.evaporates === null ? null : m.flood_drop_no_pan({ evaporation: heightText(levels.evaporates.highMm, units, lang) });
  const pan = panDropMm === null ? null : m.flood_drop_pan({ pan: heightText(panDropMm, units, lang) });
  const words = evidenceWords(evidence, units, lang);
  return {
    glyph: words.glyph,
    word: words.word,
    lines: [...net, ...[pan, beside].filter((one) => one !== null), ...words.lines, ...smallest],
  };
}

function netText(netMm: number, expandedMm: number, units: Units, lang: Lang): string {
  const facts = { net: heightText(Math.abs(netMm), units, lang), take: heightText(expandedMm, units, lang) };
  return netMm < 0 ? m.flood_rise(facts) : m.flood_drop(facts);
}

const WHY = {
  disturbed: m.flood_why_disturbed,
  'read-once': m.flood_why_read_once,
  'pan-times-differ': m.flood_why_pan_times_differ,
  'no-loss-named': m.flood_why_no_loss_named,
  'may-be-evaporation': m.flood_why_may_be_evaporation,
  'too-coarse': m.flood_why_too_coarse,
} as const;
const SETTLE = {
  'start-anew': m.flood_settle_start_anew,
  'read-again': m.flood_settle_read_again,
  'pan-with-marks': m.flood_settle_pan_with_marks,
  'name-a-loss': m.flood_settle_name_a_loss,
  'control-pan': m.flood_settle_control_pan,
  'better-pan': m.flood_settle_better_pan,
} as const;

function evidenceWords(evidence: LevelEvidence, units: Units, lang: Lang): Statement {
  if (!evidence.conclusive) {
    const { reason, settle } = evidence;
    const way =
      settle.code === 'finer-scale'
        ? m.flood_settle_finer_scale({ step: heightText(settle.resolutionMm, units, lang) })
        : SETTLE[settle.code]();
    return { glyph: 'not-proven', word: m.flood_not_conclusive(), lines: [WHY[reason](), way] };
  }
  if (evidence.finding === 'no-loss-above-limit') return { glyph: 'within', word: m.flood_conclusive_none(), lines: [] };
  if (evidence.aboveLimit === false) return { glyph: 'not-proven', word: m.flood_conclusive_loss_below(), lines: [] };
  return {
    glyph: 'flood-failed',
    word: evidence.aboveLimit === true ? m.flood_conclusive_loss_above() : m.flood_conclusive_loss(),
    lines: [],
  };
}

/** What a planned test will be able to show, and what that was reckoned with. */
export function showsLines(shows: CanShow, holdMs: number, pan: boolean, units: Units, lang: Lang): string[] {
  const { detectableMm, litres, evaporates } = shows;
  return [
    m.flood_shows_loss({ loss: heightText(detectableMm, units, lang), time: stretchText(holdMs, lang) }),
    ...(litres === null ? [] : [m.flood_shows_litres({ volume: volumeText(litres, units, lang) })]),
    ...(pan ? [] : [m.flood_shows_evaporation({ loss: heightText(evaporates.highMm, units, lang) })]),
    airText(evaporates, units, lang),
  ];
}

function airText({ air, measured }: MayEvaporate, units: Units, lang: Lang): string {
  const degrees =
    units === 'in'
      ? { value: String(Math.round(air.airC * 1.8 + 32)), unit: 'F' as const }
      : { value: String(Math.round(air.airC)), unit: 'C' as const };
  const facts = { air: quantityText(degrees, lang), humidity: String(Math.round(air.humidityPct)) };
  return measured ? m.flood_shows_air(facts) : m.flood_shows_air_taken(facts);
}

const L_PER_QT = 0.946352946;

function volumeText(litres: number, units: Units, lang: Lang): string {
  return units === 'in'
    ? quantityText({ value: (litres / L_PER_QT).toFixed(1), unit: 'qt' }, lang)
    : quantityText({ value: litres.toFixed(1), unit: 'L' }, lang);
}

const PA_PER_LB_FT2 = 47.880259;
const PA_PER_KG_M2 = 9.80665;

/** Where a failed attempt's water came to rest, if its levels tell. */
export function restText(rest: StopLevel | null, units: Units, lang: Lang): string | null {
  if (rest === null || rest.state === 'no-fall') return null;
  if (rest.state === 'falling') return m.flood_rest_falling({ below: heightText(rest.belowMm, units, lang) });
  const { levelMm, lowMm, highMm } = rest;
  return m.flood_rest_stopped({
    level: heightText(levelMm, units, lang),
    low: heightText(lowMm, units, lang),
    high: heightText(highMm, units, lang),
  });
}

export function loadText(pa: number, units: Units): string {
  return units === 'in' ? m.unit_lb_ft2({ n: Math.round(pa / PA_PER_LB_FT2) }) : m.unit_kg_m2({ n: Math.round(pa / PA_PER_KG_M2) });
}
