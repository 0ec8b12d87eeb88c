import type { LayerStand } from '../job/proof.ts';
import type { Layer } from '../job/systems.ts';
import type { Limit, Step, Surface } from '../record/kinds.ts';
import type { Measure, Reading } from '../record/kinds/reading.ts';
import type { Verdict } from '../trade/limits.ts';

/** A moment as the phone's clock showed it: UTC and the minutes east of UTC on its dial. */
export type Moment = { utc: string; offsetMin: number };

export type RecordHead = { device: string; seq: number; hash: string };

/** A chain of the log: who signed it, and the places, first to last, that nobody signed. */
export type RecordChain = {
  device: string;
  key: { alg: 'ed25519'; public: string } | { alg: 'none'; why: string } | null;
  entries: number;
  unsigned: { from: number; to: number }[];
};

export type RecordRun = {
  id: string;
  step: Step;
  surfaces: string[];
  by: string;
  start: Moment;
  stop: (Moment & { about: boolean }) | null;
};

export type RecordShot = {
  id: string;
  run: string | null;
  step: Step | null;
  surface: string | null;
  by: string;
  at: Moment;
  from: 'viewfinder' | 'file';
  cameraSays: string | null;
  sha256: string;
  bytes: number;
  type: string;
  /** SHA-256 of the smaller picture that was printed, null when none could be made from the bytes at hand. */
  printed: string | null;
};

export type RecordReading = {
  id: string;
  run: string | null;
  step: Step | null;
  surface: string | null;
  by: string;
  at: Moment;
  what: Measure;
  said: { text: string; value: string; to: string | null; unit: Limit['unit']; resolution: string | null };
  how: Reading['how'];
  verdict: Verdict;
  /** Id of the limit that decided, null when the job states none. */
  limit: string | null;
};

export type RecordLimit = {
  limit: string;
  what: Measure;
  min: string | null;
  max: string | null;
  unit: Limit['unit'];
  source: { kind: Limit['source']['kind']; text: string };
};

export type RecordSurface = { surface: string; name: string; place: Surface['place']; system: Surface['system'] };

export type RecordOwed = { rule: string; surface: string; shown: boolean; shot: string | null; reading: string | null };

export type RecordLayer = {
  layer: Layer;
  stand: LayerStand;
  owed: number;
  shown: number;
  /** What is missing first. */
  items: RecordOwed[];
  first: Moment | null;
  last: Moment | null;
  by: string[];
  /** The reading that stands worst: outside before not proven before the rest, then the least value. */
  worst: string | null;
};

/** What an entry set, kept here because a later entry may replace it and each must still be seen. */
export type RecordSet =
  | { kind: 'job'; name: string; address: string }
  | { kind: 'person'; name: string }
  | ({ kind: 'surface' } & RecordSurface)
  | ({ kind: 'limit' } & RecordLimit);

/** What a reader must see first: values that do not stand, then what is missing, then what the log itself owns up to. */
export type OpenPoint =
  | { code: 'outside' | 'not-proven'; what: Measure; surface: string | null; readings: string[] }
  | { code: 'owed'; layer: Layer; items: { rule: string; surfaces: string[] }[] }
  | { code: 'running'; run: string }
  | { code: 'not-begun'; layers: Layer[] }
  | { code: 'clock-moved' | 'unsigned' | 'newer' | 'unreadable' | 'not-printed'; count: number };

/** One entry of the log, in reading order. Runs, shots and readings stand in full under their id. */
export type RecordLine = {
  device: string;
  seq: number;
  id: string;
  kind: string;
  /** False for a kind, or a shape, that a newer version wrote. */
  known: boolean;
  by: string;
  at: Moment;
  run: string | null;
  /** The first 16 of the 64 digits: the heads and the chain fix the rest. */
  hash: string;
  set?: RecordSet;
};

/**
 * A job as it stood when the record was built: codes, decimal strings, whole numbers and people's own words, never a sentence
 * of ours. It is hashed inside the record entry, and printing is a function of it.
 */
export type RecordDocument = {
  v: 1;
  rules: string;
  built: Moment & { by: string };
  job: { id: string; name: string; address: string; units: 'in' | 'mm'; lang: string; example: boolean };
  heads: RecordHead[];
  chains: RecordChain[];
  open: OpenPoint[];
  people: { person: string; name: string }[];
  surfaces: RecordSurface[];
  limits: RecordLimit[];
  layers: RecordLayer[];
  runs: RecordRun[];
  shots: RecordShot[];
  readings: RecordReading[];
  clockJumps: { id: string; at: Moment; wallDeltaMs: number; monoDeltaMs: number | null }[];
  records: { id: string; at: Moment; pdf: string }[];
  /** Rows of the store that no longer parse: they are in no list above. */
  unreadable: number;
  log: RecordLine[];
};
