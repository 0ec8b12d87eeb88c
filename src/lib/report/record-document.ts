import type { Feature } from '../job/behind/nearest.ts';
import type { Outcome } from '../job/callback/callbacks.ts';
import type { CautionCode } from '../job/cautions.ts';
import type { CardPart } from '../job/drawing/mixing-card.ts';
import type { JointKind } from '../job/drawing/joints.ts';
import type { Part } from '../job/drawing/quantities.ts';
import type { Standing } from '../job/corrections.ts';
import type { FloodStand, Seen } from '../job/flood.ts';
import type { LayerStand, OwedStand, Price } from '../job/proof.ts';
import type { SaidField, SaidQuantity } from '../job/said-field.ts';
import type { JobState } from '../job/state.ts';
import type { Layer } from '../job/systems.ts';
import type { WaitStand } from '../job/waits.ts';
import type { DataOf } from '../record/kinds.ts';
import type { Drawing, DrawnThing } from '../record/kinds/drawing.ts';
import type { Coverage, Miss, PhotoArea, PhotoLength, Transfer } from '../record/kinds/photo.ts';
import type { Measure, Reading } from '../record/kinds/reading.ts';
import type { Limit, Material, Room, Step, Surface } from '../record/kinds/setup.ts';
import type { PlannedSheets, PlannedWalls } from '../record/plan-result.ts';
import type { Unsettled } from '../trade/flood-evidence.ts';
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

/** Surfaces that name no room are in one of the job's own name. */
export type RecordRoom = { room: string; name: string; drain: Room['drain'] | null; steam: boolean | null; surfaces: string[] };

/** The latest word on a surface before work began on it. */
export type RecordAcceptance = { survey: string; result: DataOf<'survey'>['result']; at: Moment; by: string };

export type RecordSurface = {
  surface: string;
  name: string;
  place: Surface['place'];
  system: Surface['system'];
  room: string | null;
  width: SaidQuantity | null;
  height: SaidQuantity | null;
  substrate: Surface['substrate'] | null;
  outside: Surface['outside'] | null;
  retarder: Surface['retarder'] | null;
  accepted: RecordAcceptance | null;
};

/** One lot. `used` is when it was first in hand, `past` when it was first used after its use-by, by the calendar where it was used. */
export type RecordMaterial = {
  material: string;
  what: Material['what'];
  name: string;
  lot: string;
  useBy: string | null;
  opened: string | null;
  left: string | null;
  used: Moment | null;
  past: Moment | null;
};

export type RecordLimit = {
  limit: string;
  what: Measure;
  min: string | null;
  max: string | null;
  unit: Limit['unit'];
  scale: Limit['scale'] | null;
  source: { kind: Limit['source']['kind']; text: string };
};

/** Two materials, or a material and a substrate by its code, that this job puts together; `named` is null while nobody looked it up. */
export type RecordPair = { material: string; with: string; named: DataOf<'pair'>['named'] | null; where: string; entry: string | null };

export type RecordOwnSystem = { system: string; name: string; steps: Step[] };
export type RecordOwnRule = { rule: string; name: string; reason: string };

export type RecordRun = {
  id: string;
  step: Step;
  surfaces: string[];
  coat: number | null;
  materials: string[];
  by: string;
  start: Moment;
  stop: (Moment & { about: boolean }) | null;
};

export type RecordShot = {
  id: string;
  run: string | null;
  step: Step | null;
  coat: number | null;
  surfaces: string[];
  /** Rules it answers besides the overview of its step. */
  shows: string[];
  distance: 'wide' | 'mid' | 'close' | null;
  /** The photo of the same place from nearer or farther. */
  pair: string | null;
  material: string | null;
  /** False while it lies in the tray, or on the strip of a watch. */
  sorted: boolean;
  by: string;
  at: Moment;
  from: DataOf<'shot'>['from'];
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
  coat: number | null;
  surface: string | null;
  spot: string | null;
  by: string;
  at: Moment;
  what: Measure;
  said: SaidQuantity;
  scale: Reading['scale'] | null;
  how: Reading['how'];
  /** The photo it was typed from, or that shows it. */
  shot: string | null;
  attempt: string | null;
  water: Reading['water'] | null;
  /** Amended twice, and nobody has decided. */
  open: boolean;
  verdict: Verdict;
  /** Id of the limit that decided, null when the job states none. */
  limit: string | null;
  /**
   * Computed in its photo: the 95 % interval in the unit of what is said, who took the value over, and what shows that it lies in the plane
   * it was measured in. Records made before that was looked for do not say it.
   */
  photo?: { low: string; high: string; method: string; plane?: 'edges' | null; confirmed: string | null };
};

