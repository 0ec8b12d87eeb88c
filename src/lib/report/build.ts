import { project } from '../job/project.ts';
import type { Entry, Times } from '../record/entry.ts';
import { logText } from './chains.ts';
import { buildDocument } from './document.ts';
import type { Paper } from './layout.ts';
import type { TypedCards } from './mixing-nodes.ts';
import { paperOf, paperWorded, type PaperDocument, type PaperKind } from './papers.ts';
import { recordPdf, type Fonts, type MadePdf } from './pdf.ts';
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
  /** Mixing cards as typed, by room, for the paper that prints them. */
  readonly cards?: TypedCards;
  /** The callback that an answer is to; without, the one in hand. */
  readonly callback?: string;
}

export interface BuiltPdf<Document = RecordDocument> {
  readonly document: Document;
  readonly pdf: MadePdf;
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
 * A paper for one reader, from the same tree; null where the job has nothing for it. It goes out of the house, so it carries no log: it
 * names what it rests on by hash.
 */
export async function buildPaper(paper: PaperKind, input: RecordInput): Promise<BuiltPdf<PaperDocument> | null> {
  const { built, locale, fonts, pictures } = input;
  const record = documentOf(input);
  const made = paperWorded(paper, record, localesOf(locale, record), input.callback ?? null);
  if (made === null) return null;
  const { document, worded } = made;
  return { document, pdf: await recordPdf({ worded, paper: input.paper, fonts, pictures, log: null, builtUtc: built.utc }) };
}

/** The photos a paper prints, by SHA-256, so that no other need be made smaller for it. */
export function paperPhotos(paper: PaperKind, input: Omit<RecordInput, 'pictures' | 'fonts'>): readonly string[] {
  return paperOf(paper, documentOf({ ...input, pictures: new Map() }), input.callback ?? null)?.shots.map((shot) => shot.sha256) ?? [];
}

function localesOf(locale: RecordInput['locale'], { job }: Pick<RecordDocument, 'job'>): readonly [Locale, ...Locale[]] {
  if (locale !== 'both') return [locale];
  return job.lang === 'es' ? ['es', 'en'] : ['en', 'es'];
}

function documentOf({ entries, unreadable, built, by, pictures, left = [], cards }: Omit<RecordInput, 'fonts'>): RecordDocument {
  const printed = new Map([...pictures].map(([original, { sha256 }]) => [original, sha256]));
  return buildDocument({ job: project(entries).state, unreadable, built, by, printed, left, ...(cards && { cards }) });
}
