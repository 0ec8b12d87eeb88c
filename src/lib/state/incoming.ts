import { EXAMPLE_JOB } from '#lib/job/example.ts';
import { project } from '#lib/job/project.ts';
import { readEntry, type Entry } from '#lib/record/entry.ts';
import { additionOf, takeIn, type TakeInFault } from '#lib/record/take-in.ts';
import type { Verification } from '#lib/record/verify.ts';
import { openArchive } from '#lib/work/paper.ts';
import { fail, ok, type Result } from '../result.ts';
import { desk } from './desk.svelte.ts';

/** A job that an archive holds, checked, and what of it this phone does not hold yet. Nothing is written before `bringIn`. */
export interface Incoming {
  readonly verification: Verification;
  readonly job: { readonly id: string; readonly name: string; readonly address: string } | null;
  readonly entries: number;
  readonly newEntries: number;
  readonly newFiles: number;
  /** Why it cannot be brought in though it is whole. */
  readonly fault: TakeInFault | { readonly code: 'example' } | null;
  readonly log: readonly Entry[];
  readonly files: ReadonlyMap<string, Blob>;
}

export async function readIncoming(archive: Blob): Promise<Incoming> {
  const { verification, content } = await openArchive(archive);
  const none = { verification, job: null, entries: 0, newEntries: 0, newFiles: 0, fault: null, log: [], files: new Map<string, Blob>() };
  if (content === null) return none;
  // The worker read them from these very texts a moment ago.
  const log = content.raws.flatMap((raw, i) => {
    const read = readEntry(raw, `entry ${i}`);
    return read.ok ? [read.value] : [];
  });
  const [first] = log;
  if (first === undefined) return none;
  const { name, address } = project(log).state;
  const whole = { ...none, job: { id: first.body.job, name, address }, entries: log.length, log, files: content.files };
  if (first.body.job === EXAMPLE_JOB) return { ...whole, fault: { code: 'example' } };
  const { book } = await desk.open();
  const addition = await additionOf(book, log);
  if (!addition.ok) return { ...whole, fault: addition.fault };
  const { entries, files } = addition.value;
  return { ...whole, newEntries: entries.length, newFiles: files.filter((sha256) => content.files.has(sha256)).length };
}

/** Takes it in. Ok means saved; a fault leaves what was there as it was, and doing it again goes on where it ended. */
export async function bringIn(
  { log, files, job }: Incoming,
  progress: (done: number, of: number) => void,
): Promise<Result<number, TakeInFault>> {
  const { book } = await desk.open();
  const taken = await takeIn(book, log, async (sha256) => files.get(sha256) ?? null, progress).catch((error: unknown) =>
    fail<TakeInFault>({ code: 'not-saved', why: 'failed', detail: String(error) }),
  );
  if (!taken.ok || job === null) return taken;
  await desk.noteKept();
  // A page of this job may have been open.
  await (await desk.job(job.id))?.load();
  return ok(taken.value);
}
