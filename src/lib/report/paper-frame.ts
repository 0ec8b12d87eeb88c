import * as m from '../words/compiled/messages.js';
import type { Block, Edition, Part } from './blocks.ts';
import type { RecordDocument, RecordLine } from './record-document.ts';
import type { Speaker } from './speaker.ts';

/** What the frame of a paper tells of its job. */
export type Framed = Pick<RecordDocument, 'job' | 'built'>;

/** A paper's edition: its title block, and the parts in it. `head` stands where a record names its last entry. */
export function paperEdition({ job, built }: Framed, say: Speaker, head: { label: string; text: string }, parts: readonly Part[]): Edition {
  const { locale } = say;
  return {
    lang: locale,
    titleBlock: {
      job: { label: m.record_label_job({}, { locale }), text: [job.name || job.id, job.address].filter(Boolean).join(', ') },
      second:
        job.permit === ''
          ? { label: m.record_label_built({}, { locale }), text: say.day(built) }
          : { label: m.record_label_permit({}, { locale }), text: job.permit },
      partLabel: m.record_label_part({}, { locale }),
      head,
      pageLabel: m.record_label_page({}, { locale }),
      page: (page, pages) => m.record_page_of({ page, pages }, { locale }),
      warning: job.example ? m.record_example({}, { locale }) : '',
    },
    parts,
  };
}

/** The entry that a short paper rests on last, by its number and the beginning of its hash; empty where there is none. */
export function entryHead(entry: RecordLine | null, say: Speaker): { label: string; text: string } {
  const { locale } = say;
  const text = entry === null ? '' : m.record_head_short({ entry: say.entry(entry), hash: entry.hash.slice(0, 8) }, { locale });
  return { label: m.record_label_entry({}, { locale }), text };
}

/** The title of a paper, over whose job it is and when and by whom it was built. */
export function paperTitle({ job, built }: Framed, say: Speaker, text: string, more: readonly string[]): Block {
  const { locale } = say;
  return {
    block: 'title',
    text,
    under: [{ text: job.name || job.id, strong: true }, { text: [job.address, ...more].filter(Boolean).join('\n') }],
    aside: [
      m.record_built_at({ day: say.day(built), clock: say.clock(built) }, { locale }),
      m.record_built_by({ person: say.person(built.by) }, { locale }),
    ],
  };
}
