import * as m from './compiled/messages.js';

/** One word, or few, for each code that entries and projections carry. A code without its word does not compile where it is used. */
export const STEP = {
  scrape: m.step_scrape,
  'pre-cut': m.step_pre_cut,
  'bond-sheets': m.step_bond_sheets,
  'band-seams': m.step_band_seams,
  'liquid-coat': m.step_liquid_coat,
  'flood-test': m.step_flood_test,
} as const;

export const LAYER = {
  substrate: m.layer_substrate,
  sheets: m.layer_sheets,
  bands: m.layer_bands,
  coat: m.layer_coat,
  flood: m.layer_flood,
} as const;

export const MEASURE = {
  overlap: m.measure_overlap,
  'band-lap': m.measure_band_lap,
  'wet-film': m.measure_wet_film,
  'flood-depth': m.measure_flood_depth,
} as const;

export const PLACE = {
  wall: m.place_wall,
  floor: m.place_floor,
  curb: m.place_curb,
} as const;

export const SYSTEM = {
  sheet: m.system_sheet,
  liquid: m.system_liquid,
  'sheet-and-liquid': m.system_sheet_and_liquid,
} as const;

export const VERDICT = {
  within: m.verdict_within,
  outside: m.verdict_outside,
  'not-proven': m.verdict_not_proven,
  'no-limit': m.verdict_no_limit,
} as const;

export const SOURCE = {
  'data-sheet': m.source_data_sheet,
  code: m.source_code,
  standard: m.source_standard,
  crew: m.source_crew,
} as const;

export const OWED = {
  clean: m.owed_clean,
  overlap: m.owed_overlap,
  bonded: m.owed_bonded,
  banded: m.owed_banded,
  'band-lap': m.owed_band_lap,
  coated: m.owed_coated,
  film: m.owed_film,
  filled: m.owed_filled,
  level: m.owed_level,
} as const;

export const FROM = {
  viewfinder: m.from_viewfinder,
  file: m.from_file,
} as const;

export const HOW = {
  tape: m.how_tape,
  comb: m.how_comb,
  typed: m.how_typed,
} as const;

export const KIND = {
  device: m.kind_device,
  person: m.kind_person,
  job: m.kind_job,
  surface: m.kind_surface,
  limit: m.kind_limit,
  'run-start': m.kind_run_start,
  'run-stop': m.kind_run_stop,
  shot: m.kind_shot,
  reading: m.kind_reading,
  'clock-jump': m.kind_clock_jump,
  record: m.kind_record,
  unknown: m.kind_unknown,
} as const;

/** The caution to show before a step, where the trade gives one. */
export const CAUTION = {
  scrape: m.caution_dust,
  'pre-cut': m.caution_knife,
  'bond-sheets': m.caution_mortar,
  'band-seams': m.caution_mortar,
  'liquid-coat': m.caution_coat,
  'flood-test': m.caution_flood,
} as const;
