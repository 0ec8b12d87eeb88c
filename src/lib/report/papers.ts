import { answerOf, wordAnswer } from './answer.ts';
import type { Worded } from './blocks.ts';
import { cutOf, wordCut } from './cut.ts';
import { inspectorOf, wordInspector } from './inspector.ts';
import { mixingOf, wordMixing } from './mixing.ts';
import { noticeOf, wordNotice } from './notice.ts';
import { ownerOf, wordOwner } from './owner.ts';
import type { RecordDocument, RecordShot } from './record-document.ts';
import type { Locale } from './speaker.ts';

/** Papers of a page or two for one reader, each drawn from the tree of a record. */
export const PAPERS = ['notice', 'inspector', 'owner', 'cut', 'mixing', 'answer'] as const;
export type PaperKind = (typeof PAPERS)[number];

/** What the document of such a paper has in common. */
export interface PaperDocument {
  readonly v: number;
  readonly paper: PaperKind;
  readonly rules: string;
  readonly heads: RecordDocument['heads'];
  readonly shots: readonly RecordShot[];
}

interface Maker<Document extends PaperDocument> {
  /** The paper's document; null where the job has nothing for it. */
  readonly of: (record: RecordDocument, callback: string | null) => Document | null;
  readonly word: (document: Document, locales: readonly [Locale, ...Locale[]]) => Worded;
}

const MAKERS = {
  notice: { of: noticeOf, word: wordNotice } satisfies Maker<NonNullable<ReturnType<typeof noticeOf>>>,
  inspector: { of: inspectorOf, word: wordInspector } satisfies Maker<NonNullable<ReturnType<typeof inspectorOf>>>,
  owner: { of: ownerOf, word: wordOwner } satisfies Maker<NonNullable<ReturnType<typeof ownerOf>>>,
  cut: { of: cutOf, word: wordCut } satisfies Maker<NonNullable<ReturnType<typeof cutOf>>>,
  mixing: { of: mixingOf, word: wordMixing } satisfies Maker<NonNullable<ReturnType<typeof mixingOf>>>,
  answer: { of: answerOf, word: wordAnswer } satisfies Maker<NonNullable<ReturnType<typeof answerOf>>>,
};

/** The document of a paper, for what shows or compares it. `callback`: which one an answer is to, by its entry. */
export function paperOf(paper: PaperKind, record: RecordDocument, callback: string | null = null): PaperDocument | null {
  const { of }: Pick<Maker<PaperDocument>, 'of'> = MAKERS[paper];
  return of(record, callback);
}

/** The same, worded. */
export function paperWorded(
  paper: PaperKind,
  record: RecordDocument,
  locales: readonly [Locale, ...Locale[]],
  callback: string | null = null,
): { document: PaperDocument; worded: Worded } | null {
  const wordedBy = <Document extends PaperDocument>({ of, word }: Maker<Document>) => {
    const document = of(record, callback);
    return document === null ? null : { document, worded: word(document, locales) };
  };
  switch (paper) {
    case 'notice':
      return wordedBy(MAKERS.notice);
    case 'inspector':
      return wordedBy(MAKERS.inspector);
    case 'owner':
      return wordedBy(MAKERS.owner);
    case 'cut':
      return wordedBy(MAKERS.cut);
    case 'mixing':
      return wordedBy(MAKERS.mixing);
    case 'answer':
      return wordedBy(MAKERS.answer);
  }
}
