import type { Draft } from '../record/kinds.ts';
import type { StarterForm } from '../record/setup-drafts.ts';
import { fail, ok, type Result } from '../result.ts';
import { STARTERS } from '../trade/starters.ts';
import { FieldReader, NAME_MAX, type SetupFault } from './setup-fields.ts';

/** The limits of the rows chosen, each citing its place and, where it was typed, the edition in force. Each gets an id of its own. */
export function starterDrafts(form: StarterForm, newId: () => string): Result<Draft[], SetupFault[]> {
  const reader = new FieldReader();
  const edition = reader.words('edition', form.edition, NAME_MAX / 2);
  const rows = STARTERS.filter((row) => form.chosen.includes(row.id));
  if (rows.length === 0) reader.fault('chosen', 'none-chosen');
  if (reader.faults.length > 0) return fail(reader.faults);
  return ok(
    rows.map(({ measure, min, max, unit, kind, cite }): Draft => {
      const text = edition === '' ? cite : `${cite}; ${edition}`;
      return { kind: 'limit', data: { limit: newId(), what: measure, min, max, unit, source: { kind, text } } };
    }),
  );
}
