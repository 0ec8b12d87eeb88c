import type { Starter, StarterFamily, WaterClass } from '#lib/trade/starters.ts';
import * as m from '#lib/words/compiled/messages.js';

export const FAMILY: Readonly<Record<StarterFamily, () => string>> = {
  'irc-ipc': m.starter_family_irc,
  upc: m.starter_family_upc,
  ncc: m.starter_family_ncc,
  'din-18534': m.starter_family_din,
};

/** What each rule measures, where the name of the measure alone does not say it. */
const WHERE: Readonly<Record<string, () => string>> = {
  'irc-slope': m.starter_finished_floor,
  'irc-curb': m.starter_curb_to_drain,
  'ipc-flood-depth': m.starter_at_threshold,
  'upc-upturn': m.starter_above_threshold,
  'upc-slope': m.starter_lining_slope,
  'ncc-wall-height': m.starter_shower_walls,
  'ncc-joint': m.starter_each_side,
  'ncc-fall': m.starter_to_waste,
  'din-dispersion': m.starter_dispersion,
  'din-resin': m.starter_resin,
  'din-slurry': m.starter_slurry,
};

/** What was read of each source: nobody is to take it for the whole text. */
const READ: Readonly<Partial<Record<Starter['source'], () => string>>> = {
  'ipc-312.9': m.starter_read_quoted,
  'irc-p2709.1': m.starter_read_quoted,
  'upc-408.7': m.starter_read_section,
  'ncc-10.2.2': m.starter_read_section,
  'ncc-10.2.12': m.starter_read_notes,
  'din-18534-3': m.starter_read_association,
};

/** Cite, edition read, and what was read of it, on one line. */
export function starterSource({ cite, readIn, source }: Starter): string {
  return [cite, ...(readIn === null ? [] : [m.starter_read_in({ edition: readIn })]), READ[source]?.() ?? ''].filter(Boolean).join('. ');
}

export function starterWhere({ id }: Starter): string {
  return WHERE[id]?.() ?? '';
}

/** What else the standard says of a water class. */
export function waterNotes(water: WaterClass): string[] {
  const gypsum = water === 'W2-I' || water === 'W3-I' ? [m.starter_no_gypsum()] : [];
  return water === 'W3-I' ? [...gypsum, m.starter_document()] : gypsum;
}
