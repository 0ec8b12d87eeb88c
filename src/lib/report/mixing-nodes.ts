import { keptPlan } from '../job/drawing/laid.ts';
import { workedCard, type TypedCard } from '../job/drawing/mixing-card.ts';
import { shapeOf } from '../job/drawing/shape.ts';
import type { JobState } from '../job/state.ts';
import type { Found } from '../job/work-out/ask.ts';
import { inUnit, type AnyUnit } from '../measure/dimension.ts';
import type { Entry } from '../record/entry.ts';
import { known } from '../record/kinds.ts';
import type { RecordMixing } from './record-document.ts';

/** What was typed on the mixing card of each room. */
export type TypedCards = ReadonlyMap<string, TypedCard>;

/** What comes out of them for the rooms as they are drawn; a card that nothing comes out of is left out. */
export function recordMixing(cards: TypedCards, job: JobState): RecordMixing[] {
  return [...cards].flatMap(([room, typed]): RecordMixing[] => {
    const drawn = job.drawings.find((one) => one.room === room);
    const shape = drawn === undefined ? null : shapeOf(drawn.data);
    if (shape?.ok !== true) return [];
    const parts = workedCard(shape.value, keptPlan(job, room), typed, job.units).map(({ part, on, asked, found }) => ({
      part,
      on: [...on],
      asked: asked.map(({ field, text }) => ({ field, text })),
      found: found.flatMap((one) => foundNode(one, job.units)),
    }));
    return parts.length === 0 ? [] : [{ room, parts }];
  });
}

/** The cards as they were typed for the papers that were printed of them, the last of each room. */
export function keptCards(entries: readonly Entry[]): TypedCards {
  const cards = new Map<string, TypedCard>();
  for (const entry of entries) {
    const view = known(entry);
    if (view.kind !== 'record' || view.data.document['paper'] !== 'mixing') continue;
    for (const [room, typed] of typedCards(view.data.document)) cards.set(room, typed);
  }
  return cards;
}

/** What was typed, out of a document that holds it. A document of a stranger is data like any other. */
export function typedCards(document: Readonly<Record<string, unknown>>): TypedCards {
  return new Map(
    objects(document['mixing']).flatMap(({ room, parts }) => {
      if (typeof room !== 'string') return [];
      const typed: Record<string, string | string[]> = {};
      for (const { part, on, asked } of objects(parts)) {
        if (typeof part !== 'string') continue;
        typed[part] = Array.isArray(on) ? (on as unknown[]).filter((one) => typeof one === 'string') : [];
        for (const { field, text } of objects(asked))
          if (typeof field === 'string' && typeof text === 'string') typed[`${part}.${field}`] = text;
      }
      return [[room, typed] as const];
    }),
  );
}

function objects(list: unknown): Readonly<Record<string, unknown>>[] {
  return (Array.isArray(list) ? (list as unknown[]) : []).filter(
    (one): one is Readonly<Record<string, unknown>> => typeof one === 'object' && one !== null,
  );
}

/** A result to three digits, in the job's units: nobody reads more of it. */
function foundNode(found: Found, units: 'in' | 'mm'): RecordMixing['parts'][number]['found'] {
  const { what } = found;
  if (found.kind === 'number') return [{ what, low: digits(found.value), high: null, unit: 'count' }];
  if (found.kind !== 'amount') return [];
  const unit = found[units];
  const [low, high] = [found.low, found.high].map((value) => digits(turned(value, found.si, unit))) as [string, string];
  return [{ what, low, high: low === high ? null : high, unit }];
}

function turned(value: number, si: AnyUnit, unit: AnyUnit): number {
  const found = inUnit(value.toFixed(9), si, unit);
  return found.ok ? found.value : value;
}

function digits(value: number): string {
  return String(Number(value.toPrecision(3)));
}
