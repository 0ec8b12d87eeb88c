import type { DataOf, Kind } from '../record/kinds.ts';
import type { Measure, Quantity, Reading, SCALES, Span, Unit } from '../record/kinds/reading.ts';
import type { Limit, MATERIALS, ProofLevel, Step, SUBSTRATES, Surface } from '../record/kinds/setup.ts';
import type { DISTANCES, WAITS } from '../record/kinds/work.ts';

/** A value with its unit: as it was said where somebody said it, `to` where it is an interval. */
export type SaidQuantity = { text: string | null; value: string; to: string | null; unit: Unit; resolution: string | null };

/** Families of codes, each with words of its own; a `choice` is worded by its field and code. */
export type CodeFamily = keyof Codes;
/** What an id names: something set up, an entry of the log, or an owed item by its rule or its key. */
export type IdFamily = 'surface' | 'room' | 'material' | 'limit' | 'entry' | 'rule' | 'item' | 'person';

/** One field of an entry: codes, numbers, ids and people's own words, never a sentence. */
export type SaidField = { field: string } & (
  | { is: 'words'; text: string }
  /** Read by machines and printed as it is: a language tag, a version. */
  | { is: 'tag'; text: string }
  | { is: 'code'; of: CodeFamily; codes: string[] }
  | ({ is: 'quantity' } & SaidQuantity)
  | { is: 'number'; n: number }
  | { is: 'duration'; ms: number }
  | { is: 'yes'; yes: boolean }
  | { is: 'ids'; of: IdFamily; ids: string[] }
  | { is: 'instant'; utc: string }
  | { is: 'day'; day: string }
  | { is: 'files'; files: { sha256: string; bytes: number; type: string }[] }
  | { is: 'source'; kind: Limit['source']['kind']; text: string }
  | { is: 'key'; public: string | null; why: string | null }
  | { is: 'heads'; heads: { device: string; seq: number; hash: string }[] }
  /** A place of the drawing of a room. */
  | { is: 'spot'; spot: string; room: string }
  /** Whole minor units of an ISO 4217 currency. */
  | { is: 'money'; minor: string; currency: string }
  /** Things of one sort, each with fields of its own. */
  | { is: 'list'; of: Kind; items: SaidField[][] }
);
export type SaidValue = SaidField extends infer One ? (One extends { field: string } ? Omit<One, 'field'> : never) : never;

export interface Codes {
  step: Step;
  measure: Measure;
  wait: (typeof WAITS)[number];
  material: (typeof MATERIALS)[number];
  place: Surface['place'];
  system: Surface['system'];
  substrate: (typeof SUBSTRATES)[number];
  scale: (typeof SCALES)[number];
  level: ProofLevel;
  distance: (typeof DISTANCES)[number];
  how: Reading['how'];
  from: DataOf<'shot'>['from'];
  want: 'shot' | Measure;
  choice: string;
}

/** A reading or quantity as it was said. It may carry more than this version reads. */
export function quantity(said: Span | Quantity): SaidQuantity {
  const { text, value, unit } = said;
  const to = 'to' in said && typeof said.to === 'string' ? said.to : null;
  const resolution = 'resolution' in said && typeof said.resolution === 'string' ? said.resolution : null;
  return { text, value, to, unit, resolution };
}

/** A number of an entry in its unit, which nobody said as a text of its own. */
export function plain(value: string, unit: Unit): SaidQuantity {
  return { text: null, value, to: null, unit, resolution: null };
}