export type RecordOwed = {
  key: string;
  rule: string;
  room: string;
  surfaces: string[];
  coat: number | null;
  stand: OwedStand;
  shot: string | null;
  reading: string | null;
  /** The entry that says why it was left out. */
  notDone: string | null;
};

export type RecordLayer = {
  layer: Layer;
  stand: LayerStand;
  owed: number;
  shown: number;
  /** What is missing first, then what was left out. */
  items: RecordOwed[];
  first: Moment | null;
  last: Moment | null;
  by: string[];
  /** The reading that stands worst: outside before not proven before the rest, then by the measure the work turns on, then the least value. */
  worst: string | null;
};

/** A wait with the deadline stated then, and how it ended: kept, gone on early with the words said then, or too late. */
export type RecordWait = {
  id: string;
  at: Moment;
  what: DataOf<'wait'>['what'];
  surfaces: string[];
  from: Moment;
  ready: Moment | null;
  latest: Moment | null;
  limit: string;
  stand: WaitStand;
  ended: { step: Step; at: Moment; early: boolean; late: boolean } | null;
  /** The `early` entry that speaks of it. */
  early: string | null;
  /** How far the clock was moved meanwhile; deadlines were judged without it. */
  clockMovedMs: number;
};

/**
 * An attempt at the flood test, numbered over the attempts on the same surfaces. What was seen (entries `looks` and `ends`) and what the
 * levels show are two statements, and neither is drawn from the other.
 */
export type RecordAttempt = {
  id: string;
  number: number;
  at: Moment;
  under: string[];
  /** Other surfaces of the same rooms: the test says nothing of them. */
  dry: string[];
  /** What lay above the water, in the crew's own words. */
  above: string;
  stand: FloodStand;
  seen: Pick<Seen, 'worst' | 'before' | 'after' | 'worse'>;
  looks: string[];
  ends: string[];
  /** The reading of the depth at the threshold, against the depth that was wanted. */
  depth: string | null;
  depthVerdict: Verdict;
  test: string[];
  control: string[];
  levels: RecordLevels;
};

/** Whole micrometres. `unsettled` says why the levels settle nothing; `finding` and it are never both null. */
export type RecordLevels =
  | { state: 'few' | 'unclear' }
  | {
      state: 'read';
      netUm: number | null;
      /** Expanded uncertainty (2 u). */
      takeUm: number | null;
      panUm: number | null;
      mayEvaporateUm: number | null;
      finding: 'loss' | 'no-loss-above-limit' | null;
      aboveLimit: boolean | null;
      unsettled: Unsettled | null;
    };

/** A callback: what was tried, and what lies behind each place that was looked at. Lengths in ten-thousandths of the drawing's unit. */
export type RecordCallback = {
  entry: string;
  open: boolean;
  shows: DataOf<'callback'>['shows'] | null;
  cause: DataOf<'callback'>['cause'] | null;
  tests: { entry: string; test: DataOf<'isolation'>['test']; outcome: Outcome; at: Moment }[];
  places: {
    room: string;
    unit: 'in' | 'mm';
    wall: number | null;
    x: number;
    y: number;
    /** What stands in the room, by which places are named. */
    things: DrawnThing['thing'][];
    /** `lap`: the reading of it; `shown`: photos and readings marked on it. */
    near: { is: Feature['is']; id: string; away: number; shown: number; lap: string | null }[];
    /** From the substrate to the tile. `holding`: photos whose marked area holds the place; they come first. */
    layers: {
      layer: Layer;
      coat: number | null;
      days: Moment[];
      photos: string[];
      holding: number;
      morePhotos: number;
      readings: string[];
      missing: number;
    }[];
  }[];
};

/** A room as it is drawn, with what follows from that: decimals of the drawing's unit, areas in its square. */
export type RecordDrawing = {
  room: string;
  entry: string;
  at: Moment;
  drawing: Drawing;
  /** null where its measures do not fit together: nothing can be drawn of it. */
  takeoff: RecordTakeoff | null;
  /** Coordinates in whole ten-thousandths; on a wall x runs along it and y up. */
  marks: { n: number; of: string; wall: number | null; x: number; y: number; spot: string | null }[];
  plan: RecordPlan | null;
  /** The sheets of its walls as they were planned together last; left out where none were. */
  walls?: RecordWalls;
};

export type RecordWalls = Pick<RecordPlan, 'entry' | 'at' | 'stale' | 'width'> & { sheets: PlannedWalls };

export type RecordTakeoff = {
  [K in 'floor' | 'walls' | 'curbs' | 'benches' | 'perimeter']: string;
} & { joints: { [K in JointKind]: string }; insideCorners: number; outsideCorners: number; collars: number };

