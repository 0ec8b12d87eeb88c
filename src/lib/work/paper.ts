import type { Verification } from '#lib/record/verify.ts';
import type { Recomputed } from '#lib/report/recompute.ts';
import type { Result } from '../result.ts';
import type { ArchiveOrder, MadeArchive } from './archive.worker.ts';
import { askOnce } from './bridge.ts';
import type { OpenedArchive } from './import.worker.ts';
import type { MadeRecord, RecordOrder } from './record.worker.ts';

/** The archive of a job, made off the page's thread. */
export function makeArchive(order: ArchiveOrder): Promise<Result<MadeArchive, { code: string }>> {
  return askOnce(() => new Worker(new URL('./archive.worker.ts', import.meta.url), { type: 'module' }), order);
}

/** Checks an archive off the page's thread. */
export function checkArchive(archive: Blob): Promise<Verification> {
  return askOnce(() => new Worker(new URL('./verify.worker.ts', import.meta.url), { type: 'module' }), archive);
}

/** Checks an archive and, where it is whole, opens it, off the page's thread. */
export function openArchive(archive: Blob): Promise<OpenedArchive> {
  return askOnce(() => new Worker(new URL('./import.worker.ts', import.meta.url), { type: 'module' }), archive);
}

/** The records of a log by today's rules, off the page's thread. */
export function judgeAgain(raws: readonly string[]): Promise<Recomputed[]> {
  return askOnce(() => new Worker(new URL('./judged.worker.ts', import.meta.url), { type: 'module' }), raws);
}

/** The record of a job, or a paper of it, as PDF, made off the page's thread. */
export function makeRecord(order: RecordOrder): Promise<MadeRecord | null> {
  return askOnce(() => new Worker(new URL('./record.worker.ts', import.meta.url), { type: 'module' }), order);
}
