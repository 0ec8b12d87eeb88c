import * as m from './compiled/messages.js';

/** What the mixing card asks for. */
export const MIX_ASK = {
  bagKg: m.work_ask_bag_kg,
  bagM2: m.mix_ask_bag_covers,
  waterMinL: m.work_ask_water_min_l,
  waterMaxL: m.work_ask_water_max_l,
  paceM2: m.work_ask_pace_m2,
  openTime: m.mix_ask_open_time,
  potLife: m.work_ask_pot_life_ms,
  lossPct: m.work_ask_loss_pct,
  wetUm: m.mix_ask_wet,
  coats: m.mix_ask_coats,
  pailL: m.mix_ask_pail,
  lapMm: m.mix_ask_lap,
  rollMm: m.mix_ask_band_roll,
} as const;

/** What stands on it. */
export const MIX_FOUND = {
  'bond-area': m.mix_found_bond_area,
  'bags-least': m.mix_found_bags,
  batches: m.work_found_batches,
  'batch-powder': m.mix_found_powder,
  'batch-water': m.mix_found_water,
  'batch-area': m.mix_found_batch_area,
  'batch-time': m.mix_found_batch_time,
  'coat-area': m.mix_found_coat_area,
  'liquid-coat': m.mix_found_coat,
  'liquid-all': m.mix_found_liquid,
  pails: m.mix_found_pails,
  'band-length': m.mix_found_band,
  'band-rolls': m.mix_found_band_rolls,
} as const;

/** The surfaces of a drawing it is reckoned for. */
export const MIX_PART = {
  floor: m.draw_area_floor,
  walls: m.draw_area_walls,
  curbs: m.draw_area_curbs,
  benches: m.draw_area_benches,
} as const;
