import * as m from '../words/compiled/messages.js';
import type { Edition, Part, Worded } from './blocks.ts';
import type { RecordDocument, RecordHead } from './record-document.ts';
import { grouped, speaker, type Locale, type Speaker } from './speaker.ts';
import { checkBlocks } from './word-check.ts';
import { coverBlocks, coverFoot } from './word-cover.ts';
import { floodBlocks } from './word-flood.ts';
import { jobBlocks } from './word-job.ts';
import { layerBlocks } from './word-layers.ts';
import { logBlocks } from './word-log.ts';
import { photoBlocks } from './word-photos.ts';
import { workBlocks } from './word-work.ts';

/** The record of a document in one language or several: every word that is printed, and no place on a page yet. */
export function wordRecord(document: RecordDocument, locales: readonly [Locale, ...Locale[]]): Worded {
  const { job } = document;
  const [locale, ...more] = locales;
  return {
    title: `${m.record_title({}, { locale })}: ${job.name || job.id}`,
    editions: [edition(document, locale), ...more.map((other) => edition(document, other))],
    logDescription: m.record_log_description({}, { locale }),
  };
}

function edition(document: RecordDocument, locale: Locale): Edition {
  const say = speaker(document, locale);
  const { job } = document;
  const parts: Part[] = [
    { name: m.record_part_cover({}, { locale }), blocks: coverBlocks(document, say), foot: coverFoot(document, say) },
    { name: m.record_part_contents({}, { locale }), blocks: [{ block: 'contents', text: m.record_part_contents({}, { locale }) }] },
    { name: m.record_part_job({}, { locale }), blocks: jobBlocks(document, say) },
    { name: m.record_part_layers({}, { locale }), blocks: layerBlocks(document, say) },
    { name: m.record_part_work({}, { locale }), blocks: workBlocks(document, say) },
    { name: say.layer('flood'), blocks: floodBlocks(document, say) },
    { name: m.record_part_photos({}, { locale }), blocks: document.shots.length === 0 ? [] : photoBlocks(document, say) },
    { name: m.record_part_check({}, { locale }), blocks: checkBlocks(document, say) },
    { name: m.record_part_log({}, { locale }), blocks: logBlocks(document, say) },
  ];
  return {
    lang: locale,
    titleBlock: {
      job: { label: m.record_label_job({}, { locale }), text: [job.name || job.id, job.address].filter(Boolean).join(', ') },
      // An inspector looks for the permit first; the day of building stands on the cover.
      second:
        job.permit === ''
          ? { label: m.record_label_built({}, { locale }), text: say.day(document.built) }
          : { label: m.record_label_permit({}, { locale }), text: job.permit },
      partLabel: m.record_label_part({}, { locale }),
      head: { label: m.record_label_head({}, { locale }), text: headText(document.heads, say) },
      pageLabel: m.record_label_page({}, { locale }),
      page: (page, pages) => m.record_page_of({ page, pages }, { locale }),
      warning: job.example ? m.record_example({}, { locale }) : '',
    },
    parts: parts.filter(({ blocks }) => blocks.length > 0),
  };
}

function headText(heads: readonly RecordHead[], say: Speaker): string {
  const { locale } = say;
  const [head] = heads;
  if (head === undefined) return '';
  if (heads.length > 1) return m.record_heads_several({ count: heads.length }, { locale });
  return m.record_head_short({ entry: say.entry(head), hash: grouped(head.hash, 8) }, { locale });
}
