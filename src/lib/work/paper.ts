import type { Archive } from '#lib/record/archive.ts';
import type { Verification } from '#lib/record/verify.ts';
import type { Result } from '../result.ts';
import type { ArchiveOrder } from './archive.worker.ts';
import { askOnce } from './bridge.ts';
import type { MadeRecord, RecordOrder } from './record.worker.ts';

/** The archive of a job, made off the page's thread. */
export function makeArchive(order: ArchiveOrder): Promise<Result<Archive, { code: string }>> {
  return askOnce(() => new Worker(new URL('./archive.worker.ts', import.meta.url), { type: 'module' }), order);
}

/** Checks an archive off the page's thread. */
export function checkArchive(archive: Blob): Promise<Verification> {
  return askOnce(() => new Worker(new URL('./verify.worker.ts', import.meta.url), { type: 'module' }), archive);
}

/** The record of a job as PDF, made off the page's thread. */
export function makeRecord(order: RecordOrder): Promise<MadeRecord> {
  return askOnce(() => new Worker(new URL('./record.worker.ts', import.meta.url), { type: 'module' }), order);
}
