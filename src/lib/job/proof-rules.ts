import type { Measure } from '../record/kinds/reading.ts';
import type { Step } from '../record/kinds/setup.ts';
import type { FactKind } from './state.ts';
import type { Layer, Place } from './systems.ts';

/** How widely a rule asks: once a room, or on each surface; null where that level does not ask. */
export type Scope = 'room' | 'surface' | null;

/** What answers an item: a photo, a reading of a measure, or an entry of a kind. */
export type Want = { readonly shot: true } | { readonly reading: Measure } | { readonly entry: FactKind };

/** One thing a layer owes before it is covered. */
export interface ProofRule {
  readonly id: string;
  readonly layer: Layer;
  readonly step: Step;
  readonly want: Want;
  /** Where it is owed: a flood test on floors only. */
  readonly places: readonly Place[];
  readonly core: Scope;
  readonly warranty: Scope;
  readonly full: Scope;
  /** Owed again for each coat. */
  readonly eachCoat?: true;
  /** How many readings a full record takes of it. */
  readonly fullTimes?: number;
  /** An overview: any photo of its step answers it. All else is answered by a photo that says it shows it. */
  readonly overview?: true;
  /** Of the house, not of a spot in it: a photo that names no surface answers it in every room. */
  readonly house?: true;
  /** Why it is owed, as a code that `words` says. */
  readonly reason: string;
}

const ALL: readonly Place[] = ['wall', 'floor', 'curb', 'bench', 'niche'];
const FLOOR: readonly Place[] = ['floor'];
const LOW: readonly Place[] = ['floor', 'curb'];
const HIGH: readonly Place[] = ['wall', 'bench', 'niche'];
const shot = { shot: true } as const;
const once = { core: 'room', warranty: 'surface', full: 'surface' } as const;
const each = { core: 'surface', warranty: 'surface', full: 'surface' } as const;
const roomWide = { core: 'room', warranty: 'room', full: 'room' } as const;
const more = { core: null, warranty: 'surface', full: 'surface' } as const;
const roomMore = { core: null, warranty: 'room', full: 'room' } as const;
const full = { core: null, warranty: null, full: 'surface' } as const;

/**
 * What each layer owes, by level. Core asks at the places that leak (floor, curb, corners, drain, collars) and for one overview a
 * room; warranty asks on each surface; full adds what a consultant would. Reasons are common practice, no source: each is the
 * thing that can no longer be seen once the next layer lies on it. The crew adds rules of its own (`own-rule` entries).
 */
