import * as m from './compiled/messages.js';

/** One word, or few, for each code that entries and projections carry. A code without its word does not compile where it is used. */
export const STEP = {
  behind: m.step_behind,
  survey: m.step_survey,
  scrape: m.step_scrape,
  'lay-liner': m.step_lay_liner,
  'set-tray': m.step_set_tray,
  'pre-cut': m.step_pre_cut,
  'bond-sheets': m.step_bond_sheets,
  'band-seams': m.step_band_seams,
  corners: m.step_corners,
  'liquid-coat': m.step_liquid_coat,
  'flood-test': m.step_flood_test,
  protect: m.step_protect,
  check: m.step_check,
  repair: m.step_repair,
} as const;

export const LAYER = {
  behind: m.layer_behind,
  substrate: m.layer_substrate,
  liner: m.layer_liner,
  tray: m.layer_tray,
  sheets: m.layer_sheets,
  bands: m.layer_bands,
  coat: m.layer_coat,
  flood: m.layer_flood,
  protect: m.layer_protect,
} as const;

export const MEASURE = {
  overlap: m.measure_overlap,
  'band-lap': m.measure_band_lap,
  'onto-band': m.measure_onto_band,
  'wet-film': m.measure_wet_film,
  'dry-film': m.measure_dry_film,
  coats: m.measure_coats,
  'flood-depth': m.measure_flood_depth,
  'flood-level': m.measure_flood_level,
  upturn: m.measure_upturn,
  slope: m.measure_slope,
  flatness: m.measure_flatness,
  'curb-height': m.measure_curb_height,
  'air-temperature': m.measure_air_temperature,
  'surface-temperature': m.measure_surface_temperature,
  humidity: m.measure_humidity,
  moisture: m.measure_moisture,
  'volume-used': m.measure_volume_used,
  distance: m.measure_distance,
  slake: m.measure_slake,
  'pot-life': m.measure_pot_life,
  'open-time': m.measure_open_time,
  'walk-on': m.measure_walk_on,
  recoat: m.measure_recoat,
  'cover-within': m.measure_cover_within,
  'before-flooding': m.measure_before_flooding,
  'flood-hold': m.measure_flood_hold,
} as const;

/** The measures that run on a clock. */
export const WAIT = {
  slake: m.measure_slake,
  'pot-life': m.measure_pot_life,
  'open-time': m.measure_open_time,
  'walk-on': m.measure_walk_on,
  recoat: m.measure_recoat,
  'cover-within': m.measure_cover_within,
  'before-flooding': m.measure_before_flooding,
} as const;

export const PLACE = {
  wall: m.place_wall,
  floor: m.place_floor,
  curb: m.place_curb,
  bench: m.place_bench,
  niche: m.place_niche,
} as const;

/** The named systems. A system of the crew's own (`own:ID`) has the name they gave it, which the caller looks up. */
export const SYSTEM = {
  sheet: m.system_sheet,
  liquid: m.system_liquid,
  'sheet-and-liquid': m.system_sheet_and_liquid,
  'sheet-floor-liquid-walls': m.system_sheet_floor_liquid_walls,
  'loose-liner': m.system_loose_liner,
  tray: m.system_tray,
} as const;

export const SUBSTRATE = {
  'cement-board': m.substrate_cement_board,
  'fibre-cement': m.substrate_fibre_cement,
  'foam-board': m.substrate_foam_board,
  'glass-mat': m.substrate_glass_mat,
  'gypsum-board': m.substrate_gypsum_board,
  plywood: m.substrate_plywood,
  slab: m.substrate_slab,
  'mortar-bed': m.substrate_mortar_bed,
  'old-tile': m.substrate_old_tile,
  other: m.substrate_other,
} as const;

export const MATERIAL = {
  'membrane-sheet': m.material_membrane_sheet,
  liquid: m.material_liquid,
  band: m.material_band,
  corner: m.material_corner,
  collar: m.material_collar,
  fabric: m.material_fabric,
  primer: m.material_primer,
  mortar: m.material_mortar,
  sealant: m.material_sealant,
  drain: m.material_drain,
  board: m.material_board,
  tray: m.material_tray,
  liner: m.material_liner,
  other: m.material_other,
} as const;

