import { FIXED, isCorrection } from '#lib/job/corrections.ts';
import { typedAmount } from '#lib/job/form-drafts.ts';
import { isFormKind } from '#lib/job/forms.ts';
import { MEASURE_KINDS } from '#lib/job/measures.ts';
import type { Line } from '#lib/job/state.ts';
import { known, knownData, type Draft } from '#lib/record/kinds.ts';
import type { Reading } from '#lib/record/kinds/reading.ts';
import { baseOf } from '#lib/measure/dimension.ts';
import { fail, ok, type Result } from '#lib/result.ts';

/** How an entry may be corrected: on its own form, a reading by its value, any other in words beside it; some not at all. */
export type Way = 'form' | 'reading' | 'words' | 'none';

export function wayOf({ entry, unknown, standing }: Line): Way {
  const { kind } = entry.body;
  if (FIXED.has(kind) || isCorrection(entry) || standing.state === 'withdrawn') return 'none';
  if (unknown) return 'words';
  if (kind === 'reading') return 'reading';
  return isFormKind(kind) ? 'form' : 'words';
}

export function canWithdraw({ entry, standing }: Line): boolean {
  return !FIXED.has(entry.body.kind) && standing.state !== 'withdrawn';
}

export function withdrawal(id: string, why: string): Draft {
  return { kind: 'withdrawal', refs: [id], data: { of: id, why: textOf(why) } };
}

/** The withdrawal that took an entry back and stands itself; taking it back brings the entry again. */
export function withdrawalOf(id: string, lines: readonly Line[]): string | null {
  const found = lines.findLast(({ entry, standing }) => {
    const view = known(entry);
    return view.kind === 'withdrawal' && view.data.of === id && standing.state !== 'withdrawn';
  });
  return found?.entry.body.id ?? null;
}

/** Says an entry anew. It names the amendments that stand, and so decides between them. */
export function amendment({ entry, standing }: Line, data: Readonly<Record<string, unknown>>, why: string): Draft {
  const { id } = entry.body;
  return { kind: 'amendment', refs: [id, ...standing.amendments], data: { of: id, data: { ...data }, why: textOf(why) } };
}

/** What cannot be amended by its fields is told of in words, beside it. */
export function noteOn(id: string, words: string): Draft {
  return { kind: 'note', refs: [id], data: { words: textOf(words), surfaces: [] } };
}

/** A reading typed anew: its value, for a comb both teeth, and where it was read. */
export interface ReadingTyped {
  readonly value: string;
  readonly to: string;
  readonly surface: string | null;
}

export type ReadingFault = { readonly field: 'value' | 'to'; readonly code: 'not-a-number' | 'too-large' | 'too-small' };

/** The reading as it is now to be read. What was said is what is typed; the instrument and its step stay. */
export function readingAnew(before: Reading, typed: ReadingTyped): Result<Reading, ReadingFault> {
  const { unit } = before.said;
  const of = MEASURE_KINDS[before.what];
  const value = typedAmount(typed.value, of, unit);
  if (!value.ok) return fail({ field: 'value', code: value.fault });
  if (!('to' in before.said && typeof before.said.to === 'string')) {
    return checked({ ...before, surface: typed.surface, said: { ...before.said, ...value.value } });
  }
  const to = typedAmount(typed.to, of, unit);
  if (!to.ok) return fail({ field: 'to', code: to.fault });
  if (base(to.value.value, unit) < base(value.value.value, unit)) return fail({ field: 'to', code: 'too-small' });
  const said = { ...before.said, text: `${value.value.text}–${to.value.text}`, value: value.value.value, to: to.value.value, unit };
  return checked({ ...before, surface: typed.surface, said });
}

/** An amendment that does not fit the kind would leave the entry open for whoever reads it. */
function checked(anew: Reading): Result<Reading, ReadingFault> {
  if (knownData('reading', anew).kind === 'unknown') throw new TypeError('reading: the amendment does not fit its schema');
  return ok(anew);
}

function base(value: string, unit: Reading['said']['unit']): number {
  const size = baseOf(value, unit);
  return size.ok ? size.value : NaN;
}

function textOf(typed: string): string {
  return typed.trim().toWellFormed().slice(0, 2_000);
}