export const PROOF_RULES: readonly ProofRule[] = [
  { id: 'pipes', layer: 'behind', step: 'behind', want: shot, places: ['wall', 'niche'], ...roomMore, overview: true, reason: 'board-hides' },
  { id: 'front', layer: 'substrate', step: 'survey', want: shot, places: ALL, ...roomWide, house: true, reason: 'which-house' },
  { id: 'survey', layer: 'substrate', step: 'survey', want: { entry: 'survey' }, places: ALL, ...roomWide, reason: 'who-accepted' },
  { id: 'slope', layer: 'substrate', step: 'survey', want: { reading: 'slope' }, places: FLOOR, ...more, reason: 'hides-substrate' },
  { id: 'clean', layer: 'substrate', step: 'scrape', want: shot, places: ALL, ...once, overview: true, reason: 'hides-substrate' },
  { id: 'flat', layer: 'substrate', step: 'survey', want: { reading: 'flatness' }, places: ALL, ...full, reason: 'hides-substrate' },
  { id: 'label', layer: 'substrate', step: 'survey', want: shot, places: ALL, ...roomMore, house: true, reason: 'which-lot' },
  { id: 'weather', layer: 'substrate', step: 'survey', want: { entry: 'conditions' }, places: ALL, ...roomMore, reason: 'weather-passes' },

  { id: 'liner', layer: 'liner', step: 'lay-liner', want: shot, places: LOW, ...once, overview: true, reason: 'bed-hides' },
  { id: 'weep-holes', layer: 'liner', step: 'lay-liner', want: shot, places: FLOOR, ...each, reason: 'bed-hides' },
  { id: 'dam-corner', layer: 'liner', step: 'lay-liner', want: shot, places: ['curb'], ...each, reason: 'bed-hides' },
  { id: 'liner-height', layer: 'liner', step: 'lay-liner', want: { reading: 'upturn' }, places: FLOOR, ...each, reason: 'board-hides' },
  { id: 'tray', layer: 'tray', step: 'set-tray', want: shot, places: FLOOR, ...each, overview: true, reason: 'tray-hides-bed' },
  { id: 'tray-bed', layer: 'tray', step: 'set-tray', want: shot, places: FLOOR, ...each, reason: 'tray-hides-bed' },

  { id: 'lap-shown', layer: 'sheets', step: 'pre-cut', want: shot, places: LOW, core: 'room', warranty: 'surface', full: 'surface', overview: true, reason: 'hides-edge' },
  { id: 'overlap', layer: 'sheets', step: 'pre-cut', want: { reading: 'overlap' }, places: FLOOR, ...each, reason: 'hides-edge' },
  { id: 'overlap-more', layer: 'sheets', step: 'pre-cut', want: { reading: 'overlap' }, places: ['wall', 'curb', 'bench', 'niche'], ...more, reason: 'hides-edge' },
  { id: 'transfer', layer: 'sheets', step: 'bond-sheets', want: shot, places: ALL, ...roomWide, reason: 'hides-bond' },
  { id: 'bonded', layer: 'sheets', step: 'bond-sheets', want: shot, places: ALL, ...once, overview: true, reason: 'hides-bond' },
  { id: 'flange', layer: 'sheets', step: 'bond-sheets', want: shot, places: FLOOR, ...each, reason: 'drain-leaks' },
  { id: 'sheet-height', layer: 'sheets', step: 'bond-sheets', want: { reading: 'upturn' }, places: ['wall'], ...more, reason: 'hides-edge' },

  { id: 'banded', layer: 'bands', step: 'band-seams', want: shot, places: ALL, ...once, overview: true, reason: 'hides-band' },
  { id: 'base-band', layer: 'bands', step: 'band-seams', want: shot, places: FLOOR, ...each, reason: 'corner-leaks' },
  { id: 'drain', layer: 'bands', step: 'band-seams', want: shot, places: FLOOR, ...each, reason: 'drain-leaks' },
  { id: 'corner', layer: 'bands', step: 'corners', want: shot, places: LOW, ...once, reason: 'corner-leaks' },
  { id: 'collar', layer: 'bands', step: 'band-seams', want: shot, places: HIGH, ...once, reason: 'pipe-leaks' },
  { id: 'band-lap', layer: 'bands', step: 'band-seams', want: { reading: 'band-lap' }, places: LOW, ...each, reason: 'hides-band' },
  { id: 'band-lap-more', layer: 'bands', step: 'band-seams', want: { reading: 'band-lap' }, places: HIGH, ...more, reason: 'hides-band' },

  { id: 'coated', layer: 'coat', step: 'liquid-coat', want: shot, places: ALL, ...once, eachCoat: true, overview: true, reason: 'hides-coat' },
  { id: 'film', layer: 'coat', step: 'liquid-coat', want: { reading: 'wet-film' }, places: LOW, ...each, eachCoat: true, fullTimes: 3, reason: 'film-dries' },
  { id: 'film-more', layer: 'coat', step: 'liquid-coat', want: { reading: 'wet-film' }, places: HIGH, core: 'room', warranty: 'surface', full: 'surface', eachCoat: true, fullTimes: 3, reason: 'film-dries' },
  { id: 'volume', layer: 'coat', step: 'liquid-coat', want: { reading: 'volume-used' }, places: ALL, ...roomMore, eachCoat: true, reason: 'film-dries' },

  { id: 'plug', layer: 'flood', step: 'flood-test', want: shot, places: FLOOR, ...each, reason: 'water-leaves' },
  { id: 'filled', layer: 'flood', step: 'flood-test', want: shot, places: FLOOR, ...each, overview: true, reason: 'water-leaves' },
  { id: 'line-after', layer: 'flood', step: 'flood-test', want: shot, places: FLOOR, ...each, reason: 'water-leaves' },
  { id: 'ceiling-before', layer: 'flood', step: 'flood-test', want: shot, places: FLOOR, ...each, reason: 'old-stain' },
  { id: 'ceiling-after', layer: 'flood', step: 'flood-test', want: shot, places: FLOOR, ...each, reason: 'old-stain' },
  { id: 'depth', layer: 'flood', step: 'flood-test', want: { reading: 'flood-depth' }, places: FLOOR, ...each, reason: 'water-leaves' },
  { id: 'level-after', layer: 'flood', step: 'flood-test', want: { reading: 'flood-level' }, places: FLOOR, ...each, reason: 'water-leaves' },
  { id: 'flood-result', layer: 'flood', step: 'flood-test', want: { entry: 'flood-end' }, places: FLOOR, ...each, reason: 'water-leaves' },

  { id: 'protected', layer: 'protect', step: 'protect', want: { entry: 'protect' }, places: FLOOR, ...roomMore, reason: 'feet-cut' },
  { id: 'whole', layer: 'protect', step: 'check', want: shot, places: ALL, ...once, overview: true, reason: 'tile-hides' },
  { id: 'checked', layer: 'protect', step: 'check', want: { entry: 'tile-check' }, places: ALL, ...roomWide, reason: 'tile-hides' },
]; // prettier-ignore