export const DRAIN = {
  'bonded-flange': m.drain_bonded_flange,
  clamping: m.drain_clamping,
  line: m.drain_line,
  none: m.drain_none,
} as const;

export const KNOWN = {
  yes: m.known_yes,
  no: m.known_no,
  unknown: m.known_unknown,
} as const;

/** Scales of moisture meters. */
export const SCALE = {
  wood: m.scale_wood,
  relative: m.scale_relative,
  carbide: m.scale_carbide,
  'rh-in-hole': m.scale_rh_in_hole,
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

export const PROOF_LEVEL = {
  core: m.proof_core,
  warranty: m.proof_warranty,
  full: m.proof_full,
} as const;

/** Items owed, by the rule's id, short enough for a row; whether a photo, a reading or an entry answers it stands beside them. */
export const OWED = {
  pipes: m.owed_pipes,
  front: m.owed_front,
  survey: m.owed_survey,
  slope: m.owed_slope,
  clean: m.owed_clean,
  flat: m.owed_flat,
  label: m.owed_label,
  weather: m.owed_weather,
  liner: m.owed_liner,
  'weep-holes': m.owed_weep_holes,
  'dam-corner': m.owed_dam_corner,
  'liner-height': m.owed_liner_height,
  tray: m.owed_tray,
  'tray-bed': m.owed_tray_bed,
  'lap-shown': m.owed_lap_shown,
  overlap: m.owed_overlap,
  'overlap-more': m.owed_overlap_more,
  transfer: m.owed_transfer,
  bonded: m.owed_bonded,
  flange: m.owed_flange,
  'sheet-height': m.owed_sheet_height,
  banded: m.owed_banded,
  'base-band': m.owed_base_band,
  drain: m.owed_drain,
  corner: m.owed_corner,
  collar: m.owed_collar,
  'band-lap': m.owed_band_lap,
  'band-lap-more': m.owed_band_lap_more,
  coated: m.owed_coated,
  film: m.owed_film,
  'film-more': m.owed_film_more,
  volume: m.owed_volume,
  plug: m.owed_plug,
  filled: m.owed_filled,
  'line-after': m.owed_line_after,
  'ceiling-before': m.owed_ceiling_before,
  'ceiling-after': m.owed_ceiling_after,
  depth: m.owed_depth,
  'level-after': m.owed_level_after,
  'flood-result': m.owed_flood_result,
  protected: m.owed_protected,
  whole: m.owed_whole,
  checked: m.owed_checked,
} as const;

/** Why an item is owed, or why one step comes after another, as a sentence. */
export const REASON = {
  'board-hides': m.reason_board_hides,
  'which-house': m.reason_which_house,
  'who-accepted': m.reason_who_accepted,
  'hides-substrate': m.reason_hides_substrate,
  'which-lot': m.reason_which_lot,
  'weather-passes': m.reason_weather_passes,
  'bed-hides': m.reason_bed_hides,
  'tray-hides-bed': m.reason_tray_hides_bed,
  'hides-edge': m.reason_hides_edge,
  'hides-bond': m.reason_hides_bond,
  'drain-leaks': m.reason_drain_leaks,
  'hides-band': m.reason_hides_band,
  'corner-leaks': m.reason_corner_leaks,
  'pipe-leaks': m.reason_pipe_leaks,
  'hides-coat': m.reason_hides_coat,
  'film-dries': m.reason_film_dries,
  'water-leaves': m.reason_water_leaves,
  'old-stain': m.reason_old_stain,
  'feet-cut': m.reason_feet_cut,
  'tile-hides': m.reason_tile_hides,
  'bond-needs-clean': m.reason_bond_needs_clean,
  'cut-before-mortar': m.reason_cut_before_mortar,
  'lap-hidden': m.reason_lap_hidden,
  'seam-hidden': m.reason_seam_hidden,
  'fabric-in-corners-first': m.reason_fabric_in_corners_first,
  'coat-hides-fabric': m.reason_coat_hides_fabric,
  'coat-hides-band': m.reason_coat_hides_band,
  'band-turns-up-wall': m.reason_band_turns_up_wall,
  'coat-laps-band': m.reason_coat_laps_band,
  'liner-on-slope': m.reason_liner_on_slope,
  'dam-corners': m.reason_dam_corners,
  'liner-behind-board': m.reason_liner_behind_board,
  'tray-needs-bed': m.reason_tray_needs_bed,
  'tray-joint': m.reason_tray_joint,
  'test-what-is-laid': m.reason_test_what_is_laid,
  'protection-hides': m.reason_protection_hides,
  'sheet-says': m.reason_sheet_says,
} as const;

export const FROM = {
  viewfinder: m.from_viewfinder,
  file: m.from_file,
  watch: m.from_watch,
} as const;

export const DISTANCE = {
  wide: m.distance_wide,
  mid: m.distance_mid,
  close: m.distance_close,
} as const;

export const HOW = {
  tape: m.how_tape,
  comb: m.how_comb,
  typed: m.how_typed,
  photo: m.how_photo,
  level: m.how_level,
  meter: m.how_meter,
  thermometer: m.how_thermometer,
  caliper: m.how_caliper,
} as const;

export const KIND = {
  device: m.kind_device,
  person: m.kind_person,
  job: m.kind_job,
  room: m.kind_room,
  surface: m.kind_surface,
  limit: m.kind_limit,
  material: m.kind_material,
  'data-sheet': m.kind_data_sheet,
  pair: m.kind_pair,
  'own-system': m.kind_own_system,
  'own-rule': m.kind_own_rule,
  drawing: m.kind_drawing,
  plan: m.kind_plan,
  mark: m.kind_mark,
  'run-start': m.kind_run_start,
  'run-stop': m.kind_run_stop,
  shot: m.kind_shot,
  tag: m.kind_tag,
  reading: m.kind_reading,
  coverage: m.kind_coverage,
  transfer: m.kind_transfer,
  mix: m.kind_mix,
  conditions: m.kind_conditions,
  wait: m.kind_wait,
  early: m.kind_early,
  'not-done': m.kind_not_done,
  note: m.kind_note,
  voice: m.kind_voice,
  survey: m.kind_survey,
  deviation: m.kind_deviation,
  repair: m.kind_repair,
  'by-others': m.kind_by_others,
  protect: m.kind_protect,
  'tile-check': m.kind_tile_check,
  'later-hole': m.kind_later_hole,
  'hand-over': m.kind_hand_over,
  attestation: m.kind_attestation,
  inspection: m.kind_inspection,
  callback: m.kind_callback,
  isolation: m.kind_isolation,
  'isolation-look': m.kind_isolation_look,
  opening: m.kind_opening,
  'flood-fill': m.kind_flood_fill,
  'flood-look': m.kind_flood_look,
  'flood-end': m.kind_flood_end,
  amendment: m.kind_amendment,
  withdrawal: m.kind_withdrawal,
  'clock-jump': m.kind_clock_jump,
  record: m.kind_record,
  unknown: m.kind_unknown,
} as const;

/** The caution to show before a step, or null where the trade gives none. */
export const CAUTION = {
  behind: null,
  survey: null,
  scrape: m.caution_dust,
  'lay-liner': m.caution_knife,
  'set-tray': m.caution_mortar,
  'pre-cut': m.caution_knife,
  'bond-sheets': m.caution_mortar,
  'band-seams': m.caution_mortar,
  corners: m.caution_mortar,
  'liquid-coat': m.caution_coat,
  'flood-test': m.caution_flood,
  protect: null,
  check: null,
  repair: m.caution_dust,
} as const;

/** Where a word of a job was found. */
export const FOUND = {
  lot: m.find_in_lot,
  address: m.find_in_address,
  name: m.find_in_name,
  person: m.find_in_person,
  day: m.find_in_day,
  material: m.find_in_material,
  words: m.find_in_words,
} as const;
