import * as m from '../words/compiled/messages.js';
import type { Part, Worded } from './blocks.ts';
import { paperEdition, paperTitle } from './paper-frame.ts';
import type { RecordDocument, RecordMixing } from './record-document.ts';
import { grouped, speaker, type Locale, type Speaker } from './speaker.ts';
import { cardBlocks } from './word-mixing.ts';

/** What is mixed and bought for each room: a page to hang by the bucket. */
export type MixingDocument = Pick<
  RecordDocument,
  'rules' | 'built' | 'job' | 'heads' | 'fingerprint' | 'chains' | 'people' | 'rooms' | 'surfaces' | 'mixing'
> & {
  v: 1;
  paper: 'mixing';
  shots: RecordDocument['shots'];
};

/** Null where nothing came out of any card. */
export function mixingOf(record: RecordDocument): MixingDocument | null {
  const { rules, built, job, heads, fingerprint, chains, people, rooms, surfaces, mixing } = record;
  if (mixing.length === 0) return null;
  return { v: 1, paper: 'mixing', ...{ rules, built, job, heads, fingerprint, chains, people, rooms, surfaces, mixing }, shots: [] };
}

export function wordMixing(document: MixingDocument, locales: readonly [Locale, ...Locale[]]): Worded {
  const [locale, ...more] = locales;
  const edition = (one: Locale) => {
    const say = speaker({ limits: [], systems: [], ownRules: [], materials: [], log: [], ...document }, one);
    const head = { label: m.record_fingerprint_root({}, { locale: one }), text: grouped(document.fingerprint, 16) };
    return paperEdition(
      document,
      say,
      head,
      document.mixing.map((card) => cardPart(card, document, say)),
    );
  };
  return {
    title: `${m.page_mix({}, { locale })}: ${document.job.name || document.job.id}`,
    editions: [edition(locale), ...more.map(edition)],
    logDescription: '',
  };
}

/** To be read from the floor. */
const POINTS = 17;

function cardPart(card: RecordMixing, document: MixingDocument, say: Speaker): Part {
  const { locale } = say;
  const name = m.page_mix({}, { locale });
  return {
    name,
    blocks: [
      paperTitle(document, say, name, [say.room(card.room)]),
      ...cardBlocks(card, document.job.units, say, POINTS),
      { block: 'paragraph', text: m.mix_note({}, { locale }) },
    ],
  };
}
