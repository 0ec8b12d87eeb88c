import { namedFiles } from '#lib/record/archive.ts';
import type { SaveFault } from '#lib/record/book.ts';
import type { Verification } from '#lib/record/verify.ts';
import { checkArchive as check, makeArchive, makeRecord } from '#lib/work/paper.ts';
import { fail, ok, type Result } from '../result.ts';
import type { OpenJob } from './job.svelte.ts';

export type { Verification };

const FONTS = { text: '/fonts/encode-sans-500.woff', strong: '/fonts/encode-sans-700.woff' };

export function checkArchive(archive: Blob): Promise<Verification> {
  return check(archive);
}

/** The archive of a job as a file to hand on, with how many files the log names that this phone does not hold. */
export async function writeArchive(job: OpenJob): Promise<Result<{ file: File; missing: number }, { code: string }>> {
  await job.load();
  const named = namedFiles(job.entries).map(({ sha256 }) => sha256);
  const { utc } = job.now();
  const archive = await makeArchive({ raws: raws(job), blobs: await held(job, named), date: utc.slice(0, 10) });
  if (!archive.ok) return fail(archive.fault);
  const { name, blob, missing } = archive.value;
  return ok({ file: new File([blob], name, { type: 'application/zip' }), missing: missing.length });
}

/**
 * Builds the record of a job, or its notice of condition, and keeps it: the `record` entry with its document tree, the PDF and the
 * pictures made for it, in one transaction. The record is a file only once it is kept.
 */
export async function buildRecord(
  job: OpenJob,
  locale: 'en' | 'es',
  paper: 'letter' | 'a4',
  kind: 'record' | 'notice' = 'record',
): Promise<Result<File, SaveFault>> {
  await job.load();
  // Photos, and the signatures drawn on hand-overs.
  const pictures = namedFiles(job.entries).flatMap(({ sha256, type }) => (type?.startsWith('image/') === true ? [sha256] : []));
  const photos = await held(job, pictures);
  const made = await makeRecord({
    kind,
    raws: raws(job),
    unreadable: job.faults.length,
    photos,
    locale,
    paper,
    built: job.now(),
    by: job.person,
    fonts: FONTS,
  });
  const { sha256 } = made.data.pdf;
  const done = await job.add([{ kind: 'record', data: made.data }], [{ sha256, body: made.pdf }, ...made.pictures]);
  return done.ok ? ok(recordFile(sha256, made.pdf)) : fail(done.fault);
}

export function recordFile(sha256: string, pdf: Blob): File {
  return new File([pdf], `record-${sha256.slice(0, 12)}.pdf`, { type: 'application/pdf' });
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
