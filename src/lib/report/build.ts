import { project } from '../job/project.ts';
import type { Entry, Times } from '../record/entry.ts';
import { sha256Hex } from '../record/hash.ts';
import { logText } from './chains.ts';
import { buildDocument } from './document.ts';
import type { Paper } from './layout.ts';
import { noticeOf, wordNotice, type NoticeDocument } from './notice.ts';
import { recordPdf, type Fonts } from './pdf.ts';
import type { RecordDocument } from './record-document.ts';
import type { Locale } from './speaker.ts';
import type { Picture } from './photos.ts';
import { wordRecord } from './word.ts';

export interface RecordInput {
  /** The log of one job, in any order. */
  readonly entries: readonly Entry[];
  /** Rows of the store that no longer parse. */
  readonly unreadable: number;
  readonly built: Times;
  /** Who builds it, a person's id. */
  readonly by: string;
  /** `both`: one language after the other, the job's own first. */
  readonly locale: Locale | 'both';
  readonly paper: Paper;
  readonly fonts: Fonts;
  /** Pictures to print by the SHA-256 of the photo or signature each was made from: JPEG, upright, long side at most 1200 px. */
  readonly pictures: ReadonlyMap<string, Picture>;
  /** Personal data to keep back: the log, which has it, is then not attached. */
  readonly left?: readonly 'address'[];
}

export interface BuiltPdf<Document = RecordDocument> {
  readonly document: Document;
  readonly pdf: Uint8Array<ArrayBuffer>;
}

/** A dated record of a job: its document tree, and the PDF that is a function of tree, language, paper, pictures and log. */
export async function buildRecord(input: RecordInput): Promise<BuiltPdf> {
  const { entries, built, locale, paper, fonts, pictures } = input;
  const document = documentOf(input);
  const worded = wordRecord(document, localesOf(locale, document));
  const log = document.left.length === 0 ? logText(entries) : null;
  return { document, pdf: await recordPdf({ worded, paper, fonts, pictures, log, builtUtc: built.utc }) };
}

/**
 * The notice of condition, for whoever is to mend a substrate or answer for it; null where every survey accepted what it saw. It goes
 * out of the house, so it carries no log: it names its entries by their hashes.
 */
export async function buildNotice(input: RecordInput): Promise<BuiltPdf<NoticeDocument> | null> {
  const { built, locale, paper, fonts, pictures } = input;
  const document = noticeOf(documentOf(input));
  if (document === null) return null;
  return {
    document,
    pdf: await recordPdf({
      worded: wordNotice(document, localesOf(locale, document)),
      paper,
      fonts,
      pictures,
      log: null,
      builtUtc: built.utc,
    }),
  };
}

/** The photos a notice prints, by SHA-256, so that no other need be made smaller for it. */
export function noticePhotos(input: Omit<RecordInput, 'pictures' | 'fonts'>): readonly string[] {
  return noticeOf(documentOf({ ...input, pictures: new Map() }))?.shots.map((shot) => shot.sha256) ?? [];
}

function localesOf(locale: RecordInput['locale'], { job }: Pick<RecordDocument, 'job'>): readonly [Locale, ...Locale[]] {
  if (locale !== 'both') return [locale];
  return job.lang === 'es' ? ['es', 'en'] : ['en', 'es'];
}

function documentOf({ entries, unreadable, built, by, pictures, left = [] }: Omit<RecordInput, 'fonts'>): RecordDocument {
  const printed = new Map([...pictures].map(([sha256, picture]) => [sha256, sha256Hex(picture.bytes)]));
  return buildDocument({ job: project(entries).state, unreadable, built, by, printed, left });
}
