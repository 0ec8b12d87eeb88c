import type { Price } from '#lib/job/proof.ts';
import * as m from '#lib/words/compiled/messages.js';

/** What proof costs, before work starts: `18 photos, 10 readings, 2 entries, about 8 min`. */
export function priceText({ photos, readings, entries, minutes }: Price): string {
  const parts = [m.n_shots({ n: photos }), m.n_readings({ n: readings }), ...(entries === 0 ? [] : [m.setup_n_entries({ n: entries })])];
  return m.setup_price({ parts: parts.join(', '), minutes });
}
