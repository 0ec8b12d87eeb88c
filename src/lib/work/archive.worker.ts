import { buildArchive, type Archive } from '#lib/record/archive.ts';
import { ok, fail, type Result } from '../result.ts';
import { serve } from './bridge.ts';

/** A job's log and the bytes it names, as handles: the bytes themselves stay where the browser keeps them. */
export interface ArchiveOrder {
  readonly raws: readonly string[];
  readonly blobs: ReadonlyMap<string, Blob>;
  readonly date: string;
}

serve<ArchiveOrder, Result<Archive, { code: string }>>(async ({ raws, blobs, date }) => {
  const built = await buildArchive({ raws, date, blob: async (sha256) => blobs.get(sha256) ?? null });
  return built.ok ? ok(built.value) : fail(built.fault);
});