/** The sheets of the floor as they were planned last. */
export type RecordPlan = {
  entry: string;
  at: Moment;
  /** The room was drawn anew since. */
  stale: boolean;
  /** Of the roll, in whole ten-thousandths. */
  width: number;
  sheets: PlannedSheets;
  /** The wall with the way out after each step, from 0; null where none fits. */
  exits: (number | null)[];
  /** The walls that get no upturn from the sheets, from 0; null for a bench. */
  bare: (number | null)[];
};

/** The mixing card of a room as it was printed last: what was typed, and what comes out of it for the drawing that stands. */
export type RecordMixing = {
  room: string;
  parts: {
    part: CardPart;
    on: Part[];
    asked: { field: string; text: string }[];
    /** `high` is null for one value. */
    found: { what: string; low: string; high: string | null; unit: SaidQuantity['unit'] | 'count' }[];
  }[];
};

/** What was measured in a photo, with every point tapped or found, as its entry has them: what is drawn over the picture. */
export type RecordInPhoto = { entry: string; shot: string } & (
  | { is: 'length'; photo: PhotoLength; lap: NonNullable<Reading['lap']> | null }
  | { is: 'coverage'; photo: PhotoArea; taps: Coverage['film']; misses: Miss[] }
  | { is: 'transfer'; photo: PhotoArea; taps: Coverage['film']; worst: Transfer['worst'] }
);

/** What a reader must see first: values that do not stand, then what is missing, then what the log itself owns up to. */
export type OpenPoint =
  | { code: 'outside' | 'not-proven'; what: Measure; surface: string | null; readings: string[] }
  | { code: 'past-use-by'; materials: string[] }
  | { code: 'flood-failed'; attempts: string[] }
  /** `rooms`: owed once in each, on whichever surface; `surfaces`: owed on each. */
  | { code: 'owed'; layer: Layer; items: { rule: string; coat: number | null; rooms: string[]; surfaces: string[] }[] }
  | { code: 'amendments'; entries: string[] }
  | { code: 'running'; run: string }
  | { code: 'not-begun'; layers: Layer[] }
  | { code: 'misses' | 'unsorted' | 'not-printed' | 'clock-moved' | 'unsigned' | 'newer' | 'unreadable'; count: number };

/** One entry of the log, in reading order, with all it says. Nothing here is judged. */
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
  state: Standing['state'];
  /** What it says now, field by field. */
  said: SaidField[];
  /** What it said first, where an amendment stands in its place. */
  first?: SaidField[];
  /** The amendments that stand, more than one where nobody has decided. */
  amendments?: string[];
  /** An amendment: what it puts in the place of the entry it amends. */
  instead?: SaidField[];
};

/**
 * A job as it stood when the record was built: codes, decimal strings, whole numbers and people's own words, never a sentence
 * of ours. It is hashed inside the record entry, and printing is a function of it. Version 1 knew one surface a photo, no rooms,
 * materials or waits, and kept what an entry set under `set`; such entries stay in the log as they were written.
 * Version 2 had no fingerprint, cautions, nor pairs that nobody looked up.
 */
export type RecordDocument = {
  v: 3;
  rules: string;
  built: Moment & { by: string };
  job: Pick<JobState, 'name' | 'address' | 'permit' | 'proof' | 'units' | 'lang' | 'example'> & { id: string };
  price: Price;
  heads: RecordHead[];
  /** Merkle root (RFC 6962, 2.1) over the hashes of all entries: devices in order of name, each in order of its chain. */
  fingerprint: string;
  chains: RecordChain[];
  open: OpenPoint[];
  people: { person: string; name: string }[];
  rooms: RecordRoom[];
  surfaces: RecordSurface[];
  drawings: RecordDrawing[];
  mixing: RecordMixing[];
  materials: RecordMaterial[];
  pairs: RecordPair[];
  limits: RecordLimit[];
  systems: RecordOwnSystem[];
  ownRules: RecordOwnRule[];
  layers: RecordLayer[];
  runs: RecordRun[];
  shots: RecordShot[];
  readings: RecordReading[];
  inPhotos: RecordInPhoto[];
  waits: RecordWait[];
  attempts: RecordAttempt[];
  /** Absent where there is none, as in records of earlier versions. */
  callbacks?: RecordCallback[];
  /** Drawn signatures and what was printed of each. */
  signatures: { entry: string; sha256: string; printed: string | null }[];
  cautions: { code: CautionCode; surface: string }[];
  /** What is kept back from this paper because it is personal: it is in no list of it, and the log, which has it, is not attached. */
  left: 'address'[];
  /** Rows of the store that no longer parse: they are in no list above. */
  unreadable: number;
  log: RecordLine[];
};
