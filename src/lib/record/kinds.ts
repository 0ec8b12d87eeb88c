import type * as z from 'zod/mini';
import type { Entry } from './entry.ts';
import { Coverage, Transfer } from './kinds/photo.ts';
import * as callback from './kinds/callback.ts';
import * as drawing from './kinds/drawing.ts';
import { Reading } from './kinds/reading.ts';
import * as setup from './kinds/setup.ts';
import * as spoken from './kinds/spoken.ts';
import * as work from './kinds/work.ts';

/** The shape of each kind's data. A kind not named here, or a shape that does not fit, was written by a newer version. */
export const SCHEMAS = {
  device: setup.Device,
  person: setup.Person,
  job: setup.Job,
  room: setup.Room,
  surface: setup.Surface,
  limit: setup.Limit,
  material: setup.Material,
  'data-sheet': setup.DataSheet,
  pair: setup.Pair,
  'own-system': setup.OwnSystem,
  'own-rule': setup.OwnRule,
  drawing: drawing.Drawing,
  plan: drawing.Plan,
  mark: drawing.Mark,
  'run-start': work.RunStart,
  'run-stop': work.RunStop,
  shot: work.Shot,
  tag: work.Tag,
  reading: Reading,
  coverage: Coverage,
  transfer: Transfer,
  mix: work.Mix,
  conditions: work.Conditions,
  wait: work.Wait,
  early: work.Early,
  'not-done': work.NotDone,
  note: work.Note,
  voice: work.Voice,
  survey: spoken.Survey,
  deviation: spoken.Deviation,
  repair: spoken.Repair,
  'by-others': spoken.ByOthers,
  protect: spoken.Protect,
  'tile-check': spoken.TileCheck,
  'later-hole': spoken.LaterHole,
  'hand-over': spoken.HandOver,
  attestation: spoken.Attestation,
  inspection: spoken.Inspection,
  callback: callback.Callback,
  isolation: callback.Isolation,
  'isolation-look': callback.IsolationLook,
  opening: callback.Opening,
  'flood-fill': work.FloodFill,
  'flood-look': work.FloodLook,
  'flood-end': work.FloodEnd,
  amendment: work.Amendment,
  withdrawal: work.Withdrawal,
  'clock-jump': work.ClockJump,
  record: work.BuiltRecord,
} as const;

export type Kind = keyof typeof SCHEMAS;
export const KINDS = Object.keys(SCHEMAS) as readonly Kind[];

/** The data of a kind. */
export type DataOf<K extends Kind> = z.infer<(typeof SCHEMAS)[K]>;

/** The typed view of an entry's data; `unknown` for a kind, or a shape, that a newer version wrote. */
export type Known = { [K in Kind]: { readonly kind: K; readonly data: DataOf<K> } }[Kind] | { readonly kind: 'unknown' };

export function known(entry: Entry): Known {
  return knownData(entry.body.kind, entry.body.data);
}

/** The typed view of data said to be of a kind: an entry's own, or what an amendment puts in its place. */
export function knownData(kind: string, data: unknown): Known {
  if (!Object.hasOwn(SCHEMAS, kind)) return { kind: 'unknown' };
  const parsed = SCHEMAS[kind as Kind].safeParse(data);
  return parsed.success ? ({ kind, data: parsed.data } as Known) : { kind: 'unknown' };
}

/** What a caller hands over to be sealed: its own fields only; ids, times, chain and signature are added by `seal`. */
export type Draft = {
  [K in Kind]: {
    readonly id?: string;
    readonly kind: K;
    readonly run?: string;
    readonly refs?: readonly string[];
    readonly data: DataOf<K>;
  };
}[Kind];
