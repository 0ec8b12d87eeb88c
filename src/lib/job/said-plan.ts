import { isDecimal } from '../measure/quantity.ts';
import type { DataOf } from '../record/kinds.ts';
import { plain, type SaidField, type SaidValue } from './said-field.ts';

/** The pieces of a plan by their letters, with their cuts; nothing of an answer that has none. */
export function cutsSaid({ unit, pieces }: DataOf<'plan'>['result']): SaidValue[] {
  if (!Array.isArray(pieces) || (unit !== 'in' && unit !== 'mm')) return [];
  const items = (pieces as unknown[]).flatMap((piece): SaidField[][] => {
    const { id, cutLength } = piece as { id?: unknown; cutLength?: unknown };
    if (typeof id !== 'string' || typeof cutLength !== 'string' || !isDecimal(cutLength)) return [];
    return [
      [
        { field: 'piece', is: 'tag', text: id },
        { field: 'cutLength', is: 'quantity', ...plain(cutLength, unit) },
      ],
    ];
  });
  return items.length === 0 ? [] : [{ is: 'list', of: 'plan', items }];
}
