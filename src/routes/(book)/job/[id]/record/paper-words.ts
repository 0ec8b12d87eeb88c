import type { Paper } from '#lib/state/papers.ts';
import * as m from '#lib/words/compiled/messages.js';

/** What a paper is called, by whom it is for. */
export const PAPER: Readonly<Record<Paper, () => string>> = {
  record: m.paper_record,
  inspector: m.paper_inspector,
  owner: m.paper_owner,
  cut: m.paper_cut,
  mixing: m.paper_mixing,
  answer: m.paper_answer,
  notice: m.paper_notice,
};

/** The word for a paper of the log, which a newer version may have made. */
export function paperWord(paper: string | null): string {
  const kind = paper ?? 'record';
  return Object.hasOwn(PAPER, kind) ? PAPER[kind as Paper]() : kind;
}
