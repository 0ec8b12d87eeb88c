import path from 'node:path';
import { cardPdf, cardSvg } from '#lib/vision/card-sheet.ts';
import * as m from '#lib/words/compiled/messages.js';
import { writeOutput } from './files.ts';
import { badInput, type Call, type Outcome } from './outcome.ts';

/** Writes the scale card: SVG of the card alone, or PDF with a page of A4 and one of Letter. */
export async function cardCommand(call: Call): Promise<Outcome> {
  const said = { locale: call.locale };
  const words = { title: m.card_title({}, said), bar: m.card_bar({}, said), howTo: [m.card_print({}, said), m.card_cut({}, said)] };
  const format = path.extname(call.out).toLowerCase();
  if (format !== '.svg' && format !== '.pdf') return badInput('--out', 'unknown-format', m.card_unknown_format({}, said));
  const body = format === '.svg' ? new Blob([cardSvg(words)]) : new Blob([Uint8Array.from(cardPdf(words))]);
  return (await writeOutput(body, call)) ?? { exit: 0, answer: { out: call.out, bytes: body.size } };
}
