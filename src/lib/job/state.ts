import type { Entry } from '../record/entry.ts';
import type { DataOf, Kind } from '../record/kinds.ts';
import type { PhotoLength } from '../record/kinds/photo.ts';
import type { Measure, Reading } from '../record/kinds/reading.ts';
import type { Limit, Material, OwnRule, Picture, ProofLevel, Room, Step, Surface } from '../record/kinds/setup.ts';
import type { Shot as ShotData } from '../record/kinds/work.ts';
import type { Standing } from './corrections.ts';

/** Who did or said it, and when, as the phone's clock showed it. */
export interface At {
  readonly id: string;
  readonly run: string | null;
  readonly by: string;
  readonly utc: string;
  readonly offsetMin: number;
}

export interface Run extends Omit<At, 'run' | 'utc' | 'offsetMin'> {
  readonly step: Step;
  readonly surfaces: readonly string[];
  readonly coat: number | null;
  readonly materials: readonly string[];
  readonly startUtc: string;
  readonly startOffsetMin: number;
  readonly stopUtc: string | null;
  /** True when the end was inferred, not touched. */
  readonly stopAbout: boolean;
  /** Two people amended it and nobody has decided: what was taken in it proves nothing by its step or coat. */
  readonly open: boolean;
}

export interface Shot extends At {
  readonly step: Step | null;
  readonly coat: number | null;
  readonly surfaces: readonly string[];
  /** Ids of the owed items it answers besides the overview of its step. */
  readonly shows: readonly string[];
  readonly distance: ShotData['distance'] | null;
  readonly pair: string | null;
  readonly material: string | null;
  readonly picture: Picture;
  readonly from: ShotData['from'];
  readonly cameraSaysTaken: string | null;
  /** False while nobody has said where it belongs: it lies in the tray, or on the strip of a watch. */
  readonly sorted: boolean;
}

export interface Measured extends At {
  readonly step: Step | null;
  readonly coat: number | null;
  readonly surface: string | null;
  readonly what: Measure;
  readonly said: Reading['said'];
  readonly how: Reading['how'];
  readonly spot: string | null;
  readonly scale: Reading['scale'] | null;
  readonly shot: string | null;
  readonly attempt: string | null;
  readonly water: Reading['water'] | null;
  /** How it was computed in a photo, by what a lap was seen, and who took the value over; null where it was not, or nobody did. */
  readonly photo: PhotoLength | null;
  readonly lap: Reading['lap'] | null;
  readonly confirmed: string | null;
  /** Two people amended it and nobody has decided: it proves nothing meanwhile. */
  readonly open: boolean;
}

/** A room as it is drawn: the last drawing of it that was kept, under the id of its entry. */
export interface DrawnRoom {
  readonly id: string;
  readonly room: string;
  readonly data: DataOf<'drawing'>;
  /** Two people amended it and nobody has decided: it owes nothing meanwhile. */
  readonly open: boolean;
}

export interface PrintedRecord {
  readonly id: string;
  readonly utc: string;
  readonly offsetMin: number;
  /** The short paper it is, null for the record of the whole job. */
  readonly paper: string | null;
  /** SHA-256 of the PDF, and of the pictures made for it. */
  readonly pdf: string;
  readonly pictures: readonly string[];
  /** How those were made. */
  readonly derived: NonNullable<DataOf<'record'>['derived']>;
}

/** Kinds kept as they were said, one after the other, in lists of their own. */
export const FACT_KINDS = [
  'data-sheet', 'pair', 'mix', 'conditions', 'wait', 'early', 'not-done', 'note', 'voice',
  'survey', 'deviation', 'repair', 'by-others', 'protect', 'tile-check', 'later-hole', 'hand-over', 'attestation', 'inspection', 'callback',
  'isolation', 'isolation-look', 'opening',
  'flood-fill', 'flood-look', 'flood-end', 'coverage', 'transfer', 'plan', 'mark', 'clock-jump',
] as const satisfies readonly Kind[]; // prettier-ignore
export type FactKind = (typeof FACT_KINDS)[number];

/** One entry of such a kind, as it stands. */
export interface Fact<K extends FactKind = FactKind> extends At {
  readonly device: string;
  readonly data: DataOf<K>;
  readonly open: boolean;
}
export type Facts = { readonly [K in FactKind]: readonly Fact<K>[] };

/** A line of the log as the projection read it; `unknown` for what a newer version wrote. */
export interface Line {
  readonly entry: Entry;
  readonly unknown: boolean;
  readonly standing: Standing;
}

/** The meaning of a job's log. A pure function of the entries: nothing here is ever stored. */
export interface JobState {
  readonly id: string | null;
  readonly name: string;
  readonly address: string;
  readonly units: 'in' | 'mm';
  readonly lang: string;
  readonly example: boolean;
  readonly permit: string;
  readonly proof: ProofLevel;
  readonly people: Readonly<Record<string, string>>;
  readonly rooms: readonly Room[];
  readonly surfaces: readonly Surface[];
  readonly limits: readonly Limit[];
  readonly materials: readonly Material[];
  readonly ownSystems: readonly DataOf<'own-system'>[];
  readonly ownRules: readonly OwnRule[];
  readonly drawings: readonly DrawnRoom[];
  readonly runs: readonly Run[];
  readonly shots: readonly Shot[];
  readonly readings: readonly Measured[];
  readonly facts: Facts;
  readonly records: readonly PrintedRecord[];
  /** Every entry in reading order, so that none is ever unshown. */
  readonly lines: readonly Line[];
}

export const EMPTY_JOB: JobState = {
  id: null,
  name: '',
  address: '',
  units: 'in',
  lang: 'en',
  example: false,
  permit: '',
  proof: 'core',
  people: {},
  rooms: [],
  surfaces: [],
  limits: [],
  materials: [],
  ownSystems: [],
  ownRules: [],
  drawings: [],
  runs: [],
  shots: [],
  readings: [],
  facts: Object.fromEntries(FACT_KINDS.map((kind) => [kind, []])) as unknown as Facts,
  records: [],
  lines: [],
};
