import { roomsOf } from '#lib/job/proof.ts';
import { namedFiles } from '#lib/record/archive.ts';
import type { SaveFault } from '#lib/record/book.ts';
import { known } from '#lib/record/kinds.ts';
import { TypedForm } from '#lib/record/typed-form.ts';
import type { Verification } from '#lib/record/verify.ts';
import type { Verdict } from '#lib/trade/limits.ts';
import { checkArchive as check, judgeAgain, makeArchive, makeRecord } from '#lib/work/paper.ts';
import type { DerivedPicture } from '#lib/work/print.ts';
import type { RecordOrder } from '#lib/work/record.worker.ts';
import { fail, ok, type Result } from '../result.ts';
import { desk } from './desk.svelte.ts';
import type { OpenJob } from './job.svelte.ts';

export type { Verification };

const FONTS = { text: '/fonts/encode-sans-500.woff', strong: '/fonts/encode-sans-700.woff' };

export function checkArchive(archive: Blob): Promise<Verification> {
  return check(archive);
}

/** What goes into an archive beside log and photos: photos that tell where they were taken, and voice notes. */
export interface ArchiveWish {
  readonly place: boolean;
  readonly voice: boolean;
}

/** The archive of a job as a file to hand on, with how many files this phone does not hold, and how many were kept back. */
export async function writeArchive(
  job: OpenJob,
  wish: ArchiveWish,
): Promise<Result<{ file: File; missing: number; keptBack: number }, { code: string }>> {
  await job.load();
  const named = namedFiles(job.entries).map(({ sha256 }) => sha256);
  const { utc } = job.now();
  const archive = await makeArchive({ raws: raws(job), blobs: await held(job, named), date: utc.slice(0, 10), ...wish });
  if (!archive.ok) return fail(archive.fault);
  const { name, blob, missing, keptBack } = archive.value;
  return ok({ file: new File([blob], name, { type: 'application/zip' }), missing: missing.length, keptBack });
}

/** A verdict of a record that is another by today's rules. */
export interface Rejudged {
  readonly reading: string;
  readonly then: Verdict;
  readonly now: Verdict;
}

/** A record on screen: how it was judged then, and by today's rules. */
export interface JudgedRecord {
  readonly entry: string;
  readonly rules: { readonly then: string; readonly now: string };
  readonly verdicts: readonly Rejudged[];
  /** Other values that differ; null for a record of a version that is not built any more. */
  readonly others: number | null;
}

const VERDICT_AT = /^readings\[(\d+)\]\.verdict$/;

/** Every record of a job, judged again from the log it was built from. */
export async function judgedRecords(job: OpenJob): Promise<Map<string, JudgedRecord>> {
  const found = await judgeAgain(raws(job));
  const documents = new Map(
    job.entries.map(known).flatMap((view, i) => (view.kind === 'record' ? [[job.entries[i]!.body.id, view.data.document] as const] : [])),
  );
  return new Map(found.map(({ entry, rules, differences }) => [entry, judged(entry, rules, differences, documents.get(entry) ?? {})]));
}

function judged(
  entry: string,
  rules: JudgedRecord['rules'],
  differences: readonly { at: string; then?: unknown; now?: unknown }[] | null,
  document: Readonly<Record<string, unknown>>,
): JudgedRecord {
  const readings = (Array.isArray(document['readings']) ? document['readings'] : []) as readonly { id?: unknown }[];
  const verdicts = (differences ?? []).flatMap(({ at, then, now }): Rejudged[] => {
    const reading = readings[Number(VERDICT_AT.exec(at)?.[1] ?? NaN)]?.id;
    return typeof reading === 'string' ? [{ reading, then: then as Verdict, now: now as Verdict }] : [];
  });
  // The version of the rules is named beside it.
  const others = differences?.filter(({ at }) => at !== 'rules' && !VERDICT_AT.test(at)).length ?? null;
  return { entry, rules, verdicts, others };
}

export type Paper = RecordOrder['kind'];

/** How a paper is wanted. */
export interface PaperWish {
  readonly kind: Paper;
  readonly locale: RecordOrder['locale'];
  readonly paper: RecordOrder['paper'];
  /** Whether the address may stand in it. */
  readonly address: boolean;
  /** The callback that an answer is to. */
  readonly callback?: string;
}

/**
 * Builds the record of a job, or a paper for one reader, and keeps it: the `record` entry with its document tree, the PDF and the
 * pictures made for it, in one transaction. It is a file only once it is kept. A picture is made for print once: later records print it again.
 */
export async function buildRecord(job: OpenJob, wish: PaperWish): Promise<Result<File, SaveFault | { code: 'nothing' }>> {
  await job.load();
  // Photos, and the signatures drawn on hand-overs.
  const originals = namedFiles(job.entries).flatMap(({ sha256, type }) => (type?.startsWith('image/') === true ? [sha256] : []));
  const derived = await printedBefore(job, new Set(originals));
  const made = await makeRecord({
    ...wish,
    ...(wish.kind === 'mixing' && { cards: await typedCards(job) }),
    left: wish.address ? [] : ['address'],
    raws: raws(job),
    unreadable: job.faults.length,
    photos: await held(
      job,
      originals.filter((sha256) => !derived.has(sha256)),
    ),
    derived,
    built: job.now(),
    by: job.person,
    fonts: FONTS,
  });
  if (made === null) return fail({ code: 'nothing' });
  const { sha256 } = made.data.pdf;
  const done = await job.add([{ kind: 'record', data: made.data }], [{ sha256, body: made.pdf }, ...made.pictures]);
  return done.ok ? ok(recordFile(sha256, made.pdf, wish.kind)) : fail(done.fault);
}

/** What lies typed on the mixing card of each room: printing it is how it is confirmed. */
async function typedCards(job: OpenJob): Promise<Map<string, TypedForm['values']>> {
  const { drafts } = await desk.open();
  const cards = new Map<string, TypedForm['values']>();
  for (const { room } of roomsOf(job.state)) {
    const typed = await drafts.get(['mix', job.id, room], TypedForm);
    if (typed !== null) cards.set(room, typed.values);
  }
  return cards;
}

/** Pictures of earlier records that this phone still holds, by the hash of their original. */
async function printedBefore(job: OpenJob, originals: ReadonlySet<string>): Promise<Map<string, DerivedPicture>> {
  const found = new Map<string, DerivedPicture>();
  for (const made of job.state.records.flatMap((record) => record.derived)) {
    if (!originals.has(made.of)) continue;
    const body = await job.blob(made.sha256);
    if (body?.size === made.bytes) found.set(made.of, { made, body });
  }
  return found;
}

export function recordFile(sha256: string, pdf: Blob, kind: string): File {
  return new File([pdf], `${kind}-${sha256.slice(0, 12)}.pdf`, { type: 'application/pdf' });
}

function raws(job: OpenJob): string[] {
  return job.entries.map((entry) => entry.raw);
}

async function held(job: OpenJob, hashes: readonly string[]): Promise<Map<string, Blob>> {
  const blobs = new Map<string, Blob>();
  for (const sha256 of new Set(hashes)) {
    const blob = await job.blob(sha256);
    if (blob !== null) blobs.set(sha256, blob);
  }
  return blobs;
}
